package boat

import (
	"math"
	"testing"

	"foilwright/frame"
	"foilwright/si"
)

const deg = float64(si.Degree)

// pair is a boat with one canting foil a side and a rudder, for signs alone.
func pair(t testing.TB) *Boat {
	b := &Boat{Name: "Pair", Length: 10}
	for i, side := range []Side{Port, Starboard} {
		y := side.Sign()
		b.Controls = append(b.Controls,
			Control{Name: side.String() + " main cant", Part: "main", Label: "cant", Side: side, Lower: -0.2, Upper: 2})
		b.Foils = append(b.Foils, Foil{Name: side.String() + " main", Kind: "main", Side: side,
			Root: frame.Point[frame.Boat]{Y: 2 * y, Z: 1}, Mass: 100, MassShare: 1,
			Moves:  []Move{{Name: "cant", Axis: frame.Vec[Local]{X: y}, Control: i}},
			Pieces: []Piece{{Name: "arm", From: -1, Path: path(t, 0, local{}, local{Z: -3})}}})
	}
	b.Controls = append(b.Controls,
		Control{Name: "rudder", Part: "rudder", Label: "turn", Lower: -0.1, Upper: 0.1},
		Control{Name: "crew y", Part: "crew", Label: "y", Kind: LengthControl, Lower: -2, Upper: 2})
	b.Foils = append(b.Foils, Foil{Name: "rudder", Kind: "rudder", Root: frame.Point[frame.Boat]{X: -5},
		Moves:  []Move{{Name: "turn", Axis: frame.Vec[Local]{Z: 1}, Control: 2}},
		Pieces: []Piece{{Name: "blade", From: -1, Path: path(t, 0, local{}, local{Z: -2})}}})
	b.Weights = []Weight{{Name: "crew", Mass: 500, At: frame.Point[frame.Boat]{X: -3, Z: 1}, Shift: [3]int{-1, 3, -1}, Swing: Move{Control: -1}}}
	b.Hulls = []Hull{{Name: "hull", Sections: []HullSection{
		{X: 4, Points: [][2]float64{{0, 0.3}, {1, 0.8}}}, {X: 0, Points: [][2]float64{{0, 0}, {1.5, 0.6}}}, {X: -4, Points: [][2]float64{{0, 0.1}, {1.4, 0.5}}}}}}
	return b
}

// Positive cant lifts the tip outboard and up on both sides.
func TestCantLiftsOutboard(t *testing.T) {
	b := pair(t)
	settings := []float64{30 * deg, 30 * deg, 0, 0}
	for i := range 2 {
		f := &b.Foils[i]
		tip := f.Pose(settings).Point(f.Pieces[0].Path.End())
		want := frame.Point[frame.Boat]{Y: f.Side.Sign() * (2 + 3*0.5), Z: 1 - 3*math.Sqrt(0.75)}
		if d := tip.From(want).Norm(); d > 1e-12 {
			t.Errorf("%s: tip at %v, want %v", f.Name, tip, want)
		}
		if at := f.MassPlace(settings); at.From(want).Norm() > 1e-12 {
			t.Errorf("%s: its mass at %v, want it at the tip %v", f.Name, at, want)
		}
	}
}

// Moves act from the first outward: rake is about an axis that the cant carries.
func TestFirstMoveCarriesTheRest(t *testing.T) {
	f := pair(t).Foils[0]
	f.Moves = append(f.Moves, Move{Name: "rake", Axis: frame.Vec[Local]{Y: -1}, Control: -1, Fixed: 10 * deg})
	pose := f.Pose([]float64{90 * deg, 0, 0, 0})
	// Canted flat, the arm lies along +y; rake then turns its nose about an axis
	// that stands upright.
	nose := pose.Vec(frame.Vec[Local]{X: 1})
	if nose.Minus(frame.Vec[frame.Boat]{X: math.Cos(10 * deg), Y: -math.Sin(10 * deg)}).Norm() > 1e-12 {
		t.Errorf("nose points along %v", nose)
	}
}

// A slide at full share leaves the piece where it is drawn, and lifts it by its
// travel at none.
func TestSlide(t *testing.T) {
	f := Foil{Root: frame.Point[frame.Boat]{Z: 1}, Moves: []Move{{Kind: Slide, Axis: frame.Vec[Local]{Z: -1}, Length: 2, Control: 0}}}
	for share, want := range map[float64]float64{1: 1, 0.5: 2, 0: 3} {
		if got := f.Pose([]float64{share}).Origin.Z; math.Abs(got-want) > 1e-15 {
			t.Errorf("share %g: root at %g m, want %g", share, got, want)
		}
	}
}

// Ride height is that of the lowest point in the attitude: upright the keel, far
// over the bilge.
func TestRideHeight(t *testing.T) {
	b := pair(t)
	if got := b.RideHeight(Attitude{Height: 0.7}); got != 0.7 {
		t.Errorf("upright: %v m, want 0.7", got)
	}
	heeled := Attitude{Height: 1, Heel: 40 * si.Degree}
	want := 1 - 1.4*math.Sin(40*deg) + 0.5*math.Cos(40*deg)
	want = math.Min(want, 1-1.5*math.Sin(40*deg)+0.6*math.Cos(40*deg))
	if got := b.RideHeight(heeled); math.Abs(got-want) > 1e-12 {
		t.Errorf("heeled: %v m, want %v", got, want)
	}
	if got := b.RideHeight(b.AtRideHeight(heeled, 0.25)); math.Abs(got-0.25) > 1e-12 {
		t.Errorf("set to 0.25 m it rides at %v", got)
	}
}

// A mode's ranges go by windward and leeward; centre controls that turn over in
// the mirror change sides with the tack.
func TestBoundsByBearing(t *testing.T) {
	b := pair(t)
	m := &Mode{Ranges: []ModeRange{
		{Bearing: Leeward, Part: "main", Label: "cant", Lower: 0.1, Upper: 0.5},
		{Bearing: Windward, Part: "main", Label: "cant", Lower: 1.9, Upper: 3},
		{Part: "crew", Label: "y", Lower: 1, Upper: 2},
	}}
	lower, upper := b.Bounds(m, Port)
	if lower[1] != 0.1 || upper[1] != 0.5 || lower[0] != 1.9 || upper[0] != 2 || lower[3] != 1 || upper[3] != 2 {
		t.Errorf("wind from port: %v to %v", lower, upper)
	}
	lower, upper = b.Bounds(m, Starboard)
	if lower[0] != 0.1 || upper[0] != 0.5 || lower[1] != 1.9 || lower[3] != -2 || upper[3] != -1 {
		t.Errorf("wind from starboard: %v to %v", lower, upper)
	}
}

func TestMirror(t *testing.T) {
	b := pair(t)
	for control, want := range []struct {
		other int
		sign  float64
	}{{1, 1}, {0, 1}, {2, -1}, {3, -1}} {
		if other, sign := b.Mirror(control); other != want.other || sign != want.sign {
			t.Errorf("%s: mirrored by %s with sign %g", b.Controls[control].Name, b.Controls[other].Name, sign)
		}
	}
}

func TestLaw(t *testing.T) {
	law := &Law{RideHeight: []float64{0.3, 0.5}, Setting: []float64{0.2, -0.1}}
	for ride, want := range map[float64]float64{0: 0.2, 0.27: 0.2, 0.3: 0.2 - 1.5*0.02/4, 0.33: 0.155, 0.4: 0.05, 0.5: -0.1 + 1.5*0.02/4, 0.53: -0.1, 2: -0.1} {
		if got := law.At(ride); math.Abs(got-want) > 1e-15 {
			t.Errorf("at %g m: %g, want %g", ride, got, want)
		}
	}
	const step = 1e-7
	for ride := 0.25; ride < 0.55; ride += 0.0005 {
		before, after := (law.At(ride)-law.At(ride-step))/step, (law.At(ride+step)-law.At(ride))/step
		if math.Abs(after-before) > 1e-4 {
			t.Errorf("at %g m the slope jumps from %g to %g", ride, before, after)
		}
	}
	b := pair(t)
	b.Controls[2].Law = law
	s := State{Settings: make([]float64, 4), Attitude: Attitude{Height: 0.4}}
	b.ObeyLaws(&s)
	if math.Abs(s.Settings[2]-0.05) > 1e-15 {
		t.Errorf("the law sets %g, want 0.05", s.Settings[2])
	}
}

func TestPlaces(t *testing.T) {
	b := pair(t)
	if got := b.Mass(); got != 700 {
		t.Errorf("mass %g kg, want 700", got)
	}
	if got := b.Weights[0].Place([]float64{0, 0, 0, -1.5}); got != (frame.Point[frame.Boat]{X: -3, Y: -1.5, Z: 1}) {
		t.Errorf("crew at %v", got)
	}
	keel := Weight{At: frame.Point[frame.Boat]{Z: -4}, Shift: [3]int{-1, -1, -1},
		Swing: Move{Axis: frame.Vec[Local]{X: 1}, Control: 0}, About: frame.Point[frame.Boat]{Z: -1}}
	got := keel.Place([]float64{90 * deg})
	if got.From(frame.Point[frame.Boat]{Y: 3, Z: -1}).Norm() > 1e-12 {
		t.Errorf("keel swung by 90 deg at %v", got)
	}
}

// Limits of a mode stand in for the boat's of the same kind and part.
func TestLimitsIn(t *testing.T) {
	b := &Boat{Limits: []Limit{{Kind: LimitHeel, Upper: 1}, {Kind: LimitTipDepth, Lower: 0.15}}}
	got := b.LimitsIn(&Mode{Limits: []Limit{{Kind: LimitTipDepth, Lower: -0.3}, {Kind: LimitSheetLoad, Part: "jib", Upper: 9}}})
	if len(got) != 3 || got[1].Lower != -0.3 || got[2].Name() != "jib sheet load" || b.Limits[1].Lower != 0.15 {
		t.Errorf("limits %v, boat's %v", got, b.Limits)
	}
}
