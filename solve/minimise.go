package solve

import (
	"context"
	"math"
	"slices"
)

// Minimise looks for a local minimum of p near start by sequential quadratic
// programming.
//
// Each step solves a convex quadratic programme in the scaled variables, with
// a damped BFGS estimate of the curvature of the Lagrangian (Powell 1978,
// eqs 5.5–5.9) and the linearised constraints, inside the bounds and a step
// limit. Equalities that repeat others are left aside; where the linearised
// constraints contradict one another they are relaxed at an l1 penalty that is
// steered as Byrd, Nocedal and Waltz (2008) describe, and where that makes no
// headway the violation alone is minimised, so that a problem without a
// feasible point is told from a hard one. A line search on the l1
// merit function with Powell's weights (eqs 4.2 and 4.8) decides how far to
// go, with a second-order correction where curved constraints refuse the full
// step (Nocedal and Wright 2006, section 18.3), so a step costs one set of
// slopes and most often one evaluation.
//
// Where the problem knows its second derivatives the estimate is begun from them at
// every step and learns the last ones again, see [Problem.Curvature].
//
// It leaves out: proof that a problem is infeasible (Infeasible means that no
// small step helps, and another start may do better).
// Checked on 2 to 12 variables, up to 6 equalities and 24 inequalities; the
// factors are dense, so the work of a step grows with the cube of the size.
//
// A start outside the bounds is moved onto them. The context is looked at once
// a step. A nil Workspace is allowed. The minimum found is a local one: where
// there may be several, start from several points.
func Minimise(ctx context.Context, p *Problem, start []float64, o Options, w *Workspace) Outcome {
	if err := p.check(start); err != nil {
		return Outcome{Status: Refused, Err: err, X: append([]float64(nil), start...)}
	}
	if w == nil {
		w = new(Workspace)
	}
	s := &w.search
	s.begin(p, o.filled(), start)
	status := s.iterate(ctx)
	out := s.outcome(status)
	s.p = nil
	return out
}

// joinedWithin is the largest violation at which a search may end beside a known end.
const joinedWithin = 0.01

// joins tells whether the search has come beside a known end, where so much is violated.
func (s *search) joins(violation float64) bool {
	return !s.restoring && s.o.Known != nil && violation <= joinedWithin && s.o.Known(s.x)
}

// A search is outdone where constraints are violated by no more than nearlyMet, and what it is
// wanted for lies further off than hopeful times the gain that its programme promises. Far from
// its end a programme may promise far too little: over 500 searches of boats by up to 20 times
// after firstLeft steps, by 100 times before.
const nearlyMet, hopeful, firstLeft = 0.05, 50, 6

func (s *search) outdone() bool {
	if s.o.Worth == 0 || s.restoring || s.elastic || !s.asked && !s.recalled || s.violation > nearlyMet || largest(s.q) >= 0.9*s.radius {
		return false
	}
	promise := s.promise()
	ahead := s.now.F + dot(s.slope, s.q) + promise // where the programme's step leads
	return ahead-hopeful*promise > s.o.Worth
}

func (s *search) iterate(ctx context.Context) Status {
	if !s.evaluate(s.x, &s.now) || !s.differentiate() {
		return NoValue
	}
	s.recall()
	for ; ; s.iterations++ {
		if ctx.Err() != nil {
			return Cancelled
		}
		s.turn()
		s.inform()
		s.direction()
		s.judge()
		switch {
		case !s.restoring && s.violation <= s.o.Feasibility && s.stationarity <= s.o.Stationarity:
			return Converged
		case s.joins(s.violation):
			return Joined
		case s.iterations >= firstLeft && s.outdone():
			return Outdone
		case s.cornered && s.violation > s.o.Feasibility:
			return Infeasible
		case s.iterations >= s.o.Iterations:
			return IterationLimit
		}
		s.weigh()
		stepped := s.step()
		if stepped && s.joins(s.now.violation()) {
			s.iterations++
			return Joined // before slopes are taken there
		}
		if stepped && s.flat <= 5 {
			if !s.learn() {
				return NoValue
			}
			s.failures = 0
			continue
		}
		if again, ok := s.recover(stepped); !ok {
			return NoValue
		} else if !again {
			return Stalled
		}
	}
}

// recover prepares another attempt after a search without gain: better slopes
// where they can be had, or else a curvature estimate begun afresh.
func (s *search) recover(stepped bool) (again, ok bool) {
	s.failures++
	better := s.p.Slopes == nil && s.central == Adaptive
	switch {
	case better:
		s.central = Central
	case s.fresh || s.failures > 3:
		return false, true
	}
	s.flat = 0
	if stepped || better {
		if !s.differentiate() {
			return false, false
		}
	}
	s.forget()
	s.radius = s.o.StepLimit
	return true, true
}

// forget sets the curvature to a multiple of one that makes the step of an
// unconstrained search one Scale long.
func (s *search) forget() {
	m := len(s.free)
	size := math.Sqrt(dot(s.slope, s.slope))
	switch {
	case s.restoring:
		size = 0.01
	case !(size > 1e-8):
		size = 1
	}
	s.setCurvature(size, m)
	s.fresh = true
	s.lessons.forget()
}

// recall begins with the curvature of an earlier search, where there is one
// of the same variables.
func (s *search) recall() {
	from := s.o.From
	if from == nil || !slices.Equal(from.free, s.free) || !slices.Equal(from.scale, s.scale) {
		s.forget()
		return
	}
	copy(s.curvature, from.curvature)
	s.fresh, s.recalled = false, true
}

func (s *search) setCurvature(size float64, m int) {
	for i := range s.curvature {
		s.curvature[i] = 0
	}
	for i := range m {
		s.curvature[i*m+i] = size
	}
}

// factorise sets factor to the lower triangle of the Cholesky factors of the
// curvature, which is begun afresh where it has none.
func (s *search) factorise() {
	m := len(s.free)
	if cholesky(s.factor, s.curvature, m) {
		return
	}
	s.forget()
	cholesky(s.factor, s.curvature, m)
}

// cholesky sets l to the lower triangle of the factors of a, n × n. It returns
// false where a is not positive definite to 14 figures.
func cholesky(l, a []float64, n int) bool {
	for i := range n {
		li := l[i*n : (i+1)*n]
		for j := range i + 1 {
			lj := l[j*n : (j+1)*n]
			sum := a[i*n+j] - dot(li[:j], lj[:j])
			if i == j {
				if !(sum > 1e-14*a[i*n+i]) || !finite(sum) {
					return false
				}
				li[i] = math.Sqrt(sum)
			} else {
				li[j] = sum / lj[j]
			}
		}
		for j := i + 1; j < n; j++ {
			li[j] = 0
		}
	}
	return true
}

// direction finds the step q and the prices of the constraints at x.
func (s *search) direction() {
	s.factorise()
	s.load()
	s.elastic, s.cornered = false, false
	s.strict.begin(s.factor)
	if s.strict.run() == quadraticSolved {
		s.penalty = 0
		copy(s.q, s.strict.q)
		copy(s.price, s.strict.price)
		return
	}
	s.relax()
}

// load sets up the quadratic programme at x.
func (s *search) load() {
	copy(s.offset, s.now.Equal)
	copy(s.offset[s.p.Equalities:], s.now.Inequal)
	s.aim(s.strict.g)
	copy(s.strict.row, s.jacobian)
	copy(s.strict.offset, s.offset)
	m := len(s.free)
	for j := range s.reach {
		if s.restoring {
			break // the merit function is to stay the same from step to step
		}
		row := s.jacobian[j*m : (j+1)*m]
		s.reach[j] = math.Max(1, math.Sqrt(dot(row, row)))
	}
	for k, i := range s.free {
		s.strict.low[k] = math.Max((s.p.Lower[i]-s.x[i])/s.scale[k], -s.radius)
		s.strict.high[k] = math.Min((s.p.Upper[i]-s.x[i])/s.scale[k], s.radius)
	}
}

// relax finds a step where the linearised constraints contradict one another:
// first how much of the violation any step could remove, then the step that
// removes a fair share of that at the least cost to the objective.
func (s *search) relax() {
	m := len(s.free)
	s.elastic = true
	for k := range s.q {
		s.q[k] = 0
	}
	missed := s.strict.missed(s.q, s.reach)
	gain := missed - s.leastMissed()
	share := cornerShare
	if s.slow >= slowSteps {
		share = slowShare
	}
	if gain <= share*missed*math.Min(1, s.radius) && missed > s.o.Feasibility {
		copy(s.price, s.soft.price)
		s.cornered = true
		return
	}
	s.aim(s.strict.g)
	penalty := math.Max(s.penalty, largest(s.strict.g))
	if !(penalty > 0) {
		penalty = 1
	}
	most := 1e9 * penalty
	for {
		s.soft.elastic(&s.strict, s.factor, s.reach, penalty)
		s.soft.run()
		left := s.strict.missed(s.soft.q, s.reach)
		if s.restoring || missed-left >= 0.3*gain || left <= s.o.Feasibility || penalty >= most {
			break
		}
		penalty *= 10
	}
	s.soft.settle()
	s.penalty = penalty
	for k := range m {
		s.q[k] = min(max(s.soft.q[k], s.strict.low[k]), s.strict.high[k])
	}
	copy(s.price, s.soft.price)
}

// cornerShare is the share of the violation that a step must be able to
// remove, to first order, for the search to go on: below the error of
// differences there is no telling.
const cornerShare = 1e-5

// leastMissed is the smallest sum of linearised violations inside the bounds
// and the step limit. It leaves the prices of the violation in soft.
func (s *search) leastMissed() float64 {
	m := len(s.free)
	for k := range m {
		s.strict.g[k] = 0
	}
	// A thousandth in the triangle, a millionth in the curvature: enough to
	// make the least step unique, too little to hold it back.
	for i := range s.spare {
		s.spare[i] = 0
	}
	for k := range m {
		s.spare[k*m+k] = 1e-3
	}
	s.soft.elastic(&s.strict, s.spare, s.reach, 1)
	s.soft.run()
	s.soft.settle()
	return s.strict.missed(s.soft.q, s.reach)
}

func largest(v []float64) float64 {
	most := 0.0
	for _, a := range v {
		most = math.Max(most, math.Abs(a))
	}
	return most
}

// judge measures violation and stationarity at x with the present prices.
func (s *search) judge() {
	m := len(s.free)
	s.violation, s.stationarity = 0, 0
	s.aim(s.bq)
	if s.cornered {
		clear(s.bq)
	}
	for j, c := range s.offset {
		axpy(s.bq, -s.price[j], s.jacobian[j*m:(j+1)*m])
		s.violation = math.Max(s.violation, violation(c, j < s.p.Equalities))
		if j >= s.p.Equalities {
			s.stationarity = math.Max(s.stationarity, math.Abs(s.price[j]*math.Max(0, c)))
		}
	}
	for k, i := range s.free {
		r := s.bq[k]
		if (s.x[i] == s.p.Lower[i] && r > 0) || (s.x[i] == s.p.Upper[i] && r < 0) {
			continue
		}
		s.stationarity = math.Max(s.stationarity, math.Abs(r))
	}
	s.stationarity /= math.Max(1, largest(s.slope))
}

// learn takes the slopes at the new x and learns from how they have turned.
func (s *search) learn() bool {
	m := len(s.free)
	s.lagrange(s.lagrangian)
	if !s.differentiate() {
		return false
	}
	y, step := s.correction, s.q
	s.lagrange(y)
	for k := range y {
		y[k] -= s.lagrangian[k]
	}
	sy, ss := dot(step, y), dot(step, step)
	if !(ss > 0) {
		return true
	}
	if s.fresh {
		if sy > 1e-6*ss {
			size := math.Sqrt(dot(y, y) / ss)
			if s.restoring {
				size = dot(y, y) / sy
			}
			s.setCurvature(min(max(size, 1e-4*s.curvature[0]), 1e4*s.curvature[0]), m)
		}
		s.fresh = false
	}
	s.lessons.note(step, y)
	s.teach(step, y)
	return true
}

// teach updates the curvature by the damped BFGS formula with a step and the turn of the
// slope of the Lagrangian on it, which is written over.
func (s *search) teach(step, turn []float64) {
	m := len(s.free)
	for i := range m {
		s.bq[i] = dot(s.curvature[i*m:(i+1)*m], step)
	}
	sy, sbs := dot(step, turn), dot(step, s.bq)
	if !(sbs > 0) {
		s.forget()
		return
	}
	if sy < 0.2*sbs {
		theta := 0.8 * sbs / (sbs - sy)
		for k := range turn {
			turn[k] = theta*turn[k] + (1-theta)*s.bq[k]
		}
		sy = dot(step, turn)
	}
	for i := range m {
		row := s.curvature[i*m : (i+1)*m]
		axpy(row, -s.bq[i]/sbs, s.bq)
		axpy(row, turn[i]/sy, turn)
	}
}

// lagrange sets l to the slope of the Lagrangian with the present prices.
func (s *search) lagrange(l []float64) {
	m := len(s.free)
	s.aim(l)
	for j, price := range s.price {
		if price != 0 {
			axpy(l, -price, s.jacobian[j*m:(j+1)*m])
		}
	}
}
