package section

import (
	"errors"
	"fmt"
	"sort"
)

// spline is a cubic spline through points, with a continuous second derivative,
// and a third derivative that is continuous at the second point and the last but
// one as well: the not-a-knot condition (de Boor 1978, chapter IV). Through three
// points it is their parabola. Outside the points the end pieces go on.
type spline struct {
	x, y, slope []float64
}

// fit makes the spline of points, x strictly ascending, at least three. The slices
// are kept. Slopes at the points are the solution of a tridiagonal system: its
// work and its memory go with the number of points, where a dense one goes with
// its cube and its square.
func (s *spline) fit(x, y []float64) error {
	n := len(x)
	if n < 3 || len(y) != n {
		return fmt.Errorf("%d points with %d ordinates, 3 of each or more are needed", n, len(y))
	}
	h, rise := make([]float64, n-1), make([]float64, n-1)
	for i := range h {
		if h[i] = x[i+1] - x[i]; !(h[i] > 0) {
			return errors.New("points of a curve must follow one another")
		}
		rise[i] = (y[i+1] - y[i]) / h[i]
	}
	*s = spline{x, y, make([]float64, n)}
	if n == 3 {
		bend := (rise[1] - rise[0]) / (h[0] + h[1])
		s.slope[0], s.slope[1], s.slope[2] = rise[0]-bend*h[0], rise[0]+bend*h[0], rise[1]+bend*h[1]
		return nil
	}
	below, middle, above := make([]float64, n), make([]float64, n), make([]float64, n)
	d := s.slope
	for i := 1; i < n-1; i++ {
		below[i], middle[i], above[i] = h[i], 2*(h[i-1]+h[i]), h[i-1]
		d[i] = 3 * (h[i]*rise[i-1] + h[i-1]*rise[i])
	}
	end := func(h, next, rise, nextRise float64) float64 {
		return ((h+2*(h+next))*next*rise + h*h*nextRise) / (h + next)
	}
	middle[0], above[0], d[0] = h[1], h[0]+h[1], end(h[0], h[1], rise[0], rise[1])
	middle[n-1], below[n-1], d[n-1] = h[n-3], h[n-2]+h[n-3], end(h[n-2], h[n-3], rise[n-2], rise[n-3])
	// Elimination without pivoting: what is left on the diagonal is positive in
	// every row.
	for i := 1; i < n; i++ {
		f := below[i] / middle[i-1]
		middle[i] -= f * above[i-1]
		d[i] -= f * d[i-1]
	}
	d[n-1] /= middle[n-1]
	for i := n - 2; i >= 0; i-- {
		d[i] = (d[i] - above[i]*d[i+1]) / middle[i]
	}
	return nil
}

// piece returns the interval that x lies in and how far along it, in its length.
func (s *spline) piece(x float64) (i int, h, t float64) {
	i = sort.Search(len(s.x)-2, func(k int) bool { return s.x[k+1] > x })
	h = s.x[i+1] - s.x[i]
	return i, h, (x - s.x[i]) / h
}

// at returns the ordinate at x.
func (s *spline) at(x float64) float64 {
	i, h, t := s.piece(x)
	rise := s.y[i+1] - s.y[i]
	a, b := h*s.slope[i], h*s.slope[i+1]
	return s.y[i] + t*(a+t*(3*rise-2*a-b+t*(a+b-2*rise)))
}

// slopeAt returns the derivative at x.
func (s *spline) slopeAt(x float64) float64 {
	i, h, t := s.piece(x)
	rise := s.y[i+1] - s.y[i]
	a, b := h*s.slope[i], h*s.slope[i+1]
	return (a + t*(2*(3*rise-2*a-b)+3*t*(a+b-2*rise))) / h
}
