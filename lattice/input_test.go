package lattice

import (
	"errors"
	"math"
	"strings"
	"testing"
)

func TestBadPanels(t *testing.T) {
	good := func() *Panels {
		var p Panels
		AppendSpan(&p, wing(6, 0, 1), 0, 1, 8, 1, 0, 0)
		return &p
	}
	for _, c := range []struct {
		spoil func(p *Panels)
		says  string
	}{
		{func(p *Panels) { p.Reset() }, "no panels"},
		{func(p *Panels) { p.Core = p.Core[:3] }, "arrays of lengths 8 and 3"},
		{func(p *Panels) { p.Control[2][1] = math.NaN() }, "panel 2: a coordinate is not a finite number"},
		{func(p *Panels) { p.A[7][0] = math.Inf(1) }, "panel 7: a coordinate is not a finite number"},
		{func(p *Panels) { p.Chord[1] = 0 }, "panel 1: chord 0 m, must be above 0"},
		{func(p *Panels) { p.Core[1] = -1 }, "panel 1: core -1 m"},
		{func(p *Panels) { p.Strip[4] = 8 }, "panel 4: strip 8, must be from 0 to below 8"},
		{func(p *Panels) { p.Mid[5][2] = 3 }, "panel 5: force point 3 m above the water\nhint: cut surfaces at z = 0"},
	} {
		p := good()
		c.spoil(p)
		var w Workspace
		err := w.Assemble(p, FreeSurface, Options{})
		var input *InputError
		if !errors.As(err, &input) || !strings.Contains(err.Error(), c.says) {
			t.Errorf("want %q, got %v", c.says, err)
		}
		if w.Solve(make([]float64, 8), make([]float64, 8)) == nil {
			t.Errorf("%q: the workspace solves after an error", c.says)
		}
	}
	var w Workspace
	if w.Assemble(good(), Boundary(7), Options{}) == nil || w.Assemble(good(), Wall, Options{Depth: 9}) == nil {
		t.Error("an unknown boundary or depth is accepted")
	}
}

func TestSingular(t *testing.T) {
	var p Panels
	AppendSpan(&p, wing(6, 0, 1), 0, 1, 8, 1, 0, 0)
	p.A[3], p.B[3] = [3]float64{0, 0, -1}, [3]float64{0, 0, -1}
	var w Workspace
	err := w.Assemble(&p, Unbounded, Options{})
	var singular *SingularError
	if !errors.As(err, &singular) || !strings.Contains(err.Error(), "hint:") {
		t.Errorf("a panel without length: %v", err)
	}
}

func TestLengths(t *testing.T) {
	var p Panels
	var w Workspace
	AppendSpan(&p, wing(6, 0, 1), 0, 1, 8, 1, 0, 0)
	if err := w.Assemble(&p, Unbounded, Options{}); err != nil {
		t.Fatal(err)
	}
	eight, seven := make([]float64, 8), make([]float64, 7)
	for what, err := range map[string]error{
		"short wash":         w.Solve(seven, eight),
		"short circulation":  w.Solve(eight, seven),
		"no sides":           w.SolveMany(eight, eight, 0),
		"sides without wash": w.SolveMany(eight, eight, 2),
		"short optimum":      func() error { _, err := w.Optimum(nil, seven); return err }(),
		"short induced":      func() error { _, err := w.Induced(seven); return err }(),
		"wash that is none":  w.Solve([]float64{math.NaN(), 0, 0, 0, 0, 0, 0, 0}, eight),
		"aim along the track": func() error {
			_, err := w.Optimum([]Aim{{Direction: [3]float64{1, 0, 0}, Force: 1}}, eight)
			return err
		}(),
	} {
		if err == nil {
			t.Errorf("%s is accepted", what)
		}
	}
	if p.Len() != 8 || p.Strips() != 8 || w.Strips() != 8 {
		t.Errorf("%d panels, %d strips", p.Len(), p.Strips())
	}
}

// Points on a vortex's own line, on a node and on a leg's axis give no NaN.
func TestOnTheAxis(t *testing.T) {
	for _, b := range []Boundary{Unbounded, FreeSurface, Wall} {
		var p Panels
		AppendSpan(&p, wing(6, 0, 0), 0, 1, 8, 1, 0, 0) // in the plane z = 0 itself
		p.Control[2] = p.A[2]
		p.Control[3] = [3]float64{-4, p.A[1][1], 0}
		p.Mid[4] = p.B[4]
		var w Workspace
		if err := w.Assemble(&p, b, Options{}); err != nil {
			continue // singular is an answer
		}
		for _, v := range w.influence {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Fatalf("%v: influence %v", b, v)
			}
		}
		w.need(everything)
		for _, v := range w.near.drag {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Fatalf("%v: drag %v at a force point", b, v)
			}
		}
	}
}

// Several right-hand sides give what each gives alone, and the load is linear.
func TestSolveMany(t *testing.T) {
	var p Panels
	bladed(&p, 8)
	w := assembled(t, &p, FreeSurface)
	n := p.Len()
	both := make([]float64, 3*n)
	one, two, sum := make([]float64, n), make([]float64, n), make([]float64, n)
	for i := range n {
		one[i], two[i] = -p.Normal[i][2], -p.Normal[i][1]
		sum[i] = one[i] + 2*two[i]
		both[3*i], both[3*i+1], both[3*i+2] = one[i], two[i], sum[i]
	}
	if err := w.SolveMany(both, both, 3); err != nil {
		t.Fatal(err)
	}
	for _, g := range [][]float64{one, two, sum} {
		if err := w.Solve(g, g); err != nil {
			t.Fatal(err)
		}
	}
	for i := range n {
		for k, g := range []float64{one[i], two[i], sum[i]} {
			if math.Abs(both[3*i+k]-g) > 1e-12 {
				t.Fatalf("panel %d, side %d: %g together, %g alone", i, k, both[3*i+k], g)
			}
		}
		if math.Abs(sum[i]-one[i]-2*two[i]) > 1e-12 {
			t.Fatalf("panel %d is not linear", i)
		}
	}
}

// A used workspace gives the same bits as a new one, and a state allocates
// nothing once it has grown.
func TestReuse(t *testing.T) {
	var p, large Panels
	bladed(&p, 12)
	bladed(&large, 20)
	used := assembled(t, &large, Wall)
	if err := used.Assemble(&p, FreeSurface, Options{}); err != nil {
		t.Fatal(err)
	}
	fresh := assembled(t, &p, FreeSurface)
	n := p.Len()
	wash, a, b := make([]float64, n), make([]float64, n), make([]float64, n)
	for i := range n {
		wash[i] = -p.Normal[i][2]
	}
	forceA, forceB := make([][3]float64, n), make([][3]float64, n)
	if used.Solve(wash, a) != nil || fresh.Solve(wash, b) != nil {
		t.Fatal("no solution")
	}
	if used.Forces(a, forceA) != fresh.Forces(b, forceB) {
		t.Error("totals differ between a used and a new workspace")
	}
	for i := range n {
		if forceA[i] != forceB[i] {
			t.Fatalf("panel %d: %v used, %v new", i, forceA[i], forceB[i])
		}
	}
	allocations := testing.AllocsPerRun(20, func() {
		if used.Assemble(&p, FreeSurface, Options{}) != nil || used.Solve(wash, a) != nil {
			t.Fatal("no solution")
		}
		used.Forces(a, forceA)
	})
	if allocations != 0 {
		t.Errorf("%g allocations a state", allocations)
	}
}
