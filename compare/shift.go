package compare

import (
	"math"

	"foilwright/balance"
	"foilwright/frame"
	"foilwright/trim"
)

// Shift is how far the lift of the foil that carries most has moved from the
// base's, to leeward of the track: on paper and in the balance. Where the load-
// weighted centre moves and the line of action does not, lever is gained on
// paper alone.
type Shift struct {
	Foil   string   `json:"foil"`     // by the wind
	Height float64  `json:"height_m"` // of the base's centre, at which both lines are read
	Rule   *float64 `json:"rule_of_thumb_shift_m"`
	Loaded *float64 `json:"load_weighted_shift_m"`
	Line   *float64 `json:"line_of_action_shift_m"` // nil where a line is nearly level
}

// shifts returns the shift of every boat from the base, nil where one has none.
func shifts(r *Result) []*Shift {
	all := make([]*Shift, len(r.Boats))
	base := r.Boats[r.BaseIndex]
	first := carrier(base)
	if first == nil {
		return all
	}
	for i, a := range r.Boats {
		c := carrier(a)
		if i == r.BaseIndex || c == nil {
			continue
		}
		s := &Shift{Foil: trim.ByWind(c.Foil, a.Conditions.WindFrom()), Height: first.Line.Point.Z}
		s.Rule = between(first.Rule, leeward(base), c.Rule, leeward(a))
		s.Loaded = between(first.Loaded, leeward(base), c.Loaded, leeward(a))
		s.Line = between(at(first.Line, s.Height), leeward(base), at(c.Line, s.Height), leeward(a))
		all[i] = s
	}
	return all
}

// carrier returns the centre of the foil that carries most, nil where none does.
func carrier(a *trim.Result) *balance.Centre {
	if a.Answer != trim.Found {
		return nil
	}
	var most *balance.Centre
	for i := range a.Centres {
		if c := &a.Centres[i]; c.Line != nil && (most == nil || c.Force.Norm() > most.Force.Norm()) {
			most = c
		}
	}
	return most
}

// steepest is the least upward part of a line's direction at which it has a
// place at a height.
const steepest = 0.1

// at returns the point of a line at a height, nil where it is nearly level.
func at(l *balance.Line, height float64) *frame.Point[frame.Track] {
	if math.Abs(l.Direction.Z) < steepest {
		return nil
	}
	p := l.Point
	p.Y += (height - p.Z) * l.Direction.Y / l.Direction.Z
	p.Z = height
	return &p
}

// between returns how far b lies to leeward of a.
func between(a *frame.Point[frame.Track], leewardOfA float64, b *frame.Point[frame.Track], leewardOfB float64) *float64 {
	if a == nil || b == nil {
		return nil
	}
	d := -leewardOfB*b.Y + leewardOfA*a.Y
	return &d
}
