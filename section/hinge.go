package section

import (
	"fmt"
	"math"

	"foilwright/si"
)

// hinge is where a flap turns and where it begins, for the moment on it. The
// zero value is no flap.
type hinge struct {
	at    Point
	share float64 // flap chord over chord
	// Directions from the hinge in which the flap is cut off on the upper and the
	// lower side: midway between the main part's and the flap's perpendiculars.
	cuts [2]Point
}

func (s *shape) hinge(flap Flap) hinge {
	if flap.Share == 0 {
		return hinge{}
	}
	at, upper, lower := s.hinged(flap)
	h := hinge{at: at, share: flap.Share}
	for i, foot := range []Point{upper.foot, lower.foot} {
		p := turned(foot, at, -flap.Deflection.Radians()/2)
		h.cuts[i] = Point{p.X - at.X, p.Y - at.Y}
	}
	return h
}

// HingeMoment returns the flap's moment coefficient about its hinge at an angle
// of attack, on the flap's chord squared: positive where the flow would turn the
// trailing edge towards the lower side, as a positive flap angle does. It is 0
// without a flap.
//
// The hinge is midway between the sides; the moment is that of the pressures on
// the flap's sides. Its nose is taken as round about the hinge, so that what
// pressure stands in the gap has no moment. The ideal flow leaves out the
// boundary layer, which takes a fifth to a third off the moments of real plain
// flaps (common practice), and anything that balances the flap. By [PanelCount]
// panels it is within 1.5 % of what 1000 give.
func (f Potential) HingeMoment(angle si.Angle) float64 {
	if f.hinge.share == 0 {
		return 0
	}
	cp := f.Pressure(angle)
	last := len(cp) - 1
	sum := f.flapSide(cp, 0, 1) - f.flapSide(cp, last, -1)
	return -sum / (f.hinge.share * f.hinge.share)
}

// flapSide sums the moment of the pressures on one side of the flap, from the
// trailing edge, at node from, to the cut; step is 1 on the upper side and −1 on
// the lower one.
func (f Potential) flapSide(cp []float64, from, step int) float64 {
	h := f.hinge
	cut := h.cuts[(1-step)/2]
	// How far aft of the cut a node lies.
	aft := func(p Point) float64 {
		return float64(step) * (cut.Y*(p.X-h.at.X) - cut.X*(p.Y-h.at.Y))
	}
	sum := 0.0
	for i := from; i >= 0 && i < len(cp) && i+step >= 0 && i+step < len(cp); i += step {
		p, q, end := f.nodes[i], f.nodes[i+step], cp[i+step]
		before, after := aft(p), aft(q)
		if before <= 0 {
			break
		}
		if after < 0 {
			u := before / (before - after)
			q = Point{p.X + u*(q.X-p.X), p.Y + u*(q.Y-p.Y)}
			end = cp[i] + u*(end-cp[i])
		}
		x, y := (p.X+q.X)/2-h.at.X, (p.Y+q.Y)/2-h.at.Y
		dx, dy := q.X-p.X, q.Y-p.Y
		// Pressure and arm both run in a straight line.
		sum += (cp[i]+end)/2*(x*dx+y*dy) + (end-cp[i])/12*(dx*dx+dy*dy)
		if after < 0 {
			break
		}
	}
	return sum
}

// HingeSlopes returns what thin-aerofoil theory makes of a plain flap's hinge
// moment: how much its coefficient, on the flap's chord squared, changes by a
// radian of angle of attack and by a radian of flap angle, the other held. Both
// are negative: the flow turns the flap back. With cos θ_h = 2E − 1, E the flap's
// share of the chord, and K = (π − θ_h)(cos θ_h − ½) + sin θ_h(1 − ½cos θ_h),
// they are −K/E² and −{(π − θ_h)K + ½ sin θ_h[(π − θ_h)cos θ_h + sin θ_h]}/(πE²):
// Glauert's (1927, ARC R&M 1095) loading of the bent plate, integrated here.
// A share is taken between 1e-3 and 1.
func HingeSlopes(flapShare float64) (byAngle, byFlap float64) {
	share := min(max(flapShare, 1e-3), 1)
	theta := math.Acos(2*share - 1)
	sin, cos := math.Sincos(theta)
	rest := math.Pi - theta
	k := rest*(cos-0.5) + sin*(1-0.5*cos)
	return -k / (share * share), -(rest*k + 0.5*sin*(rest*cos+sin)) / (math.Pi * share * share)
}

// HingeTable is the moment coefficient of a section's flap about its hinge over
// lift and flap angle, made once of panel solutions and then cheap to read. It
// never changes and may be shared between goroutines. The zero value has no
// moment.
type HingeTable struct {
	moments []float64 // by flap angle, then by lift
}

// hingedHair turns the flap of a hinge table that is in line, so that its panels
// lie close about the hinge as those of other angles do: without it, the moment
// there would be half a per cent off its neighbours.
const hingedHair = 1e-4 * si.Degree

// HingeTable solves the ideal flow past the section with a flap of a share of the
// chord at the flap angles of [Section.PeakTable], and tables the hinge moment
// over its lift coefficients.
func (s Section) HingeTable(flapShare float64) (HingeTable, error) {
	if flapShare == 0 {
		return HingeTable{}, s.noFlap()
	}
	var table HingeTable
	for k := range peakFlaps {
		angle := peakFlapStep*si.Angle(k-peakFlaps/2) + hingedHair
		flow, err := s.Potential(Flap{Share: flapShare, Deflection: angle}, PanelCount)
		if err != nil {
			return HingeTable{}, fmt.Errorf("hinge moments: %w", err)
		}
		table.add(flow)
	}
	return table, nil
}

// add appends the moments of one flap angle over all lifts.
func (t *HingeTable) add(flow Potential) {
	for i := range peakLifts {
		alpha := flow.AngleFor(leastPeakLift + peakLiftStep*float64(i))
		t.moments = append(t.moments, flow.HingeMoment(alpha))
	}
}

func (s Section) noFlap() error {
	return fmt.Errorf("hinge moments: section %q has no flap\nhint: give the flap's share of the chord, 5 to 60 %%", s.Name)
}

// Moment returns the hinge moment coefficient, as [Potential.HingeMoment], at a
// lift coefficient and a flap angle. Between the table's points it is a cubic in
// either direction (Catmull, Rom 1974), outside them a straight line: value and
// first derivatives are continuous everywhere.
func (t HingeTable) Moment(lift float64, flap si.Angle) float64 {
	if t.moments == nil {
		return 0
	}
	x := stencil((lift-leastPeakLift)/peakLiftStep, peakLifts)
	y := stencil(float64(flap/peakFlapStep)+peakFlaps/2, peakFlaps)
	sum := 0.0
	for j := range 4 {
		row := t.moments[y.index[j]*peakLifts:]
		sum += y.weight[j] * (x.weight[0]*row[x.index[0]] + x.weight[1]*row[x.index[1]] +
			x.weight[2]*row[x.index[2]] + x.weight[3]*row[x.index[3]])
	}
	return sum
}
