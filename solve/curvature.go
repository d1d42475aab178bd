package solve

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// Steps of a search before which [Problem.Curvature] is asked. At the second the
// prices mean something; a step costs one set of slopes and what is learnt from
// them keeps the estimate for some eight steps. Measured on best trims of boats,
// with 13 to 19 variables: 55 to 100 steps without, 12 to 25 with; more often
// asked it saves no further steps.
const firstAsked, askedEvery, askedTimes = 2, 8, 3

// inform replaces the estimate of the curvature by the problem's own, where it
// has one and its turn has come.
func (s *search) inform() {
	if s.p.Curvature == nil || s.restoring || s.asked == askedTimes {
		return
	}
	if s.o.From != nil && s.recalled {
		return
	}
	if s.iterations != firstAsked+s.asked*askedEvery {
		return
	}
	s.asked++
	n := len(s.x)
	s.second = resized(s.second, n*n)
	if !s.p.Curvature(s.x, &s.now, s.price, s.second) {
		return
	}
	for _, v := range s.second {
		if !finite(v) {
			return
		}
	}
	s.adopt()
}

// equalityWeight is how heavily the squares of the linearised equalities are
// added to the curvature, over its largest entry. On steps that meet them the
// sum is a constant, so the step stays the same; what is left to be made positive
// is the curvature along the equalities alone.
const equalityWeight = 10

// leastCurvature is the floor of the eigenvalues over the largest one.
const leastCurvature = 1e-7

// adopt scales the second derivatives, makes them positive definite and takes
// them for the curvature. Negative eigenvalues change sign: the step then goes as
// far along them as it would in a well as deep (Nocedal and Wright 2006, section
// 3.4).
func (s *search) adopt() {
	n, m := len(s.x), len(s.free)
	sum := mat.NewSymDense(m, nil)
	most := 0.0
	for k, i := range s.free {
		for l, j := range s.free[:k+1] {
			v := (s.second[i*n+j] + s.second[j*n+i]) / 2 * s.scale[k] * s.scale[l]
			sum.SetSym(k, l, v)
			most = math.Max(most, math.Abs(v))
		}
	}
	if !(most > 0) {
		return
	}
	for j := range s.p.Equalities {
		row := s.jacobian[j*m : (j+1)*m]
		square := dot(row, row)
		if !(square > 0) {
			continue
		}
		weight := equalityWeight * most / square
		for k := range m {
			for l := range k + 1 {
				sum.SetSym(k, l, sum.At(k, l)+weight*row[k]*row[l])
			}
		}
	}
	var e mat.EigenSym
	if !e.Factorize(sum, true) {
		return
	}
	var axes mat.Dense
	e.VectorsTo(&axes)
	values := e.Values(nil)
	floor := leastCurvature * slices.Max(values)
	clear(s.curvature)
	for c, v := range values {
		v = math.Max(math.Abs(v), floor)
		for k := range m {
			scaled := v * axes.At(k, c)
			for l := range m {
				s.curvature[k*m+l] += scaled * axes.At(l, c)
			}
		}
	}
	s.fresh = false
}
