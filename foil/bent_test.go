package foil

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mat"

	"foilwright/boat"
	"foilwright/frame"
	"foilwright/si"
)

// lBoard is a made-up L of one piece, with a rudder of long blade and small wings behind it.
func lBoard(t testing.TB) (*boat.Boat, boat.State) {
	t.Helper()
	board := inverted(t, frame.Point[frame.Boat]{}, 2, 1, 0, tapered(0.5, 0.2))
	board.Name, board.Pieces = "board", board.Pieces[:1]
	board.Pieces[0].Path = pathOf(t, 0.3, point{}, point{Y: 0.06, Z: -1.7}, point{Y: -0.3, Z: -2.4}, point{Y: -2.1, Z: -2.2})
	board.Pieces[0].Chord = tapered(0.52, 0.21)
	rudder := inverted(t, frame.Point[frame.Boat]{X: -8.6}, 2.3, 0.72, 0, tapered(0.22, 0.11))
	rudder.Name, rudder.Moves = "rudder", nil
	return carrying(12, 1.1, 1*si.Degree, board, rudder)
}

// ripple returns the root mean square of what a polynomial of the fifth degree leaves of a
// figure over a sweep, over the change of it.
func ripple(t testing.TB, values []float64) float64 {
	t.Helper()
	n := len(values)
	powers := mat.NewDense(n, 6, nil)
	for k := range n {
		x, p := 2*float64(k)/float64(n-1)-1, 1.0
		for j := range 6 {
			powers.Set(k, j, p)
			p *= x
		}
	}
	var c, left mat.VecDense
	y := mat.NewVecDense(n, values)
	if err := c.SolveVec(powers, y); err != nil {
		t.Fatal(err)
	}
	left.MulVec(powers, &c)
	left.SubVec(y, &left)
	return mat.Norm(&left, 2) / math.Sqrt(float64(n)) / (slices.Max(values) - slices.Min(values))
}

// Loads of a foil that bends do not ripple as it is lifted and its strips slide along the
// bend; nor does induced drag as a rudder's wake passes over the foil's with leeway, though
// strips of the one are many times as wide as those of the other.
func TestBentFoilDoesNotRipple(t *testing.T) {
	b, s := lBoard(t)
	w := &Workspace{}
	type swept struct{ drag, side, lift []float64 }
	sweep := func(set func(share float64)) (v swept) {
		for k := range 161 {
			set(float64(k) / 160)
			f := loadsOf(t, b, s, w, boat.Potential, boat.Induced).Force
			v.drag, v.side, v.lift = append(v.drag, f.X), append(v.side, f.Y), append(v.lift, f.Z)
		}
		return v
	}
	s.Attitude.Leeway = 2 * si.Degree
	lifted := sweep(func(share float64) { s.Attitude.Height = 1.0 + 0.3*share })
	s.Attitude.Height = 1.1
	yawed := sweep(func(share float64) { s.Attitude.Leeway = (0.5 + 3.5*si.Angle(share)) * si.Degree })
	for _, c := range []struct {
		what   string
		values []float64
		most   float64
	}{
		{"drag over 0.3 m of height", lifted.drag, 2e-4}, {"side force over 0.3 m of height", lifted.side, 2e-4}, {"lift over 0.3 m of height", lifted.lift, 5e-4},
		{"drag over 3.5° of leeway", yawed.drag, 2e-5},
	} {
		got := ripple(t, c.values)
		t.Logf("%s: ripples by %.1e of its change", c.what, got)
		if got > c.most {
			t.Errorf("%s: ripples by %.1e of its change, more than %.0e", c.what, got, c.most)
		}
	}
}
