package solve

import "math"

// weigh sets the weights of the merit function: at least the price of each
// constraint, falling slowly where a price has fallen (Powell 1978, eq. 4.8).
func (s *search) weigh() {
	if s.restoring {
		for j := range s.weight {
			s.weight[j] = 1 / s.reach[j]
		}
		return
	}
	most := 0.0
	for j, price := range s.price {
		most = math.Max(most, math.Abs(price)*s.reach[j])
	}
	for j, price := range s.price {
		price = math.Max(1.01*math.Abs(price), 0.05*most/s.reach[j])
		s.weight[j] = math.Max(price, 0.5*(s.weight[j]+price))
		if s.elastic {
			s.weight[j] = math.Max(s.penalty/s.reach[j], s.weight[j])
		}
	}
}

// merit is the objective plus the weighted violations.
func (s *search) merit(v *Values) float64 {
	sum := v.F
	if s.restoring {
		sum = 0
	}
	for j, c := range v.Equal {
		sum += s.weight[j] * math.Abs(c)
	}
	for j, c := range v.Inequal {
		sum += s.weight[s.p.Equalities+j] * math.Max(0, -c)
	}
	return sum
}

// fall is the first-order change of the merit function along q.
func (s *search) fall() float64 {
	m := len(s.free)
	sum := 0.0
	if !s.restoring {
		sum = dot(s.slope, s.q)
	}
	for j, c := range s.offset {
		equality := j < s.p.Equalities
		after := c + dot(s.jacobian[j*m:(j+1)*m], s.q)
		sum += s.weight[j] * (violation(after, equality) - violation(c, equality))
	}
	return sum
}

// step searches along q and moves x, with its values, to the point accepted; q
// becomes the step taken. It returns false, x unmoved, where none is.
func (s *search) step() bool {
	before, fall := s.merit(&s.now), s.fall()
	grain := math.Abs(s.now.F)
	for _, w := range s.weight {
		grain += w
	}
	grain *= 4 * s.o.Noise
	if !(fall < grain) || !(largest(s.q) > 0) {
		return false
	}
	length := largest(s.q)
	share := 1.0
	for try := range 30 {
		ok := s.tryAt(s.q, share)
		after := math.Inf(1)
		if ok {
			after = s.merit(&s.then)
			if after <= before+1e-4*share*fall+grain {
				s.accept(before, after, grain)
				s.resize(share, length)
				return true
			}
		}
		if try == 0 && ok && s.correct(before, fall, grain) {
			s.resize(1, length)
			return true
		}
		if !ok {
			share *= 0.25
			continue
		}
		best := -0.5 * fall * share * share / (after - before - fall*share)
		share = min(max(best, 0.1*share), 0.5*share)
	}
	return false
}

// correct tries the second-order correction: the same quadratic programme with
// the constraints as they were found at the end of the full step.
func (s *search) correct(before, fall, grain float64) bool {
	m := len(s.free)
	if s.missed(&s.then) <= s.left() {
		return false
	}
	for j := range s.offset {
		c := 0.0
		if j < s.p.Equalities {
			c = s.then.Equal[j]
		} else {
			c = s.then.Inequal[j-s.p.Equalities]
		}
		s.strict.offset[j] = c - dot(s.jacobian[j*m:(j+1)*m], s.q)
	}
	from := &s.strict
	if s.elastic {
		s.aim(s.strict.g)
		s.soft.elastic(&s.strict, s.factor, s.reach, s.penalty)
		from = &s.soft
	} else {
		s.strict.begin(s.factor)
	}
	if from.run() != quadraticSolved {
		return false
	}
	copy(s.correction, from.q)
	if !s.tryAt(s.correction, 1) {
		return false
	}
	after := s.merit(&s.then)
	if !(after <= before+1e-4*fall+grain) {
		// The line search goes on with values at the full step.
		return false
	}
	s.accept(before, after, grain)
	return true
}

// left is the weighted violation that the linearised constraints leave at q.
func (s *search) left() float64 {
	m := len(s.free)
	sum := 0.0
	for j, c := range s.offset {
		c += dot(s.jacobian[j*m:(j+1)*m], s.q)
		sum += s.weight[j] * violation(c, j < s.p.Equalities)
	}
	return sum
}

// missed is the weighted violation of v.
func (s *search) missed(v *Values) float64 {
	sum := 0.0
	for j, c := range v.Equal {
		sum += s.weight[j] * math.Abs(c)
	}
	for j, c := range v.Inequal {
		sum += s.weight[s.p.Equalities+j] * math.Max(0, -c)
	}
	return sum
}

// tryAt evaluates the point a share of q away from x. A variable that comes
// within rounding of a bound is put on it.
func (s *search) tryAt(q []float64, share float64) bool {
	copy(s.trial, s.x)
	for k, i := range s.free {
		lower, upper := s.p.Lower[i], s.p.Upper[i]
		v := s.x[i] + share*q[k]*s.scale[k]
		near := 1e-12 * s.scale[k]
		switch {
		case v <= lower+near:
			v = lower
		case v >= upper-near:
			v = upper
		}
		s.trial[i] = v
	}
	return s.evaluate(s.trial, &s.then)
}

// accept makes the trial the new x.
func (s *search) accept(before, after, grain float64) {
	if before-after > grain {
		s.flat = 0
	} else {
		s.flat++
	}
	for k, i := range s.free {
		s.q[k] = (s.trial[i] - s.x[i]) / s.scale[k]
	}
	s.x, s.trial = s.trial, s.x
	s.now, s.then = s.then, s.now
}

// resize fits the step limit to what the line search found.
func (s *search) resize(share, length float64) {
	if share < 1 {
		s.radius = math.Max(2*share*length, 1e-6)
	} else if length > 0.9*s.radius {
		s.radius = 4 * s.radius
	}
	s.radius = math.Min(s.radius, s.o.StepLimit)
}
