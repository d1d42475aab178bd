package section

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/interp"
)

// The spline is that of an independent implementation, on uneven points.
func TestSplineAgreesWithAnother(t *testing.T) {
	chance := rand.New(rand.NewPCG(1, 2))
	for _, n := range []int{3, 4, 5, 12, 200} {
		x, y := make([]float64, n), make([]float64, n)
		for i := range x {
			x[i], y[i] = chance.Float64()*10, chance.NormFloat64()
		}
		slices.Sort(x)
		var s spline
		if err := s.fit(x, y); err != nil {
			t.Fatal(err)
		}
		var other interp.NotAKnotCubic
		if n > 3 {
			if err := other.Fit(x, y); err != nil {
				t.Fatal(err)
			}
		}
		for k := range 1000 {
			at := x[0] + (x[n-1]-x[0])*float64(k)/999
			want, slope := parabola(x, y, at)
			if n > 3 {
				want, slope = other.Predict(at), other.PredictDerivative(at)
			}
			if math.Abs(s.at(at)-want) > 1e-8*(1+math.Abs(want)) || math.Abs(s.slopeAt(at)-slope) > 1e-7*(1+math.Abs(slope)) {
				t.Fatalf("%d points, at %g: %g with slope %g, want %g with %g", n, at, s.at(at), s.slopeAt(at), want, slope)
			}
		}
	}
	var s spline
	for _, x := range [][]float64{{0, 1}, {0, 1, 1}, {0, 2, 1}, {0, 1, math.NaN()}} {
		if err := s.fit(x, make([]float64, len(x))); err == nil {
			t.Errorf("%v makes a spline", x)
		}
	}
}

// parabola is Lagrange's through three points, with its slope.
func parabola(x, y []float64, at float64) (value, slope float64) {
	for i := range 3 {
		j, k := (i+1)%3, (i+2)%3
		scale := y[i] / ((x[i] - x[j]) * (x[i] - x[k]))
		value += scale * (at - x[j]) * (at - x[k])
		slope += scale * (2*at - x[j] - x[k])
	}
	return value, slope
}

// A cubic is met exactly, and beyond its ends.
func TestSplineOfACubic(t *testing.T) {
	f := func(x float64) float64 { return 1 - x + 2*x*x - 0.5*x*x*x }
	x := []float64{-1, 0, 0.4, 1.3, 2, 3}
	y := make([]float64, len(x))
	for i := range x {
		y[i] = f(x[i])
	}
	var s spline
	if err := s.fit(x, y); err != nil {
		t.Fatal(err)
	}
	for at := -1.5; at < 3.6; at += 0.05 {
		if math.Abs(s.at(at)-f(at)) > 1e-12 || math.Abs(s.slopeAt(at)-(-1+4*at-1.5*at*at)) > 1e-11 {
			t.Errorf("at %g: %g, want %g", at, s.at(at), f(at))
		}
	}
}
