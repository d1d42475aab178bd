package lattice

import (
	"errors"
	"math"
	"strings"
	"testing"
)

// craftAt is a leaning wing that pierces the water with another behind it, moved by
// a step: it sinks, yaws and leans.
func craftAt(step float64) *Panels {
	var p Panels
	moved := func(span func(float64) Station) func(float64) Station {
		return func(s float64) Station {
			st := span(s)
			q := &st.Quarter
			q[0], q[1] = q[0]+0.3*step*q[1], q[1]+step*(0.5*q[2]-0.3*q[0])
			q[2] *= 1 + 0.4*step
			st.Normal[0] += 0.2 * step
			return st
		}
	}
	AppendSpan(&p, moved(wing(6, 0.3, 0.4)), 0, 1, 14, 1, 0, 0.1)
	AppendSpan(&p, moved(func(s float64) Station {
		st := wing(4, 0.1, 0.5)(s)
		st.Quarter[0] -= 5
		return st
	}), 0, 1, 10, 1, 1, 0.1)
	return &p
}

// Circulations beside a lattice are those of the lattice itself: to rounding where
// it is the same, and a step away to the square of the step.
func TestBeside(t *testing.T) {
	var base, whole, beside Workspace
	at := craftAt(0)
	if err := base.Assemble(at, FreeSurface, Options{}); err != nil {
		t.Fatal(err)
	}
	n := at.Len()
	washOf := func(p *Panels) []float64 {
		wash := make([]float64, n)
		for i := range wash {
			wash[i] = p.Normal[i][0] + 0.05 + 0.001*float64(i)
		}
		return wash
	}
	known := make([]float64, n)
	if err := base.Solve(washOf(at), known); err != nil {
		t.Fatal(err)
	}
	worst := func(step float64) (off float64) {
		p := craftAt(step)
		if err := whole.Assemble(p, FreeSurface, Options{}); err != nil {
			t.Fatal(err)
		}
		if err := beside.AssembleBeside(p, FreeSurface, Options{}, nil); err != nil {
			t.Fatal(err)
		}
		want, got := make([]float64, n), make([]float64, n)
		if err := whole.Solve(washOf(p), want); err != nil {
			t.Fatal(err)
		}
		if err := beside.SolveBeside(&base, known, washOf(p), got); err != nil {
			t.Fatal(err)
		}
		for i := range want {
			off = math.Max(off, math.Abs(got[i]-want[i]))
		}
		return off
	}
	if off := worst(0); off > 1e-15 {
		t.Errorf("at the lattice itself off by %g m", off)
	}
	far, near := worst(1e-2), worst(1e-3)
	t.Logf("a hundredth of a step away off by %.2g m, a thousandth %.2g m", far, near)
	if near > far/80 || near == 0 {
		t.Errorf("a tenth of the step leaves %g of %g m, not a hundredth", near, far)
	}
}

// What is not beside another is refused.
func TestBesideNothing(t *testing.T) {
	var base, beside, other Workspace
	p := craftAt(0)
	wash := make([]float64, p.Len())
	refused := func(what string, err error) {
		t.Helper()
		var input *InputError
		if !errors.As(err, &input) || !strings.Contains(err.Error(), "hint:") {
			t.Errorf("%s: %v", what, err)
		}
	}
	refused("nothing assembled", beside.SolveBeside(&base, wash, wash, wash))
	if err := beside.AssembleBeside(p, FreeSurface, Options{}, nil); err != nil {
		t.Fatal(err)
	}
	refused("beside nothing", beside.SolveBeside(&base, wash, wash, wash))
	refused("beside itself", beside.SolveBeside(&beside, wash, wash, wash))
	refused("on its own", beside.Solve(wash, wash))
	refused("on its own, many", beside.SolveMany(wash, wash, 1))
	var small Panels
	AppendSpan(&small, wing(6, 0, 1), 0, 1, 8, 1, 0, 0)
	if err := other.Assemble(&small, FreeSurface, Options{}); err != nil {
		t.Fatal(err)
	}
	refused("beside fewer", beside.SolveBeside(&other, wash, wash, wash))
	if err := base.Assemble(p, FreeSurface, Options{}); err != nil {
		t.Fatal(err)
	}
	refused("factorised itself", base.SolveBeside(&base, wash, wash, wash))
}
