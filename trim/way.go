package trim

import (
	"fmt"
	"math"
	"strings"

	"foilwright/boat"
	"foilwright/foil"
	"foilwright/si"
)

// way is one way of sailing: a mode, a set of sails, and on which side of the
// surface each tip is kept that may be on either.
type way struct {
	mode         *boat.Mode
	set          int
	lower, upper []float64 // of every control
	limits       []boat.Limit
	tips         tipSide
	down         []bool // which foils reach into the water in the middle of the ranges
}

// tipSide splits the search where a limit lets tips leave the water: lift has a
// kink where a tip comes out, and each side of it is searched for itself, so
// that a best trim on the kink is found from both.
type tipSide int

const (
	tipsAsLimited tipSide = iota
	tipsUnder             // every free tip under water
	tipsMayShow           // the shallowest free tip at or over the surface
)

// is tells whether two ways of sailing the same boat are one.
func (w *way) is(o *way) bool {
	return w.mode.Name == o.mode.Name && w.set == o.set && w.tips == o.tips
}

// ways returns every way of sailing that a request allows.
func ways(b *boat.Boat, r *Request) ([]way, error) {
	modes := b.Modes
	if len(modes) == 0 {
		modes = []boat.Mode{{Name: "any"}}
	}
	var all []way
	var modeNames, setNames []string
	for m := range modes {
		mode := &modes[m]
		modeNames = append(modeNames, mode.Name)
		if r.Mode != "" && r.Mode != mode.Name {
			continue
		}
		lower, upper := b.Bounds(mode, r.windFrom())
		limits := r.onBranch(b, b.LimitsIn(mode))
		for _, set := range setsOf(b, mode) {
			setNames = append(setNames, b.Sets[set].Name)
			if r.Set != "" && r.Set != b.Sets[set].Name {
				continue
			}
			for _, tips := range tipSides(limits, r) {
				w := way{mode: mode, set: set, lower: lower, upper: upper, limits: limits, tips: tips}
				w.down = w.foilsDown(b)
				all = append(all, w)
			}
		}
	}
	if len(all) == 0 {
		return nil, fmt.Errorf("%s: no mode %q with set %q; modes: %s; sets: %s",
			b.Name, r.Mode, r.Set, strings.Join(modeNames, ", "), strings.Join(setNames, ", "))
	}
	return all, nil
}

func setsOf(b *boat.Boat, mode *boat.Mode) []int {
	if len(mode.Sets) > 0 {
		return mode.Sets
	}
	var all []int
	for i := range b.Sets {
		all = append(all, i)
	}
	return all
}

// tipSides returns both sides where tips may leave the water.
func tipSides(limits []boat.Limit, r *Request) []tipSide {
	for _, l := range limits {
		if l.Kind == boat.LimitTipDepth && l.Lower < 0 && l.Upper > 0 && !r.relaxed(l.Name()) {
			return []tipSide{tipsUnder, tipsMayShow}
		}
	}
	return []tipSide{tipsAsLimited}
}

// uses tells whether a control matters in this way of sailing: sheets of sails
// that are not up do not.
func (w *way) uses(b *boat.Boat, control int) bool {
	sheets := false
	for i := range b.Sails {
		if b.Sails[i].SetBy(control) {
			sheets = true
		}
	}
	if !sheets {
		return true
	}
	if w.set < 0 {
		return false
	}
	for _, i := range b.Sets[w.set].Sails {
		if b.Sails[i].SetBy(control) {
			return true
		}
	}
	return false
}

// idle tells whether a control only trims foils that are out of the water: its
// flap, or an angle of fine trim. Such a control stays where it starts. A wide
// range (a raised foil's cant) stays a choice, since it moves weight.
func (w *way) idle(b *boat.Boat, control int) bool {
	serves := false
	for i := range b.Foils {
		f := &b.Foils[i]
		touched := false
		for _, m := range f.Moves {
			touched = touched || m.Control == control
		}
		for j := range f.Pieces {
			touched = touched || f.Pieces[j].Flap.Share > 0 && f.Pieces[j].Flap.Control == control
		}
		if touched && w.down[i] {
			return false
		}
		serves = serves || touched
	}
	return serves && w.upper[control]-w.lower[control] <= widestTrim
}

// widestTrim is the widest range that counts as trim of a foil rather than a
// choice of where it is: a flap's, rad.
const widestTrim = 40 * float64(si.Degree)

// foilsDown tells which foils reach into the water in the middle of the way's
// ranges, upright at a usual ride height.
func (w *way) foilsDown(b *boat.Boat) []bool {
	s := boat.State{Settings: b.Starts()}
	for i := range s.Settings {
		s.Settings[i] = math.Min(math.Max(s.Settings[i], w.lower[i]), w.upper[i])
		if movesFoil(b, i) == changesGeometry && w.upper[i]-w.lower[i] > widestFineTrim {
			s.Settings[i] = (w.lower[i] + w.upper[i]) / 2
		}
	}
	low, high := rideRange(b, w.limits)
	s.Attitude = b.AtRideHeight(s.Attitude, (low+high)/2)
	down := make([]bool, len(b.Foils))
	for _, i := range foil.Down(b, s) {
		down[i] = true
	}
	return down
}

// rideRange returns the ride heights that are searched, m: as limited, else
// from 0 to a twentieth of the length.
func rideRange(b *boat.Boat, limits []boat.Limit) (low, high float64) {
	low, high = leastRideHeight, b.Length/20
	for _, l := range limits {
		if l.Kind == boat.LimitRideHeight {
			if !math.IsInf(l.Lower, -1) {
				low = l.Lower
			}
			if !math.IsInf(l.Upper, 1) {
				high = l.Upper
			}
		}
	}
	return low, math.Max(low, high)
}
