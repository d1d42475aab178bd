package solve

// restore is the state of the second phase: where relaxed steps bring the
// violation no further down, the objective is left out of account and the
// violation alone is minimised, until either the constraints can be met or
// it is plain that they cannot. Without it a search that has no feasible point
// creeps, the objective pulling one way and a growing penalty the other.
type restore struct {
	restoring bool
	entered   float64 // violation on entry
	least     float64 // smallest violation so far outside the phase
	idle      int     // steps since it last fell by a third
	slow      int     // steps of the phase in a row that hardly brought it down
	last      float64 // violation at the step before
	times     int
}

// patience is the number of relaxed steps without a fall of the violation by a
// third before the objective is left out of account.
const patience = 2

// After slowSteps steps that each lower the violation by less than a
// thousandth, in the phase that does nothing else, a first-order gain of
// slowShare within the step limit no longer counts as a way out.
const (
	slowSteps = 4
	slowShare = 0.02
)

// turn changes between the phases, before the direction at x is found.
func (s *search) turn() {
	missed := 0.0
	for j, c := range s.now.Equal {
		missed += violation(c, true) / s.over(j)
	}
	for j, c := range s.now.Inequal {
		missed += violation(c, false) / s.over(s.p.Equalities+j)
	}
	switch {
	case s.restoring:
		if s.slow++; missed < 0.999*s.last {
			s.slow = 0
		}
		s.last = missed
		if missed <= 0.1*s.entered || missed <= s.o.Feasibility {
			s.restoring, s.idle, s.least = false, 0, missed
			s.slow = 0
			s.forget()
		}
	case s.iterations == 0 || missed < 0.7*s.least || missed <= s.o.Feasibility:
		s.least, s.idle = missed, 0
	case s.elastic:
		if s.idle++; s.idle >= patience && s.times < 4 {
			s.restoring, s.entered, s.penalty = true, missed, 0
			s.slow, s.last = 0, missed
			s.times++
			s.forget()
		}
	}
}

// over is the reach of row j, which is not known before the first direction.
func (s *search) over(j int) float64 {
	if s.iterations == 0 {
		return 1
	}
	return s.reach[j]
}

// aim copies the slope of what is being minimised.
func (s *search) aim(g []float64) {
	if s.restoring {
		clear(g)
		return
	}
	copy(g, s.slope)
}
