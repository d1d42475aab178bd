package solve

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// The data set RPN 14 of Fritsch and Carlson (1980), on which a plain cubic
// spline overshoots.
func TestCurveStaysMonotone(t *testing.T) {
	x := []float64{7.99, 8.09, 8.19, 8.7, 9.2, 10, 12, 15, 20}
	y := []float64{0, 2.76429e-5, 4.37498e-2, 0.169183, 0.469428, 0.943740, 0.998636, 0.999919, 0.999994}
	c, err := NewCurve(x, y)
	if err != nil {
		t.Fatal(err)
	}
	last := math.Inf(-1)
	for k := range 2001 {
		at := 7.9 + 13*float64(k)/2000
		value, slope := c.At(at)
		if value < last-1e-15 || slope < 0 {
			t.Fatalf("falls at %g: %g after %g, slope %g", at, value, last, slope)
		}
		last = value
	}
	for i := range x {
		if value, _ := c.At(x[i]); math.Abs(value-y[i]) > 1e-15 {
			t.Errorf("at %g: %g, table %g", x[i], value, y[i])
		}
	}
}

func TestCurveProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 9).Draw(t, "points")
		x, y := make([]float64, n), make([]float64, n)
		for i := range x {
			x[i] = rapid.Float64Range(0.05, 3).Draw(t, "step")
			if i > 0 {
				x[i] += x[i-1]
			}
			y[i] = rapid.Float64Range(-5, 5).Draw(t, "y")
		}
		c, err := NewCurve(x, y)
		if err != nil {
			t.Fatal(err)
		}
		at := rapid.Float64Range(x[0]-2, x[n-1]+2).Draw(t, "at")
		value, slope := c.At(at)
		const h = 1e-6
		up, _ := c.At(at + h)
		down, _ := c.At(at - h)
		// The second derivative may jump at a point of the table.
		if d := (up - down) / (2 * h); math.Abs(d-slope) > 2e-2*(1+math.Abs(slope)) {
			t.Errorf("slope %g, by differences %g", slope, d)
		}
		if at >= x[0] && at <= x[n-1] {
			k := interval(x, at)
			least, most := math.Min(y[k], y[k+1]), math.Max(y[k], y[k+1])
			if value < least-1e-9 || value > most+1e-9 {
				t.Errorf("at %g: %g outside %g to %g", at, value, least, most)
			}
		}
	})
}

// A curve through points of a straight line is the line, inside and out; on a
// smooth function it is third-order in the spacing away from extrema.
func TestCurveAccuracy(t *testing.T) {
	c, _ := NewCurve([]float64{0, 1, 3, 4}, []float64{1, 3, 7, 9})
	for _, at := range []float64{-5, 0.3, 2, 3.9, 11} {
		if value, slope := c.At(at); math.Abs(value-(1+2*at)) > 1e-12 || math.Abs(slope-2) > 1e-12 {
			t.Errorf("at %g: %g, slope %g", at, value, slope)
		}
	}
	miss := func(n int) float64 {
		x, y := make([]float64, n+1), make([]float64, n+1)
		for i := range x {
			x[i] = float64(i) / float64(n)
			y[i] = math.Exp(x[i])
		}
		c, _ := NewCurve(x, y)
		worst := 0.0
		for k := range 1000 {
			at := float64(k) / 999
			value, _ := c.At(at)
			worst = math.Max(worst, math.Abs(value-math.Exp(at)))
		}
		return worst
	}
	if ratio := miss(8) / miss(16); ratio < 6 {
		t.Errorf("halving the spacing divides the error by %.1f", ratio)
	}
}

func TestLine(t *testing.T) {
	l, err := NewLine([]float64{0, 1, 3}, []float64{0, 2, 1})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range [][3]float64{{-1, -2, 2}, {0.5, 1, 2}, {1, 2, -0.5}, {2, 1.5, -0.5}, {5, 0, -0.5}} {
		if value, slope := l.At(c[0]); math.Abs(value-c[1]) > 1e-15 || slope != c[2] {
			t.Errorf("at %g: %g, slope %g", c[0], value, slope)
		}
	}
	if first, last := l.Range(); first != 0 || last != 3 {
		t.Errorf("range %g to %g", first, last)
	}
}

func TestTablesRefused(t *testing.T) {
	for name, c := range map[string][2][]float64{
		"one point": {{1}, {1}}, "lengths": {{1, 2}, {1}}, "descending": {{2, 1}, {1, 1}},
		"repeated": {{1, 1}, {1, 2}}, "nan": {{1, 2}, {1, math.NaN()}}, "inf": {{1, math.Inf(1)}, {1, 2}},
	} {
		if _, err := NewCurve(c[0], c[1]); err == nil {
			t.Errorf("%s: a curve was made", name)
		}
		if _, err := NewLine(c[0], c[1]); err == nil {
			t.Errorf("%s: a line was made", name)
		}
	}
	c, _ := NewCurve([]float64{0, 1}, []float64{2, 3})
	l, _ := NewLine([]float64{0, 1}, []float64{2, 3})
	for _, at := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		if value, slope := c.At(at); !finite(value) || !finite(slope) {
			t.Errorf("curve at %g: %g, %g", at, value, slope)
		}
		if value, slope := l.At(at); !finite(value) || !finite(slope) {
			t.Errorf("line at %g: %g, %g", at, value, slope)
		}
	}
}

func TestSmoothMax(t *testing.T) {
	for _, width := range []float64{1e-6, 0.1, 3} {
		for _, x := range []float64{-1e8, -50, -1, -1e-7, 0, 1e-7, 0.3, 2, 1e9} {
			value, slope := SmoothMax(x, width)
			if value <= 0 || value < x || slope < 0 || slope > 1 {
				t.Errorf("at %g, width %g: %g, slope %g", x, width, value, slope)
			}
			if over := value - math.Max(0, x); over > width/2*(1+1e-9)+1e-16*math.Abs(x) {
				t.Errorf("at %g, width %g: %g above the corner", x, width, over)
			}
			if math.Abs(x) < 100 {
				h := 1e-4 * width
				up, _ := SmoothMax(x+h, width)
				down, _ := SmoothMax(x-h, width)
				if d := (up - down) / (2 * h); math.Abs(d-slope) > 1e-8+1e-12*math.Abs(x)/h*10 {
					t.Errorf("at %g, width %g: slope %g, by differences %g", x, width, slope, d)
				}
			}
		}
	}
	if value, slope := SmoothMax(0, 2); value != 1 || slope != 0.5 {
		t.Errorf("at 0: %g, %g", value, slope)
	}
	for _, c := range [][2]float64{{math.NaN(), 1}, {math.Inf(-1), 1}, {-3, 0}, {-3, math.NaN()}} {
		if value, slope := SmoothMax(c[0], c[1]); value != 0 || slope != 0 {
			t.Errorf("at %g, width %g: %g, %g", c[0], c[1], value, slope)
		}
	}
	if value, slope := SmoothMax(3, 0); value != 3 || slope != 1 {
		t.Errorf("sharp at 3: %g, %g", value, slope)
	}
}
