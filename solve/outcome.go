package solve

// outcome evaluates the answer afresh and writes it out.
func (s *search) outcome(status Status) Outcome {
	p, m := s.p, len(s.free)
	out := Outcome{
		X:            append([]float64(nil), s.x...),
		BoundPrice:   make([]float64, len(s.x)),
		EqualPrice:   make([]float64, p.Equalities),
		InequalPrice: make([]float64, p.Inequalities),
		Status:       status,
	}
	out.Values = Values{
		Equal:   make([]float64, p.Equalities),
		Inequal: make([]float64, p.Inequalities),
	}
	if s.evaluate(s.x, &s.then) {
		out.Values.F = s.then.F
		copy(out.Values.Equal, s.then.Equal)
		copy(out.Values.Inequal, s.then.Inequal)
	} else {
		out.Status = NoValue
	}
	for _, c := range out.Values.Equal {
		out.Violation = max(out.Violation, violation(c, true))
	}
	for _, c := range out.Values.Inequal {
		out.Violation = max(out.Violation, violation(c, false))
	}
	if out.Status == Converged && out.Violation > s.o.Feasibility {
		out.Status = Stalled
	}
	out.Stationarity = s.stationarity
	out.Iterations, out.Evaluations, out.Gradients = s.iterations, s.evaluations, s.gradients
	if out.Status == Converged || out.Status == Outdone {
		out.Learnt = &Learnt{
			free:      append([]int(nil), s.free...),
			scale:     append([]float64(nil), s.scale...),
			curvature: append([]float64(nil), s.curvature...),
			x:         out.X, slope: append([]float64(nil), s.slope...), jacobian: append([]float64(nil), s.jacobian...),
			equalities: p.Equalities,
		}
	}
	if out.Status != NoValue {
		s.prices(&out, m)
	}
	s.listActive(&out)
	return out
}

func (s *search) prices(out *Outcome, m int) {
	p := s.p
	copy(out.EqualPrice, s.price)
	copy(out.InequalPrice, s.price[p.Equalities:])
	if s.cornered {
		clear(s.slope)
	}
	s.lagrange(s.lagrangian)
	for k, i := range s.free {
		r := s.lagrangian[k] / s.scale[k]
		if (s.x[i] == p.Lower[i] && r > 0) || (s.x[i] == p.Upper[i] && r < 0) {
			out.BoundPrice[i] = r
		}
	}
	if p.Slopes == nil || s.cornered {
		return
	}
	for i := range s.x {
		if p.Lower[i] != p.Upper[i] {
			continue
		}
		r := s.raw.F[i]
		for j, price := range s.price {
			r -= price * s.rawRow(j)[i]
		}
		if finite(r) {
			out.BoundPrice[i] = r
		}
	}
}

func (s *search) listActive(out *Outcome) {
	for _, i := range s.free {
		if s.x[i] == s.p.Lower[i] {
			out.Active.Lower = append(out.Active.Lower, i)
		}
		if s.x[i] == s.p.Upper[i] {
			out.Active.Upper = append(out.Active.Upper, i)
		}
	}
	for j, c := range out.Values.Inequal {
		if c <= 1e-7 {
			out.Active.Inequal = append(out.Active.Inequal, j)
		}
	}
}
