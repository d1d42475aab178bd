package solve

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// firstAsked is the step of a search before which [Problem.Curvature] is asked for the
// first time: at the second the prices mean something.
const firstAsked = 2

// inform replaces the estimate of the curvature by the problem's own, where it has one,
// at the present prices, and teaches that what the last steps have taught.
func (s *search) inform() {
	if s.p.Curvature == nil || s.restoring || s.iterations < firstAsked || s.failures > 0 {
		return
	}
	n := len(s.x)
	s.second = resized(s.second, n*n)
	afresh := !s.asked && !s.recalled
	s.asked = true
	if !s.p.Curvature(s.x, s.price, afresh, s.second) {
		return
	}
	for _, v := range s.second {
		if !finite(v) {
			return
		}
	}
	s.adopt()
	s.lessons.each(s.teach)
}

// lessons are what the last steps have taught, the oldest first: a step, and by how much
// the slope of the Lagrangian turned on it.
type lessons struct {
	steps, turns [][]float64
	count        int // of all steps that have taught
	turn         []float64
}

// mostLessons is how many steps are remembered. Measured on best trims of boats, with 13
// to 19 variables: with none a search takes a tenth more steps.
const mostLessons = 8

func (l *lessons) forget() { l.count = 0 }

// note remembers a step and its turn in place of the oldest.
func (l *lessons) note(step, turn []float64) {
	if l.steps == nil {
		l.steps, l.turns = make([][]float64, mostLessons), make([][]float64, mostLessons)
	}
	at := l.count % mostLessons
	l.steps[at] = append(l.steps[at][:0], step...)
	l.turns[at] = append(l.turns[at][:0], turn...)
	l.count++
}

// each tells the steps and their turns, which may be written over.
func (l *lessons) each(tell func(step, turn []float64)) {
	for i := max(0, l.count-mostLessons); i < l.count; i++ {
		l.turn = append(l.turn[:0], l.turns[i%mostLessons]...)
		tell(l.steps[i%mostLessons], l.turn)
	}
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
