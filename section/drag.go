package section

import "math"

// Constants of profile drag. All are judgement with the source of the fit named;
// a caller scales the parts of [DragParts] to try others.
const (
	// LiftDragSquare and LiftDragFourth are the shares of the fully turbulent
	// drag at ideal lift that are added by (Δ/R)² and (Δ/R)⁴, Δ the lift
	// coefficient off the ideal one and R the largest lift of the uncambered
	// section: by eye from NACA 0012 tripped at Reynolds number 6e6 (Ladson
	// 1988, NASA TM 4074).
	LiftDragSquare = 0.50
	LiftDragFourth = 0.66
	// FlapDrag is what a flap adds on its share of the chord a radian beyond
	// FlapDragAngle: 0.0144 a degree from 10° (Raymer, Aircraft Design, plain
	// flaps, from memory).
	FlapDrag = 0.0144 * 180 / math.Pi
	// StallDrag is what is added by the lift coefficient past the largest usable
	// one, squared: enough to tell an optimiser the way back, no model of stall.
	StallDrag = 1.0
	// CamberGain is how much largest lift a section gains by each unit of ideal
	// lift.
	CamberGain = 0.7

	flapDragAngle    = 10 * math.Pi / 180
	flapDragRounding = 5 * math.Pi / 180
)

// DragParts is profile drag by cause: coefficients on the chord.
type DragParts struct {
	Friction float64 // friction and form at ideal lift
	Lift     float64 // what lift off the ideal one adds
	Flap     float64 // what the flow that leaves a far deflected flap adds
	Stall    float64 // penalty past the largest usable lift
}

// Total returns the sum of the parts.
func (d DragParts) Total() float64 { return d.Friction + d.Lift + d.Flap + d.Stall }

// Drag returns the profile drag coefficient on the chord, at a lift coefficient,
// a Reynolds number on the chord, and a laminar share of it, 0 to 1; see
// [Section.DragParts].
func (s Section) Drag(lift, reynolds, laminarShare float64) float64 {
	return s.DragParts(lift, reynolds, laminarShare, Flap{}, 1).Total()
}

// DragParts returns the profile drag coefficient on the chord by cause, with a
// flap (the zero Flap for none) whose loss is scaled by lossFactor.
//
// Friction is that of both sides of a plate, laminar over the share given
// ([Transition]), times [FormFactor]. The lift-dependent part grows from the
// ideal lift, which a flap moves ([Flap.Effect]); the usable range moves with
// it. Everything has a continuous first derivative in lift, Reynolds number and
// flap angle, and is finite at rest and at any lift.
//
// A section with a drag table ([Section.WithDragTable]) has all of the table's
// drag as Friction and none as Lift, whatever the laminar share; the Stall
// penalty is added past the largest lift as ever. A table with a flap column is
// read at the flap's angle, and nothing is added for the flap; its share of the
// chord is supposed to be the table's. One without is read at the lift less what
// the flap adds to the ideal lift, and the flap's own drag is added.
//
// Left out: how transition moves with lift (the caller states the share; one
// that stays put does not follow the bucket of a 6-series section, one read off a
// [LaminarTable] does),
// roughness, cavitation, ventilation, and the Reynolds number's effect on
// largest lift. Held in tests against NACA 0012 tripped at Reynolds number 6e6
// up to a lift coefficient of 1.4; and, with the share computed, against the
// momentum that boundary layers lose, within 5 % for four-digit, 63- and
// 64-sections at the ideal lift and 10 % half a lift coefficient off it; low by
// up to 10 % for 65- and 66-sections.
func (s Section) DragParts(lift, reynolds, laminarShare float64, flap Flap, lossFactor float64) DragParts {
	var plate Plate
	if s.table == nil {
		plate = PlateOf(reynolds, laminarShare)
	}
	var effect FlapEffect
	if flap.Share > 0 {
		effect = flap.Effect(lossFactor)
	}
	return s.DragPartsOn(plate, lift, reynolds, flap, effect)
}

// DragPartsOn is [Section.DragParts] that is handed the plate at the Reynolds number
// and what the flap does, for whoever asks for many strips: both cost more than the
// rest. A section with a drag table does not look at the plate.
func (s *Section) DragPartsOn(plate Plate, lift, reynolds float64, flap Flap, effect FlapEffect) DragParts {
	ideal := s.IdealLift
	var parts DragParts
	if flap.Share > 0 {
		ideal += effect.IdealLift
		parts.Flap = flapDrag(flap)
	}
	up, down := s.lifts(ideal)
	past := max(lift-up, 0) + min(lift-down, 0)
	parts.Stall = StallDrag * past * past
	if s.table != nil {
		return s.tabled(parts, lift, reynolds, flap, ideal-s.IdealLift)
	}
	parts.Friction = 2 * s.formFactor * plate.Mixed
	if s.liftRange > 0 {
		u := (lift - ideal) / s.liftRange
		u *= u
		parts.Lift = 2 * s.formFactor * plate.Turbulent * u * (LiftDragSquare + LiftDragFourth*u)
	}
	return parts
}

// LiftMargin returns how far a lift coefficient stays inside the usable range,
// with a flap as in [Section.DragParts]: negative past the end of it.
func (s Section) LiftMargin(lift float64, flap Flap, lossFactor float64) float64 {
	ideal := s.IdealLift
	if flap.Share > 0 {
		ideal += flap.Effect(lossFactor).IdealLift
	}
	up, down := s.lifts(ideal)
	return min(up-lift, lift-down)
}

// flapDrag is E·FlapDrag·d²/(d + 5°), d the angle beyond 10°: Raymer's straight
// line, its corner rounded.
func flapDrag(f Flap) float64 {
	d := math.Abs(f.Deflection.Radians()) - flapDragAngle
	if d <= 0 {
		return 0
	}
	return FlapDrag * f.Share * d * d / (d + flapDragRounding)
}

// largestLift returns the largest usable lift coefficient of an uncambered
// section from the roundness of its nose, the rise of the half-thickness from
// 0.15 to 6 % of the chord in chords (the parameter Δy of the USAF Datcom 1978,
// sec. 4.1.1): 1.68·(1 − exp(−(Δy/0.0185)^1.6)), this package's own fit to the
// largest lift measured on smooth NACA sections at Reynolds number 9e6 (Abbott,
// von Doenhoff, Stivers 1945).
func largestLift(noseRise float64) float64 {
	return 1.68 * (1 - math.Exp(-math.Pow(max(noseRise, 0)/0.0185, 1.6)))
}
