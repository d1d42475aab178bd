package hull

import (
	"fmt"
	"math"

	"foilwright/solve"
)

// Form is the shape of a hull at rest as the regression of its residuary
// resistance sees it.
type Form struct {
	Centre      float64 `json:"centre_of_buoyancy_ahead_of_middle"` // over waterline length
	Prismatic   float64 `json:"prismatic_coefficient"`              // displacement over waterline length times largest section
	Slenderness float64 `json:"length_over_cube_root_of_displacement"`
	BeamDraught float64 `json:"beam_over_draught"`
	LengthBeam  float64 `json:"length_over_beam"`
}

// terms is how many terms the regression has.
const terms = 7

// terms returns the form as the regression's terms: each but the first is nothing
// near the middle of the tested hulls and about one at their edge. Length over
// beam is left out: for one largest section it follows from the others.
func (f Form) terms() [terms]float64 {
	c := (f.Centre + 0.023) / 0.025
	p := (f.Prismatic - 0.565) / 0.035
	return [terms]float64{1, math.Log(f.Slenderness/4.78) / slendernessSpread, c, c * c, p, p * p, math.Log(f.BeamDraught/3.95) / 0.3}
}

const slendernessSpread = 0.09

// What the tested hulls span.
const (
	slowestTested, fastestTested      = 0.125, 0.45 // Froude number on waterline length
	leastCentre, mostCentre           = -0.05, 0
	leastPrismatic, mostPrismatic     = 0.53, 0.60
	leastSlender, mostSlender         = 4.34, 5.14
	leastBeamDraught, mostBeamDraught = 2.81, 5.35
)

// slenderPower is the power of slenderness with which residuary resistance over
// displacement falls beyond the most slender hull tested. Judgement: inside the
// data it is 0.4 at the fastest, over a narrow range; thin ships have 3 (Michell
// 1898); tests of fast slender hulls that are remembered lie between, at 1 to 2.
const slenderPower = 1.5

// planing is the share of the weight it carries that a hull drags behind it
// beside friction at Froude numbers from planingFroude up, and runs bow up by as
// much. Judgement, from memory of tests of fast round-bilge hulls: 4 to 6 %.
const (
	planing       = 0.05
	planingFroude = 1.0
)

// residuary is the residuary resistance of one hull over the weight that it
// carries, as a function of Froude number and slenderness. Immutable.
type residuary struct {
	plain   *solve.Curve // ln of it at a slenderness of 4.78, over ln of Froude number
	slender *solve.Curve // what one unit of the slenderness term adds
}

// newResiduary returns the residuary resistance of a hull of a form. Ratios
// beyond the tested hulls are taken at their edge.
func newResiduary(f Form) residuary {
	f.Centre = within(f.Centre, leastCentre, mostCentre)
	f.Prismatic = within(f.Prismatic, leastPrismatic, mostPrismatic)
	f.BeamDraught = within(f.BeamDraught, leastBeamDraught, mostBeamDraught)
	f.Slenderness = 4.78
	t := f.terms()
	var x, plain, slender []float64
	c := coefficients()
	for k, fn := range froudes() {
		sum := -math.Log(1000) // the fit is in per mille
		for i, v := range t {
			sum += c[k][i] * v
		}
		x, plain, slender = append(x, math.Log(fn)), append(plain, sum), append(slender, c[k][1])
	}
	var r residuary
	var err error
	if r.plain, err = solve.NewCurve(x, plain); err != nil {
		panic("internal error: " + err.Error())
	}
	if r.slender, err = solve.NewCurve(x, slender); err != nil {
		panic("internal error: " + err.Error())
	}
	return r
}

func within(v, low, high float64) float64 {
	if !(v >= low) {
		return low
	}
	return math.Min(v, high)
}

// at returns resistance over weight carried. Below the slowest tested it falls
// with the power of speed found there; from the fastest tested to planingFroude it
// is the cubic that leaves with the slope found there and arrives level at planing.
func (r *residuary) at(froude, slenderness float64) float64 {
	if !(froude > 0) {
		return 0
	}
	if froude <= fastestTested {
		v, _ := r.inside(froude, slenderness)
		return v
	}
	if froude >= planingFroude {
		return planing
	}
	const run = planingFroude - fastestTested
	v, slope := r.inside(fastestTested, slenderness)
	t := (froude - fastestTested) / run
	return v*(1+t*t*(2*t-3)) + slope*run*t*(1-t)*(1-t) + planing*t*t*(3-2*t)
}

// inside returns the fitted value and its slope over Froude number.
func (r *residuary) inside(froude, slenderness float64) (value, slope float64) {
	x := math.Log(froude)
	term, beyond := slendernessTerm(slenderness)
	plain, plainSlope := r.plain.At(x)
	slender, slenderSlope := r.slender.At(x)
	value = math.Exp(plain + slender*term - slenderPower*beyond)
	return value, value * (plainSlope + slenderSlope*term) / froude
}

// slendernessTerm returns the regression's term, held at the edges of the data by
// a rounded corner, and ln of how far beyond the most slender hull this one is.
func slendernessTerm(slenderness float64) (term, beyond float64) {
	const corner = 0.02
	x := math.Log(math.Max(slenderness, 1e-3))
	beyond, _ = solve.SmoothMax(x-math.Log(mostSlender), corner)
	short, _ := solve.SmoothMax(math.Log(leastSlender)-x, corner)
	return (x - beyond + short - math.Log(4.78)) / slendernessSpread, beyond
}

// outside says in words which of a hull's ratios lie beyond the tested hulls.
func (f Form) outside() []string {
	var all []string
	say := func(what, format string, v, low, high float64) {
		if v < low || v > high {
			all = append(all, fmt.Sprintf("%s "+format+" (tested "+format+" to "+format+")", what, v, low, high))
		}
	}
	say("length over cube root of displacement", "%.2f", f.Slenderness, leastSlender, mostSlender)
	say("centre of buoyancy, % of length ahead of the middle,", "%.1f", 100*f.Centre, 100*leastCentre, 100*mostCentre)
	say("prismatic coefficient", "%.3f", f.Prismatic, leastPrismatic, mostPrismatic)
	say("beam over draught", "%.2f", f.BeamDraught, leastBeamDraught, mostBeamDraught)
	return all
}
