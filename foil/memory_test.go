package foil

import (
	"testing"

	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/frame"
	"foilwright/si"
)

// What is remembered is what would be found afresh, to the last bit, and what a
// workspace has seen before changes nothing: of states in turn, wet, pierced and
// dry, and of options that change between them.
func TestMemoryIsTrue(t *testing.T) {
	f := inverted(t, frame.Point[frame.Boat]{}, 1.4, 0.8, 0.3, tapered(0.3, 0.12))
	f.Pieces[1].Twist = boat.Along{Share: []float64{0, 1}, Value: []float64{0.02, -0.05}}
	for i := range f.Pieces {
		m := remember(&f, i, 7)
		if m.strips() != 7 || len(m.whole) != 15 {
			t.Errorf("%s: %d strips, %d sections", f.Pieces[i].Name, m.strips(), len(m.whole))
		}
		for k, got := range m.whole {
			if want := localAt(&f.Pieces[i], m.shares[k]); got != want {
				t.Fatalf("%s at %.3f: remembered %+v, found %+v", f.Pieces[i].Name, m.shares[k], got, want)
			}
		}
	}
	b, s := carrying(9, 0.5, 2*si.Degree, f)
	used := &Workspace{}
	for round := range 2 {
		for _, height := range []float64{0.5, 1.3, 2.5, -1, 0.5} {
			for _, strips := range []int{12, 5} {
				s.Attitude.Height = height
				s.Attitude.Heel = si.Angle(round) * 4 * si.Degree
				used.Options = DefaultOptions()
				used.Options.Strips = strips
				fresh := &Workspace{Options: used.Options}
				if got, want := loadsOf(t, b, s, used, boat.Potential), loadsOf(t, b, s, fresh, boat.Potential); got != want {
					t.Fatalf("height %g m, %d strips: %v, in a fresh workspace %v", height, strips, got, want)
				}
			}
		}
	}
}

// Loads of new geometry again and again take no new memory.
func TestLoadsTakeNoMemory(t *testing.T) {
	b, s := carrying(9, 0.5, 2*si.Degree, inverted(t, frame.Point[frame.Boat]{}, 1.4, 0.8, 0.3, tapered(0.3, 0.12)))
	var w Workspace
	var items []boat.Item
	call := func() {
		var err error
		s.Attitude.Heel += 1e-3
		if items, err = Loads(b, s, fluid.StandardSea(), &w, items[:0]); err != nil {
			t.Fatal(err)
		}
	}
	call()
	if got := testing.AllocsPerRun(10, call); got != 0 {
		t.Errorf("%g allocations", got)
	}
}
