package solve

import (
	"context"
	"math"
	"slices"
)

// Follow looks for the optimum of a problem that differs little from one whose optimum
// is known, o.From, near start.
//
// Slopes are what a search pays for. Here they are taken seldom: between two sets of them
// the quadratic programme is solved anew at each point with the slopes there are, and with
// the curvature for how these change on the way (a chord method; a turn costs one
// evaluation). The first turns are on the slopes at the known optimum, where that problem
// has as many constraints; then fresh slopes are taken where these led, and so on. A step
// counts where the merit function of [Minimise] falls by a tenth of what the programme
// promises or more; else a shorter one is tried, with the constraints relaxed where they
// contradict one another within its length. The search ends where fresh slopes are
// stationary within the tolerance, or where the programme on the last fresh ones promised a
// gain of no more than [Options.Enough] and the constraints are closed.
//
// Where no step counts the search goes on as [Minimise] does, from where it is.
func Follow(ctx context.Context, p *Problem, start []float64, o Options, w *Workspace) Outcome {
	if o.From == nil || p.check(start) != nil {
		return Minimise(ctx, p, start, o, w)
	}
	if w == nil {
		w = new(Workspace)
	}
	s := &w.search
	s.begin(p, o.filled(), start)
	status := s.follow(ctx)
	if status == Stalled {
		at, evaluations, gradients := append([]float64(nil), s.x...), s.evaluations, s.gradients
		if !s.fresh {
			o.From = &Learnt{free: slices.Clone(s.free), scale: slices.Clone(s.scale), curvature: slices.Clone(s.curvature)}
		}
		out := Minimise(ctx, p, at, o, w)
		out.Evaluations += evaluations
		out.Gradients += gradients
		return out
	}
	out := s.outcome(status)
	s.p = nil
	return out
}

const (
	// mostRounds is how many sets of slopes are taken before a search is left to Minimise.
	mostRounds = 30
	// mostTurns is how often the programme is solved on one set of slopes: each turn leaves
	// a tenth of the violation where slopes are good.
	mostTurns = 12
	// closing is the violation below which fresh slopes are of more use than another turn.
	closing = 1e-4
)

// follow returns how the search ended: Stalled where it makes no headway.
func (s *search) follow(ctx context.Context) Status {
	s.recall()
	if s.fresh || !s.evaluate(s.x, &s.now) || !s.lean() || !s.differentiate() {
		return Stalled
	}
	for ; s.iterations < mostRounds; s.iterations++ {
		if ctx.Err() != nil {
			return Cancelled
		}
		s.turn()
		s.direction()
		s.judge()
		switch {
		case !s.restoring && s.violation <= s.o.Feasibility && s.stationarity <= s.o.Stationarity:
			return Converged
		case s.outdone():
			return Outdone
		case s.cornered && s.violation > s.o.Feasibility:
			return Infeasible
		case s.iterations >= s.o.Iterations:
			return IterationLimit
		}
		last := s.promisesLittle()
		switch closed, ok := s.near(last); {
		case !ok:
			return s.lost()
		case closed && last:
			s.along(s.slope)
			s.judge()
			return Converged
		}
		copy(s.q, s.moved)
		clear(s.moved)
		if !s.learn() {
			return Stalled
		}
	}
	return Stalled
}

// lean closes the constraints on the slopes at the known optimum, and stays where it began where
// these lead to no better place. It is false where there are no values there.
func (s *search) lean() bool {
	s.moved = resized(s.moved, len(s.free))
	s.home = append(s.home[:0], s.x...)
	clear(s.moved)
	if !s.borrow() {
		return true
	}
	s.factorise()
	closed := s.turnOnce() && s.close(closing)
	clear(s.moved)
	if closed {
		return true
	}
	copy(s.x, s.home)
	return s.evaluate(s.x, &s.now)
}

// near goes along the programme's step and closes the constraints, as far as turns on the slopes
// there are do it: to rounding for the last step. Where that is no gain it tries shorter steps.
// It is ok where a step counts.
func (s *search) near(last bool) (closed, ok bool) {
	s.base = append(s.base[:0], s.x...)
	least := closing
	if last {
		least = s.o.Feasibility
	}
	for range shorterSteps {
		s.weigh()
		step, before, fall := largest(s.q), s.merit(&s.now), s.fall()
		if !(step > 0 && fall < 0) {
			return false, false
		}
		closed = s.close(least)
		if after := s.merit(&s.now); closed && (last || after <= before+1e-4*fall) || after < before+worthAStep*fall {
			s.radius = math.Min(math.Max(s.radius, 4*step), s.o.StepLimit)
			// Turns end one point further where they do not close.
			return closed, closed || s.evaluate(s.x, &s.now)
		}
		copy(s.x, s.base)
		clear(s.moved)
		if !s.evaluate(s.x, &s.now) {
			return false, false
		}
		s.radius = shorter * step
		if s.direction(); s.cornered {
			return false, false
		}
	}
	return false, false
}

const (
	// shorterSteps is how often a step is tried, each shorter times as long as the one before.
	shorterSteps = 6
	shorter      = 0.3
	// worthAStep is the share of the fall of the merit function that the programme promises, from
	// which on a step counts that does not close the constraints.
	worthAStep = 0.1
)

// lost leaves x where it is if that is better than where the search began, else there.
func (s *search) lost() Status {
	copy(s.trial, s.home)
	if s.evaluate(s.trial, &s.then) && s.then.violation() < s.now.violation() {
		copy(s.x, s.home)
	}
	return Stalled
}

// borrow takes the slopes at the known optimum; false where they are not known or that problem
// has other constraints.
func (s *search) borrow() bool {
	from := s.o.From
	if from.x == nil || from.equalities != s.p.Equalities || len(from.jacobian) != len(s.jacobian) {
		return false
	}
	copy(s.slope, from.slope)
	copy(s.jacobian, from.jacobian)
	for k, i := range s.free {
		s.moved[k] = (s.x[i] - from.x[i]) / s.scale[k]
	}
	return true
}

// turnOnce solves the programme at x: slopes are those of the point that x has moved from.
func (s *search) turnOnce() bool {
	s.load()
	s.along(s.strict.g)
	s.strict.begin(s.factor)
	if s.strict.run() != quadraticSolved {
		return false
	}
	copy(s.q, s.strict.q)
	copy(s.price, s.strict.price)
	return true
}

// promise is the gain that the programme promises beyond closing the constraints: half
// the curvature along its step.
func (s *search) promise() float64 {
	m, sum := len(s.free), 0.0
	for k := range m {
		sum += s.q[k] * dot(s.curvature[k*m:(k+1)*m], s.q)
	}
	return sum / 2
}

// promisesLittle tells whether the programme promises no more than Enough, none of it held back by
// the step limit.
func (s *search) promisesLittle() bool {
	return !s.restoring && !s.elastic && s.promise() <= s.o.Enough && largest(s.q) < 0.9*s.radius
}

// close goes along the programme's step and solves it anew until the violation is at most
// least; false where that does not fall as it should.
func (s *search) close(least float64) bool {
	before := math.Inf(1)
	for range mostTurns {
		if !s.tryAt(s.q, 1) {
			return false
		}
		after := s.then.violation()
		if !(after <= math.Max(least, 0.5*before)) {
			return false
		}
		for k, i := range s.free {
			s.moved[k] += (s.trial[i] - s.x[i]) / s.scale[k]
		}
		s.x, s.trial = s.trial, s.x
		s.now, s.then = s.then, s.now
		before = after
		if after <= least {
			return true
		}
		if !s.turnOnce() {
			return false
		}
	}
	return false
}

// along adds to a slope what it has changed by on the way from where it was taken.
func (s *search) along(g []float64) {
	m := len(s.free)
	for k := range m {
		g[k] += dot(s.curvature[k*m:(k+1)*m], s.moved)
	}
}

// violation is the largest of |Equal| and -Inequal.
func (v *Values) violation() float64 {
	most := 0.0
	for _, c := range v.Equal {
		most = math.Max(most, violation(c, true))
	}
	for _, c := range v.Inequal {
		most = math.Max(most, violation(c, false))
	}
	return most
}
