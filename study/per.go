package study

import (
	"context"
	"fmt"
	"math"
	"sort"
	"strings"

	"foilwright/boatfile"
	"foilwright/quantity"
	"foilwright/si"
	"foilwright/trim"
)

// step is by how much figures of a dimension are moved, and what a step is called.
type step struct {
	words    string
	size     float64 // SI; of the figure itself where it is relative
	relative bool
	reach    float64 // of the two-sided difference, over size
}

// stepOf returns the step of a dimension: what the trade counts in.
func stepOf(d quantity.Dimension) step {
	switch d {
	case quantity.Mass:
		return step{words: "1 kg", size: 1, reach: 0.5}
	case quantity.Length:
		return step{words: "1 mm", size: 1e-3, reach: 0.5}
	case quantity.Angle:
		return step{words: "1 deg", size: si.Degree.Radians(), reach: 0.02}
	}
	return step{words: "1 %", size: 0.01, relative: true, reach: 0.1}
}

// worths returns what one step of each figure of a boat's file would gain in
// progress at the re-optimised trim, the largest first: a two-sided difference of
// trim's own Worth, one-sided where the other way leads out of a range. Figures
// that change nothing (what is not in use) are left out.
func worths(ctx context.Context, sheet *boatfile.Sheet, r *trim.Result) ([]trim.PerRow, error) {
	rows := []trim.PerRow{}
	for _, f := range sheet.Figures() {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		s := stepOf(f.Quantity.Dimension)
		size := s.size
		if s.relative {
			size *= math.Abs(f.Quantity.Likely)
		}
		if size == 0 || strings.Contains(f.Path, joint) {
			continue
		}
		slope, ok := slopeOf(sheet, r, f.Path, s.reach*size)
		if gain := slope * size; ok && math.Abs(gain) > leastWorth {
			rows = append(rows, trim.PerRow{Figure: f.Path, Where: fmt.Sprintf("%s:%d:%d", f.Where.File, f.Where.Line, f.Where.Column), Says: f.Quantity.String(), Step: s.words, Gain: gain})
		}
	}
	sort.SliceStable(rows, func(i, j int) bool { return math.Abs(rows[i].Gain) > math.Abs(rows[j].Gain) })
	return rows, nil
}

// joint is in the path of a piece's first point: moved by itself it would part the
// piece from what it is joined to.
const joint = ".path[1]."

// leastWorth is the gain below which a figure does not matter, m/s.
const leastWorth = 1e-7

// slopeOf returns the slope of progress over a figure, m/s per SI unit.
func slopeOf(sheet *boatfile.Sheet, r *trim.Result, path string, reach float64) (slope float64, ok bool) {
	sum, way := 0.0, 0.0
	for _, by := range [2]float64{reach, -reach} {
		b, err := sheet.Nudged(path, by)
		if err != nil {
			continue
		}
		gain, err := r.Worth(b)
		if err != nil {
			continue
		}
		sum += gain * math.Copysign(1, by)
		way += reach
	}
	if way == 0 {
		return 0, false
	}
	return sum / way, true
}
