package foil

import (
	"math"
	"testing"

	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/frame"
	"foilwright/si"
)

// dinghy is a made-up pair of T foils, the rudder's wing 2.4 m behind the main
// foil's and at the same depth, so that pitch takes it up and down through the
// other's wake.
func dinghy(t testing.TB) (*boat.Boat, boat.State) {
	t.Helper()
	main := inverted(t, frame.Point[frame.Boat]{}, 1.0, 0.45, 0, tapered(0.12, 0.06))
	rudder := inverted(t, frame.Point[frame.Boat]{X: -2.4}, 1.0, 0.35, 0, tapered(0.10, 0.05))
	main.Name, rudder.Name = "main", "rudder"
	main.Pieces[0].Chord, rudder.Pieces[0].Chord = straight(0.12), straight(0.11)
	return carrying(9, 0.45, 2*si.Degree, main, rudder)
}

// tail returns the force on the rudder's wings across the stream, N.
func tail(t testing.TB, b *boat.Boat, s boat.State, w *Workspace) frame.Vec[frame.Track] {
	t.Helper()
	items, err := Loads(b, s, fluid.StandardSea(), w, nil)
	if err != nil {
		t.Fatal(err)
	}
	var sum frame.Vec[frame.Track]
	for _, it := range items {
		if it.Part == "rudder" && it.Piece != "strut" && it.Cause == boat.Potential {
			sum = sum.Plus(it.Load.Force)
		}
	}
	return sum
}

// A rudder wing in the wake of the main foil: over leeway of ±5° and pitch of ±3°
// its loads are smooth, and change by less than 2 % of the wing's usual load on
// twice the strips.
func TestWingInAnothersWake(t *testing.T) {
	b, s := dinghy(t)
	coarse, fine := &Workspace{}, &Workspace{Options: DefaultOptions()}
	fine.Options.Strips *= 2
	usual := tail(t, b, s, coarse).Norm()
	worst := 0.0
	for _, leeway := range []si.Angle{-5, -3, -1.3, 0, 0.4, 2, 5} {
		for _, pitch := range []si.Angle{-3, -2, -1, -0.3, 0, 0.2, 1, 2, 3} {
			s.Attitude.Leeway, s.Attitude.Pitch = leeway*si.Degree, pitch*si.Degree
			a, z := tail(t, b, s, coarse), tail(t, b, s, fine)
			change := a.Minus(z).Norm() / math.Max(usual, z.Norm())
			worst = math.Max(worst, change)
			if change > 0.02 {
				t.Errorf("leeway %g, pitch %g deg: %.0f N on usual strips, %.0f N on twice as many", leeway, pitch, a.Z, z.Z)
			}
		}
	}
	t.Logf("doubling the strips moves the wing's load by at most %.2f %% of it (usually %.0f N)", 100*worst, usual)
}

// Smooth: in steps of 0.05° the load never bends by more than a small share of
// what it changes by over a degree.
func TestPassageThroughAWakeIsSmooth(t *testing.T) {
	b, s := dinghy(t)
	w := &Workspace{}
	const step = 0.05 * si.Degree
	for name, set := range map[string]func(a si.Angle){
		"pitch":  func(a si.Angle) { s.Attitude.Pitch, s.Attitude.Leeway = a, 0.7*si.Degree },
		"leeway": func(a si.Angle) { s.Attitude.Leeway, s.Attitude.Pitch = a, 0.1*si.Degree },
	} {
		var values []float64
		for a := -3 * si.Degree; a <= 3*si.Degree; a += step {
			set(a)
			values = append(values, tail(t, b, s, w).Z)
		}
		perDegree, bend := 0.0, 0.0
		for i := 20; i < len(values); i++ {
			perDegree = math.Max(perDegree, math.Abs(values[i]-values[i-20]))
			bend = math.Max(bend, math.Abs(values[i]-2*values[i-1]+values[i-2]))
		}
		t.Logf("over %s the wing's load changes by up to %.1f N a degree and bends by up to %.3f N a step", name, perDegree, bend)
		if bend > 0.02*math.Max(perDegree, 1) {
			t.Errorf("over %s the wing's load bends by %.3f N between steps of 0.05 deg, and changes by %.1f N a degree", name, bend, perDegree)
		}
	}
}

// How much the wake's core matters: the factor that the model leaves uncertain.
func TestWakeCoreMatters(t *testing.T) {
	b, s := dinghy(t)
	s.Attitude.Leeway = 1 * si.Degree
	load := func(core float64) float64 {
		changed := *b
		changed.Model.WakeCore = core
		return tail(t, &changed, s, &Workspace{}).Z
	}
	small, usual, large := load(0.10), load(0.25), load(0.60)
	t.Logf("rudder wing in the wake's plane: %.1f N with a core of 0.10 chords, %.1f with 0.25, %.1f with 0.60", small, usual, large)
	if math.Abs(small-usual) > 0.25*math.Abs(usual) || math.Abs(large-usual) > 0.25*math.Abs(usual) {
		t.Errorf("the core changes the wing's load from %.1f to %.1f N about %.1f: too much to be a detail", small, large, usual)
	}
	if small == usual {
		t.Error("the core changes nothing: it is not in use")
	}
}

// The junction of strut and wing: side force within 1 % on four times the strips,
// for a T and an inverted V at leeway and heel.
func TestJunctionConverges(t *testing.T) {
	for _, droop := range []si.Angle{0, 20 * si.Degree} {
		b, s := carrying(14, 0.6, 2*si.Degree, inverted(t, frame.Point[frame.Boat]{}, 2, 1.1, droop, tapered(0.3, 0.12)))
		s.Attitude.Leeway, s.Attitude.Heel = 3*si.Degree, 12*si.Degree
		fine := &Workspace{Options: DefaultOptions()}
		fine.Options.Strips *= 4
		a, z := loadsOf(t, b, s, &Workspace{}, boat.Potential).Force.Y, loadsOf(t, b, s, fine, boat.Potential).Force.Y
		t.Logf("droop %.0f deg: side force %+.3f %% off that on four times the strips", droop.Degrees(), 100*(a/z-1))
		if math.Abs(a/z-1) > 0.01 {
			t.Errorf("droop %.0f deg: side force %.1f N, on four times the strips %.1f N", droop.Degrees(), a, z)
		}
	}
}
