package trim

import (
	"fmt"
	"strings"

	"foilwright/boat"
)

// way is one way of sailing: a mode, a set of sails, and on which side of the
// surface each tip is kept that may be on either.
type way struct {
	mode         *boat.Mode
	set          int
	lower, upper []float64 // of every control
	limits       []boat.Limit
	tips         tipSide
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
		limits := b.LimitsIn(mode)
		for _, set := range setsOf(b, mode) {
			setNames = append(setNames, b.Sets[set].Name)
			if r.Set != "" && r.Set != b.Sets[set].Name {
				continue
			}
			for _, tips := range tipSides(limits, r) {
				all = append(all, way{mode: mode, set: set, lower: lower, upper: upper, limits: limits, tips: tips})
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
		if b.Sails[i].Sheet == control || b.Sails[i].Twist == control {
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
		if b.Sails[i].Sheet == control || b.Sails[i].Twist == control {
			return true
		}
	}
	return false
}
