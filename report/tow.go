package report

import (
	"fmt"

	"foilwright/boat"
	"foilwright/study"
	"foilwright/trim"
)

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
	p.margins(r.Margins, r.Hinges, r.WindFrom)
	p.list("Margins that cannot be told", r.NotComputed)
	p.controls(r.Controls, r.WindFrom)
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

// spans tells circulation along every piece.
func (p *page) spans(r *study.TowResult) {
	var rows []row
	last := ""
	for i := range r.Spans {
		s := &r.Spans[i]
		cells := row{once(trim.ByWind(s.Part, sideOf(r.WindFrom)), &last), s.Piece}
		for k := range spanPlaces {
			at := min(len(s.Strips)-1, (2*k+1)*len(s.Strips)/(2*spanPlaces))
			cells = append(cells, coefficient(s.Strips[at].Circulation))
		}
		rows = append(rows, cells)
	}
	columns := []column{words("part"), words("piece")}
	for k := range spanPlaces {
		head := map[int]string{0: "start", spanPlaces / 2: "middle", spanPlaces - 1: "end"}[k]
		columns = append(columns, figures(head))
	}
	p.table("Circulation along each piece, m²/s, from its start outward", columns, rows)
}
