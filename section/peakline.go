package section

import (
	"math"

	"foilwright/si"
)

// PeakLine is a [PeakTable] at one flap angle, for whoever asks for many lifts: each
// then costs a quarter. The zero value is at no table and has no peaks.
type PeakLine struct {
	table *PeakTable
	flap  si.Angle
	peaks [stretches][peakLifts]float64
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
	y := stencil(float64(flap/peakFlapStep)+float64(t.flaps/2), t.flaps)
	for k, part := range t.peaks {
		line := &l.peaks[k]
		*line = [peakLifts]float64{}
		for j, weight := range y.weight {
			if weight == 0 {
				continue
			}
			for i, p := range part[y.index[j]*peakLifts:][:peakLifts] {
				line[i] += weight * p
			}
		}
	}
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
	for k := range peaks {
		row := &l.peaks[k]
		peaks[k] = x.weight[0]*row[x.index[0]] + x.weight[1]*row[x.index[1]] + x.weight[2]*row[x.index[2]] + x.weight[3]*row[x.index[3]]
	}
	return peaks
}

// Slope returns the derivative of Peak by lift: a central difference of each stretch,
// which is a cubic of steps far wider, and of them the mean by what each counts in
// the rounded corner.
func (l *PeakLine) Slope(lift float64) float64 {
	if l.table == nil || l.table.flaps == 0 {
		return 0
	}
	const step = 1e-4 * peakLiftStep
	peaks, above, below := l.at(lift), l.at(lift+step), l.at(lift-step)
	least := rounded(peaks[:])
	sum := 0.0
	for k, p := range peaks {
		if share := (least - p) / kinkRounded; share > forgotten {
			sum += math.Exp(share) * (above[k] - below[k])
		}
	}
	return sum / (2 * step)
}
