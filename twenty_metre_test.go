package foilwright_test

import (
	"math"
	"strings"
	"testing"

	"foilwright/boat"
	"foilwright/trim"
)

// The boat of docs/twenty-metre.md, whose file was written before it was first
// sailed and to which no coefficient was fitted, against the ranges of the trade
// (common practice). Ranges that its invented input leaves are explained there;
// here stands what was found, so that a change shows.
func TestTwentyMetreBoat(t *testing.T) {
	b := example(t, "examples/twenty-metre/hawthorn.yaml")
	r := request(17)
	r.Mode = "one foil"
	res := best(t, b, r)
	if res.Answer != trim.Found {
		t.Fatalf("no answer: %s", res.Reason.Words)
	}
	checkLaws(t, b, res)
	weight := b.Weight()
	carried := func(part, piece string, item boat.Cause) float64 {
		sum := 0.0
		for _, l := range res.Loads {
			if l.Part == part && strings.Contains(l.Piece, piece) && l.Item == item.String() {
				sum += l.Force.Z
			}
		}
		return sum / weight
	}
	drive, side := 0.0, 0.0
	for _, l := range res.Loads {
		if medium(l.Item) == boat.Air {
			drive += l.Force.X / weight
			side += math.Abs(l.Force.Y) / weight
		}
	}
	const inside, outside = true, false
	for _, f := range []struct {
		name              string
		got, found        float64
		tolerance         float64
		usualLow, usualUp float64
		usual             bool
	}{
		{"speed, kn", res.Speed.Knots(), 33.4, 0.2, 33, 39, inside},
		{"true wind angle, deg", res.TrueWindAngle.Degrees(), 45.1, 0.3, 42, 47, inside},
		{"apparent wind angle, deg", res.ApparentWindAngle.Degrees(), 14.9, 0.2, 13, 16, inside},
		{"leeway to leeward, deg", res.Leeway.Degrees(), -2.6, 0.3, 0, 2, outside},
		{"heel to windward, deg", -res.Heel.Degrees(), 1.2, 0.4, 0, 3, inside},
		{"foil lift over weight", carried("starboard main", "", boat.Potential), 0.933, 0.01, 1, 1.1, outside},
		{"rudder wing over weight", carried("rudder", "wing", boat.Potential), 0.03, 0.01, -0.08, -0.03, outside},
		{"side force over weight", side, 0.446, 0.003, 0.45, 0.55, outside},
		{"drive over weight", drive, 0.055, 0.002, 0.07, 0.08, outside},
	} {
		if math.Abs(f.got-f.found) > f.tolerance {
			t.Errorf("%s is %.4g, was found to be %.4g (docs/twenty-metre.md)", f.name, f.got, f.found)
		}
		if in := f.got >= f.usualLow && f.got <= f.usualUp; in != f.usual {
			t.Errorf("%s is %.4g, usual is %g to %g: docs/twenty-metre.md says otherwise", f.name, f.got, f.usualLow, f.usualUp)
		}
	}
}
