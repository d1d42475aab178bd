package report

import (
	"fmt"
	"slices"

	"foilwright/boat"
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
		p.controls(r.Boats[i].Controls)
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

// tow tells the loads of a boat that is held in a state.
func (p *page) tow(r *study.TowResult) {
	t := tack(r.WindFrom)
	p.weight = r.Weight
	what := r.Boat
	if r.Only != "" {
		what = fmt.Sprintf("%s's %s alone", r.Boat, trim.ByWind(r.Only, sideOf(r.WindFrom)))
	}
	f := r.Total.Water.Force
	p.say(fmt.Sprintf("%s towed at %s: %s, %s, %s of drag; buoyancy adds %s %s.", what, knots(r.Speed),
		p.toward(f.Z, "up", "down"), p.toward(t*f.Y, "to windward", "to leeward"), p.force(-f.X), p.lift(r.Total.Buoyancy.Force.Z), p.kN()))
	p.say(standing(&r.Standing))
	p.list("Notes", r.Notes)
	p.towLoads(r)
	p.drag(r.Drag)
	p.say(fmt.Sprintf("Induced drag summed at the foils themselves is %s (%s at the far wake, which counts): the lattice's own error.",
		p.force(r.NearField), p.force(r.Drag[boat.Induced])))
	p.centres(r.Centres, r.WindFrom)
	p.couples(r)
	p.spans(r)
	p.list("Not computed", r.NotComputed)
	p.controls(r.Controls)
}

// toward says a force by the way that it points.
func (p *page) toward(v float64, plus, minus string) string {
	if v < 0 {
		return p.lift(-v) + " " + p.kN() + " " + minus
	}
	return p.lift(v) + " " + p.kN() + " " + plus
}

func (p *page) towLoads(r *study.TowResult) {
	t := tack(r.WindFrom)
	var rows []row
	lastPart, lastPiece := "", ""
	for i := range r.Loads {
		l := &r.Loads[i]
		part, piece := trim.ByWind(l.Part, sideOf(r.WindFrom)), l.Piece
		switch {
		case part != lastPart:
			lastPart, lastPiece = part, piece
		case piece != lastPiece:
			part, lastPiece = "", piece
		default:
			part, piece = "", ""
		}
		rows = append(rows, row{part, piece, l.Item, p.number("N", l.Force.X), p.lift(-t * l.Force.Y), p.lift(l.Force.Z)})
	}
	p.table("Loads in the water", []column{
		words("part"), words("piece"), words("item"), figures("forward " + p.kN()), figures("to leeward " + p.kN()), figures("up " + p.kN()),
	}, rows)
}

// couples tells each foil's couple about its load-weighted centre, and the
// bending at its root.
func (p *page) couples(r *study.TowResult) {
	var rows []row
	for i := range r.Centres {
		c := &r.Centres[i]
		cells := row{trim.ByWind(c.Foil, sideOf(r.WindFrom)), "none", "", ""}
		if c.Loaded != nil && c.Line != nil {
			cells[1], cells[2] = p.number("N·m", -tack(r.WindFrom)*c.Couple), number("m", c.Distance)
		}
		for _, b := range r.Bending {
			if b.Part == c.Foil {
				cells[3] = p.number("N·m", b.Moment)
			}
		}
		rows = append(rows, cells)
	}
	p.table("Couple about the load-weighted centre, its distance from the line of action, bending at the root", []column{
		words("foil"), figures("righting couple " + p.kNm()), figures("off the line m"), figures("root bending " + p.kNm()),
	}, rows)
}

// spanPlaces are the shares of a piece at which its loading is shown.
const spanPlaces = 9

// spans tells circulation along every piece, and its margins.
func (p *page) spans(r *study.TowResult) {
	var loading, margins []row
	last := ""
	for i := range r.Spans {
		s := &r.Spans[i]
		part := trim.ByWind(s.Part, sideOf(r.WindFrom))
		if part == last {
			part = ""
		} else {
			last = part
		}
		cells := row{part, s.Piece}
		for k := range spanPlaces {
			at := min(len(s.Strips)-1, (2*k+1)*len(s.Strips)/(2*spanPlaces))
			cells = append(cells, coefficient(s.Strips[at].Circulation))
		}
		loading = append(loading, cells)
		cells = row{part, s.Piece, coefficient(s.LargestLift), "not known", ""}
		if s.Cavitation != nil {
			cells[3] = coefficient(*s.Cavitation)
		}
		if s.First != nil {
			cells[4] = number("m/s", float64(*s.First))
		}
		margins = append(margins, cells)
	}
	columns := []column{words("part"), words("piece")}
	for k := range spanPlaces {
		head := map[int]string{0: "start", spanPlaces / 2: "middle", spanPlaces - 1: "end"}[k]
		columns = append(columns, figures(head))
	}
	p.table("Circulation along each piece, m²/s, from its start outward", columns, loading)
	p.table("Margins, least along each piece", []column{
		words("part"), words("piece"), figures("to largest lift coefficient"), figures("to cavitation"), figures("cavitates from kn"),
	}, margins)
}
