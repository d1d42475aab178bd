package study

import (
	"math"
	"strings"
	"testing"

	"foilwright/boat"
	"foilwright/boatfile"
)

func sheetBoat(t *testing.T, name string) *boat.Boat {
	t.Helper()
	text, err := open(name)
	if err != nil {
		t.Fatal(err)
	}
	s, err := boatfile.Read(name, text, open)
	if err != nil {
		t.Fatal(err)
	}
	b, err := s.Boat(nil)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func TestSettingsByNameAndWind(t *testing.T) {
	b := sheetBoat(t, sorrel)
	for _, c := range []struct {
		name, value string
		windFrom    boat.Side
		want        string
		si          float64
	}{
		{"leeward main cant", "20 deg", boat.Port, "starboard main cant", 20 * math.Pi / 180},
		{"leeward main cant", "20 deg", boat.Starboard, "port main cant", 20 * math.Pi / 180},
		{"windward  cant", "0.5 rad", boat.Port, "port main cant", 0.5},
		{"starboard main flap", "3 deg", boat.Starboard, "starboard main flap", 3 * math.Pi / 180},
		{"crew y", "50 cm", boat.Port, "crew y", 0.5},
		{"leeward main cant", "110 deg", boat.Port, "starboard main cant", 110 * math.Pi / 180},
	} {
		i, v, err := settingOf(b, Setting{c.name, c.value}, c.windFrom)
		if err != nil {
			t.Errorf("%s=%s: %v", c.name, c.value, err)
		} else if b.Controls[i].Name != c.want || math.Abs(v-c.si) > 1e-12 {
			t.Errorf("%s=%s sets %s to %v, want %s to %v", c.name, c.value, b.Controls[i].Name, v, c.want, c.si)
		}
	}
	for _, c := range []struct{ name, value, want string }{
		{"leeward main cnt", "20 deg", "did you mean leeward main cant?"},
		{"leeward main cant", "20", "20 has no unit"},
		{"leeward main cant", "20 m", "an angle is wanted"},
		{"leeward main cant", "111 deg", "outside what the boat can do, -15 to 110 deg"},
		{"sheet", "3 deg", "may mean more than one control"},
		{"boom", "3 deg", "there are: crew y, windward main cant"},
	} {
		if _, _, err := settingOf(b, Setting{c.name, c.value}, boat.Port); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s=%s: error %v, want %q", c.name, c.value, err, c.want)
		}
	}
}

// Distances from worked examples of the algorithm's literature (kitten and
// sitting: 3; Saturday and Sunday: 3, common practice).
func TestEdits(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{{"kitten", "sitting", 3}, {"saturday", "sunday", 3}, {"", "cant", 4}, {"cant", "", 4}, {"cant", "cant", 0}} {
		if got := edits(c.a, c.b); got != c.want {
			t.Errorf("edits(%q, %q) = %d, want %d", c.a, c.b, got, c.want)
		}
	}
}

func TestWindProfiles(t *testing.T) {
	for words, want := range map[string]float64{
		"open sea": math.Log(2/0.0002) / math.Log(10/0.0002), "": math.Log(2/0.0002) / math.Log(10/0.0002), "uniform": 1,
		"log law 2 mm": math.Log(2/0.002) / math.Log(10/0.002), "power law 0.1": math.Pow(0.2, 0.1),
	} {
		p, err := profileOf(words)
		if err != nil {
			t.Errorf("%q: %v", words, err)
		} else if got := p.Ratio(2); math.Abs(got-want) > 1e-12 {
			t.Errorf("%q: ratio at 2 m is %v, want %v", words, got, want)
		}
	}
	for _, words := range []string{"gusty", "log law", "log law 2", "log law 2 kg", "log law 3 m", "power law", "power law -1", "power law 2"} {
		if _, err := profileOf(words); err == nil {
			t.Errorf("%q is taken for a wind profile", words)
		}
	}
}

func TestRideHeightOfAStance(t *testing.T) {
	ride := func(low, high float64) []boat.Limit {
		return []boat.Limit{{Kind: boat.LimitHeel, Lower: -1, Upper: 1}, {Kind: boat.LimitRideHeight, Lower: low, Upper: high}}
	}
	for _, c := range []struct {
		limits []boat.Limit
		want   float64
	}{{ride(0.4, 1), 0.7}, {ride(0.4, math.Inf(1)), 0.4}, {ride(math.Inf(-1), 1), 1}, {ride(math.Inf(-1), math.Inf(1)), 0}, {nil, 0}} {
		if got := rideIn(c.limits); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%v: %v, want %v", c.limits, got, c.want)
		}
	}
}
