package balance

import (
	"foilwright/boat"
	"foilwright/foil"
	"foilwright/frame"
	"foilwright/si"
)

// Levers is what a boat's geometry says of her stability in one attitude, with
// nothing solved: the reckoning of the trade (common practice). It supposes that
// the leeward foil carries the whole weight at the midpoint of its wings' areas,
// which no force has told it: see Centre for what the loads say.
type Levers struct {
	Weight          float64                   `json:"weight_N"`
	CentreOfGravity frame.Point[frame.Track]  `json:"centre_of_gravity_m"`
	Foil            string                    `json:"foil"`               // that the lever is taken to; empty where none is wet
	Centre          *frame.Point[frame.Track] `json:"rule_of_thumb_m"`    // of that foil
	Lever           float64                   `json:"lever_m"`            // level, across the track, from the centre of gravity; positive with the foil to leeward of it
	RightingMoment  float64                   `json:"righting_moment_Nm"` // weight times lever
	Weights         []WeightRow               `json:"weights"`
}

// WeightRow is one weight and where it is.
type WeightRow struct {
	Part   string                   `json:"part"`
	Mass   float64                  `json:"mass_kg"`
	Place  frame.Point[frame.Track] `json:"place_m"`
	Moment float64                  `json:"righting_moment_Nm"` // about the rule-of-thumb centre, positive to windward; 0 where there is none
}

// LeversOf returns the levers of a boat in a state, from the outlines of its
// foils there. The foil is the one with most wet wing to leeward; where none is
// wet on that side, the one with most of all.
func LeversOf(b *boat.Boat, s boat.State, outlines []foil.Outline, windFrom boat.Side) Levers {
	var l Levers
	var moment frame.Vec[frame.Track]
	for _, it := range appendWeights(b, s, nil, nil) {
		weight := -it.Load.Force.Z
		l.Weight += weight
		moment = moment.Plus(frame.Vec[frame.Track](it.Load.About).Times(weight))
		l.Weights = append(l.Weights, WeightRow{Part: it.Part, Mass: weight / si.Gravity, Place: it.Load.About})
	}
	if l.Weight > 0 {
		l.CentreOfGravity = frame.Point[frame.Track](moment.Times(1 / l.Weight))
	}
	index := carrier(b, outlines, windFrom.Other())
	if index < 0 {
		return l
	}
	centre, _ := foil.RuleCentre(outlines, index)
	l.Foil, l.Centre = b.Foils[index].Name, &centre
	leeward := Leeward(windFrom)
	l.Lever = leeward * (l.CentreOfGravity.Y - centre.Y)
	l.RightingMoment = l.Weight * l.Lever
	for i := range l.Weights {
		row := &l.Weights[i]
		row.Moment = row.Mass * si.Gravity * leeward * (row.Place.Y - centre.Y)
	}
	return l
}

// carrier returns the foil with the most wet wing on a side, else of all, −1
// where no wing is wet.
func carrier(b *boat.Boat, outlines []foil.Outline, side boat.Side) int {
	wings := make([]float64, len(b.Foils))
	for i := range outlines {
		if o := &outlines[i]; o.FreeTip == foil.FreeTip {
			wings[o.Foil] += o.WetPlan
		}
	}
	best := -1
	for _, anySide := range [2]bool{false, true} {
		for i, area := range wings {
			if area > 0 && (anySide || b.Foils[i].Side == side) && (best < 0 || area > wings[best]) {
				best = i
			}
		}
		if best >= 0 {
			break
		}
	}
	return best
}
