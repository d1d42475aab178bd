package report

import (
	"fmt"
	"slices"

	"foilwright/frame"
	"foilwright/si"
	"foilwright/study"
	"foilwright/trim"
)

// levers tells the geometry of boats in an attitude.
func (p *page) levers(r *study.LeversResult) {
	p.weight = r.Boats[r.BaseIndex].Weight
	for i := range r.Boats {
		p.boatLevers(&r.Boats[i])
		if i > 0 && slices.Equal(r.Boats[i].Controls, r.Boats[i-1].Controls) {
			p.say("Controls as for " + r.Boats[i-1].Boat + ".")
			continue
		}
		p.controls(r.Boats[i].Controls, r.Boats[i].WindFrom)
	}
	if len(r.Boats) > 1 {
		names := make([]string, len(r.Boats))
		for i := range r.Boats {
			names[i] = r.Boats[i].Boat
		}
		p.differences(r.Differences, names, r.BaseIndex)
	}
}

// standing says how a boat stands.
func standing(s *study.Standing) string {
	t, rad := tack(s.WindFrom), as("rad")
	return fmt.Sprintf("%s, mode %s, windward is %s: heel %s, pitch %s, leeway %s, ride height %s.",
		s.Boat, s.Mode, s.WindFrom, sideways(float64(s.Heel), rad, t), bow(float64(s.Pitch)), sideways(float64(s.Leeway), rad, t), metres(s.RideHeight))
}

func (p *page) boatLevers(l *study.BoatLevers) {
	p.say(standing(&l.Standing))
	p.list("Notes", l.Notes)
	if l.Centre == nil {
		p.say(fmt.Sprintf("No wing is wet here, so there is no rule-of-thumb centre and no lever. The boat weighs %s.", p.force(l.Weight)))
	} else {
		p.say(fmt.Sprintf("The rule-of-thumb centre of the %s is %s of the centre of gravity: times the weight of %s a righting moment of %s (common practice: nothing is solved).",
			trim.ByWind(l.Foil, sideOf(l.WindFrom)), sideways(l.Lever, as("m"), 1), p.force(l.Weight), p.moment(l.RightingMoment)))
	}
	t := tack(l.WindFrom)
	place := func(c *frame.Point[frame.Track]) (string, string) {
		if c == nil {
			return "", ""
		}
		return number("m", -t*c.Y), number("m", c.Z)
	}
	var rows []row
	last := ""
	for i := range l.Pieces {
		g := &l.Pieces[i]
		name := trim.ByWind(g.Part, sideOf(l.WindFrom))
		if name == last {
			name = ""
		} else {
			last = name
		}
		y, z := place(g.Centroid)
		cells := row{name, g.Piece, area(g.WetPlan), area(g.DryPlan), area(g.WettedArea), y, z, ""}
		if g.TipDepth != nil {
			cells[7] = number("m", *g.TipDepth)
		}
		rows = append(rows, cells)
	}
	rows = append(rows, nil, row{"all", "", "", "", area(l.WettedArea)})
	p.table("Foils: plan area wet and dry, skin that is wet, centroid of the wet plan, depth of free tips", []column{
		words("part"), words("piece"), figures("wet m²"), figures("dry m²"), figures("skin m²"),
		figures("to leeward m"), figures("height m"), figures("tip depth m"),
	}, rows)
	rows = nil
	for i := range l.Weights {
		w := &l.Weights[i]
		rows = append(rows, row{trim.ByWind(w.Part, sideOf(l.WindFrom)), as("kg").numeral(w.Mass), number("m", -t*w.Place.Y), number("m", w.Place.Z), p.number("N·m", w.Moment)})
	}
	y, z := place(&l.CentreOfGravity)
	rows = append(rows, nil, row{"all", as("kg").numeral(l.Weight / si.Gravity), y, z, p.number("N·m", l.RightingMoment)})
	p.table("Weights: place, and righting moment about the rule-of-thumb centre", []column{
		words("part"), figures("mass kg"), figures("to leeward m"), figures("height m"), figures("righting " + p.kNm()),
	}, rows)
}
