package solve

import (
	"context"
	"math"
)

// Follow looks for the optimum of a problem that differs little from one whose optimum
// is known, o.From, near start.
//
// Slopes are what a search pays for. Here they are taken seldom: between two sets of them
// the quadratic programme is solved anew at each point with the slopes there are, and with
// the curvature for how these change on the way (a chord method; a turn costs one
// evaluation). The first turns are on the slopes at the known optimum, where that problem
// has as many constraints; then fresh slopes are taken where these led, and so on. The
// search ends where fresh slopes are stationary within the tolerance, or where the
// programme on the last fresh ones promised a gain of no more than [Options.Enough] and the
// constraints are closed.
//
// Where it makes no headway the search goes on as [Minimise] does, from where it is.
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
	mostRounds = 10
	// mostTurns is how often the programme is solved on one set of slopes: each turn leaves
	// a tenth of the violation where slopes are good.
	mostTurns = 12
	// closing is the violation below which fresh slopes are of more use than another turn.
	closing = 1e-4
)

// follow returns how the search ended: Stalled where it makes no headway.
func (s *search) follow(ctx context.Context) Status {
	s.recall()
	if s.fresh || !s.evaluate(s.x, &s.now) {
		return Stalled
	}
	s.moved = resized(s.moved, len(s.free))
	s.home = append(s.home[:0], s.x...)
	own := false // slopes of this problem were taken
	for round := range mostRounds {
		if ctx.Err() != nil {
			return Cancelled
		}
		known := round == 0 && s.borrow()
		if !known {
			if !s.freshen(own) {
				return Stalled
			}
			own = true
		}
		s.factorise()
		if known {
			if !s.turnOnce() || !s.close(closing) {
				// What the known slopes lead to is no better place to begin at.
				copy(s.x, s.home)
				if !s.evaluate(s.x, &s.now) {
					return Stalled
				}
			}
			continue
		}
		if !s.turnOnce() {
			return s.lost()
		}
		if s.judge(); s.violation <= s.o.Feasibility && s.stationarity <= s.o.Stationarity {
			return Converged
		}
		least, enough := closing, s.promise() <= s.o.Enough && largest(s.q) < 0.9*s.radius
		if enough {
			least = s.o.Feasibility
		}
		if !s.near(least) {
			return s.lost()
		}
		if enough {
			s.along(s.slope)
			s.judge()
			return Converged
		}
	}
	return Stalled
}

// near closes the constraints along the programme's step, and where that leads too far along
// a shorter one.
func (s *search) near(least float64) bool {
	s.base = append(s.base[:0], s.x...)
	for range shorterSteps {
		step := largest(s.q)
		if s.close(least) {
			s.radius = math.Min(math.Max(s.radius, 4*step), s.o.StepLimit)
			return true
		}
		copy(s.x, s.base)
		clear(s.moved)
		s.radius = shorter * step
		if !s.evaluate(s.x, &s.now) || !s.turnOnce() {
			return false
		}
	}
	return false
}

// shorterSteps is how often a step is tried, each shorter times as long as the one before.
const (
	shorterSteps = 4
	shorter      = 0.3
)

// lost leaves x where it is if that is better than where the search began, else there.
func (s *search) lost() Status {
	copy(s.trial, s.home)
	if s.evaluate(s.trial, &s.then) && s.then.violation() < s.now.violation() {
		copy(s.x, s.home)
	}
	return Stalled
}

// borrow takes the slopes at the known optimum; false where that problem has other
// constraints.
func (s *search) borrow() bool {
	from := s.o.From
	if from.equalities != s.p.Equalities || len(from.jacobian) != len(s.jacobian) {
		return false
	}
	copy(s.slope, from.slope)
	copy(s.jacobian, from.jacobian)
	for k, i := range s.free {
		s.moved[k] = (s.x[i] - from.x[i]) / s.scale[k]
	}
	return true
}

// freshen takes slopes at x; where there are some of the same problem, what lies between
// the two teaches the curvature.
func (s *search) freshen(learns bool) bool {
	if !learns {
		clear(s.moved)
		return s.differentiate()
	}
	copy(s.q, s.moved)
	clear(s.moved)
	return s.learn()
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
