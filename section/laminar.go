package section

import (
	"fmt"
	"math"

	"foilwright/si"
)

// Grid of a laminar table. Lift is counted from what the flap adds to the ideal
// lift, so that the ends of the laminar range keep their place from one flap
// angle to the next.
const (
	leastLaminarLift = -1.5
	laminarLiftStep  = 0.05
	laminarLifts     = 67 // up to 1.8
	leastLaminarRe   = 1e5
	laminarDecades   = 3 // up to 1e8
	laminarPerDecade = 4
	laminarFlapStep  = 2.5 * si.Degree
	laminarFlaps     = 17   // 20 degrees either way
	leastLaminar     = 1e-3 // share, at either end
)

// LaminarTable is where the boundary layer turns turbulent on a section over
// lift, Reynolds number and flap angle, made once of panel solutions and then
// cheap to read. It never changes and may be shared between goroutines. The zero
// value has no laminar run.
type LaminarTable struct {
	sides [2]*grid // logit of the share: upper side, lower side
	shift float64  // ideal lift a radian of flap
}

// LaminarTable solves the ideal flow past the section with a flap of a share of
// the chord, 0 for none, at flap angles 2.5 degrees apart up to 20 degrees either
// way, by [PanelCount] panels each, and tables [Potential.Transition] over lift
// coefficients 0.05 apart and Reynolds numbers from 1e5 to 1e8, four a decade.
func (s Section) LaminarTable(flapShare float64) (LaminarTable, error) {
	flaps := laminarFlaps
	var table LaminarTable
	if flapShare == 0 {
		flaps = 1
	} else {
		table.shift = 2 * math.Sin(math.Acos(min(max(2*flapShare-1, -1), 1)))
	}
	var axes [3]axis
	for i := range laminarLifts {
		axes[0] = append(axes[0], leastLaminarLift+laminarLiftStep*float64(i))
	}
	for i := range laminarDecades*laminarPerDecade + 1 {
		axes[1] = append(axes[1], logReynolds(leastLaminarRe)+math.Ln10*float64(i)/laminarPerDecade)
	}
	var values [2][]float64
	for k := range flaps {
		angle := laminarFlapStep * si.Angle(k-flaps/2)
		axes[2] = append(axes[2], angle.Radians())
		flow, err := s.Potential(Flap{Share: flapShare, Deflection: angle}, PanelCount)
		if err != nil {
			return LaminarTable{}, fmt.Errorf("laminar run: %w", err)
		}
		var layers [2][laminarLifts]laminarLayer
		for i, lift := range axes[0] {
			layers[0][i], layers[1][i] = flow.laminar(flow.AngleFor(lift + table.shift*angle.Radians()))
		}
		for _, log := range axes[1] {
			for side := range layers {
				for _, layer := range layers[side] {
					values[side] = append(values[side], logit(flow.shareOf(layer, math.Exp(log))))
				}
			}
		}
	}
	for side := range values {
		table.sides[side] = newGrid(axes, values[side])
	}
	return table, nil
}

// logit stretches shares so that no curve between them leaves 0 to 1.
func logit(share float64) float64 {
	share = min(max(share, leastLaminar), 1-leastLaminar)
	return math.Log(share / (1 - share))
}

// Sides returns where the boundary layer turns turbulent on the upper and the
// lower side, as [Section.Transition2D] does, at a lift coefficient, a Reynolds
// number on the chord and a flap angle. Value and first derivatives are
// continuous everywhere; where transition jumps from the middle of a side to its
// nose, at the ends of a section's laminar range, the table spreads the jump over
// a step of lift; nineteen places in twenty are within 0.025 of the chord. Past
// the table's ends it soon stays what it is there.
func (t LaminarTable) Sides(lift, reynolds float64, flap si.Angle) (upper, lower float64) {
	if t.sides[0] == nil {
		return 0, 0
	}
	x, y, z := lift-t.shift*flap.Radians(), logReynolds(reynolds), flap.Radians()
	return t.share(0, x, y, z), t.share(1, x, y, z)
}

func (t LaminarTable) share(side int, x, y, z float64) float64 {
	return 1 / (1 + math.Exp(-t.sides[side].at(x, y, z)))
}

// Share returns the mean of both sides of [LaminarTable.Sides], for the laminar
// share of [Section.DragParts]. Each side weighs by the cube of its mean speed,
// since that is how the power lost in a layer goes: at a lift coefficient c the
// circulation makes the speeds about 1 + c/4 above and 1 − c/4 below. A plain mean
// would leave the drag off the ideal lift up to a quarter too low.
func (t LaminarTable) Share(lift, reynolds float64, flap si.Angle) float64 {
	upper, lower := t.Sides(lift, reynolds, flap)
	return laminarShare(lift, upper, lower)
}

// laminarShare weighs the sides, with c/4 kept below 1.
func laminarShare(lift, upper, lower float64) float64 {
	part := lift / math.Hypot(4, lift)
	if math.IsNaN(part) {
		part = 0
	}
	above, below := (1+part)*(1+part)*(1+part), (1-part)*(1-part)*(1-part)
	return (above*upper + below*lower) / (above + below)
}
