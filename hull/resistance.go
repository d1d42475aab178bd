package hull

import (
	"math"

	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/section"
	"foilwright/si"
	"foilwright/solve"
)

// resistance is where one hull's resistance comes from, made ready.
type resistance struct {
	rest       Rest
	residuary  residuary    // from the regression
	own        *solve.Curve // the user's resistance at rest's displacement, over speed; nil without
	fastest    float64      // of the user's curve, m/s
	formFactor float64      // 1 + k, on friction
}

func newResistance(h *boat.Hull, rest Rest) resistance {
	r := resistance{rest: rest, formFactor: math.Max(h.Resistance.FormFactor, 1)}
	own := &h.Resistance
	if n := len(own.Speed); n >= 2 {
		speed, force := own.Speed, own.Force
		if speed[0] > 0 {
			speed, force = append([]float64{0}, speed...), append([]float64{0}, force...)
		}
		if c, err := solve.NewCurve(speed, force); err == nil {
			r.own, r.fastest = c, own.Speed[n-1]
			return r
		}
	}
	r.residuary = newResiduary(rest.Form)
	return r
}

// shortest is the least length that a hull's wet part counts with, over its
// length at rest.
const shortest = 0.05

// length returns the wet part's length: the waterline's at rest in proportion to
// how far the displaced volume is spread along the hull, which changes without
// steps as ends come out.
func (r *resistance) length(m *Immersed) float64 {
	return r.rest.Length * math.Hypot(m.spread/r.rest.spread, shortest)
}

// reducedLength is the share of the waterline on which the tank's Reynolds
// numbers were reckoned when residuary resistance was split off (Gerritsma,
// Onnink and Versluis 1981; from memory).
const reducedLength = 0.7

// friction returns the friction of a wetted surface: the line of 1957 with the
// form factor, N.
func (r *resistance) friction(speed si.Speed, surface, length float64, water fluid.Water) float64 {
	return water.DynamicPressure(speed) * surface * r.formFactor * section.ITTC57(water.Reynolds(speed, reducedLength*length))
}

// parts returns friction and residuary resistance, N. Residuary resistance is in
// proportion to the weight that the hull carries. A curve of the user's is the
// whole at rest's displacement: what it has beyond friction there is residuary.
func (r *resistance) parts(m *Immersed, speed si.Speed, water fluid.Water, model *boat.Model) (friction, residuary float64) {
	if m.Volume == 0 || r.rest.spread == 0 {
		return 0, 0
	}
	length := r.length(m)
	friction = model.Friction * r.friction(speed, m.Surface, length, water)
	if r.own != nil {
		still := model.Friction * r.friction(speed, r.rest.Surface, r.length(&Immersed{spread: r.rest.spread}), water)
		whole, _ := r.own.At(speed.MetresPerSecond()) // past its end along its last slope
		return friction, (whole - still) * m.Volume / r.rest.Volume
	}
	froude := speed.MetresPerSecond() / math.Sqrt(si.Gravity*length)
	carried := water.Density * si.Gravity * m.Volume
	return friction, model.Residuary * carried * r.residuary.at(froude, length/math.Cbrt(m.Volume))
}
