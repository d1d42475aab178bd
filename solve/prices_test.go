package solve

import (
	"context"
	"math"
	"testing"
)

// Prices are what they say: each constraint and bound of problem 71 that holds
// the answer is shifted by a little, and the optimum moves by price times
// shift.
func TestPricesAgainstResolving(t *testing.T) {
	const shift = 1e-4
	var b benchmark
	for _, c := range smallBenchmarks {
		if c.number == 71 {
			b = c
		}
	}
	solve := func(equal, inequal, lower float64) Outcome {
		p := b.problem()
		p.Lower = []float64{1 + lower, 1, 1, 1}
		inner := p.Values
		p.Values = func(x []float64, v *Values) bool {
			ok := inner(x, v)
			v.Equal[0] -= equal
			v.Inequal[0] -= inequal
			return ok
		}
		return Minimise(context.Background(), p, b.start, Options{Stationarity: 1e-8, Differences: Central}, nil)
	}
	at := solve(0, 0, 0)
	for _, c := range []struct {
		name        string
		price       float64
		above, back Outcome
	}{
		{"equality", at.EqualPrice[0], solve(shift, 0, 0), solve(-shift, 0, 0)},
		{"inequality", at.InequalPrice[0], solve(0, shift, 0), solve(0, -shift, 0)},
		{"lower bound", at.BoundPrice[0], solve(0, 0, shift), solve(0, 0, -shift)},
	} {
		if c.above.Status != Converged || c.back.Status != Converged {
			t.Errorf("%s: %v and %v", c.name, c.above.Status, c.back.Status)
		}
		moved := (c.above.Values.F - c.back.Values.F) / (2 * shift)
		if math.Abs(moved-c.price) > 1e-5 || math.Abs(c.price) < 0.01 {
			t.Errorf("%s: price %.7g, optimum moves by %.7g", c.name, c.price, moved)
		}
	}
}

// The slope of F is the price-weighted sum of the slopes of all that holds.
func TestPricesClose(t *testing.T) {
	for seed := range uint64(5) {
		g := newGlider(12, 24, 0.1, seed)
		p := g.problem()
		p.Lower[7], p.Upper[7] = 0.05, 0.05
		out := Minimise(context.Background(), p, g.start(1), Options{Stationarity: 1e-9}, nil)
		if out.Status != Converged {
			t.Fatal(out.Status)
		}
		n := len(out.X)
		s := Slopes{F: make([]float64, n)}
		for range p.Equalities {
			s.Equal = append(s.Equal, make([]float64, n))
		}
		for range p.Inequalities {
			s.Inequal = append(s.Inequal, make([]float64, n))
		}
		g.slopes(out.X, &out.Values, &s)
		for i := range out.X {
			left := s.F[i] - out.BoundPrice[i]
			for j, price := range out.EqualPrice {
				left -= price * s.Equal[j][i]
			}
			for j, price := range out.InequalPrice {
				left -= price * s.Inequal[j][i]
				if price < 0 || price*out.Values.Inequal[j] > 1e-8 {
					t.Errorf("inequality %d: price %g at %g", j, price, out.Values.Inequal[j])
				}
			}
			if math.Abs(left) > 1e-7 {
				t.Errorf("variable %d: %g is left over", i, left)
			}
		}
	}
}
