package solve

import (
	"math"
	"reflect"
	"testing"
)

func open(n int) (lower, upper []float64) {
	return filledWith(n, math.Inf(-1)), filledWith(n, math.Inf(1))
}

// Problems and roots of Moré, Garbow and Hillstrom (1981, ACM Transactions on
// Mathematical Software 7, 17–41), by their numbers there.
func TestNewtonRoots(t *testing.T) {
	for name, c := range map[string]struct {
		start, root []float64
		f           func(x, r []float64) bool
	}{
		"1 Rosenbrock": {[]float64{-1.2, 1}, []float64{1, 1}, func(x, r []float64) bool {
			r[0], r[1] = 10*(x[1]-x[0]*x[0]), 1-x[0]
			return true
		}},
		"3 Powell badly scaled": {[]float64{0, 1}, []float64{1.098159e-5, 9.106146}, func(x, r []float64) bool {
			r[0], r[1] = 1e4*x[0]*x[1]-1, math.Exp(-x[0])+math.Exp(-x[1])-1.0001
			return true
		}},
		"7 helical valley": {[]float64{-1, 0, 0}, []float64{1, 0, 0}, func(x, r []float64) bool {
			turn := math.Atan2(x[1], x[0]) / (2 * math.Pi)
			r[0], r[1], r[2] = 10*(x[2]-10*turn), 10*(math.Hypot(x[0], x[1])-1), x[2]
			return true
		}},
		"13 Powell singular": {[]float64{3, -1, 0, 1}, []float64{0, 0, 0, 0}, func(x, r []float64) bool {
			r[0], r[1] = x[0]+10*x[1], math.Sqrt(5)*(x[2]-x[3])
			r[2], r[3] = sq(x[1]-2*x[2]), math.Sqrt(10)*sq(x[0]-x[3])
			return true
		}},
	} {
		lower, upper := open(len(c.start))
		out := Newton(c.f, c.start, lower, upper, nil, RootOptions{Residual: 1e-12, Iterations: 200})
		if out.Status != RootFound || out.Worst > 1e-12 {
			t.Errorf("%s: %v, residual %g after %d", name, out.Status, out.Worst, out.Iterations)
		}
		for i, want := range c.root {
			// Problem 13 has a singular Jacobian at its root, which is then
			// known to the root of the residual only.
			if math.Abs(out.X[i]-want) > 2e-6*(1+math.Abs(want)) {
				t.Errorf("%s: root %v, published %v", name, out.X, c.root)
			}
		}
	}
}

func TestNewtonSaysWhy(t *testing.T) {
	lower, upper := open(2)
	// No real root: x² + 1.
	out := Newton(func(x, r []float64) bool { r[0], r[1] = x[0]*x[0]+1, x[1]-2; return true }, []float64{1, 0}, lower, upper, nil, RootOptions{})
	if out.Status != RootStalled && out.Status != RootIterationLimit {
		t.Errorf("no root: %v", out.Status)
	}
	if out.WorstRow != 0 || out.Worst < 0.9 {
		t.Errorf("no root: worst %g in row %d", out.Worst, out.WorstRow)
	}
	// The root is beyond a bound.
	out = Newton(func(x, r []float64) bool { r[0], r[1] = x[0]-5, x[1]-1; return true }, []float64{0, 0},
		[]float64{-3, -3}, []float64{3, 3}, nil, RootOptions{})
	if out.Status != RootAtBound || !reflect.DeepEqual(out.AtUpper, []int{0}) || out.WorstRow != 0 || math.Abs(out.X[1]-1) > 1e-9 {
		t.Errorf("bound: %v at %v, upper %v", out.Status, out.X, out.AtUpper)
	}
	// Two equations that are one.
	out = Newton(func(x, r []float64) bool { c := x[0]*x[0] + x[1] - 3; r[0], r[1] = c, 2*c; return true }, []float64{1, 1}, lower, upper, nil, RootOptions{})
	if out.Status != RootFound || out.Rank != 1 {
		t.Errorf("repeated: %v, rank %d", out.Status, out.Rank)
	}
	// No values.
	out = Newton(func(x, r []float64) bool { r[0], r[1] = math.NaN(), 0; return true }, []float64{1, 1}, lower, upper, nil, RootOptions{})
	if out.Status != RootNoValue || out.Worst != 0 {
		t.Errorf("no values: %v, worst %g", out.Status, out.Worst)
	}
	out = Newton(nil, []float64{1, 1}, lower, upper, nil, RootOptions{})
	if out.Status != RootRefused || out.Err == nil {
		t.Errorf("nil function: %v", out.Status)
	}
	out = Newton(func(x, r []float64) bool { return true }, []float64{1}, []float64{2}, []float64{1}, nil, RootOptions{})
	if out.Status != RootRefused || out.Err == nil {
		t.Errorf("crossed bounds: %v", out.Status)
	}
}

// A logarithm keeps the search on its own side by refusing.
func TestNewtonBacksOff(t *testing.T) {
	lower, upper := open(1)
	out := Newton(func(x, r []float64) bool { r[0] = math.Log(x[0]); return x[0] > 0 }, []float64{9}, lower, upper, nil, RootOptions{})
	if out.Status != RootFound || math.Abs(out.X[0]-1) > 1e-9 {
		t.Errorf("%v at %v", out.Status, out.X)
	}
}

// The closing sums of the invented steady state, for a speed and five angles,
// the sixth being given.
func TestNewtonClosesGlider(t *testing.T) {
	found := 0
	for seed := range uint64(20) {
		g := newGlider(7, 0, 0.02, seed)
		x := make([]float64, 7)
		v := Values{Equal: make([]float64, 6)}
		start, lower, upper := make([]float64, 6), filledWith(6, -3), filledWith(6, 3)
		start[0], lower[0], upper[0] = 12, 2, 60
		scale := filledWith(6, 0.1)
		scale[0] = 2
		out := Newton(func(y, r []float64) bool {
			copy(x, y)
			x[6] = 0.05
			g.values(x, &v)
			copy(r, v.Equal)
			return true
		}, start, lower, upper, scale, RootOptions{})
		if out.Status == RootFound {
			found++
			if out.Worst > 1e-10 {
				t.Errorf("seed %d: residual %g", seed, out.Worst)
			}
		}
	}
	// Not every draw has a root.
	t.Logf("%d of 20 closed", found)
	if found < 10 {
		t.Errorf("%d of 20 closed, at least 10 wanted", found)
	}
}

// Slopes that are given stand in for the first differences, and a root is found
// from rough ones too; slopes that are no numbers are not used.
func TestNewtonWithGivenSlopes(t *testing.T) {
	f := func(x, r []float64) bool {
		r[0], r[1] = x[0]*x[0]+x[1]-3, x[0]-x[1]*x[1]+1
		return true
	}
	lower, upper := []float64{-10, -10}, []float64{10, 10}
	start, scale := []float64{0.9, 1.6}, []float64{0.5, 2}
	plain := Newton(f, start, lower, upper, scale, RootOptions{})
	for name, slopes := range map[string][][]float64{
		"exact": {{1.8, 1}, {1, -3.2}}, "rough": {{2.5, 0.7}, {0.8, -2.6}}, "none": {{math.NaN(), 1}, {1, 1}},
	} {
		out := Newton(f, start, lower, upper, scale, RootOptions{Slopes: slopes})
		if out.Status != RootFound || math.Abs(out.X[0]-plain.X[0]) > 1e-9 || out.Worst > 1e-10 {
			t.Errorf("%s: %v at %v, off by %.1e", name, out.Status, out.X, out.Worst)
		}
		if name == "exact" && out.Evaluations >= plain.Evaluations {
			t.Errorf("exact slopes take %d evaluations, none %d", out.Evaluations, plain.Evaluations)
		}
	}
}
