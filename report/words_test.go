package report

import (
	"math"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"foilwright/compare"
	"foilwright/si"
	"foilwright/trim"
)

// side is a comparison of answers made up for its words.
func side(base, fastest int, speeds ...float64) *compare.Result {
	c := &compare.Result{BaseIndex: base, Fastest: fastest, SameModel: compare.Same}
	for i, v := range speeds {
		r := &trim.Result{Boat: []string{"Sorrel", "Tansy", "Yarrow"}[i], Answer: trim.Found, Aim: trim.Windward.String(),
			TrueWindSpeed: 17 / 1.9438444924406, WindFrom: "port", VMG: si.Speed(v / 1.9438444924406)}
		if v == 0 {
			r.Answer = trim.NoAnswer
		}
		c.Boats = append(c.Boats, r)
	}
	c.Base = c.Boats[base].Boat
	return c
}

func TestVerdicts(t *testing.T) {
	for want, c := range map[string]*compare.Result{
		"Tansy makes 0.50 kn more to windward than Sorrel in 17.0 kn of true wind: 20.50 kn against 20.00 kn, 2.5 % more.":  side(0, 1, 20, 20.5),
		"Sorrel makes 0.20 kn more to windward than Yarrow in 17.0 kn of true wind: 20.00 kn against 19.80 kn, 1.0 % more.": side(0, 0, 20, 19, 19.8),
		"Sorrel makes 20.00 kn to windward in 17.0 kn of true wind; no other boat here can sail as asked.":                  side(0, 0, 20, 0),
		"Tansy makes 20.00 kn to windward in 17.0 kn of true wind; no other boat here can sail as asked.":                   side(0, 1, 0, 20),
		"None of the boats can sail as asked in 17.0 kn of true wind.":                                                      side(0, -1, 0, 0),
		"Tansy and Sorrel are equally good to windward in 17.0 kn of true wind: 20.00 kn.":                                  side(0, 1, 20, 20.001),
	} {
		if got := new(page).verdict(c).String(); got != want {
			t.Errorf("%q\nwant %q", got, want)
		}
	}
}

var (
	rivals = regexp.MustCompile(`^(\w+) makes ([\d.]+) kn more to windward than (\w+) in 17\.0 kn of true wind: ([\d.]+) kn against ([\d.]+) kn, ([\d.]+) % more\.$`)
	equals = regexp.MustCompile(`^(\w+) and (\w+) are equally good to windward in 17\.0 kn of true wind: ([\d.]+) kn\.$`)
	single = regexp.MustCompile(`^(\w+) makes ([\d.]+) kn to windward in 17\.0 kn of true wind; no other boat here can sail as asked\.$`)
)

// The sentence on top is true of its numbers: read back, it names the fastest boat and
// one that sails, her base or else the next, with their progress, its difference and
// the share, each as rounded; or that they are alike, or that nobody else sails.
func TestVerdictIsTrue(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	kinds := map[string]int{}
	for range 3000 {
		speeds, fastest, sail := make([]float64, 2+random.IntN(2)), -1, 0
		for i := range speeds {
			if random.Float64() < 0.7 {
				speeds[i] = 20 + math.Pow(10, -4*random.Float64())*random.NormFloat64()
				sail++
			}
			if speeds[i] > 0 && (fastest < 0 || speeds[i] > speeds[fastest]) {
				fastest = i
			}
		}
		base := random.IntN(len(speeds))
		c := side(base, fastest, speeds...)
		said := new(page).verdict(c).String()
		other := -1
		for i, v := range speeds {
			if i != fastest && v > 0 && (other < 0 || other != base && (i == base || v > speeds[other])) {
				other = i
			}
		}
		wrote := func(v float64) string { return strconv.FormatFloat(v, 'f', 2, 64) }
		switch m := rivals.FindStringSubmatch(said); {
		case m != nil:
			kinds["rivals"]++
			part, _ := strconv.ParseFloat(m[6], 64)
			if change := speeds[fastest] - speeds[other]; m[1] != c.Boats[fastest].Boat || m[3] != c.Boats[other].Boat || m[2] != wrote(change) ||
				m[4] != wrote(speeds[fastest]) || m[5] != wrote(speeds[other]) || math.Abs(part-100*change/speeds[other]) > 0.051 {
				t.Fatalf("%v, base %d: %q", speeds, base, said)
			}
		case equals.MatchString(said):
			kinds["equals"]++
			if m := equals.FindStringSubmatch(said); m[1] != c.Boats[fastest].Boat || m[2] != c.Boats[other].Boat || m[3] != wrote(speeds[fastest]) || speeds[fastest]/speeds[other]-1 > 5e-4 {
				t.Fatalf("%v, base %d: %q", speeds, base, said)
			}
		case single.MatchString(said):
			kinds["single"]++
			if m := single.FindStringSubmatch(said); sail != 1 || m[1] != c.Boats[fastest].Boat || m[2] != wrote(speeds[fastest]) {
				t.Fatalf("%v, base %d: %q", speeds, base, said)
			}
		case said != "None of the boats can sail as asked in 17.0 kn of true wind." || sail > 0:
			t.Fatalf("%v, base %d: %q", speeds, base, said)
		}
	}
	if len(kinds) != 3 || kinds["rivals"] < 1000 || kinds["equals"] < 100 || kinds["single"] < 100 {
		t.Errorf("sentences of kinds %v: the test says little", kinds)
	}
}

// Lever on paper and in balance, in words.
func TestShiftWords(t *testing.T) {
	v := func(x float64) *float64 { return &x }
	c := side(0, 1, 20, 20.5)
	for _, k := range []struct {
		loaded, line float64
		want         string
	}{
		{0.25, 0.00, "lies 0.25 m to leeward of Sorrel's, her line of action, at the same height, 0.00 m: she gains lever on paper and nothing in the balance."},
		{-0.25, 0.01, "she loses lever on paper and nothing in the balance."},
		{-0.25, -0.20, "0.05 m of that is on paper alone."},
		{0.25, 0.25, ""},
	} {
		got := shifted(c, 1, &compare.Shift{Foil: "leeward main", Loaded: v(k.loaded), Line: v(k.line)})
		if !strings.HasSuffix(got, k.want) || (k.want == "") != (got == "") {
			t.Errorf("%v, %v: %q, want %q", k.loaded, k.line, got, k.want)
		}
	}
	if got := shifted(c, 1, &compare.Shift{Loaded: v(1)}); got != "" {
		t.Errorf("without a line: %q", got)
	}
}

func TestForcesOfSmallBoatsInNewtons(t *testing.T) {
	var large, small page
	large.weight, small.weight = 24e3, 1100
	if got := large.force(1234) + ", " + large.lift(1234) + ", " + large.moment(1234); got != "1.23 kN, 1.2, 1.2 kN·m" {
		t.Error(got)
	}
	if got := small.force(123.4) + ", " + small.lift(123.4) + ", " + small.moment(123.4); got != "123.4 N, 123, 123 N·m" {
		t.Error(got)
	}
	if got := small.toward(-12, "up", "down"); got != "12 N down" {
		t.Error(got)
	}
}

// The honest no, in the house's wording.
func TestReason(t *testing.T) {
	r := &trim.Result{
		Boat: "Sorrel", Answer: trim.NoAnswer, WindFrom: "port", Speed: 17.2 / 1.9438444924406, RideHeight: 0.1,
		Controls: []trim.Setting{{Name: "starboard main flap", Called: "leeward main flap", Value: 12 * float64(si.Degree), Unit: "rad", State: "at its upper end"}},
		Reason:   &trim.Reason{Words: "no steady flight at true wind 9.0 kn, 40 deg: drive is 0.41 kN short", Limit: "ride height"},
	}
	want := "Sorrel: no steady flight at true wind 9.0 kn, 40 deg: drive is 0.41 kN short\n" +
		"best attempt: 17.20 kn, ride height 0.10 m, leeward main flap at its limit 12.0 deg\n" +
		"hint: relax limits.ride height, which alone lets her sail"
	if got := reason(r); got != want {
		t.Errorf("%q\nwant %q", got, want)
	}
	r.Reason.Limit = "starboard main flap"
	if got := reason(r); !strings.HasSuffix(got, "hint: a wider range of leeward main flap alone lets her sail") {
		t.Error(got)
	}
	r.Reason.Limit, r.Reason.Relaxations = "", []string{"heel", "starboard main flap"}
	if got := reason(r); !strings.HasSuffix(got, "in vain: heel, leeward main flap") {
		t.Error(got)
	}
}
