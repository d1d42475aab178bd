package solve

import (
	"fmt"
	"math"
	"sort"
)

// Curve is a smooth function through the points of a table: piecewise cubic
// with a continuous slope, monotone wherever the table is, so it never
// overshoots it (Fritsch and Carlson 1980). Outside the table it goes on as a
// straight line with the slope of the end. It is immutable.
type Curve struct {
	x, y, slope []float64
}

// NewCurve makes the curve through the points (x[i], y[i]), x strictly
// ascending, at least two points, all finite. The slices are copied.
//
// The slopes are the weighted harmonic means of Fritsch and Butland (1984,
// SIAM Journal on Scientific and Statistical Computing 5, 300–304), which meet
// the conditions of Fritsch and Carlson (1980, theorem 1); the end slopes are
// three-point ones, limited to keep them.
func NewCurve(x, y []float64) (*Curve, error) {
	if err := checkTable(x, y); err != nil {
		return nil, fmt.Errorf("curve: %w", err)
	}
	n := len(x)
	c := &Curve{x: append([]float64(nil), x...), y: append([]float64(nil), y...), slope: make([]float64, n)}
	h := func(k int) float64 { return x[k+1] - x[k] }
	secant := func(k int) float64 { return (y[k+1] - y[k]) / h(k) }
	if n == 2 {
		c.slope[0], c.slope[1] = secant(0), secant(0)
		return c, nil
	}
	for k := 1; k < n-1; k++ {
		a, b := secant(k-1), secant(k)
		if a*b <= 0 {
			continue
		}
		w := h(k-1) + 2*h(k)
		v := 2*h(k-1) + h(k)
		c.slope[k] = (w + v) / (w/a + v/b)
	}
	c.slope[0] = endSlope(h(0), h(1), secant(0), secant(1))
	c.slope[n-1] = endSlope(h(n-2), h(n-3), secant(n-2), secant(n-3))
	return c, nil
}

// endSlope is the three-point slope at an end whose first two steps are h and
// next, with secants s and t, limited to keep the curve monotone.
func endSlope(h, next, s, t float64) float64 {
	d := ((2*h+next)*s - h*t) / (h + next)
	switch {
	case d*s <= 0:
		return 0
	case math.Abs(d) > 3*math.Abs(s):
		return 3 * s
	}
	return d
}

// At gives the value and the slope at x. A number that is not finite gives the
// value and slope at the first point.
func (c *Curve) At(x float64) (value, slope float64) {
	n := len(c.x)
	switch {
	case !finite(x):
		return c.y[0], c.slope[0]
	case x <= c.x[0]:
		return c.y[0] + c.slope[0]*(x-c.x[0]), c.slope[0]
	case x >= c.x[n-1]:
		return c.y[n-1] + c.slope[n-1]*(x-c.x[n-1]), c.slope[n-1]
	}
	k := interval(c.x, x)
	h := c.x[k+1] - c.x[k]
	t := (x - c.x[k]) / h
	y0, y1, d0, d1 := c.y[k], c.y[k+1], c.slope[k]*h, c.slope[k+1]*h
	rise := y1 - y0
	b := 3*rise - 2*d0 - d1
	a := d0 + d1 - 2*rise
	return y0 + t*(d0+t*(b+t*a)), (d0 + t*(2*b+3*t*a)) / h
}

// Range gives the first and the last x of the table.
func (c *Curve) Range() (first, last float64) { return c.x[0], c.x[len(c.x)-1] }

// Line is the piecewise straight function through the points of a table.
// Outside the table it goes on along its end pieces. It is immutable.
type Line struct {
	x, y []float64
}

// NewLine makes the line through the points (x[i], y[i]), x strictly
// ascending, at least two points, all finite. The slices are copied.
func NewLine(x, y []float64) (*Line, error) {
	if err := checkTable(x, y); err != nil {
		return nil, fmt.Errorf("line: %w", err)
	}
	return &Line{x: append([]float64(nil), x...), y: append([]float64(nil), y...)}, nil
}

// At gives the value and the slope at x; at a corner, the slope ahead. A
// number that is not finite gives the value and slope at the first point.
func (l *Line) At(x float64) (value, slope float64) {
	if !finite(x) {
		x = l.x[0]
	}
	k := interval(l.x, x)
	slope = (l.y[k+1] - l.y[k]) / (l.x[k+1] - l.x[k])
	return l.y[k] + slope*(x-l.x[k]), slope
}

// Range gives the first and the last x of the table.
func (l *Line) Range() (first, last float64) { return l.x[0], l.x[len(l.x)-1] }

// interval finds k with x[k] <= at < x[k+1], the first or the last interval
// outside the table.
func interval(x []float64, at float64) int {
	k := sort.Search(len(x), func(i int) bool { return x[i] > at }) - 1
	return min(max(k, 0), len(x)-2)
}

func checkTable(x, y []float64) error {
	if len(x) != len(y) {
		return fmt.Errorf("%d values of x and %d of y, as many of each are needed", len(x), len(y))
	}
	if len(x) < 2 {
		return fmt.Errorf("%d points, at least 2 are needed", len(x))
	}
	for i := range x {
		if !finite(x[i]) || !finite(y[i]) {
			return fmt.Errorf("point %d: (%v, %v), finite numbers are needed", i, x[i], y[i])
		}
		if i > 0 && !(x[i] > x[i-1]) {
			return fmt.Errorf("point %d: x %v after %v, x must ascend", i, x[i], x[i-1])
		}
	}
	return nil
}
