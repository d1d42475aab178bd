package lattice

import (
	"fmt"
	"math"
	"testing"
)

// Two halves of a wing that meet on a centreline, as on a T, against the wing
// in one piece, by spacing of the joined end.
func TestHalvesAgainstWhole(t *testing.T) {
	for _, sweep := range []float64{0, 15} {
		for _, strips := range []int{8, 12, 24} {
			var whole, both Panels
			span := wing(6, sweep*degree, 0.5)
			AppendSpan(&whole, span, 0, 1, 96, 1, 0, 0)
			_, _, want := loaded(t, &whole, FreeSurface, 0.05, 0)
			AppendSpan(&both, span, 0, 0.5, strips, 1, 0, 0)
			AppendSpan(&both, span, 0.5, 1, strips, 1, 0, 0)
			_, _, got := loaded(t, &both, FreeSurface, 0.05, 0)
			var free Panels
			AppendSpaced(&free, span, 0, 0.5, strips, 1, CosineStart, 0, 0)
			AppendSpaced(&free, span, 0.5, 1, strips, 1, CosineEnd, 0, 0)
			_, _, other := loaded(t, &free, FreeSurface, 0.05, 0)
			t.Logf("sweep %g°, %d strips a half: crowded at both ends lift %+.3f %%, drag %+.3f %%; at the free end %+.3f %%, %+.3f %%", sweep, strips,
				100*(got.Force[2]/want.Force[2]-1), 100*(got.Induced/want.Induced-1), 100*(other.Force[2]/want.Force[2]-1), 100*(other.Induced/want.Induced-1))
			if math.Abs(got.Force[2]/want.Force[2]-1) > 1e-3 || math.Abs(got.Induced/want.Induced-1) > 2e-3 {
				t.Errorf("sweep %g°, %d strips a half: lift %g, whole %g; drag %g, whole %g", sweep, strips, got.Force[2], want.Force[2], got.Induced, want.Induced)
			}
		}
	}
}

// An inverted V's closed form, by spacing of the joined end: what CosineBoth is
// the default for.
func TestCornerSpacing(t *testing.T) {
	want := published(t, "letcher-1972", "3.38")[0]
	worst := map[Spacing]float64{}
	for _, spacing := range []Spacing{CosineBoth, CosineStart} {
		for _, strips := range []int{12, 24} {
			var p Panels
			cut(&p, strips, 0.1, spacing, vee(-45*degree, 0)...)
			e, _ := efficiency(t, &p, Unbounded, 1)
			t.Logf("inverted V at 45°, spacing %d, %d strips an arm: e %+.3f %%", spacing, strips, 100*(e/want-1))
			worst[spacing] = max(worst[spacing], math.Abs(e/want-1))
		}
	}
	if worst[CosineBoth] > worst[CosineStart] {
		t.Errorf("nodes crowded at the corner are off by %g, else by %g", worst[CosineBoth], worst[CosineStart])
	}
}

// Strips of every spacing run from end to end, in order, share their nodes bit
// for bit, and have their force point on the bound vortex.
func TestNodes(t *testing.T) {
	for _, spacing := range []Spacing{CosineBoth, CosineStart, CosineEnd} {
		for _, rows := range []int{1, 3} {
			var p Panels
			AppendSpaced(&p, wing(6, 0, 1), 0.1, 0.7, 9, rows, spacing, 2, 0.3)
			name := fmt.Sprintf("spacing %d, %d rows", spacing, rows)
			if p.Len() != 9*rows || p.Strips() != 9 {
				t.Fatalf("%s: %d panels, %d strips", name, p.Len(), p.Strips())
			}
			for i := range p.Len() {
				if p.B[i][1] >= p.Mid[i][1] || p.Mid[i][1] >= p.A[i][1] {
					t.Errorf("%s: panel %d runs from %g over %g to %g", name, i, p.A[i][1], p.Mid[i][1], p.B[i][1])
				}
				if i%9 > 0 && p.B[i] != p.A[i-1] {
					t.Errorf("%s: panels %d and %d do not meet", name, i-1, i)
				}
				if p.Control[i][0] >= p.Mid[i][0] {
					t.Errorf("%s: panel %d has its control point ahead", name, i)
				}
			}
			start, end := wing(6, 0, 1)(0.1), wing(6, 0, 1)(0.7)
			if p.B[0][1] != start.Quarter[1] || p.A[8][1] != end.Quarter[1] {
				t.Errorf("%s: ends at %g and %g", name, p.B[0][1], p.A[8][1])
			}
			w := assembled(t, &p, Unbounded)
			if got := len(w.chains.steps); got != 10*rows {
				t.Errorf("%s: %d nodes", name, got)
			}
		}
	}
	var p Panels
	AppendSpan(&p, wing(6, 0, 1), 0, 1, 0, 1, 0, 0)
	if p.Len() != 0 {
		t.Error("no strips make panels")
	}
	AppendSpan(&p, wing(6, 0, 1), 0, 1, 1, 1, 0, 0)
	if x := p.Control[0][0] - p.Mid[0][0]; math.Abs(x+0.5) > 1e-15 {
		t.Errorf("one row: control point %g chords from the force point", x)
	}
}

// The correction for depth on a swept span, one row against ten.
func TestDepthWithSweep(t *testing.T) {
	for _, sweep := range []float64{0, 15, 30} {
		for _, depth := range []float64{0.1, 0.25, 0.5} {
			lift := func(rows int, b Boundary) float64 {
				var p Panels
				AppendSpan(&p, wing(6, sweep*degree, depth), 0, 0.5, 16, rows, 0, 0)
				AppendSpan(&p, wing(6, sweep*degree, depth), 0.5, 1, 16, rows, 0, 0)
				_, _, total := loaded(t, &p, b, 1, 0)
				return total.Force[2]
			}
			off := lift(1, FreeSurface)/lift(1, Unbounded)/(lift(8, FreeSurface)/lift(8, Unbounded)) - 1
			t.Logf("sweep %g°, depth %g chords: one row is %+.2f %% off", sweep, depth, 100*off)
			if math.Abs(off) > 0.015 {
				t.Errorf("sweep %g°, depth %g chords: one row is %+.2f %% off", sweep, depth, 100*off)
			}
		}
	}
}
