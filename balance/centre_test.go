package balance

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"foilwright/boat"
	"foilwright/foil"
	"foilwright/frame"
	"foilwright/section"
	"foilwright/si"
)

type at = frame.Point[frame.Track]
type force = frame.Vec[frame.Track]

// push is a water load on the foil called so.
func push(part string, f force, p at) boat.Item {
	return boat.Item{Part: part, Cause: boat.Potential, Load: frame.ForceAt(f, p)}
}

// Two flat wings in an inverted V, loads normal to them at mid-length: whatever
// the split, the resultant passes through the point on the axis of symmetry
// (s/2)/sin Γ below the junction; with equal loads it runs along the axis
// (closed form: the wings' normals meet there).
func TestResultantOfAnInvertedV(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		droop := rapid.Float64Range(0.05, 1.2).Draw(t, "droop")
		length := rapid.Float64Range(0.3, 3).Draw(t, "length")
		lean := rapid.Float64Range(-0.6, 0.6).Draw(t, "lean")
		port, starboard := rapid.Float64Range(-1, 2).Draw(t, "port"), rapid.Float64Range(-1, 2).Draw(t, "starboard")
		if math.Hypot(port, starboard) < 0.05 {
			return
		}
		sin, cos := math.Sincos(droop)
		turn := frame.About(force{X: 1}, si.Angle(lean))
		junction := at{Y: 0.4, Z: -1.7}
		wing := func(side, load float64) boat.Item {
			middle := force{Y: side * length / 2 * cos, Z: -length / 2 * sin}
			normal := force{Y: side * sin, Z: cos}
			return push("foil", turn.Apply(normal).Times(load), junction.Add(turn.Apply(middle)))
		}
		total := waterLoad("foil", []boat.Item{wing(1, port), wing(-1, starboard)})
		line := lineOf(total)
		if line == nil {
			return
		}
		below := junction.Add(turn.Apply(force{Z: -length / 2 / sin}))
		if d := line.DistanceTo(below); d > 1e-9*length/sin {
			t.Fatalf("droop %.3f, loads %.3f and %.3f: the line misses the closed form's point by %.3g m", droop, port, starboard, d)
		}
		if port != starboard {
			return
		}
		if d := line.DistanceTo(junction); d > 1e-9 {
			t.Fatalf("equal loads: the line misses the junction by %.3g m", d)
		}
	})
}

// With equal loads the junction, the midpoint of the area centroids and the
// closed form's point all give the foil no moment: lever gained on paper by
// drooping the wings is none in balance.
func TestEqualLoadsMakeEveryCentreAgree(t *testing.T) {
	const droop, length = 0.4, 1.2
	sin, cos := math.Sincos(droop)
	items := []boat.Item{
		push("foil", force{Y: sin, Z: cos}.Times(9000), at{Y: length / 2 * cos, Z: -2 - length/2*sin}),
		push("foil", force{Y: -sin, Z: cos}.Times(9000), at{Y: -length / 2 * cos, Z: -2 - length/2*sin}),
	}
	for _, z := range []float64{-2, -2 - length/2*sin, -2 - length/2/sin} {
		if m := waterLoad("foil", items).MovedTo(at{Z: z}).Moment.X; math.Abs(m) > 1e-9 {
			t.Errorf("moment about the axis at %.3f m is %.3g N·m, want none", z, m)
		}
	}
}

// Moving the moment point along the line of action changes righting and heeling
// moment equally, every item but the foil counted, and leaves the foil's row at
// nothing; off the line the totals still close.
func TestMomentPointAlongTheLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := rapid.Float64Range(-3, 3)
		foilForce := force{Y: g.Draw(t, "fy"), Z: 3.5 + g.Draw(t, "fz")/10}.Times(7000)
		foilAt := at{Y: g.Draw(t, "y"), Z: -1 + g.Draw(t, "z")/10}
		weight, weightAt := force{Z: -25000}, at{Y: g.Draw(t, "wy"), Z: 1}
		sail := foilForce.Plus(weight).Times(-1)
		// The sail's place closes the moment: anywhere on its line.
		m := frame.Sum(at{}, frame.ForceAt(foilForce, foilAt), frame.ForceAt(weight, weightAt)).Moment.X
		if math.Abs(sail.Y) < 500 {
			return
		}
		sailAt := at{Z: m / sail.Y}
		items := []boat.Item{
			push("foil", foilForce, foilAt),
			{Part: "all up", Cause: boat.Gravity, Load: frame.ForceAt(weight, weightAt)},
			{Part: "sail", Cause: boat.SailLift, Load: frame.ForceAt(sail, sailAt)},
		}
		line := lineOf(waterLoad("foil", items))
		moved := line.Point.Add(line.Direction.Times(g.Draw(t, "along")))
		for _, side := range []boat.Side{boat.Port, boat.Starboard} {
			here, there := BudgetAbout(items, line.Point, side), BudgetAbout(items, moved, side)
			size := 25000.0
			if d := here.Righting - here.Heeling; math.Abs(d) > 1e-7*size {
				t.Fatalf("righting %.6g, heeling %.6g N·m", here.Righting, here.Heeling)
			}
			gainRighting, gainHeeling := there.Righting-here.Righting, there.Heeling-here.Heeling
			if math.Abs(gainRighting-gainHeeling) > 1e-7*size {
				t.Fatalf("along the line righting gains %.6g, heeling %.6g N·m", gainRighting, gainHeeling)
			}
			if math.Abs(there.Rows[0].Moment) > 1e-7*size {
				t.Fatalf("the foil's own row holds %.6g N·m on its line", there.Rows[0].Moment)
			}
		}
	})
}

// No centre is shown where the net vertical force is below 5 % of the gross.
func TestNoCentreWhereLiftCancels(t *testing.T) {
	strips := []foil.Strip{
		{Place: at{Y: 1}, Force: force{Z: 1000}}, {Place: at{Y: -1}, Force: force{Z: -920}},
	}
	if c := loaded(strips, 0); c != nil {
		t.Errorf("net 80 N of 1920 N gross has a centre at %v", *c)
	}
	strips[1].Force.Z = -800
	if c := loaded(strips, 0); c == nil || math.Abs(c.Y-9) > 1e-12 {
		t.Errorf("centre %v, want y = 9 m", c)
	}
}

// ruleBoat is a made-up boat for the rules of the trade: a strut of 3 m with two
// equal wings of even chord whose tips lie a drop below its foot.
func ruleBoat(t *testing.T, drop float64, lean si.Angle) (*boat.Boat, boat.State) {
	t.Helper()
	naca, err := section.Parse("naca 0012")
	if err != nil {
		t.Fatal(err)
	}
	piece := func(name string, from int, upper float64, a, b frame.Point[boat.Local]) boat.Piece {
		p, err := boat.NewPath([]frame.Point[boat.Local]{a, b}, 0)
		if err != nil {
			t.Fatal(err)
		}
		return boat.Piece{Name: name, From: from, Path: p, Chord: boat.Even(0.4), Section: naca, Upper: upper, Laminar: -1}
	}
	foot := frame.Point[boat.Local]{Z: -3}
	b := &boat.Boat{Name: "Rule", Length: 20, Model: boat.Defaults(),
		Controls: []boat.Control{{Name: "cant", Lower: -1, Upper: 2}},
		Foils: []boat.Foil{{Name: "foil", Kind: "foil", Root: frame.Point[frame.Boat]{Z: -1},
			Moves: []boat.Move{{Axis: frame.Vec[boat.Local]{X: 1}, Control: 0}},
			Pieces: []boat.Piece{
				piece("strut", -1, 1, frame.Point[boat.Local]{}, foot),
				piece("inner wing", 0, -1, foot, frame.Point[boat.Local]{Y: -2, Z: -3 - drop}),
				piece("outer wing", 0, 1, foot, frame.Point[boat.Local]{Y: 2, Z: -3 - drop}),
			}}}}
	return b, boat.State{Attitude: boat.Attitude{Height: 0.5}, Settings: []float64{lean.Radians()}}
}

// Common practice: a foil of two equal wings lifts at the junction for a T and
// half the tip drop below it for an inverted V of even chord: 0.70 m of drop is
// 0.35 m along the strut, and on a strut that leans 20.6° that is 0.123 m of lever.
func TestRuleOfThumbCentre(t *testing.T) {
	const lean = 20.6 * si.Degree
	centre := func(drop float64) at {
		b, s := ruleBoat(t, drop, lean)
		c, ok := foil.RuleCentre(foil.Outlines(b, s), 0)
		if !ok {
			t.Fatal("no centre")
		}
		return c
	}
	b, s := ruleBoat(t, 0, lean)
	foot := s.Attitude.Pose().Point(b.Foils[0].Pose(s.Settings).Point(b.Foils[0].Pieces[0].Path.End()))
	level, drooped := centre(0), centre(0.70)
	if d := level.From(foot).Norm(); d > 1e-12 {
		t.Errorf("a T lifts %.4f m from its junction, common practice says at it", d)
	}
	if d := drooped.From(level).Norm(); math.Abs(d-0.35) > 0.0005 {
		t.Errorf("0.70 m of drop moves the centre %.4f m, common practice says 0.35", d)
	}
	if d := drooped.Y - level.Y; math.Abs(d-0.123) > 0.0005 {
		t.Errorf("that is %.4f m of lever, common practice says 0.123", d)
	}
}

// Common practice: 0.098 m more lever on 5.634 m is 1.7 % more righting moment,
// whatever the mass; at 7.5 t it is 7.2 kN·m on 414 kN·m.
func TestLeverIsRightingMoment(t *testing.T) {
	for _, mass := range []float64{2500, 7500} {
		items := []boat.Item{{Part: "all up", Cause: boat.Gravity,
			Load: frame.ForceAt(force{Z: -mass * si.Gravity}, at{Y: 1})}}
		short := BudgetAbout(items, at{Y: 1 - 5.634}, boat.Port).Righting
		long := BudgetAbout(items, at{Y: 1 - 5.634 - 0.098}, boat.Port).Righting
		if g := 100 * (long/short - 1); math.Abs(g-1.7) > 0.05 {
			t.Errorf("%.0f kg: %.2f %% more righting moment, common practice says 1.7", mass, g)
		}
		if mass == 7500 && (math.Abs(short-414e3) > 500 || math.Abs(long-short-7.2e3) > 50) {
			t.Errorf("righting moment %.1f and %.1f more kN·m, common practice says 414 and 7.2", short/1e3, (long-short)/1e3)
		}
	}
}
