package section

import (
	"math"

	"foilwright/si"
)

// Flap is a plain flap at the trailing edge and its angle. The zero value is no
// flap.
type Flap struct {
	Share      float64  // flap chord over chord, 0 to 1
	Deflection si.Angle // positive trailing edge towards the lower side: more lift
}

// FlapEffect is what a flap does to a section at a fixed angle of attack.
type FlapEffect struct {
	ZeroLift  si.Angle // added to the angle of no lift; negative for a positive flap angle
	Moment    float64  // added to the moment coefficient about the quarter chord
	IdealLift float64  // added to the ideal lift coefficient
}

// Effect returns what the flap does by thin-aerofoil theory (Glauert 1927, ARC
// R&M 1095), with its angle lowered to the effective one, [Flap.Effective].
// With cos θ_h = 2E − 1, E the flap's share of the chord, the angle of no lift
// moves by −δ(1 − (θ_h − sin θ_h)/π), the moment by −½δ·sin θ_h(1 − cos θ_h) and
// the ideal lift by 2δ·sin θ_h. It leaves out the gap at the hinge and, up to
// 10°, the boundary layer, which takes a tenth to a fifth of a real flap's
// effect. The lossFactor scales the loss at large angles: 1 is the law itself.
func (f Flap) Effect(lossFactor float64) FlapEffect {
	delta := f.Effective(lossFactor).Radians()
	share := min(max(f.Share, 0), 1)
	hinge := math.Acos(2*share - 1)
	sin, cos := math.Sincos(hinge)
	return FlapEffect{
		ZeroLift:  si.Angle(-delta * (1 - (hinge-sin)/math.Pi)),
		Moment:    -0.5 * delta * sin * (1 - cos),
		IdealLift: 2 * delta * sin,
	}
}

// Constants of the loss of plain flaps: judgement, by eye from the chart of the
// lift effectiveness of plain flaps in the USAF Datcom (1978, sec. 6.1.1, from
// memory): none lost at 10°, about 0.82 left at 20°, 0.66 at 30°.
const (
	flapLossAngle    = 16 * si.Degree
	flapLossExponent = 0.16
)

// Effective returns the flap angle that thin-aerofoil theory would have to be
// given for the real flap's effect: δ·(1 + (δ/16°)⁴)^(−0.16·lossFactor), smooth,
// odd, 2 % less than δ at 10°. A lossFactor of 0 is no loss.
func (f Flap) Effective(lossFactor float64) si.Angle {
	u := float64(f.Deflection / flapLossAngle)
	u *= u
	return f.Deflection * si.Angle(math.Pow(1+u*u, -flapLossExponent*max(lossFactor, 0)))
}
