package balance

import (
	"foilwright/boat"
	"foilwright/frame"
)

// Sums is what the water and buoyancy do to a boat together. The two are kept
// apart: what a towing tank reads as lift holds no buoyancy.
type Sums struct {
	Water    frame.Load[frame.Track] `json:"water"`    // about the datum
	Buoyancy frame.Load[frame.Track] `json:"buoyancy"` // about the datum
	Drag     DragByCause             `json:"-"`
}

// SumsOf adds up items of a state, weight and the air's loads left out.
func SumsOf(s boat.State, items []boat.Item) Sums {
	var sums Sums
	about := s.Attitude.Pose().Origin
	sums.Water.About, sums.Buoyancy.About = about, about
	for i := range items {
		it := &items[i]
		switch {
		case it.Cause == boat.Buoyancy:
			sums.Buoyancy = sums.Buoyancy.Plus(it.Load)
		case it.Cause.Medium() == boat.Water:
			sums.Water = sums.Water.Plus(it.Load)
			sums.Drag[it.Cause] -= it.Load.Force.X
		}
	}
	return sums
}
