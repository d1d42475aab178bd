package solve

import (
	"context"
	"math"
	"reflect"
	"testing"
)

func minimise(b benchmark, o Options) Outcome {
	return Minimise(context.Background(), b.problem(), b.start, o, nil)
}

// parabola is least distance from (2, 0) on the parabola y = 1 - x², with the
// equality repeated as the test wants it.
func parabola(equal int, fill func(c float64, e []float64)) benchmark {
	return benchmark{start: []float64{2, 3}, equal: equal, values: func(x []float64, v *Values) {
		v.F = sq(x[0]-2) + x[1]*x[1]
		fill(x[0]*x[0]+x[1]-1, v.Equal)
	}}
}

func TestRepeatedEqualities(t *testing.T) {
	once := minimise(parabola(1, func(c float64, e []float64) { e[0] = c }), Options{})
	if once.Status != Converged {
		t.Fatal(once.Status)
	}
	for name, b := range map[string]benchmark{
		"multiples": parabola(3, func(c float64, e []float64) { e[0], e[1], e[2] = c, 2*c, -c }),
		"curved":    parabola(2, func(c float64, e []float64) { e[0], e[1] = c, 2*c+c*c }),
		"sinh":      parabola(2, func(c float64, e []float64) { e[0], e[1] = c, math.Sinh(c) }),
	} {
		out := minimise(b, Options{})
		if out.Status != Converged || math.Abs(out.Values.F-once.Values.F) > 1e-8 {
			t.Errorf("%s: %v, F %.9g, once %.9g", name, out.Status, out.Values.F, once.Values.F)
		}
	}
}

func TestInfeasible(t *testing.T) {
	for name, b := range map[string]benchmark{
		"equalities contradict": parabola(2, func(c float64, e []float64) { e[0], e[1] = c, c+0.5 }),
		"circle outside the box": {start: []float64{0.3, 0.2}, lower: []float64{-1, -1}, upper: []float64{1, 1}, inequal: 1,
			values: func(x []float64, v *Values) { v.F, v.Inequal[0] = x[0], x[0]*x[0]+x[1]*x[1]-5 }},
		"line misses circle": {start: []float64{3, 1}, equal: 1, inequal: 1, values: func(x []float64, v *Values) {
			v.F, v.Equal[0], v.Inequal[0] = x[0]+x[1], x[0]+x[1]-4, 1-x[0]*x[0]-x[1]*x[1]
		}},
		"constant": {start: []float64{3, 1}, equal: 2, values: func(x []float64, v *Values) {
			v.F, v.Equal[0], v.Equal[1] = x[0]*x[0]+x[1], x[0]+x[1]-4, 0.25
		}},
		"all pinned": {start: []float64{3, 1}, lower: []float64{3, 2}, upper: []float64{3, 2}, equal: 1,
			values: func(x []float64, v *Values) { v.F, v.Equal[0] = x[0], x[0]+x[1]-4 }},
	} {
		out := minimise(b, Options{})
		if out.Status != Infeasible || out.Violation < 0.2 {
			t.Errorf("%s: %v, violation %g", name, out.Status, out.Violation)
		}
		equal, inequal := out.Broken(1e-6)
		if len(equal)+len(inequal) == 0 {
			t.Errorf("%s: nothing listed as broken", name)
		}
	}
}

// What stands in the way of an infeasible problem shows in the prices: here
// the bound on x and the need for x >= 3, and nothing else.
func TestInfeasiblePrices(t *testing.T) {
	out := minimise(benchmark{start: []float64{0, 0}, lower: []float64{-1, -1}, upper: []float64{1, 1}, inequal: 2,
		values: func(x []float64, v *Values) {
			v.F = x[1]
			v.Inequal[0], v.Inequal[1] = x[0]-3, 2-x[1]
		}}, Options{})
	if out.Status != Infeasible {
		t.Fatal(out.Status)
	}
	if out.InequalPrice[0] < 0.5 || out.InequalPrice[1] != 0 || out.BoundPrice[0] > -0.5 || math.Abs(out.BoundPrice[1]) > 1e-9 {
		t.Errorf("prices %v of constraints, %v of bounds", out.InequalPrice, out.BoundPrice)
	}
}

// Wächter and Biegler (2000, Mathematical Programming 88, 565–574): a problem
// on which line-search interior-point methods stop at an infeasible point.
func TestWachterBiegler(t *testing.T) {
	out := minimise(benchmark{start: []float64{-2, 1, 1}, lower: []float64{math.Inf(-1), 0, 0}, equal: 2,
		values: func(x []float64, v *Values) {
			v.F, v.Equal[0], v.Equal[1] = x[0], x[0]*x[0]-x[1]-1, x[0]-x[2]-0.5
		}}, Options{})
	if out.Status != Converged || math.Abs(out.Values.F-1) > 1e-8 {
		t.Errorf("%v at %v", out.Status, out.X)
	}
}

// Maratos's example (Nocedal and Wright 2006, example 15.4): on the circle the
// full step raises both objective and violation.
func TestMaratos(t *testing.T) {
	out := minimise(benchmark{start: []float64{math.Cos(0.7), math.Sin(0.7)}, equal: 1, values: func(x []float64, v *Values) {
		c := x[0]*x[0] + x[1]*x[1] - 1
		v.F, v.Equal[0] = 2*c-x[0], c
	}}, Options{})
	if out.Status != Converged || math.Abs(out.X[0]-1) > 1e-8 || math.Abs(out.EqualPrice[0]-1.5) > 1e-5 || out.Iterations > 12 {
		t.Errorf("%v at %v after %d, price %v", out.Status, out.X, out.Iterations, out.EqualPrice)
	}
}

func TestRegionsWithoutValues(t *testing.T) {
	barrier := func(x []float64, v *Values) {
		v.F = -math.Log(x[0]) - math.Log(1-x[0]-x[1]) - math.Log(x[1])
	}
	out := minimise(benchmark{start: []float64{0.9, 0.05}, values: barrier}, Options{})
	if out.Status != Converged || math.Abs(out.Values.F-3*math.Log(3)) > 1e-9 {
		t.Errorf("%v, F %v", out.Status, out.Values.F)
	}
	out = minimise(benchmark{start: []float64{5, 5}, values: barrier}, Options{})
	if out.Status != NoValue || !finite(out.Values.F) {
		t.Errorf("%v, F %v", out.Status, out.Values.F)
	}
	// The start is the only point that has a value.
	out = minimise(benchmark{start: []float64{1}, values: func(x []float64, v *Values) {
		v.F = 3
		if x[0] != 1 {
			v.F = math.NaN()
		}
	}}, Options{})
	if out.Status != NoValue || out.Values.F != 3 {
		t.Errorf("%v, F %v", out.Status, out.Values.F)
	}
	// A wall of refusals at a third of the way to the optimum.
	b := benchmark{start: []float64{3, 2}, equal: 1}
	p := b.problem()
	p.Values = func(x []float64, v *Values) bool {
		v.F, v.Equal[0] = sq(x[0])+x[1], x[0]-x[1]-1
		return x[0] >= 1
	}
	out = Minimise(context.Background(), p, b.start, Options{}, nil)
	if out.Status == Converged || out.X[0] < 1 || out.X[0] > 1.5 {
		t.Errorf("%v at %v", out.Status, out.X)
	}
}

func TestStartOutsideAndPins(t *testing.T) {
	b := benchmark{start: []float64{100, -7, 4}, lower: []float64{0, 1.5, -1}, upper: []float64{2, 1.5, 1}, inequal: 1,
		values: func(x []float64, v *Values) {
			for i, at := range x {
				if at < []float64{0, 1.5, -1}[i] || at > []float64{2, 1.5, 1}[i] {
					t.Errorf("evaluated outside the bounds: %v", x)
				}
			}
			v.F = sq(x[0]-1) + sq(x[1]-1) + sq(x[2]-3)
			v.Inequal[0] = 2 - x[0] - x[1] - 0.1*x[2]
		}}
	out := minimise(b, Options{})
	if out.Status != Converged || out.X[1] != 1.5 || out.X[2] != 1 || math.Abs(out.X[0]-0.4) > 1e-8 {
		t.Errorf("%v at %v", out.Status, out.X)
	}
	if !reflect.DeepEqual(out.Active, Active{Upper: []int{2}, Inequal: []int{0}}) {
		t.Errorf("active %+v", out.Active)
	}
}

func TestRefused(t *testing.T) {
	good := func() *Problem {
		b := smallBenchmarks[0]
		return b.problem()
	}
	for name, spoil := range map[string]func(p *Problem, x []float64){
		"no values":   func(p *Problem, x []float64) { p.Values = nil },
		"short bound": func(p *Problem, x []float64) { p.Lower = p.Lower[:1] },
		"crossed":     func(p *Problem, x []float64) { p.Lower[1], p.Upper[1] = 2, 1 },
		"nan bound":   func(p *Problem, x []float64) { p.Lower[0] = math.NaN() },
		"scale":       func(p *Problem, x []float64) { p.Scale = []float64{1, 0} },
		"nan start":   func(p *Problem, x []float64) { x[0] = math.NaN() },
		"count":       func(p *Problem, x []float64) { p.Equalities = -1 },
	} {
		p, x := good(), []float64{1, 1}
		spoil(p, x)
		out := Minimise(context.Background(), p, x, Options{}, nil)
		if out.Status != Refused || out.Err == nil {
			t.Errorf("%s: %v, %v", name, out.Status, out.Err)
		}
	}
}

func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	b := largeBenchmarks[len(largeBenchmarks)-1]
	p := b.problem()
	inner, calls := p.Values, 0
	p.Values = func(x []float64, v *Values) bool {
		if calls++; calls == 40 {
			cancel()
		}
		return inner(x, v)
	}
	out := Minimise(ctx, p, b.start, Options{}, nil)
	if out.Status != Cancelled || out.Evaluations > 60 || !finite(out.Values.F) {
		t.Errorf("%v after %d evaluations", out.Status, out.Evaluations)
	}
}

func TestUnboundedIsBounded(t *testing.T) {
	out := minimise(benchmark{start: []float64{4, 4}, equal: 1, values: func(x []float64, v *Values) {
		v.F, v.Equal[0] = -x[0], x[0]-x[1]
	}}, Options{Iterations: 50})
	if out.Status != IterationLimit || out.Iterations != 50 {
		t.Errorf("%v after %d", out.Status, out.Iterations)
	}
}
