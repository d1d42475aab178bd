package solve

import (
	"fmt"
	"math"
)

// evaluate calls Values at x and reports whether all of it is finite.
func (s *search) evaluate(x []float64, v *Values) bool {
	s.evaluations++
	equal, inequal := v.Equal, v.Inequal
	ok := s.p.Values(x, v)
	// A function may have put slices of its own in place; ours come back.
	if len(v.Equal) != len(equal) || len(v.Inequal) != len(inequal) {
		v.Equal, v.Inequal = equal, inequal
		return false
	}
	return ok && allFinite(v)
}

func allFinite(v *Values) bool {
	sum := v.F - v.F
	for _, c := range v.Equal {
		sum += c - c
	}
	for _, c := range v.Inequal {
		sum += c - c
	}
	return sum == 0
}

// differentiate fills slope and jacobian at x. Values was last called there.
func (s *search) differentiate() bool {
	s.gradients++
	if s.p.Slopes == nil {
		return s.difference()
	}
	s.p.Slopes(s.x, &s.now, &s.raw)
	m := len(s.free)
	sum := 0.0
	for k, i := range s.free {
		s.slope[k] = s.raw.F[i] * s.scale[k]
		sum += s.slope[k] - s.slope[k]
	}
	for j := range s.offset {
		row := s.rawRow(j)
		for k, i := range s.free {
			d := row[i] * s.scale[k]
			s.jacobian[j*m+k] = d
			sum += d - d
		}
	}
	return sum == 0
}

func (s *search) rawRow(j int) []float64 {
	if j < s.p.Equalities {
		return s.raw.Equal[j]
	}
	return s.raw.Inequal[j-s.p.Equalities]
}

// difference fills slope and jacobian by finite differences inside the
// bounds. A side on which there is no value is left for the other; where
// neither side has one the step is cut, twice.
func (s *search) difference() bool {
	copy(s.trial, s.x)
	for k, i := range s.free {
		done := false
		for cut := 1.0; cut > 1e-3 && !done; cut /= 16 {
			done = s.differenceAlong(k, i, cut)
		}
		s.trial[i] = s.x[i]
		if !done {
			return false
		}
	}
	return true
}

func (s *search) differenceAlong(k, i int, cut float64) bool {
	h := cut * math.Sqrt(s.o.Noise)
	if s.central == Central {
		h = cut * math.Cbrt(s.o.Noise)
	}
	// Forward differences err by h/2 times the second derivative against the
	// noise over h: a few roots of the noise is a fair middle.
	step := 4 * h * s.scale[k]
	if least := 4 * h * 1e-3 * math.Abs(s.x[i]); step < least {
		step = least
	}
	step = math.Min(step, 0.25*(s.p.Upper[i]-s.p.Lower[i]))
	if s.central == Central && s.centralAlong(k, i, step) {
		return true
	}
	for _, h := range [2]float64{step, -step} {
		if to := s.x[i] + h; s.inside(i, to) && s.at(i, to, &s.probe) {
			s.column(k, &s.probe, &s.now, (to-s.x[i])/s.scale[k])
			return true
		}
	}
	return false
}

// centralAlong takes the second-order difference on both sides, or at a bound
// on the one side there is.
func (s *search) centralAlong(k, i int, step float64) bool {
	up, down := s.x[i]+step, s.x[i]-step
	if s.inside(i, up) && s.inside(i, down) {
		if !s.at(i, up, &s.probe) || !s.at(i, down, &s.probeBack) {
			return false
		}
		s.column(k, &s.probe, &s.probeBack, (up-down)/s.scale[k])
		return true
	}
	if !s.inside(i, up) {
		step = -step
	}
	near, far := s.x[i]+step, s.x[i]+2*step
	if !s.inside(i, far) || !s.at(i, near, &s.probe) || !s.at(i, far, &s.probeBack) {
		return false
	}
	// Through three points at 0, a and b the slope at 0 is
	// (b²·(f(a)-f(0)) - a²·(f(b)-f(0))) / (a·b·(b-a)); the probe is turned into
	// the value at which a straight line from here would have that slope.
	a, b := near-s.x[i], far-s.x[i]
	bend := func(f0, fa, fb float64) float64 { return f0 + (b*b*(fa-f0)-a*a*(fb-f0))/(b*(b-a)) }
	s.probe.F = bend(s.now.F, s.probe.F, s.probeBack.F)
	for j := range s.probe.Equal {
		s.probe.Equal[j] = bend(s.now.Equal[j], s.probe.Equal[j], s.probeBack.Equal[j])
	}
	for j := range s.probe.Inequal {
		s.probe.Inequal[j] = bend(s.now.Inequal[j], s.probe.Inequal[j], s.probeBack.Inequal[j])
	}
	s.column(k, &s.probe, &s.now, a/s.scale[k])
	return true
}

func (s *search) inside(i int, to float64) bool {
	return to >= s.p.Lower[i] && to <= s.p.Upper[i]
}

func (s *search) at(i int, xi float64, v *Values) bool {
	s.trial[i] = xi
	return s.evaluate(s.trial, v)
}

func (s *search) column(k int, a, b *Values, run float64) {
	m := len(s.free)
	s.slope[k] = (a.F - b.F) / run
	for j := range a.Equal {
		s.jacobian[j*m+k] = (a.Equal[j] - b.Equal[j]) / run
	}
	for j := range a.Inequal {
		s.jacobian[(s.p.Equalities+j)*m+k] = (a.Inequal[j] - b.Inequal[j]) / run
	}
}

// CheckSlopes compares the slopes that p supplies at x with central finite
// differences and returns the largest difference, over one plus the size of
// the slope, both per Scale. A difference above tolerance, a missing function
// or a point without values is an error that names the place.
func CheckSlopes(p *Problem, x []float64, tolerance float64) (worst float64, err error) {
	if err := p.check(x); err != nil {
		return 0, err
	}
	if p.Slopes == nil {
		return 0, fmt.Errorf("problem: Slopes is nil, there is nothing to check")
	}
	var w Workspace
	s := &w.search
	s.begin(p, Options{Differences: Central}.filled(), x)
	if !s.evaluate(s.x, &s.now) {
		return 0, fmt.Errorf("problem: no finite value at x")
	}
	if !s.differentiate() {
		return 0, fmt.Errorf("problem: Slopes gives a number that is not finite")
	}
	m := len(s.free)
	slope := append([]float64(nil), s.slope...)
	jacobian := append([]float64(nil), s.jacobian...)
	if !s.difference() {
		return 0, fmt.Errorf("problem: no finite values around x")
	}
	where := ""
	compare := func(given, taken float64, what func() string) {
		if d := math.Abs(given-taken) / (1 + math.Abs(taken)); d > worst {
			worst = d
			where = fmt.Sprintf("%s: given %g, by differences %g", what(), given, taken)
		}
	}
	for k, i := range s.free {
		compare(slope[k], s.slope[k], func() string { return fmt.Sprintf("slope of F by x[%d]", i) })
		for j := range s.offset {
			compare(jacobian[j*m+k], s.jacobian[j*m+k], func() string {
				if j < p.Equalities {
					return fmt.Sprintf("slope of Equal[%d] by x[%d]", j, i)
				}
				return fmt.Sprintf("slope of Inequal[%d] by x[%d]", j-p.Equalities, i)
			})
		}
	}
	if worst > tolerance {
		return worst, fmt.Errorf("%s (per Scale)", where)
	}
	return worst, nil
}
