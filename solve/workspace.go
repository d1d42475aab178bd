package solve

import "math"

// Workspace is the scratch memory of [Minimise]. The zero value is ready; it
// grows to the largest problem met and is kept from one call to the next. It
// may not be shared by two goroutines. It carries no state: the answer does
// not depend on what a workspace was used for before.
type Workspace struct {
	search search
}

// search is one run of [Minimise]. Variables that are pinned are left out:
// free lists the others, and everything named q, slope or jacobian is in free
// variables divided by their Scale.
type search struct {
	p *Problem
	o Options

	free  []int
	scale []float64 // of the free variables

	x, trial   []float64 // all variables
	now, then  Values    // at x and at trial
	raw        Slopes
	rawRows    []float64
	probe      Values
	probeBack  Values
	central    Differences
	slope      []float64 // of F
	jacobian   []float64 // rows × free
	lagrangian []float64 // slope of the Lagrangian before the step
	curvature  []float64 // B, free × free
	factor     []float64 // its lower triangle
	spare      []float64 // another
	bq         []float64
	fresh      bool // B has learnt nothing yet
	recalled   bool // B comes from an earlier search
	asked      bool // for the problem's own curvature
	second     []float64
	lessons    lessons
	moved      []float64 // from where slopes are of, in Follow
	home       []float64 // where Follow began
	base       []float64 // where it took slopes last

	strict, soft quadratic
	q            []float64
	correction   []float64
	offset       []float64 // constraints at x, equalities first
	price        []float64 // of the rows
	weight       []float64 // of the merit function
	reach        []float64 // length of each row of the jacobian, not below one
	penalty      float64
	elastic      bool
	cornered     bool // the violation cannot be reduced to first order
	radius       float64
	restore

	violation, stationarity            float64
	iterations, evaluations, gradients int
	flat                               int // steps in a row with no measurable gain
	failures                           int // line searches failed in a row
}

// begin readies the memory for a problem and puts the start inside the bounds.
func (s *search) begin(p *Problem, o Options, start []float64) {
	s.p, s.o = p, o
	n, rows := len(start), p.Equalities+p.Inequalities
	s.x, s.trial = resized(s.x, n), resized(s.trial, n)
	s.free, s.scale = s.free[:0], s.scale[:0]
	for i, v := range start {
		s.x[i] = min(max(v, p.Lower[i]), p.Upper[i])
		if p.Lower[i] == p.Upper[i] {
			continue
		}
		s.free = append(s.free, i)
		if p.Scale == nil {
			s.scale = append(s.scale, 1)
		} else {
			s.scale = append(s.scale, p.Scale[i])
		}
	}
	m := len(s.free)
	for _, v := range []*Values{&s.now, &s.then, &s.probe, &s.probeBack} {
		v.Equal = resized(v.Equal, p.Equalities)
		v.Inequal = resized(v.Inequal, p.Inequalities)
	}
	s.raw.F = resized(s.raw.F, n)
	s.rawRows = resized(s.rawRows, rows*n)
	s.raw.Equal = rowsOf(s.raw.Equal, s.rawRows, p.Equalities, n)
	s.raw.Inequal = rowsOf(s.raw.Inequal, s.rawRows[p.Equalities*n:], p.Inequalities, n)
	for _, v := range []*[]float64{&s.slope, &s.lagrangian, &s.bq, &s.q, &s.correction} {
		*v = resized(*v, m)
	}
	s.jacobian = resized(s.jacobian, rows*m)
	s.curvature, s.factor = resized(s.curvature, m*m), resized(s.factor, m*m)
	s.spare = resized(s.spare, m*m)
	s.offset, s.price = resized(s.offset, rows), resized(s.price, rows)
	s.weight, s.reach = resized(s.weight, rows), resized(s.reach, rows)
	for j := range rows {
		s.weight[j], s.price[j] = 0, 0
	}
	s.strict.reserve(m, p.Equalities, rows)
	s.strict.slack, s.strict.dependent = 0.1*o.Feasibility, 1e-9
	if p.Slopes == nil {
		// Differences of rows that repeat one another are not quite the same.
		s.strict.dependent = 30 * math.Sqrt(o.Noise)
	}
	s.central = o.Differences
	s.penalty, s.radius = 0, o.StepLimit
	s.elastic, s.cornered = false, false
	s.recalled, s.asked = false, false
	s.lessons.forget()
	s.restore = restore{}
	s.iterations, s.evaluations, s.gradients, s.flat, s.failures = 0, 0, 0, 0, 0
	s.violation, s.stationarity = 0, 0
}

func rowsOf(rows [][]float64, flat []float64, count, n int) [][]float64 {
	if cap(rows) < count {
		rows = make([][]float64, count)
	}
	rows = rows[:count]
	for j := range rows {
		rows[j] = flat[j*n : (j+1)*n : (j+1)*n]
	}
	return rows
}
