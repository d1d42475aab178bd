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

// Second derivatives are asked for afresh once in a search, then at every step, and not by a
// search that begins with what another has learnt.
func TestCurvatureIsAskedAfreshOnce(t *testing.T) {
	start := []float64{0.3, 1.6, 0.2, 1.1}
	afresh, others := 0, 0
	p := valley()
	p.Curvature = func(x, price []float64, new bool, h []float64) bool {
		if new {
			afresh++
		} else {
			others++
		}
		return valleyCurvature(x, price, new, h)
	}
	out := Minimise(context.Background(), p, start, Options{}, nil)
	if out.Status != Converged || afresh != 1 || others == 0 {
		t.Errorf("%v after %d steps: asked afresh %d times, otherwise %d", out.Status, out.Iterations, afresh, others)
	}
	afresh = 0
	away := append([]float64(nil), out.X...)
	away[0] += 0.3
	if again := Minimise(context.Background(), p, away, Options{From: out.Learnt}, nil); again.Status != Converged || afresh != 0 {
		t.Errorf("with what is learnt %v, asked afresh %d times", again.Status, afresh)
	}
}

// A search that cannot come to what it is wanted for is left; one that can is not.
func TestOutdoneIsLeft(t *testing.T) {
	start := []float64{-1.5, 0.6, -1.2, 0.5}
	raised := func() *Problem { // by one, so that no end is at zero
		p := valley()
		plain := p.Values
		p.Values = func(x []float64, v *Values) bool {
			ok := plain(x, v)
			v.F++
			return ok
		}
		p.Curvature = valleyCurvature
		return p
	}
	end := Minimise(context.Background(), raised(), start, Options{}, nil)
	if end.Status != Converged {
		t.Fatalf("alone: %v", end.Status)
	}
	if out := Minimise(context.Background(), raised(), start, Options{Worth: end.Values.F + 1e-6}, nil); out.Status != Converged {
		t.Errorf("%v after %d steps though its end at %g was worth it", out.Status, out.Iterations, out.Values.F)
	}
	out := Minimise(context.Background(), raised(), start, Options{Worth: end.Values.F - 100}, nil)
	if out.Status != Outdone || out.Iterations >= end.Iterations {
		t.Errorf("%v after %d steps though its end after %d is 100 short of its worth", out.Status, out.Iterations, end.Iterations)
	}
}
