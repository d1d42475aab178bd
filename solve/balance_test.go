package solve

import (
	"context"
	"math"
	"reflect"
	"testing"
)

func TestGliderSlopes(t *testing.T) {
	for seed := range uint64(5) {
		g := newGlider(12, 24, 0.3, seed)
		if _, err := CheckSlopes(g.problem(), g.start(seed), 1e-7); err != nil {
			t.Error(err)
		}
	}
}

// From many starts, with slopes and with differences, the same optimum.
func TestGliderFromManyStarts(t *testing.T) {
	for _, differences := range []Differences{Forward, Adaptive} {
		var w Workspace
		runs, iterations, evaluations, gradients := 0, 0, 0, 0
		for seed := range uint64(20) {
			g := newGlider(12, 24, 0.1, seed)
			p := g.problem()
			if differences != Forward {
				p.Slopes = nil
			}
			var found []float64
			for k := range uint64(15) {
				out := Minimise(context.Background(), p, g.start(k), Options{}, &w)
				if out.Status != Converged || out.Violation > 1e-9 {
					t.Errorf("problem %d, start %d: %v, violation %g", seed, k, out.Status, out.Violation)
					continue
				}
				found = append(found, out.Values.F)
				runs++
				iterations += out.Iterations
				evaluations += out.Evaluations
				gradients += out.Gradients
			}
			if least, most := spreadOf(found); most-least > 1e-7 {
				t.Errorf("problem %d: optima from %.10g to %.10g", seed, least, most)
			}
		}
		n := float64(runs)
		t.Logf("%d runs: %.1f steps, %.1f evaluations, %.1f sets of slopes on average", runs,
			float64(iterations)/n, float64(evaluations)/n, float64(gradients)/n)
	}
}

// With more drag than thrust at any speed there is no steady state: that is to
// be said, and soon.
func TestGliderTooMuchDrag(t *testing.T) {
	var w Workspace
	runs, gradients := 0, 0
	for seed := range uint64(10) {
		g := newGlider(12, 24, 2, seed)
		var missed []float64
		for k := range uint64(5) {
			out := Minimise(context.Background(), g.problem(), g.start(k), Options{}, &w)
			if out.Status != Infeasible || out.Violation < 0.01 {
				t.Errorf("problem %d, start %d: %v, violation %g after %d", seed, k, out.Status, out.Violation, out.Iterations)
			}
			if largest(out.EqualPrice) == 0 {
				t.Errorf("problem %d, start %d: no prices", seed, k)
			}
			missed = append(missed, out.Violation)
			runs++
			gradients += out.Gradients
		}
		if least, _ := spreadOf(missed); math.IsInf(least, 0) {
			t.Errorf("problem %d: no runs", seed)
		}
	}
	t.Logf("%d runs: %.1f sets of slopes on average", runs, float64(gradients)/float64(runs))
}

// Near the edge of what is possible, whether a problem has an answer may not
// depend on where the search starts.
func TestGliderVerdictHolds(t *testing.T) {
	var w Workspace
	solved, infeasible := 0, 0
	for seed := range uint64(15) {
		g := newGlider(12, 24, 0.45, seed)
		var first Status
		for k := range uint64(8) {
			out := Minimise(context.Background(), g.problem(), g.start(k), Options{}, &w)
			switch {
			case out.Status != Converged && out.Status != Infeasible:
				t.Errorf("problem %d, start %d: %v", seed, k, out.Status)
			case k == 0:
				first = out.Status
			case out.Status != first:
				t.Errorf("problem %d: start 0 %v, start %d %v", seed, first, k, out.Status)
			}
		}
		if first == Converged {
			solved++
		} else {
			infeasible++
		}
	}
	if solved < 3 || infeasible < 3 {
		t.Errorf("%d solved and %d infeasible: the draw tests one side only", solved, infeasible)
	}
}

// The answer does not depend on what a workspace was used for before, to the
// last bit.
func TestWorkspaceCarriesNothing(t *testing.T) {
	g := newGlider(12, 24, 0.3, 4)
	fresh := Minimise(context.Background(), g.problem(), g.start(2), Options{}, nil)
	var w Workspace
	for _, b := range benchmarks() {
		Minimise(context.Background(), b.problem(), b.start, Options{Iterations: 7}, &w)
	}
	used := Minimise(context.Background(), g.problem(), g.start(2), Options{}, &w)
	if !reflect.DeepEqual(fresh, used) {
		t.Errorf("fresh %+v\nused %+v", fresh, used)
	}
}

// Rounding in the values, as of a large linear system, must not keep the
// search from its end where the caller says how large it is.
func TestNoisyValues(t *testing.T) {
	const noise = 1e-12
	for seed := range uint64(10) {
		g := newGlider(12, 24, 0.1, seed)
		p := g.problem()
		p.Slopes = nil
		clean := Minimise(context.Background(), p, g.start(1), Options{}, nil)
		inner := p.Values
		p.Values = func(x []float64, v *Values) bool {
			ok := inner(x, v)
			sum := 0.0
			for _, a := range x {
				sum += a
			}
			for j := range v.Equal {
				v.Equal[j] += noise * math.Sin(1e9*sum+float64(j))
			}
			return ok
		}
		out := Minimise(context.Background(), p, g.start(1), Options{Noise: noise, Stationarity: 1e-5}, nil)
		if out.Status != Converged || math.Abs(out.Values.F-clean.Values.F) > 1e-6 {
			t.Errorf("problem %d: %v, F %.9g, without noise %.9g, violation %g, stationarity %g", seed, out.Status,
				out.Values.F, clean.Values.F, out.Violation, out.Stationarity)
		}
	}
}

// Doubling a variable's unit and its scale with it changes nothing but
// rounding.
func TestUnitsDoNotMatter(t *testing.T) {
	g := newGlider(12, 24, 0.1, 3)
	p := g.problem()
	plain := Minimise(context.Background(), p, g.start(1), Options{}, nil)
	q := g.problem()
	const unit = 1024
	q.Lower[4], q.Upper[4], q.Scale[4] = unit*p.Lower[4], unit*p.Upper[4], unit*p.Scale[4]
	back := func(x []float64) []float64 {
		y := append([]float64(nil), x...)
		y[4] /= unit
		return y
	}
	q.Values = func(x []float64, v *Values) bool { return p.Values(back(x), v) }
	q.Slopes = func(x []float64, v *Values, s *Slopes) {
		g.slopes(back(x), v, s)
		for _, rows := range [][][]float64{{s.F}, s.Equal, s.Inequal} {
			for _, row := range rows {
				row[4] /= unit
			}
		}
	}
	start := g.start(1)
	start[4] *= unit
	other := Minimise(context.Background(), q, start, Options{}, nil)
	if other.Iterations != plain.Iterations || other.Values.F != plain.Values.F {
		t.Errorf("F %.16g after %d, in other units %.16g after %d", plain.Values.F, plain.Iterations, other.Values.F, other.Iterations)
	}
}

func BenchmarkMinimise(b *testing.B) {
	g := newGlider(10, 20, 0.1, 3)
	p := g.problem()
	start := g.start(1)
	var w Workspace
	out := Minimise(context.Background(), p, start, Options{}, &w)
	if out.Status != Converged {
		b.Fatal(out.Status)
	}
	b.ReportAllocs()
	for b.Loop() {
		out = Minimise(context.Background(), p, start, Options{}, &w)
	}
	b.ReportMetric(float64(out.Gradients), "slopes/op")
	b.ReportMetric(float64(out.Evaluations), "evaluations/op")
}

func BenchmarkMinimiseInfeasible(b *testing.B) {
	g := newGlider(10, 20, 2, 3)
	p := g.problem()
	start := g.start(1)
	var w Workspace
	var out Outcome
	b.ReportAllocs()
	for b.Loop() {
		out = Minimise(context.Background(), p, start, Options{}, &w)
	}
	if out.Status != Infeasible {
		b.Fatal(out.Status)
	}
	b.ReportMetric(float64(out.Gradients), "slopes/op")
}
