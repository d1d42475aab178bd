package odds

import (
	"math"
	"testing"

	"foilwright/accuracy"
	"foilwright/quantity"
)

// fitted is a surrogate of a function of uniform inputs, from scrambled points.
func fitted(t *testing.T, basis Basis, q quantity.Quantity, inputs, samples int, f func(x []float64) float64) *surrogate {
	t.Helper()
	names := make([]string, inputs)
	of := make([]*polynomials, inputs)
	for i := range names {
		names[i] = string(rune('a' + i))
		of[i] = newPolynomials(q, basis.Degree)
	}
	points, err := NewPoints(1, names)
	if err != nil {
		t.Fatal(err)
	}
	var values [][]float64
	var figure []float64
	for s := range samples {
		x := make([]float64, inputs)
		for i := range x {
			x[i] = q.At(points.At(uint32(s), i))
		}
		values, figure = append(values, x), append(figure, f(x))
	}
	return basis.fit(of, values, figure)
}

func ishigami(x []float64) float64 {
	return math.Sin(x[0]) + 7*math.Pow(math.Sin(x[1]), 2) + 0.1*math.Pow(x[2], 4)*math.Sin(x[0])
}

// Ishigami and Homma (1990): the surrogate with enough terms has the indices to
// nine decimals, and Saltelli's design with Jansen's estimator to its own error.
func TestIshigami(t *testing.T) {
	want := published(t, "ishigami-1990.csv", "8.01")
	q := says(t, "-3.141592653589793 to 3.141592653589793")
	s := fitted(t, Basis{Degree: 30, Together: 26, Among: 3, Terms: 100}, q, 3, 2048, ishigami)
	first, total, shapley := s.split(s.coefficient)
	got := append(append([]float64{s.variance}, first...), total...)
	names := []string{"variance", "first index of x1", "first index of x2", "first index of x3", "total index of x1", "total index of x2", "total index of x3"}
	for i := range want {
		accuracy.Check(t, accuracy.Row{File: "ishigami-1990.csv", ID: "8.01", Quantity: "Ishigami's function, a = 7, b = 0.1: " + names[i], Published: want[i], Computed: got[i], Tolerance: 1e-9})
	}
	for i := range shapley {
		if shapley[i] < first[i]-1e-12 || shapley[i] > total[i]+1e-12 {
			t.Errorf("input %d: Shapley effect %g is not between %g and %g (Owen 2014)", i, shapley[i], first[i], total[i])
		}
	}
	if s.unexplained > 1e-18 {
		t.Errorf("the polynomial misses %g of the variance", s.unexplained)
	}
	e, err := Estimate(func(u []float64) float64 {
		x := make([]float64, len(u))
		for i := range u {
			x[i] = q.At(u[i])
		}
		return ishigami(x)
	}, 3, 1<<14, 1)
	if err != nil {
		t.Fatal(err)
	}
	got = append(append([]float64{e.Variance}, e.First...), e.Total...)
	for i := range want {
		if tolerance := 2e-3 * math.Max(1, want[i]); math.Abs(got[i]-want[i]) > tolerance {
			t.Errorf("Saltelli and Jansen, figure %d: %g, want %g within %g", i, got[i], want[i], tolerance)
		}
	}
	if e.Evaluations != 5<<14 {
		t.Errorf("%d evaluations", e.Evaluations)
	}
}

// The g-function of Sobol' (1993): Vᵢ = 1/(3(1+aᵢ)²), V = Π(1+Vᵢ) − 1. It has a
// corner in the middle of every input, which no polynomial of low degree follows:
// the surrogate says so.
func TestGFunction(t *testing.T) {
	a := []float64{0, 1, 4.5, 9, 99, 99}
	g := func(x []float64) float64 {
		product := 1.0
		for i, v := range x {
			product *= (math.Abs(4*v-2) + a[i]) / (1 + a[i])
		}
		return product
	}
	part := make([]float64, len(a))
	all := 1.0
	for i := range a {
		part[i] = 1 / (3 * (1 + a[i]) * (1 + a[i]))
		all *= 1 + part[i]
	}
	variance := all - 1
	e, err := Estimate(g, len(a), 1<<14, 5)
	if err != nil {
		t.Fatal(err)
	}
	for i := range a {
		first, total := part[i]/variance, part[i]*all/(1+part[i])/variance
		if math.Abs(e.First[i]-first) > 3e-3 || math.Abs(e.Total[i]-total) > 3e-3 {
			t.Errorf("input %d: first order %.4f and total %.4f, want %.4f and %.4f", i, e.First[i], e.Total[i], first, total)
		}
	}
	s := fitted(t, DefaultBasis(), says(t, "0 to 1"), len(a), 1024, g)
	if s.unexplained < 0.02 {
		t.Errorf("a polynomial of low degree is said to miss %g only of a function with corners", s.unexplained)
	}
	first, _, _ := s.split(s.coefficient)
	if want := part[0] / variance; math.Abs(first[0]-want) > 0.1 {
		t.Errorf("first order of the leading input by the polynomial: %.3f, want %.3f within what it misses", first[0], want)
	}
	if _, err := Estimate(g, 0, 10, 1); err == nil {
		t.Error("a function of no inputs has indices")
	}
}

// The mean slopes of y = 2x₁ + 3x₂ + x₁x₂ are the means of Morris' elementary
// effects, the total indices those of its variance.
func TestMeanSlopes(t *testing.T) {
	want := published(t, "closed-forms.csv", "8.15")
	s := fitted(t, DefaultBasis(), says(t, "0 to 1"), 2, 256, func(x []float64) float64 { return 2*x[0] + 3*x[1] + x[0]*x[1] })
	for i, name := range []string{"x1", "x2"} {
		accuracy.Check(t, accuracy.Row{File: "closed-forms.csv", ID: "8.15", Quantity: "Morris' mean slope of 2x1 + 3x2 + x1x2, " + name, Published: want[i], Computed: s.effect(i) / s.of[i].deviation, Tolerance: 1e-9})
	}
	// Vᵢ = (cᵢ + ½)²/12 with cᵢ = 2, 3; V₁₂ = 1/144.
	both := 1.0 / 144
	whole := (2.5*2.5+3.5*3.5)/12 + both
	first, total, _ := s.split(s.coefficient)
	for i, c := range []float64{2.5, 3.5} {
		if v := c * c / 12; math.Abs(first[i]-v/whole) > 1e-9 || math.Abs(total[i]-(v+both)/whole) > 1e-9 {
			t.Errorf("input %d: first order %g, total %g", i, first[i], total[i])
		}
	}
}

// Polynomials are orthonormal over every shape of spread, and a straight function
// has exact indices whatever the shapes.
func TestPolynomialsOfEverySpread(t *testing.T) {
	chance := random(2)
	for _, text := range []string{"1 ± 0.1", "1 ± 0.5 within 0.2 to 3", "2 to 5", "0.1 / 0.25 / 0.6"} {
		q := says(t, text)
		p := newPolynomials(q, 5)
		if p.degree() != 5 {
			t.Fatalf("%s: degree %d", text, p.degree())
		}
		at, weight := nodes()
		sum, values := 0.0, make([]float64, 6)
		var products [6][6]float64
		for k, u := range at {
			sum += weight[k]
			p.at(q.At(u), values, nil)
			for i := range values {
				for j := range values {
					products[i][j] += weight[k] * values[i] * values[j]
				}
			}
		}
		if math.Abs(sum-1) > 1e-12 {
			t.Errorf("weights sum to %g", sum)
		}
		for i := range products {
			for j, got := range products[i] {
				want := 0.0
				if i == j {
					want = 1
				}
				if math.Abs(got-want) > 1e-8 {
					t.Errorf("%s: product of degrees %d and %d has the mean %g", text, i, j, got)
				}
			}
		}
		x := q.At(chance.Float64())
		slopes, ahead, behind := make([]float64, 6), make([]float64, 6), make([]float64, 6)
		const step = 1e-6
		p.at(x, values, slopes)
		p.at(x+step, ahead, nil)
		p.at(x-step, behind, nil)
		for k := range slopes {
			if d := (ahead[k] - behind[k]) / (2 * step); math.Abs(d-slopes[k]) > 1e-5*(1+math.Abs(d)) {
				t.Errorf("%s: slope of degree %d is %g, differences say %g", text, k, slopes[k], d)
			}
		}
	}
	if p := newPolynomials(says(t, "2"), 3); p.degree() != 0 || p.slopes != nil {
		t.Error("an exact figure has polynomials")
	}
}

// The 90 % intervals hold the true index about as often as they say, where what
// the polynomial cannot follow is noise.
func TestIntervalsOfIndices(t *testing.T) {
	weights := []float64{1, 0.7, 0.4, 0.2}
	variance := 0.0
	for _, w := range weights {
		variance += w * w
	}
	q := says(t, "0 ± 1")
	held, of := 0, 0
	for seed := range uint64(60) {
		chance := random(seed)
		s := fitted(t, Basis{Degree: 2, Together: 2, Among: 4, Terms: 30}, q, 4, 200, func(x []float64) float64 {
			sum := 0.7 * chance.NormFloat64()
			for i, w := range weights {
				sum += w * x[i]
			}
			return sum
		})
		for i, share := range s.shares("f") {
			of++
			if want := weights[i] * weights[i] / variance; share.FirstLow <= want && want <= share.FirstHigh {
				held++
			}
			if share.FirstOrder < share.FirstLow || share.FirstOrder > share.FirstHigh || share.Total < share.FirstOrder-1e-12 {
				t.Fatalf("%+v", share)
			}
		}
	}
	if rate := float64(held) / float64(of); rate < 0.82 || rate > 0.98 {
		t.Errorf("the 90 %% intervals hold the index in %.1f %% of %d cases", 100*rate, of)
	}
}
