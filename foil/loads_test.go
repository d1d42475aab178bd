package foil

import (
	"fmt"
	"math"
	"testing"

	"foilwright/accuracy"
	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/frame"
	"foilwright/lattice"
	"foilwright/si"
)

// A flat rectangular wing of aspect ratio 6 far from the surface: lift slope of
// the linear lifting surface, 4.2147 per radian (check row 3.19). One row is
// within 1 %, six rows within 0.1 %.
func TestLiftSlopeOfAWing(t *testing.T) {
	const chord, half, angle = 0.5, 1.5, 1 * si.Degree
	for rows, tolerance := range map[int]float64{1: 0.01, 6: 0.001} {
		f := inverted(t, frame.Point[frame.Boat]{}, 1, half, 0, straight(chord))
		f.Pieces[0].From, f.Pieces[1].From, f.Pieces[2].From = -1, -1, -1
		f.Pieces = f.Pieces[1:]
		b, s := carrying(10, -50, angle, f)
		w := &Workspace{Options: Options{Strips: 24, Rows: rows, Boundary: lattice.Unbounded}}
		load := loadsOf(t, b, s, w, boat.Potential)
		q := fluid.StandardSea().DynamicPressure(10)
		got := load.Force.Z / (q * 2 * half * chord) / angle.Radians()
		accuracy.Check(t, accuracy.Row{
			ID: "3.19", Quantity: "lift slope of a flat rectangular wing", Conditions: fmt.Sprintf("aspect ratio 6, as a foil of a boat, rows: %d", rows), Unit: "1/rad",
			Source: "independent lattice; Tuck 1993", Evidence: "derived", Published: 4.2147, Computed: got, Tolerance: tolerance * 4.2147,
		})
	}
}

// Sums do not depend on the side: a boat and its mirror image, sailing mirrored.
func TestMirroredFoilsCarryMirroredLoads(t *testing.T) {
	f := inverted(t, frame.Point[frame.Boat]{Y: 1.2, Z: 0.5}, 2, 1, 15*si.Degree, tapered(0.3, 0.1))
	g := inverted(t, frame.Point[frame.Boat]{Y: -1.2, Z: 0.5}, 2, 1, 15*si.Degree, tapered(0.3, 0.1))
	g.Pieces[1], g.Pieces[2] = g.Pieces[2], g.Pieces[1]
	g.Pieces[0].Upper = -1
	b, s := carrying(12, 0.6, 2*si.Degree, f)
	s.Attitude.Leeway, s.Attitude.Heel, s.Attitude.Pitch = 2*si.Degree, -6*si.Degree, 1*si.Degree
	m, r := carrying(12, 0.6, 2*si.Degree, g)
	r.Attitude.Leeway, r.Attitude.Heel, r.Attitude.Pitch = -s.Attitude.Leeway, -s.Attitude.Heel, s.Attitude.Pitch
	for _, c := range []boat.Cause{boat.Potential, boat.Induced, boat.Profile, boat.Spray, boat.Buoyancy, boat.Junction} {
		a, z := loadsOf(t, b, s, &Workspace{}, c), loadsOf(t, m, r, &Workspace{}, c)
		z.Force.Y, z.Moment.X, z.Moment.Z = -z.Force.Y, -z.Moment.X, -z.Moment.Z
		if d := a.Force.Minus(z.Force).Norm(); d > 1e-9*(1+a.Force.Norm()) {
			t.Errorf("%s: force %v, mirrored %v", c, a.Force, z.Force)
		}
		if d := a.Moment.Minus(z.Moment).Norm(); d > 1e-9*(1+a.Moment.Norm()) {
			t.Errorf("%s: moment %v, mirrored %v", c, a.Moment, z.Moment)
		}
	}
}

// A tip that comes out: a step of 1e-6 m in height moves lift by less than 1e-5
// of it, on both sides of the surface and across it; so do all other loads.
func TestLoadsAreContinuousAsATipComesOut(t *testing.T) {
	f := inverted(t, frame.Point[frame.Boat]{Z: 0}, 1, 1.2, -20*si.Degree, tapered(0.3, 0.1))
	w := &Workspace{}
	tipHeight := func(height float64) float64 { return height - 1 + 1.2*math.Sin(20*math.Pi/180) }
	at := 1 - 1.2*math.Sin(20*math.Pi/180) // height of the datum at which both tips are on the surface
	for _, height := range []float64{at - 1e-3, at - 1e-6, at - 5e-7, at, at + 1e-9, at + 1e-6, at + 1e-3, at + 0.05} {
		b, s := carrying(12, height, 3*si.Degree, f)
		low := loadsOf(t, b, s, w, boat.Potential)
		drag := loadsOf(t, b, s, w, boat.Induced, boat.Profile, boat.Spray, boat.Stall, boat.Junction)
		s.Attitude.Height += 1e-6
		high := loadsOf(t, b, s, w, boat.Potential)
		moreDrag := loadsOf(t, b, s, w, boat.Induced, boat.Profile, boat.Spray, boat.Stall, boat.Junction)
		if step := math.Abs(high.Force.Z/low.Force.Z - 1); step > 1e-5 {
			t.Errorf("tips at %+.2e m: lift moves by %.2e of itself in 1e-6 m", tipHeight(height), step)
		}
		if step := math.Abs(moreDrag.Force.X/drag.Force.X - 1); step > 1e-5 {
			t.Errorf("tips at %+.2e m: drag moves by %.2e of itself in 1e-6 m", tipHeight(height), step)
		}
	}
}

// Lift falls as a foil rises, just under the height at which its tips come out and
// just over it; both slopes are logged. Under a surface of zero potential the tips'
// load has faded to nothing by then, so that the kink is slight.
func TestLiftFallsAsTipsComeOut(t *testing.T) {
	f := inverted(t, frame.Point[frame.Boat]{Z: 0}, 1, 1.2, -20*si.Degree, straight(0.2))
	w := &Workspace{}
	at := 1 - 1.2*math.Sin(20*math.Pi/180)
	slope := func(height float64) float64 {
		b, s := carrying(12, height, 3*si.Degree, f)
		low := loadsOf(t, b, s, w, boat.Potential).Force.Z
		s.Attitude.Height += 1e-4
		return (loadsOf(t, b, s, w, boat.Potential).Force.Z - low) / 1e-4 / low
	}
	under, over := slope(at-2e-4), slope(at+1e-4)
	t.Logf("lift changes by %.2f of itself per metre just under, %.2f just over", under, over)
	if !(under < 0 && over < 0) {
		t.Errorf("slopes %.3f and %.3f per metre: lift must fall as a foil rises", under, over)
	}
}

// Doubling the strips of the usual options changes lift by less than 0.3 %, side
// force 1 %, induced drag 0.5 %: an inverted V on a leaning strut, a T, tips out.
func TestDoublingTheStrips(t *testing.T) {
	cases := map[string]struct {
		droop        si.Angle
		heel, leeway si.Angle
		height       float64
	}{
		"inverted V, heeled":   {20 * si.Degree, 18 * si.Degree, 1 * si.Degree, 0.9},
		"T, heeled":            {0, 18 * si.Degree, 1 * si.Degree, 0.9},
		"T upright, no leeway": {0, 0, 0, 0.6},
		"tip out":              {0, 25 * si.Degree, 2 * si.Degree, 1.75},
	}
	for name, c := range cases {
		b, s := carrying(14, c.height, 2.5*si.Degree, inverted(t, frame.Point[frame.Boat]{}, 2, 1.1, c.droop, tapered(0.32, 0.12)))
		s.Attitude.Heel, s.Attitude.Leeway = c.heel, c.leeway
		coarse, fine := &Workspace{}, &Workspace{Options: DefaultOptions()}
		fine.Options.Strips *= 2
		a, z := loadsOf(t, b, s, coarse, boat.Potential), loadsOf(t, b, s, fine, boat.Potential)
		da, dz := loadsOf(t, b, s, coarse, boat.Induced), loadsOf(t, b, s, fine, boat.Induced)
		lift, side, drag := a.Force.Z/z.Force.Z-1, (a.Force.Y-z.Force.Y)/math.Max(math.Abs(z.Force.Y), 0.1*z.Force.Z), da.Force.X/dz.Force.X-1
		t.Logf("%s: lift %+.3f %%, side force %+.3f %%, induced drag %+.3f %%", name, 100*lift, 100*side, 100*drag)
		if math.Abs(lift) > 0.003 || math.Abs(side) > 0.01 || math.Abs(drag) > 0.005 {
			t.Errorf("%s: lift %+.3f %%, side force %+.3f %%, induced drag %+.3f %%: too coarse", name, 100*lift, 100*side, 100*drag)
		}
	}
}

// Near-field drag within 1 % of the far wake's for unswept wings; the error of
// a swept one is reported.
func TestNearFieldDrag(t *testing.T) {
	b, s := carrying(14, -1, 2.5*si.Degree, inverted(t, frame.Point[frame.Boat]{}, 1, 1.1, 0, straight(0.25)))
	w := &Workspace{Options: Options{Strips: 24, Rows: 1, Boundary: lattice.FreeSurface}}
	loadsOf(t, b, s, w, boat.Induced)
	if e := nearField(t, w)/w.Totals().Induced - 1; math.Abs(e) > 0.01 {
		t.Errorf("unswept wing: near-field drag is off by %+.2f %%", 100*e)
	}
	f := inverted(t, frame.Point[frame.Boat]{}, 1, 1.1, 0, straight(0.25))
	for i, y := range []float64{0, 1, -1} {
		if y != 0 {
			f.Pieces[i].Path = pathOf(t, 0, point{Z: -1}, point{X: -0.5, Y: y, Z: -1})
		}
	}
	b, s = carrying(14, -1, 2.5*si.Degree, f)
	loadsOf(t, b, s, w, boat.Induced)
	t.Logf("wing swept by 27 deg: near-field drag is off by %+.2f %%", 100*(nearField(t, w)/w.Totals().Induced-1))
}

func nearField(t *testing.T, w *Workspace) float64 {
	t.Helper()
	drag, err := w.NearField()
	if err != nil {
		t.Fatal(err)
	}
	return drag
}

// Twice the density, twice every dynamic load at the same Reynolds number.
func TestDoubleTheDensity(t *testing.T) {
	b, s := carrying(14, 0.9, 2.5*si.Degree, inverted(t, frame.Point[frame.Boat]{}, 2, 1.1, 0.3, tapered(0.32, 0.12)))
	light, heavy := fluid.StandardSea(), fluid.StandardSea()
	heavy.Density *= 2
	a, err := Loads(b, s, light, &Workspace{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	z, err := Loads(b, s, heavy, &Workspace{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	for i := range a {
		if d := z[i].Load.Force.Minus(a[i].Load.Force.Times(2)).Norm(); d > 1e-9*a[i].Load.Force.Norm() {
			t.Errorf("%s %s: %v at twice the density, %v before", a[i].Piece, a[i].Cause, z[i].Load.Force, a[i].Load.Force)
		}
	}
}

// At rest there is buoyancy and nothing else; nothing is not a number.
func TestAtRest(t *testing.T) {
	b, s := carrying(0, 0.9, 2.5*si.Degree, inverted(t, frame.Point[frame.Boat]{}, 2, 1.1, 0.3, tapered(0.32, 0.12)))
	items, err := Loads(b, s, fluid.StandardSea(), &Workspace{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, it := range items {
		if f := it.Load.Force.Norm(); it.Cause != boat.Buoyancy && f != 0 || math.IsNaN(f) {
			t.Errorf("%s %s: %v at rest", it.Piece, it.Cause, it.Load.Force)
		}
	}
}

// Spray of a strut square to the surface is Hoerner's 0.24·q·t² (from memory); at
// a shallow angle the cut is thicker, up to the chord.
func TestSprayGrowsAsTheCutDoes(t *testing.T) {
	const chord, thin = 0.3, 0.12
	q := fluid.StandardSea().DynamicPressure(12)
	square := 0.24 * q * chord * thin * chord * thin
	spray := func(heel si.Angle) float64 {
		f := inverted(t, frame.Point[frame.Boat]{}, 3, 1, 0, straight(0.2))
		f.Pieces = f.Pieces[:1]
		b, s := carrying(12, 0.5, 0, f)
		s.Attitude.Heel = heel
		return -loadsOf(t, b, s, &Workspace{}, boat.Spray).Force.X
	}
	if got := spray(0); math.Abs(got/square-1) > 1e-9 {
		t.Errorf("upright: %.3f N, want %.3f", got, square)
	}
	for _, lean := range []si.Angle{20 * si.Degree, 70 * si.Degree} {
		want := square / math.Hypot(lean.Cos(), thin*lean.Sin())
		if got := spray(lean); math.Abs(got/want-1) > 1e-9 || got > square/thin {
			t.Errorf("leaning by %.0f deg: %.3f N, want %.3f", lean.Degrees(), got, want)
		}
	}
}
