package solve

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"
)

// Whatever the functions do, a search ends and hands back finite numbers
// inside the bounds.
func TestWildFunctions(t *testing.T) {
	var w Workspace
	counts := map[Status]int{}
	for seed := range uint64(3000) {
		r := rand.New(rand.NewPCG(seed, 99))
		n, equal, inequal := r.IntN(6), r.IntN(5), r.IntN(7)
		size := math.Pow(10, float64(r.IntN(13)-6)*float64(1+30*(r.IntN(12)/11)))
		holes, jumps := r.IntN(4) == 0, r.IntN(3) == 0
		coefficients := make([]float64, (1+equal+inequal)*(2*n+1))
		for i := range coefficients {
			coefficients[i] = size * r.NormFloat64()
		}
		one := func(x []float64, c []float64) float64 {
			sum := c[0]
			for i, a := range x {
				sum += c[1+2*i]*a + c[2+2*i]*a*math.Abs(a)
			}
			if jumps && len(x) > 0 {
				sum += size * math.Floor(3*x[0])
			}
			return sum
		}
		p := &Problem{Lower: make([]float64, n), Upper: make([]float64, n), Equalities: equal, Inequalities: inequal}
		start := make([]float64, n)
		for i := range start {
			p.Lower[i] = -math.Pow(10, float64(r.IntN(4)-1))
			p.Upper[i] = p.Lower[i] + math.Pow(10, float64(r.IntN(5)-2))*float64(r.IntN(4))
			start[i] = 5 * r.NormFloat64()
			if r.IntN(5) == 0 {
				p.Upper[i] = math.Inf(1)
			}
		}
		p.Values = func(x []float64, v *Values) bool {
			m := 2*n + 1
			v.F = one(x, coefficients[:m])
			for j := range v.Equal {
				v.Equal[j] = one(x, coefficients[(1+j)*m:(2+j)*m])
			}
			for j := range v.Inequal {
				v.Inequal[j] = one(x, coefficients[(1+equal+j)*m:(2+equal+j)*m])
			}
			if holes && n > 0 && math.Sin(40*x[n-1]) > 0.7 {
				v.F = math.NaN()
			}
			return !holes || n == 0 || math.Sin(31*x[0]) < 0.8
		}
		out := Minimise(context.Background(), p, start, Options{Iterations: 60}, &w)
		counts[out.Status]++
		if bad := unsound(p, &out); bad != "" || out.Iterations > 60 || out.Status == Refused {
			t.Fatalf("seed %d: %v after %d: %s %+v", seed, out.Status, out.Iterations, bad, out)
		}
	}
	t.Log(counts)
}

// unsound names a part of the outcome that is not finite, out of bounds or at
// odds with the status.
func unsound(p *Problem, o *Outcome) string {
	for i, x := range o.X {
		if !(x >= p.Lower[i] && x <= p.Upper[i]) {
			return "X out of bounds"
		}
	}
	for name, numbers := range map[string][]float64{
		"X": o.X, "F": {o.Values.F, o.Violation, o.Stationarity}, "Equal": o.Values.Equal, "Inequal": o.Values.Inequal,
		"BoundPrice": o.BoundPrice, "EqualPrice": o.EqualPrice, "InequalPrice": o.InequalPrice,
	} {
		for _, v := range numbers {
			if !finite(v) {
				return name + " not finite"
			}
		}
	}
	if o.Status == Converged && (o.Violation > 1e-9 || o.Stationarity > 1e-6) {
		return "converged beyond the tolerances"
	}
	if o.Status == Infeasible && o.Violation <= 1e-9 {
		return "infeasible without a violation"
	}
	return ""
}
