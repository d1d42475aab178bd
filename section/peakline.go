package section

import "foilwright/si"

// PeakLine is a [PeakTable] at one flap angle, for whoever asks for many lifts: each
// then costs a quarter. The zero value is at no table and has no peaks.
type PeakLine struct {
	table *PeakTable
	flap  si.Angle
	flaps weights // of the table's flap angles
	known [peakLifts]bool
	peaks [peakLifts][stretches]float64 // where they are known: strips ask for a few lifts
}

// Set brings the line to a table and a flap angle; it does nothing where it is there.
func (l *PeakLine) Set(t *PeakTable, flap si.Angle) {
	if l.table == t && l.flap == flap {
		return
	}
	l.table, l.flap = t, flap
	if t.flaps == 0 {
		return
	}
	l.flaps = stencil(float64(flap/peakFlapStep)+float64(t.flaps/2), t.flaps)
	clear(l.known[:])
}

// column returns the peak of each stretch at one of the table's lifts.
func (l *PeakLine) column(lift int) *[stretches]float64 {
	column := &l.peaks[lift]
	if l.known[lift] {
		return column
	}
	l.known[lift] = true
	for k, part := range l.table.peaks {
		sum := 0.0
		for j, weight := range l.flaps.weight {
			if weight != 0 {
				sum += weight * part[l.flaps.index[j]*peakLifts+lift]
			}
		}
		column[k] = sum
	}
	return column
}

// Peak returns what [PeakTable.Peak] does at a lift coefficient, to rounding.
func (l *PeakLine) Peak(lift float64) float64 {
	if l.table == nil || l.table.flaps == 0 {
		return 0
	}
	peaks := l.at(lift)
	return rounded(peaks[:])
}

// at returns the peak of each stretch.
func (l *PeakLine) at(lift float64) (peaks [stretches]float64) {
	x := stencil((lift-leastPeakLift)/peakLiftStep, peakLifts)
	a, b, c, d := l.column(x.index[0]), l.column(x.index[1]), l.column(x.index[2]), l.column(x.index[3])
	for k := range peaks {
		peaks[k] = x.weight[0]*a[k] + x.weight[1]*b[k] + x.weight[2]*c[k] + x.weight[3]*d[k]
	}
	return peaks
}

// on returns the peak of one stretch at weighted lifts.
func (l *PeakLine) on(stretch int, x *weights) float64 {
	sum := 0.0
	for i, weight := range x.weight {
		sum += weight * l.column(x.index[i])[stretch]
	}
	return sum
}

// Tangent returns Peak and its derivative by lift: a central difference of each stretch,
// which is a cubic of steps far wider, and of them the mean by what each counts in
// the rounded corner.
func (l *PeakLine) Tangent(lift float64) (peak, slope float64) {
	if l.table == nil || l.table.flaps == 0 {
		return 0, 0
	}
	const step = 1e-4 * peakLiftStep
	peaks := l.at(lift)
	above := stencil((lift+step-leastPeakLift)/peakLiftStep, peakLifts)
	below := stencil((lift-step-leastPeakLift)/peakLiftStep, peakLifts)
	var shares [stretches]float64
	peak, sum := shared(peaks[:], shares[:])
	for k, share := range shares {
		if share > 0 {
			slope += share * (l.on(k, &above) - l.on(k, &below))
		}
	}
	return peak, slope / (2 * step * sum)
}
