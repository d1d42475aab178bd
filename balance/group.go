package balance

import (
	"fmt"

	"foilwright/boat"
	"foilwright/foil"
	"foilwright/frame"
	"foilwright/hull"
	"foilwright/sail"
)

// Group is a group of loads that enter the sums each for itself and that follow
// from some of a state only: who changes a sheet need not ask the water again.
type Group int

const (
	Weights Group = iota // of parts, crew and ballast; they follow from attitude and settings
	Wet                  // everything in the water; from attitude, speed and what moves foils or their flaps
	Dry                  // the wind on foils out of the water; from attitude, speed, wind and what moves foils
	Aloft                // the wind on sails, rig, hull and crew; from everything but what moves foils
	GroupCount
)

// Groups is a set of groups.
type Groups [GroupCount]bool

// AllGroups is what attitude changes.
func AllGroups() Groups { return Groups{true, true, true, true} }

// InTheWind is what the true wind angle changes.
func InTheWind() Groups { return Groups{Dry: true, Aloft: true} }

// WithSpeed is what speed changes.
func WithSpeed() Groups { return Groups{Wet: true, Dry: true, Aloft: true} }

// Touched tells which groups of loads a control of the boat changes.
func Touched(b *boat.Boat, control int) Groups {
	var g Groups
	serves := false
	for i := range b.Foils {
		f := &b.Foils[i]
		for _, m := range f.Moves {
			if m.Control == control {
				g[Weights], g[Wet], g[Dry] = true, true, true
				serves = true
			}
		}
		for j := range f.Pieces {
			if flap := &f.Pieces[j].Flap; flap.Share > 0 && flap.Control == control {
				g[Wet] = true
				serves = true
			}
		}
	}
	if shifts(b, control) {
		g[Weights], g[Aloft] = true, true
	}
	if !serves {
		g[Aloft] = true // a sheet, and what else there may be
	}
	return g
}

// shifts tells whether a control moves a weight, and with it perhaps a windage.
func shifts(b *boat.Boat, control int) bool {
	for i := range b.Weights {
		w := &b.Weights[i]
		if w.Swing.Control == control || w.Shift[0] == control || w.Shift[1] == control || w.Shift[2] == control {
			return true
		}
	}
	return false
}

// Append appends the loads of one group to items. A set below 0 is bare poles.
func Append(g Group, b *boat.Boat, s boat.State, set int, c Conditions, w *Workspace, items []boat.Item) ([]boat.Item, error) {
	switch g {
	case Weights:
		return appendWeights(b, s, &w.Foil, items), nil
	case Wet:
		items, err := foil.Loads(b, s, c.Water, &w.Foil, items)
		if err != nil {
			return items, fmt.Errorf("%s: %w", b.Name, err)
		}
		return hull.Loads(b, s, c.Water, &w.Hull, items), nil
	case Dry:
		return foil.Windage(b, s, c.Wind, c.Air, &w.Foil, items), nil
	default:
		return sail.Loads(b, set, s, c.Wind, c.Air, &w.Sail, items), nil
	}
}

// SumOf returns the sum of items about the boat's datum.
func SumOf(s boat.State, items []boat.Item) frame.Load[frame.Track] {
	sum := frame.Load[frame.Track]{About: s.Attitude.Datum()}
	for i := range items {
		l := &items[i].Load
		sum.Force = sum.Force.Plus(l.Force)
		sum.Moment = sum.Moment.Plus(l.Moment.Plus(l.About.From(sum.About).Cross(l.Force)))
	}
	return sum
}
