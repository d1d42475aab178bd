package foil

import (
	"math"
	"reflect"
	"slices"
	"testing"

	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/frame"
	"foilwright/si"
)

// sumOf returns the six sums of the water's loads of a state.
func sumOf(t testing.TB, b *boat.Boat, s boat.State, w *Workspace) (sum [6]float64) {
	t.Helper()
	items, err := Loads(b, s, fluid.StandardSea(), w, nil)
	if err != nil {
		t.Fatal(err)
	}
	total := frame.Load[frame.Track]{}
	for i := range items {
		total = total.Plus(items[i].Load)
	}
	return [6]float64{total.Force.X, total.Force.Y, total.Force.Z, total.Moment.X, total.Moment.Y, total.Moment.Z}
}

// Slopes of states beside one that is held are those of differences either way on
// lattices of their own; and what is not a tiny step away is found whole.
func TestBesideAState(t *testing.T) {
	f := inverted(t, frame.Point[frame.Boat]{}, 1.4, 0.8, 0.3, tapered(0.3, 0.12))
	b, s := carrying(9, 0.5, 2*si.Degree, f)
	s.Attitude.Heel, s.Attitude.Leeway = 5*si.Degree, 1*si.Degree
	here, aside := &Workspace{}, &Workspace{}
	aside.LeanOn(here)
	if err := here.Hold(); err != nil || here.held != 0 {
		t.Fatalf("held with nothing solved: %v", err)
	}
	at := sumOf(t, b, s, here)
	if err := here.Hold(); err != nil || here.held == 0 {
		t.Fatalf("not held: %v", err)
	}
	for name, move := range map[string]func(s *boat.State, h float64){
		"speed":  func(s *boat.State, h float64) { s.Speed += si.Speed(h) },
		"leeway": func(s *boat.State, h float64) { s.Attitude.Leeway += si.Angle(0.01 * h) },
		"heel":   func(s *boat.State, h float64) { s.Attitude.Heel += si.Angle(0.03 * h) },
		"pitch":  func(s *boat.State, h float64) { s.Attitude.Pitch += si.Angle(0.01 * h) },
		"height": func(s *boat.State, h float64) { s.Attitude.Height += 0.1 * h },
	} {
		const h = 1e-6
		moved := func(h float64) boat.State {
			c := s.Clone()
			move(&c, h)
			return c
		}
		w := aside
		if name == "speed" {
			w = here
		}
		near := sumOf(t, b, moved(h), w)
		up, down := sumOf(t, b, moved(1e-4), &Workspace{}), sumOf(t, b, moved(-1e-4), &Workspace{})
		if here.held == 0 || name != "speed" && aside.leant != here.held {
			t.Errorf("%s: nothing was leant on", name)
		}
		size := 0.0
		for i := range at {
			size = math.Max(size, math.Abs(up[i]-down[i])/2e-4)
		}
		for i := range at {
			if got, want := (near[i]-at[i])/h, (up[i]-down[i])/2e-4; !(math.Abs(got-want) <= 2e-5*size) {
				t.Errorf("%s, sum %d: slope %.8g, by differences either way %.8g, of %.3g", name, i, got, want, size)
			}
		}
		if far := sumOf(t, b, moved(0.1), w); far != sumOf(t, b, moved(0.1), &Workspace{}) {
			t.Errorf("%s: a state far away leans on the one that is held", name)
		}
	}
	here.Release()
	s.Attitude.Heel += 1e-7
	if sumOf(t, b, s, aside) != sumOf(t, b, s, &Workspace{}) || aside.leant != 0 {
		t.Error("a state leans on one that was let go of")
	}
}

// A foil that stands as it does in the held state is laid as it lies there, and lies as in
// a fresh workspace: whichever of two foils is turned, by much or by little.
func TestTheOtherFoilIsLaidAsHeld(t *testing.T) {
	fore := inverted(t, frame.Point[frame.Boat]{}, 1.4, 0.8, 0.3, tapered(0.3, 0.12))
	back := inverted(t, frame.Point[frame.Boat]{X: -5}, 1.2, 0.6, 0.2, tapered(0.2, 0.1))
	for i, f := range []*boat.Foil{&fore, &back} {
		f.Moves = []boat.Move{{Axis: frame.Vec[boat.Local]{Y: 1}, Control: i}}
	}
	b, s := carrying(9, 0.5, 2*si.Degree, fore, back)
	s.Settings = []float64{0.01, -0.02}
	here, aside := &Workspace{}, &Workspace{}
	aside.LeanOn(here)
	sumOf(t, b, s, here)
	if err := here.Hold(); err != nil || here.held == 0 {
		t.Fatalf("not held: %v", err)
	}
	for control := range s.Settings {
		for _, step := range []float64{1e-7, 0.05} {
			c, fresh := s.Clone(), &Workspace{}
			c.Settings[control] += step
			sumOf(t, b, c, aside)
			sumOf(t, b, c, fresh)
			for i := range aside.standing {
				if p := &aside.standing[i]; p.same != (p.foil != control) {
					t.Errorf("control %d by %g: foil %d, piece %d as held: %v", control, step, p.foil, p.index, p.same)
				}
			}
			if !reflect.DeepEqual(aside.panels, fresh.panels) || !slices.Equal(aside.strips, fresh.strips) || !slices.Equal(aside.found, fresh.found) {
				t.Errorf("control %d by %g: foils lie differently than in a fresh workspace", control, step)
			}
		}
	}
	here.Release()
	sumOf(t, b, s, aside)
	if aside.standsStill() {
		t.Error("pieces stand in a state that was let go of")
	}
}
