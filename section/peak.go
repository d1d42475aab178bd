package section

import (
	"fmt"
	"math"

	"foilwright/si"
)

// Grid of a peak table.
const (
	leastPeakLift = -2.0
	peakLiftStep  = 0.05
	peakLifts     = 91 // up to 2.5
	peakFlapStep  = 2.5 * si.Degree
	peakFlaps     = 17 // 20 degrees either way
)

// stretches is how many stretches of the surface keep a table of their own: nose,
// middle and rear of either side. On each the peak is a smooth function of lift
// and flap; which of them has the least pressure changes with a kink.
const stretches = 6

// Ends of the nose and, ahead of the hinge, of the middle, in chords; a section
// without a flap is cut as if it had one of a quarter of the chord.
const (
	noseEnd     = 0.06
	hingeAhead  = 0.12
	cutWithout  = 0.25
	kinkRounded = 0.01 // pressure coefficient
	forgotten   = -40  // a peak so many roundings away adds less than the sum's last bit
)

// PeakTable is the least pressure coefficient on a section over lift and flap
// angle, made once of panel solutions and then cheap to read. It never changes
// and may be shared between goroutines. The zero value has no peaks.
type PeakTable struct {
	peaks [stretches][]float64 // by flap angle, then by lift
	flaps int
}

// PeakTable solves the ideal flow past the section with a flap of a share of
// the chord, 0 for none, at flap angles 2.5 degrees apart up to 20 degrees
// either way, by [PanelCount] panels each, and tables the pressure peak over
// lift coefficients from −2 to 2.5, 0.05 apart.
func (s Section) PeakTable(flapShare float64) (PeakTable, error) {
	table := PeakTable{flaps: peakFlaps}
	cut := flapShare
	if flapShare == 0 {
		table.flaps, cut = 1, cutWithout
	}
	for k := range table.flaps {
		angle := peakFlapStep * si.Angle(k-table.flaps/2)
		flow, err := s.Potential(Flap{Share: flapShare, Deflection: angle}, PanelCount)
		if err != nil {
			return PeakTable{}, fmt.Errorf("pressure peaks: %w", err)
		}
		table.add(flow, cut)
	}
	return table, nil
}

// add appends the peaks of one flap angle over all lifts.
func (t *PeakTable) add(flow Potential, cut float64) {
	parts := flow.stretches(noseEnd, max(1-cut-hingeAhead, 2*noseEnd))
	for i := range peakLifts {
		alpha := flow.AngleFor(leastPeakLift + peakLiftStep*float64(i))
		for j, part := range parts {
			t.peaks[j] = append(t.peaks[j], flow.peakOver(alpha, part))
		}
	}
}

// FlapTables returns [Section.PeakTable] and [Section.HingeTable] of a flap for
// the price of one of them: both are read off the same flows, but in line, where
// that of the hinge is turned by a hair. It moves the peaks at other angles by
// less than 2e-5.
func (s Section) FlapTables(flapShare float64) (PeakTable, HingeTable, error) {
	if flapShare == 0 {
		return PeakTable{}, HingeTable{}, s.noFlap()
	}
	peaks, hinge := PeakTable{flaps: peakFlaps}, HingeTable{}
	for k := range peakFlaps {
		angle := peakFlapStep * si.Angle(k-peakFlaps/2)
		flow, err := s.Potential(Flap{Share: flapShare, Deflection: angle + hingedHair}, PanelCount)
		inLine := flow
		if err == nil && angle == 0 {
			inLine, err = s.Potential(Flap{Share: flapShare}, PanelCount)
		}
		if err != nil {
			return PeakTable{}, HingeTable{}, fmt.Errorf("pressure peaks and hinge moments: %w", err)
		}
		peaks.add(inLine, flapShare)
		hinge.add(flow)
	}
	return peaks, hinge, nil
}

// stretches cuts the nodes at two shares of the chord on either side.
func (f Potential) stretches(first, second float64) [stretches]stretch {
	var cuts [stretches + 1]int
	cuts[stretches] = len(f.nodes)
	nose := 0
	for i, p := range f.nodes {
		if p.X < f.nodes[nose].X {
			nose = i
		}
	}
	for i, p := range f.nodes {
		switch {
		case i < nose && p.X >= second:
			cuts[1] = i + 1
		case i < nose && p.X >= first:
			cuts[2] = i + 1
		case i >= nose && p.X < first:
			cuts[4] = i + 1
		case i >= nose && p.X < second:
			cuts[5] = i + 1
		}
	}
	cuts[3] = nose
	var parts [stretches]stretch
	for i := range parts {
		parts[i] = stretch{cuts[i], max(cuts[i+1], cuts[i]+1)}
	}
	return parts
}

// Peak returns the least pressure coefficient at a lift coefficient and a flap
// angle. Each stretch of the surface is a cubic between its table's points in
// either direction (Catmull, Rom 1974) and a straight line outside them; the
// least of them is taken with its corners rounded downwards, by at most 0.02:
// value and first derivatives are continuous everywhere. The lift is that of
// the ideal flow: which angle of attack the real section needs for it does not
// matter.
func (t PeakTable) Peak(lift float64, flap si.Angle) float64 {
	return t.least(t.peaks[:], lift, flap)
}

// PeakAtHinge returns the least pressure coefficient about the hinge, smooth as
// [PeakTable.Peak] is: on either side, from 12 % of the chord ahead of the hinge
// to the trailing edge. A flap that is turned has its suction peak there, on the
// side that opens; one in line has what pressure the section has. A table
// without flap takes the rear 37 % of the chord.
func (t PeakTable) PeakAtHinge(lift float64, flap si.Angle) float64 {
	rear := [2][]float64{t.peaks[0], t.peaks[stretches-1]}
	return t.least(rear[:], lift, flap)
}

// least returns the least of the peaks on some stretches, corners rounded.
func (t *PeakTable) least(parts [][]float64, lift float64, flap si.Angle) float64 {
	if t.flaps == 0 {
		return 0
	}
	x := stencil((lift-leastPeakLift)/peakLiftStep, peakLifts)
	y := stencil(float64(flap/peakFlapStep)+float64(t.flaps/2), t.flaps)
	var peaks [stretches]float64
	for k, part := range parts {
		for j := range 4 {
			row := part[y.index[j]*peakLifts:]
			peaks[k] += y.weight[j] * (x.weight[0]*row[x.index[0]] + x.weight[1]*row[x.index[1]] +
				x.weight[2]*row[x.index[2]] + x.weight[3]*row[x.index[3]])
		}
	}
	return rounded(peaks[:len(parts)])
}

// rounded returns the least of some peaks, corners rounded.
func rounded(peaks []float64) float64 {
	var shares [stretches]float64
	least, _ := shared(peaks, shares[:len(peaks)])
	return least
}

// shared is rounded that fills in what each peak counts, over the sum of them that it
// returns.
func shared(peaks, shares []float64) (peak, sum float64) {
	least := math.Inf(1)
	for _, p := range peaks {
		least = min(least, p)
	}
	for k, p := range peaks {
		switch below := (least - p) / kinkRounded; {
		case below == 0:
			shares[k] = 1
		case below > forgotten:
			shares[k] = math.Exp(below)
		default:
			shares[k] = 0
		}
		sum += shares[k]
	}
	if sum == 1 {
		return least, sum
	}
	return least - kinkRounded*math.Log(sum), sum
}

// weights are the four points of a row that a place is made of.
type weights struct {
	index  [4]int
	weight [4]float64
}

// stencil returns the Catmull–Rom weights at a place in units of the step, of n
// points numbered from 0. At the ends the missing neighbour is the one that a
// straight line would have; beyond them the curve goes on straight.
func stencil(place float64, n int) weights {
	if n == 1 {
		return weights{weight: [4]float64{1}}
	}
	inside := min(max(place, 0), float64(n-1))
	i := min(int(inside), n-2)
	u, beyond := inside-float64(i), place-inside
	w := [4]float64{
		u*(-0.5+u*(1-0.5*u)) + beyond*(-0.5+u*(2-1.5*u)),
		1 + u*u*(-2.5+1.5*u) + beyond*u*(-5+4.5*u),
		u*(0.5+u*(2-1.5*u)) + beyond*(0.5+u*(4-4.5*u)),
		u*u*(-0.5+0.5*u) + beyond*u*(-1+1.5*u),
	}
	if i == 0 { // p₋₁ = 2p₀ − p₁
		w[1] += 2 * w[0]
		w[2] -= w[0]
		w[0] = 0
	}
	if i == n-2 { // p_n = 2p_{n−1} − p_{n−2}
		w[2] += 2 * w[3]
		w[1] -= w[3]
		w[3] = 0
	}
	return weights{[4]int{max(i-1, 0), i, i + 1, min(i+2, n-1)}, w}
}
