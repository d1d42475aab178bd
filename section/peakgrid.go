package section

// PeakGrid is a [PeakTable] as plain numbers, for those who read it elsewhere.
type PeakGrid struct {
	LeastLift, LiftStep float64 // of the lift coefficients
	LeastFlap, FlapStep float64 // of the flap angles, rad
	// Peaks holds, for each stretch of the surface, the least pressure
	// coefficient by flap angle, then by lift.
	Peaks [][][]float64
	// Rounding is the pressure coefficient over which the corners between
	// stretches are rounded: see [PeakTable.Peak].
	Rounding float64
}

// Grid returns a copy of the table. Stretches are those of [PeakTable.Peak], from
// the rear of the upper side round the nose to the rear of the lower side. The
// zero table has none.
func (t PeakTable) Grid() PeakGrid {
	g := PeakGrid{
		LeastLift: leastPeakLift, LiftStep: peakLiftStep,
		LeastFlap: -float64(t.flaps/2) * float64(peakFlapStep), FlapStep: float64(peakFlapStep),
		Rounding: kinkRounded,
	}
	if t.flaps == 0 {
		return g
	}
	for _, part := range t.peaks {
		var rows [][]float64
		for k := range t.flaps {
			rows = append(rows, append([]float64(nil), part[k*peakLifts:(k+1)*peakLifts]...))
		}
		g.Peaks = append(g.Peaks, rows)
	}
	return g
}
