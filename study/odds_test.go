package study

import (
	"math"
	"strings"
	"testing"

	"foilwright/boat"
	"foilwright/boatfile"
	"foilwright/odds"
	"foilwright/si"
	"foilwright/trim"
)

// oddsDesk is a desk with files read.
func oddsDesk(t *testing.T, names ...string) *desk {
	t.Helper()
	d := &desk{request: &Request{Boats: names}}
	for _, name := range names {
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
		d.sheets, d.boats = append(d.sheets, s), append(d.boats, b)
	}
	return d
}

// An anchor is a boat, a speed with its deviation, a wind, and perhaps an angle.
func TestAnchorIsRead(t *testing.T) {
	d := &desk{request: &Request{Boats: []string{"a.yaml", "b.yaml"}}, boats: []*boat.Boat{{Name: "Sorrel"}, {Name: "Sorrel at Sea"}}}
	asked := trim.Request{WindSpeed: 9, Aim: trim.Windward}
	read := func(text string) (*observation, error) { return (&Odds{Anchor: text}).anchor(d, asked) }
	o, err := read("Sorrel at Sea 25 kn ± 0.5 kn at 17 kn, 45 deg")
	if err != nil {
		t.Fatal(err)
	}
	const knot = 1852.0 / 3600
	if o.anchor.Boat != 1 || math.Abs(o.anchor.Observed-25*knot) > 1e-12 || math.Abs(o.anchor.Deviation-0.5*knot) > 1e-12 ||
		math.Abs(float64(o.anchor.Wind)-17*knot) > 1e-12 || o.request.Aim != trim.AtAngle || math.Abs(float64(o.request.WindAngle-45*si.Degree)) > 1e-12 {
		t.Errorf("%+v, %+v", o.anchor, o.request)
	}
	if o, err = read("a.yaml 25 kn ± 0.5 kn at 17 kn"); err != nil || o.anchor.Boat != 0 || o.request.Aim != trim.Windward || o.request.WindSpeed != o.anchor.Wind {
		t.Errorf("%+v, %v", o, err)
	}
	if o, err := read(""); o != nil || err != nil {
		t.Errorf("no anchor: %+v, %v", o, err)
	}
	for text, want := range map[string]string{
		"Tansy 25 kn ± 0.5 kn at 17 kn":          "begins with the name of none of the boats",
		"Sorrel 25 kn ± 0.5 kn":                  "does not say in which wind",
		"Sorrel 25 kn at 17 kn":                  "no standard deviation",
		"Sorrel 24 to 26 kn at 17 kn":            "no standard deviation",
		"Sorrel 25 ± 0.5 at 17 kn":               "anchor: ",
		"Sorrel 25 kn ± 0.5 kn at 17 kn ± 1 kn":  "is one value above 0",
		"Sorrel 25 kn ± 0.5 kn at 17":            "anchor: ",
		"Sorrel 25 kn ± 0.5 kn at 17 kn, abroad": "anchor: ",
	} {
		if _, err := read(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q", text, err, want)
		}
	}
}

// Boats of one name are told apart, and one file twice as well.
func TestNamesOfOdds(t *testing.T) {
	d := &desk{request: &Request{Boats: []string{"a.yaml", "b.yaml", "b.yaml", "c.yaml"}}, boats: []*boat.Boat{{Name: "Sorrel"}, {Name: "Sorrel"}, {Name: "Sorrel"}, {Name: "Tansy"}}}
	if got := strings.Join(d.names(), "; "); got != "Sorrel (a.yaml); Sorrel (b.yaml); Sorrel (b.yaml, 2); Tansy" {
		t.Error(got)
	}
}

// What samples depend on is the run's identity; how many there are, and what is
// made of them, is not.
func TestIdentityOfARun(t *testing.T) {
	d := oddsDesk(t, sloe)
	of := func(q Odds) string {
		id, err := q.identity(d)
		if err != nil {
			t.Fatal(err)
		}
		return id
	}
	base := Odds{Sailing: Sailing{WindSpeeds: []si.Speed{6}}, Seed: 1, Samples: 64, Confidence: 0.8}
	first := of(base)
	same := base
	same.Samples, same.Until, same.Confidence, same.Tornado = 128, 0.01, 0.9, true
	if of(same) != first {
		t.Error("more samples of the same question are another run")
	}
	for what, change := range map[string]func(*Odds){
		"seed": func(q *Odds) { q.Seed = 2 }, "wind": func(q *Odds) { q.WindSpeeds = []si.Speed{7} }, "spread": func(q *Odds) { q.WindSpread = "6 m/s ± 1 m/s" },
		"bands": func(q *Odds) { q.Winds = []si.Speed{8} }, "anchor": func(q *Odds) { q.Anchor = "Sloe 9 kn ± 1 kn at 12 kn" },
	} {
		other := base
		change(&other)
		if of(other) == first {
			t.Errorf("another %s is the same run", what)
		}
	}
}

// The plan has a column for each boat in each wind and for the anchor, and asks
// every one in its own.
func TestPlanOfOdds(t *testing.T) {
	d := oddsDesk(t, sorrel, tansy)
	q := &Odds{
		Sailing: Sailing{Conditions: Standard()}, WindSpread: "17 kn ± 1 kn", WaterSpread: "12 °C ± 2 °C", Winds: []si.Speed{5, 6},
		Anchor: "Tansy 25 kn ± 0.5 kn at 16 kn, 60 deg", Seed: 3,
	}
	plan, fleet, err := q.plan(d)
	if err != nil {
		t.Fatal(err)
	}
	if plan.Samples != DefaultSamples || plan.Confidence != DefaultConfidence || len(plan.Columns()) != 7 || len(fleet.Requests) != 7 {
		t.Errorf("%d samples, confidence %g, %d columns, %d requests", plan.Samples, plan.Confidence, len(plan.Columns()), len(fleet.Requests))
	}
	for i, c := range plan.Columns() {
		if fleet.Requests[i].WindSpeed != c.Wind {
			t.Errorf("column %d is asked in %g m/s, want %g", i, fleet.Requests[i].WindSpeed, c.Wind)
		}
	}
	if last := fleet.Requests[6]; last.Aim != trim.AtAngle || plan.Columns()[6].Boat != 1 {
		t.Errorf("the anchor is asked for %s of boat %d", last.Aim, plan.Columns()[6].Boat)
	}
	conditions := 0
	for _, u := range plan.Unknowns {
		if u.Kind == odds.OfCondition {
			conditions++
		}
	}
	if conditions != 2 || math.Abs(q.WaterTemperature-285.15) > 1e-9 {
		t.Errorf("%d conditions are uncertain, the water is likely %g K", conditions, q.WaterTemperature)
	}
	many := &Odds{Sailing: Sailing{Conditions: Standard(), WindSpeeds: []si.Speed{6, 7}}}
	if _, _, err := many.plan(d); err == nil || !strings.Contains(err.Error(), "odds are of one wind") {
		t.Errorf("two winds: %v", err)
	}
}
