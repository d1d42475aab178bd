package sail

import "math"

// headShare is the head's chord over the foot's: a headboard, common practice.
const headShare = 0.05

// The mean chord over the foot that a sail can have: below, the leech would cut
// into the luff; above, the sail would be fuller than any that is cut. Judgement.
const (
	leastFullness = 0.40
	mostFullness  = 1.00
)

// plan is a sail's chords over its height. With η from 0 at the foot to 1 at the
// head the chord is the foot times
//
//	1 − (1 − headShare)·η + roach·(15/4)·η·√(1−η) − hollow·6·η·(1−η),
//
// a straight taper, and either a roach that ends round at the head or a hollow
// leech. Both terms integrate to roach and −hollow, so that the area comes out as
// stated; one of the two is zero.
type plan struct {
	foot, height  float64 // m; height is the luff's, along the mast-normal chords' normal
	roach, hollow float64
}

// newPlan returns the plan of a foot, m, a height between tack and head, m, and
// an area, m².
func newPlan(foot, height, area float64) plan {
	p := plan{foot: foot, height: height}
	extra := area/(foot*height) - (1+headShare)/2
	p.roach, p.hollow = math.Max(0, extra), math.Max(0, -extra)
	return p
}

// chord returns the chord at a share of the height, m, measured fore and aft.
func (p plan) chord(eta float64) float64 {
	return p.foot * (1 - (1-headShare)*eta + p.roach*15/4*eta*math.Sqrt(1-eta) - p.hollow*6*eta*(1-eta))
}

// below returns the area from the foot up to a share of the height, m².
func (p plan) below(eta float64) float64 {
	s := 1 - eta
	round := 4.0/15 - 2.0/3*s*math.Sqrt(s) + 2.0/5*s*s*math.Sqrt(s)
	taper := eta - (1-headShare)*eta*eta/2
	return p.foot * p.height * (taper + p.roach*15/4*round - p.hollow*eta*eta*(3-2*eta))
}
