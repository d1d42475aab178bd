package solve

import (
	"context"
	"math"
	"testing"
)

// valley is Rosenbrock's function (1960) of four variables on the sphere of
// radius 2, whose second derivatives are known.
func valley() *Problem {
	return &Problem{
		Lower: []float64{-3, -3, -3, -3}, Upper: []float64{3, 3, 3, 3}, Equalities: 1,
		Values: func(x []float64, v *Values) bool {
			v.F, v.Equal[0] = 0, -4
			for i := range 3 {
				v.F += 100*math.Pow(x[i+1]-x[i]*x[i], 2) + math.Pow(1-x[i], 2)
			}
			for i := range 4 {
				v.Equal[0] += x[i] * x[i]
			}
			return true
		},
		Slopes: func(x []float64, _ *Values, s *Slopes) {
			clear(s.F)
			for i := range 3 {
				s.F[i] += -400*x[i]*(x[i+1]-x[i]*x[i]) - 2*(1-x[i])
				s.F[i+1] += 200 * (x[i+1] - x[i]*x[i])
			}
			for i := range 4 {
				s.Equal[0][i] = 2 * x[i]
			}
		},
	}
}

func valleyCurvature(x, price []float64, _ bool, h []float64) bool {
	clear(h)
	for i := range 3 {
		h[i*4+i] += -400*(x[i+1]-x[i]*x[i]) + 800*x[i]*x[i] + 2
		h[i*4+i+1] -= 400 * x[i]
		h[(i+1)*4+i] -= 400 * x[i]
		h[(i+1)*4+i+1] += 200
	}
	for i := range 4 {
		h[i*4+i] -= 2 * price[0]
	}
	return true
}

// The problem's own curvature saves steps and leads to the same minimum; wrong
// curvature, or none after all, leads there too.
func TestCurvatureSavesSteps(t *testing.T) {
	start := []float64{0.3, 1.6, 0.2, 1.1}
	plain := Minimise(context.Background(), valley(), start, Options{}, nil)
	if plain.Status != Converged || math.Abs(plain.Values.F) > 1e-9 {
		t.Fatalf("without: %v, %g", plain.Status, plain.Values.F)
	}
	tests := []struct {
		name      string
		curvature func(x, price []float64, afresh bool, h []float64) bool
	}{
		{"exact", valleyCurvature},
		{"ten times too much", func(x, price []float64, afresh bool, h []float64) bool {
			valleyCurvature(x, price, afresh, h)
			for i := range h {
				h[i] *= 10
			}
			return true
		}},
		{"of the wrong sign", func(x, price []float64, afresh bool, h []float64) bool {
			valleyCurvature(x, price, afresh, h)
			for i := range h {
				h[i] = -h[i]
			}
			return true
		}},
		{"nothing", func(_, _ []float64, _ bool, h []float64) bool { clear(h); return true }},
		{"not a number", func(_, _ []float64, _ bool, h []float64) bool { h[5] = math.NaN(); return true }},
		{"refused", func(_, _ []float64, _ bool, _ []float64) bool { return false }},
	}
	for _, c := range tests {
		p := valley()
		p.Curvature = c.curvature
		out := Minimise(context.Background(), p, start, Options{}, nil)
		if out.Status != Converged || math.Abs(out.Values.F) > 1e-9 {
			t.Errorf("%s: %v, %g at %v", c.name, out.Status, out.Values.F, out.X)
		}
		t.Logf("%s: %d steps, %d without", c.name, out.Iterations, plain.Iterations)
		if c.name == "exact" && out.Iterations >= plain.Iterations {
			t.Errorf("exact curvature took %d steps, none %d", out.Iterations, plain.Iterations)
		}
	}
}

// A search ends where somebody knows the point that it has reached, and nowhere else.
func TestJoinsAKnownEnd(t *testing.T) {
	start := []float64{0.3, 1.6, 0.2, 1.1}
	plain := Minimise(context.Background(), valley(), start, Options{}, nil)
	near := func(x []float64) bool {
		for i := range x {
			if math.Abs(x[i]-plain.X[i]) > 0.1 {
				return false
			}
		}
		return true
	}
	out := Minimise(context.Background(), valley(), start, Options{Known: near}, nil)
	if out.Status != Joined || !near(out.X) || out.Iterations >= plain.Iterations {
		t.Errorf("%v after %d steps at %v; alone the search takes %d to %v", out.Status, out.Iterations, out.X, plain.Iterations, plain.X)
	}
	nobody := Minimise(context.Background(), valley(), start, Options{Known: func([]float64) bool { return false }}, nil)
	if nobody.Status != Converged || nobody.Iterations != plain.Iterations {
		t.Errorf("asked in vain the search ends as %v after %d steps, alone after %d", nobody.Status, nobody.Iterations, plain.Iterations)
	}
}
