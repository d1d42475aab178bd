package section

import (
	"math"
	"slices"
)

// grid is a smooth function of up to three variables through the values at
// the points of a full grid: on each cell the product of cubics of its corners'
// values and slopes (Hermite), the slopes those of Fritsch, Butland (1984, SIAM
// Journal on Scientific and Statistical Computing 5, 300–304) along each grid
// line, the mixed ones nil. Value and first derivatives are continuous
// everywhere, and along a grid line the function never leaves the range between
// neighbouring points.
//
// Past the ends of an axis it goes on with the slope that it has there, which
// falls in a straight line to nothing over one more step of the grid; beyond, it
// is constant.
type grid struct {
	axes  [3]axis
	nodes []node // the first axis fastest
}

// axis is the places of the points along one variable, ascending, at least one.
type axis []float64

// node is the value at a point of the grid and the slopes along its axes.
type node [4]float64

// newGrid makes the function through values, the first axis fastest.
func newGrid(axes [3]axis, values []float64) *grid {
	s := &grid{axes: axes, nodes: make([]node, len(values))}
	for i, v := range values {
		s.nodes[i][0] = v
	}
	stride := 1
	for d, places := range axes {
		n := len(places)
		for start := range values {
			if start/stride%n != 0 {
				continue
			}
			line := func(i int) float64 { return values[start+i*stride] }
			for i := range n {
				s.nodes[start+i*stride][1+d] = places.slope(line, i)
			}
		}
		stride *= n
	}
	return s
}

// slope returns the limited slope at point i of the values along an axis.
func (a axis) slope(value func(int) float64, i int) float64 {
	step := func(k int) float64 { return a[k+1] - a[k] }
	secant := func(k int) float64 { return (value(k+1) - value(k)) / step(k) }
	last := len(a) - 2
	switch {
	case last < 0:
		return 0
	case last == 0:
		return secant(0)
	case i == 0:
		return edgeSlope(step(0), step(1), secant(0), secant(1))
	case i > last:
		return edgeSlope(step(last), step(last-1), secant(last), secant(last-1))
	}
	before, after := secant(i-1), secant(i)
	if before*after <= 0 {
		return 0
	}
	v, w := 2*step(i-1)+step(i), step(i-1)+2*step(i)
	return (v + w) / (w/before + v/after)
}

// edgeSlope is the three-point slope at an end whose first two steps are given
// with their secants, limited so that the curve stays monotone.
func edgeSlope(step, next, secant, beyond float64) float64 {
	slope := ((2*step+next)*secant - step*beyond) / (step + next)
	switch {
	case slope*secant <= 0:
		return 0
	case secant*beyond <= 0 && math.Abs(slope) > 3*math.Abs(secant):
		return 3 * secant
	}
	return slope
}

// corner is what the two points about a place along one axis weigh there: their
// values and their slopes.
type corner struct {
	at           [2]int
	value, slope [2]float64
}

// corners returns the weights at a place. What is no number counts as the first
// point.
func (a axis) corners(place float64) corner {
	n := len(a)
	if n == 1 || math.IsNaN(place) {
		return corner{value: [2]float64{1, 0}}
	}
	if place <= a[0] {
		return corner{value: [2]float64{1, 0}, slope: [2]float64{-runOut(a[0]-place, a[1]-a[0]), 0}}
	}
	if place >= a[n-1] {
		return corner{at: [2]int{n - 1, n - 1}, value: [2]float64{1, 0},
			slope: [2]float64{runOut(place-a[n-1], a[n-1]-a[n-2]), 0}}
	}
	lo, hi := 0, n-1
	for hi-lo > 1 {
		mid := (lo + hi) / 2
		if a[mid] <= place {
			lo = mid
		} else {
			hi = mid
		}
	}
	step := a[hi] - a[lo]
	u := (place - a[lo]) / step
	v := 1 - u
	return corner{
		at:    [2]int{lo, hi},
		value: [2]float64{v * v * (1 + 2*u), u * u * (1 + 2*v)},
		slope: [2]float64{step * u * v * v, -step * u * u * v},
	}
}

// runOut is how far a slope carries at a distance past the end: ∫(1 − d/step).
func runOut(distance, step float64) float64 {
	d := min(distance, step)
	return d - d*d/(2*step)
}

// at returns the value at a place.
func (s *grid) at(x, y, z float64) float64 {
	a, b, c := s.axes[0].corners(x), s.axes[1].corners(y), s.axes[2].corners(z)
	n, m := len(s.axes[0]), len(s.axes[1])
	sum := 0.0
	for k := range 2 {
		if c.value[k] == 0 && c.slope[k] == 0 {
			continue
		}
		for j := range 2 {
			if b.value[j] == 0 && b.slope[j] == 0 {
				continue
			}
			row := s.nodes[(c.at[k]*m+b.at[j])*n:]
			yz, dyz, ydz := b.value[j]*c.value[k], b.slope[j]*c.value[k], b.value[j]*c.slope[k]
			for i := range 2 {
				p := &row[a.at[i]]
				sum += a.value[i]*(yz*p[0]+dyz*p[2]+ydz*p[3]) + a.slope[i]*yz*p[1]
			}
		}
	}
	return sum
}

// covers tells whether a place lies on an axis, give or take a hair.
func (a axis) covers(place float64) bool {
	return place >= a[0]-hair && place <= a[len(a)-1]+hair
}

func (s *grid) equal(o *grid) bool {
	for d := range s.axes {
		if !slices.Equal(s.axes[d], o.axes[d]) {
			return false
		}
	}
	return slices.Equal(s.nodes, o.nodes)
}
