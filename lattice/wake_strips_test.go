package lattice

import (
	"math"
	"testing"
)

// Which number a strip has changes neither its loads nor the far wake's drag.
func TestStripsInAnyOrder(t *testing.T) {
	loads := func(order func(i, n int) int) ([][3]float64, Totals) {
		p := craftAt(0)
		n := p.Len()
		for i := range p.Strip {
			p.Strip[i] = order(i, n)
		}
		var w Workspace
		if err := w.Assemble(p, FreeSurface, Options{}); err != nil {
			t.Fatal(err)
		}
		circulation, force := make([]float64, n), make([][3]float64, n)
		for i := range circulation {
			circulation[i] = p.Normal[i][0] + 0.1
		}
		if err := w.Solve(circulation, circulation); err != nil {
			t.Fatal(err)
		}
		return force, w.Forces(circulation, force)
	}
	want, total := loads(func(i, _ int) int { return i })
	got, other := loads(func(i, n int) int { return n - 1 - i })
	if math.Abs(other.Induced/total.Induced-1) > 1e-12 {
		t.Errorf("induced drag %g with strips numbered backwards, %g forwards", other.Induced, total.Induced)
	}
	for i := range want {
		for k := range 3 {
			if math.Abs(got[i][k]-want[i][k]) > 1e-12*math.Abs(total.Force[2]) {
				t.Errorf("panel %d: %v with strips numbered backwards, %v forwards", i, got[i], want[i])
			}
		}
	}
}
