package report

import (
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
