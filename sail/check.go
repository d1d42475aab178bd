package sail

import (
	"errors"
	"fmt"
	"math"

	"foilwright/boat"
	"foilwright/si"
)

// steepestLean is the most that a luff may lean, aft or forward.
const steepestLean = 60 * si.Degree

// Check returns everything that is wrong with a boat's sails, sets and
// windages, one line each with what would do instead, or nil. [Loads] takes
// boats that pass.
func Check(b *boat.Boat) error {
	var faults []error
	fault := func(format string, a ...any) { faults = append(faults, fmt.Errorf(format, a...)) }
	for i := range b.Sails {
		s := &b.Sails[i]
		where := "sails." + s.Name
		switch {
		case !(s.Luff > 0 && s.Luff < 1e3):
			fault("%s.luff: %g m, allowed is above 0", where, s.Luff)
		case !(s.Foot > 0 && s.Foot < 1e3):
			fault("%s.foot: %g m, allowed is above 0", where, s.Foot)
		case !(math.Abs(float64(s.Lean)) <= float64(steepestLean)):
			fault("%s.lean: %.4g deg, allowed is up to %g deg either way", where, s.Lean.Degrees(), steepestLean.Degrees())
		default:
			full := s.Foot * s.Luff * s.Lean.Cos()
			if !(s.Area >= leastFullness*full && s.Area <= mostFullness*full) {
				fault("%s.area: %.4g m², allowed with this luff and foot is %.4g to %.4g m²\nhint: half of luff times foot is a triangle; more is roach",
					where, s.Area, leastFullness*full, mostFullness*full)
			}
		}
		checkCoefficients(where, s.Coefficients, fault)
		for _, c := range [...]struct {
			name  string
			index int
		}{{"sheet", s.Sheet}, {"twist", s.Twist}, {"flatten", s.Flatten}} {
			if c.index < -1 || c.index >= len(b.Controls) {
				fault("%s.%s: control %d does not exist, the boat has %d", where, c.name, c.index, len(b.Controls))
			}
		}
		if c := s.Flatten; c >= 0 && c < len(b.Controls) && !(b.Controls[c].Lower >= 0 && b.Controls[c].Upper <= 1) {
			fault("%s.flatten: %.4g to %.4g %%, allowed is 0 to 100 %% of the camber", where, 100*b.Controls[c].Lower, 100*b.Controls[c].Upper)
		}
	}
	for i := range b.Sets {
		for _, s := range b.Sets[i].Sails {
			if s < 0 || s >= len(b.Sails) {
				fault("sets.%s: sail %d does not exist, the boat has %d", b.Sets[i].Name, s, len(b.Sails))
			}
		}
	}
	for i := range b.Windages {
		w := &b.Windages[i]
		if !(w.Area >= 0 && w.Coefficient >= 0) || math.IsInf(w.Area*w.Coefficient, 0) {
			fault("windage of %s: area %g m² and drag coefficient %g, neither may be negative", w.Name, w.Area, w.Coefficient)
		}
		if w.Follows < -1 || w.Follows >= len(b.Weights) {
			fault("windage of %s: follows weight %d, the boat has %d", w.Name, w.Follows, len(b.Weights))
		}
	}
	m := b.Model
	for _, f := range [...]struct {
		name   string
		factor float64
	}{{"gap", m.Gap}, {"wake core", m.WakeCore}, {"sail drag", m.SailDrag}, {"windage", m.Windage}} {
		if !(f.factor >= 0 && f.factor <= 100) {
			fault("model.%s: %g, allowed is 0 to 100", f.name, f.factor)
		}
	}
	return errors.Join(faults...)
}

func checkCoefficients(where string, c boat.SailCoefficients, fault func(string, ...any)) {
	n := len(c.Angle)
	if n == 0 || len(c.Lift) != n || len(c.Drag) != n {
		fault("%s.coefficients: %d angles, %d lifts, %d drags, wanted is as many of each and one at least", where, n, len(c.Lift), len(c.Drag))
		return
	}
	most := map[boat.Abscissa]si.Angle{boat.WindAngle: 180 * si.Degree, boat.Incidence: 90 * si.Degree}[c.Against]
	for i := range n {
		if !(c.Angle[i] >= 0 && c.Angle[i] <= float64(most)) || i > 0 && c.Angle[i] <= c.Angle[i-1] {
			fault("%s.coefficients: angle %d is %.4g deg, wanted is rising from 0 to %g deg", where, i+1, si.Angle(c.Angle[i]).Degrees(), most.Degrees())
		}
		if !(c.Lift[i] >= 0 && c.Lift[i] < 10 && c.Drag[i] >= 0 && c.Drag[i] < 10) {
			fault("%s.coefficients: lift %g and drag %g at angle %d, allowed is 0 to 10", where, c.Lift[i], c.Drag[i], i+1)
		}
	}
}
