package frame

// Load is a force and a moment together with the point that the moment is
// about. The zero value is no load about the origin.
type Load[F any] struct {
	Force  Vec[F]   `json:"force_N"`   // N
	Moment Vec[F]   `json:"moment_Nm"` // N·m, right-handed, about About
	About  Point[F] `json:"about_m"`   // m
}

// ForceAt returns the load of a force that acts at a point, with no moment there.
func ForceAt[F any](force Vec[F], at Point[F]) Load[F] {
	return Load[F]{Force: force, About: at}
}

// MovedTo returns the same load with its moment taken about p:
// M' = M + (About − p) × F.
func (l Load[F]) MovedTo(p Point[F]) Load[F] {
	return Load[F]{Force: l.Force, Moment: l.Moment.Plus(l.About.From(p).Cross(l.Force)), About: p}
}

// Plus returns the sum of two loads about l's point.
func (l Load[F]) Plus(k Load[F]) Load[F] {
	k = k.MovedTo(l.About)
	return Load[F]{Force: l.Force.Plus(k.Force), Moment: l.Moment.Plus(k.Moment), About: l.About}
}

// Times returns the load scaled by s.
func (l Load[F]) Times(s float64) Load[F] {
	return Load[F]{Force: l.Force.Times(s), Moment: l.Moment.Times(s), About: l.About}
}

// Sum returns the sum of loads about p.
func Sum[F any](p Point[F], loads ...Load[F]) Load[F] {
	total := Load[F]{About: p}
	for _, l := range loads {
		total = total.Plus(l)
	}
	return total
}
