package report

import (
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"foilwright/si"
	"foilwright/study"
	"foilwright/trim"
)

const (
	sorrel = "../examples/which-foil/sorrel.yaml"
	tansy  = "../examples/which-foil/tansy.yaml"
	sloe   = "../examples/dinghy/sloe.yaml"
)

func ask(t *testing.T, q study.Question, boats ...string) *study.Result {
	t.Helper()
	r, err := study.Run(t.Context(), study.Request{Boats: boats, Question: q, Workers: 2,
		Open: func(name string) ([]byte, error) { return os.ReadFile(filepath.FromSlash(name)) }})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func sailing(speeds ...si.Speed) study.Sailing {
	return study.Sailing{WindSpeeds: speeds, WindAngles: []si.Angle{90 * si.Degree}, Conditions: study.Standard()}
}

func sweeping(stance study.Stance, over string) *study.Sweep {
	return &study.Sweep{Tow: study.Tow{Stance: stance, Speed: 15, Conditions: study.Standard()}, Over: over}
}

// Every page keeps to a hundred columns, says no figure that is none, carries
// the caution, and its JSON is whole.
func TestPages(t *testing.T) {
	stance := study.Stance{Heel: -2 * si.Degree, Leeway: 1 * si.Degree}
	for name, r := range map[string]*study.Result{
		"check":   ask(t, &study.Check{}, sorrel, tansy),
		"levers":  ask(t, &study.Levers{Stance: stance}, sorrel, tansy, sloe),
		"tow":     ask(t, &study.Tow{Stance: stance, Speed: 15, Conditions: study.Standard()}, sorrel),
		"sweep":   ask(t, sweeping(stance, "ride 1 to 3 m by 0.5"), sorrel),
		"pitch":   ask(t, sweeping(stance, "pitch -1 to 1 deg by 0.5"), sloe),
		"factors": ask(t, &study.Sensitivity{Tow: study.Tow{Stance: stance, Speed: 15, Conditions: study.Standard()}}, sorrel),
		"trim":    ask(t, &study.Trim{Sailing: sailing(7.5)}, sloe),
		"trims":   ask(t, &study.Trim{Sailing: sailing(6.5, 7.5)}, sloe),
		"compare": ask(t, &study.Compare{Sailing: sailing(7.5)}, sloe, sloe, sloe, sloe),
	} {
		page := Text(r)
		for _, line := range strings.Split(page, "\n") {
			if n := utf8.RuneCountInString(line); n > 100 {
				t.Errorf("%s: %d columns: %s", name, n, line)
			}
			if strings.TrimRight(line, " ") != line {
				t.Errorf("%s: blanks at the end of %q", name, line)
			}
		}
		for _, wrong := range []string{"NaN", "Inf", "no value", "%!", "\n\n\n", "-0.0 ", "-0.00 "} {
			if strings.Contains(page, wrong) {
				t.Errorf("%s: the page has %q", name, wrong)
			}
		}
		if name != "check" && !strings.Contains(page, "loads are not scantlings") {
			t.Errorf("%s: no caution", name)
		}
		text, err := JSON(r)
		if err != nil || !json.Valid(text) {
			t.Errorf("%s: JSON: %v", name, err)
		}
	}
}

// Three times the same boat: no difference anywhere.
func TestTheSameBoatThrice(t *testing.T) {
	page := Text(ask(t, &study.Compare{Sailing: sailing(7.5)}, sloe, sloe, sloe))
	if !strings.HasPrefix(page, "Sloe and Sloe are equally good at that angle in 14.6 kn of true wind at 90.0 deg: ") {
		t.Errorf("the page begins %.120q", page)
	}
	if regexp.MustCompile(`\+[0-9]`).MatchString(page) {
		t.Error("a boat differs from herself")
	}
}

func TestSideways(t *testing.T) {
	rad := as("rad")
	for _, c := range []struct {
		angle   si.Angle
		leeward float64
		want    string
	}{
		{2 * si.Degree, 1, "2.0 deg to leeward"}, {-2 * si.Degree, 1, "2.0 deg to windward"},
		{2 * si.Degree, -1, "2.0 deg to windward"}, {-2 * si.Degree, -1, "2.0 deg to leeward"},
		{0, 1, "0.0 deg"}, {-0.001 * si.Degree, 1, "0.0 deg"},
	} {
		if got := sideways(float64(c.angle), rad, c.leeward); got != c.want {
			t.Errorf("%v, leeward %v: %q, want %q", c.angle, c.leeward, got, c.want)
		}
	}
}

func TestPointWords(t *testing.T) {
	for _, c := range []struct {
		y, z     float64
		windFrom string
		want     string
	}{
		{-1.2, -0.5, "port", "a point 1.20 m to leeward, 0.50 m below the water"},
		{-1.2, 0.5, "starboard", "a point 1.20 m to windward, 0.50 m above the water"},
		{0, 0, "port", "a point in the track's plane, 0.00 m above the water"},
	} {
		if got := pointWords(c.y, c.z, c.windFrom); got != c.want {
			t.Errorf("%v, %v from %s: %q, want %q", c.y, c.z, c.windFrom, got, c.want)
		}
	}
}

func TestLimitsCountToLeeward(t *testing.T) {
	low, high := -5.0, 4.0
	l := trim.LimitRow{Name: "heel", Value: 1, Lower: &low, Upper: &high}
	if got := toLeeward(l, 1); got.Value != 1 || *got.Lower != -5 || *got.Upper != 4 {
		t.Errorf("wind from port: %+v", got)
	}
	if got := toLeeward(l, -1); got.Value != -1 || *got.Lower != -4 || *got.Upper != 5 {
		t.Errorf("wind from starboard: %+v", got)
	}
	far := 1e9
	for want, b := range map[string][2]*float64{"-5.00 to 4.00": {&low, &high}, "at least -5.00": {&low, &far}, "at most 4.00": {nil, &high}, "any": {nil, nil}} {
		if got := bounds(as("m").numeral, b[0], b[1]); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// What turns the boat is told by the way that it points, never by a bare sign.
func TestLimitsInWords(t *testing.T) {
	deg := func(v float64) *float64 { r := v * float64(si.Degree); return &r }
	r := &trim.Result{WindFrom: "starboard", Limits: []trim.LimitRow{
		{Name: "heel", Value: *deg(5), Lower: deg(-4), Upper: deg(5), Unit: "rad", Active: true},
		{Name: "pitch", Value: *deg(-1), Lower: deg(-1.5), Upper: deg(1.5), Unit: "rad", Margin: *deg(0.5)},
		{Name: "leeway", Value: 0, Lower: deg(-8), Upper: deg(8), Unit: "rad", Margin: *deg(8)},
	}}
	var p page
	p.limits(r)
	text := strings.Join(strings.Fields(p.String()), " ")
	for _, want := range []string{
		"heel 5.0 to windward deg 5.0 to windward to 4.0 to leeward 0.0 ●", "pitch 1.0 bow up deg 1.5 either way 0.5",
		"leeway 0.0 deg 8.0 either way 8.0",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in %q", want, text)
		}
	}
}

func TestWrapped(t *testing.T) {
	text := wrapped(strings.Repeat("word ", 60), "  ")
	for i, line := range strings.Split(strings.TrimSpace(text), "\n") {
		if len(line) > width || i > 0 && !strings.HasPrefix(line, "  word") {
			t.Errorf("line %d: %q", i, line)
		}
	}
	if n := strings.Count(text, "word"); n != 60 {
		t.Errorf("%d words of 60", n)
	}
}
