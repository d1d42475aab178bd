package foil

import (
	"math"
	"testing"

	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/frame"
	"foilwright/si"
)

// bent is a made-up foil of one piece: a shaft out and down, a bend of 0.5 m and a tip
// that rises. level returns the height of the datum at which the bend's lowest place is
// at the surface on the boat upright: the bend's centre less its radius.
func bent(t testing.TB) (f boat.Foil, level float64) {
	const radius = 0.5
	a, corner, c := point{}, point{Y: 1.5, Z: -1.3}, point{Y: 3.2, Z: -0.75}
	in, out := corner.From(a).Unit(), c.From(corner).Unit()
	half := math.Acos(in.Dot(out)) / 2
	centre := corner.Add(out.Minus(in).Unit().Times(radius / math.Cos(half)))
	f = boat.Foil{
		Name: "foil", Kind: "foil", Mass: 20, MassShare: 0.5,
		Moves:  []boat.Move{{Name: "rake", Axis: frame.Vec[boat.Local]{Y: -1}, Control: 0}},
		Pieces: []boat.Piece{{Name: "blade", From: -1, Path: pathOf(t, radius, a, corner, c), Chord: straight(0.4), Section: naca(t, "naca 63-412"), Upper: 1, Laminar: -1}},
	}
	return f, radius - centre.Z
}

// A bend that dips into the water and comes out again is seen as soon as it does, where
// no sample of its path is in the water: its wet length is the chord that the surface
// cuts off its circle, and its depth that of the circle.
func TestADipIsSeen(t *testing.T) {
	const radius = 0.5
	f, level := bent(t)
	w := &Workspace{}
	for _, dip := range []float64{-1e-9, 1e-9, 1e-7, 1e-5, 1e-3, 0.02} {
		b, s := carrying(8, level-dip, 0, f)
		w.dip(b, &s)
		if dip < 0 {
			if len(w.found) != 0 {
				t.Errorf("%g m over the water: wet from %v", -dip, w.found)
			}
			continue
		}
		if len(w.found) != 1 || !w.found[0].belly() {
			t.Errorf("%g m deep: %v is wet", dip, w.found)
			continue
		}
		found := &w.found[0]
		length := (found.To - found.From) * f.Pieces[0].Path.Length()
		if want := 2 * radius * math.Acos(1-dip/radius); math.Abs(length-want) > 1e-7+1e-3*want {
			t.Errorf("%g m deep: %.7f m is wet, want %.7f", dip, length, want)
		}
		if math.Abs(found.Depth-dip) > 1e-12 {
			t.Errorf("%g m deep: %.12f m is told", dip, found.Depth)
		}
	}
}

// As a bend dips, no load jumps and none grows as a root: over a tenth of a millimetre
// each force changes by no more than over the next, and by less the less it has dipped.
func TestLoadsGrowGentlyAsABendDips(t *testing.T) {
	f, level := bent(t)
	w := &Workspace{}
	for _, cause := range []boat.Cause{boat.Potential, boat.Profile, boat.Buoyancy, boat.Spray} {
		at := func(dip float64) float64 {
			b, s := carrying(8, level-dip, 2*si.Degree, f)
			return loadsOf(t, b, s, w, cause).Force.Norm()
		}
		if whole := at(0.15); !(at(0) == 0 && at(1e-6) < 1e-8*whole) {
			t.Errorf("%s: %g N at the surface and %g N a thousandth of a millimetre down, of %g N", cause, at(0), at(1e-6), whole)
		}
		last := 0.0
		for k := range 50 {
			dip := 1e-4 * float64(k)
			slope := at(dip+1e-4) - at(dip)
			if slope < last {
				t.Errorf("%s grows by %g N from %g m down, by %g N just before", cause, slope, dip, last)
			}
			last = slope
		}
	}
}

// The wind pushes on what the water does not: as a bend dips it lets go of it gently.
func TestWindLetsGoGentlyAsABendDips(t *testing.T) {
	f, level := bent(t)
	w := &Workspace{}
	wind, air := fluid.Wind{Speed: 9, Angle: 100 * si.Degree}, fluid.StandardAir()
	at := func(dip float64) float64 {
		b, s := carrying(8, level-dip, 0, f)
		return Windage(b, s, wind, air, w, nil)[0].Load.Force.Norm()
	}
	perMillimetre := at(0) - at(1e-3)
	if before := at(-1e-3) - at(0); math.Abs(perMillimetre-before) > 1e-3*at(0) {
		t.Errorf("the wind's force falls by %g N in the first millimetre under water, by %g N in the last over it, of %g N", perMillimetre, before, at(0))
	}
	if deep := at(0.2); !(deep < 0.9*at(0)) {
		t.Errorf("the wind pushes with %g N on a foil that is in the water, %g N on a dry one", deep, at(0))
	}
}
