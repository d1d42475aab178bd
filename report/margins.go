package report

import (
	"fmt"
	"math"

	"foilwright/quantity"
	"foilwright/trim"
)

// once returns a name where it is not the last one told, and notes it.
func once(name string, last *string) string {
	if name == *last {
		return ""
	}
	*last = name
	return name
}

// margins tells how the pieces stand against cavitation, stall and ventilation,
// how deep their tips are, and what turns their flaps.
func (p *page) margins(all []trim.Margin, hinges []trim.Hinge, windFrom string) {
	p.cavitation(all, windFrom)
	p.ventilation(all, windFrom)
	p.hinges(hinges, windFrom)
}

// cavitation tells each piece's least margin against cavitation.
func (p *page) cavitation(all []trim.Margin, windFrom string) {
	var rows []row
	last := ""
	for i := range all {
		m := &all[i]
		c := m.Cavitation
		if c == nil {
			continue
		}
		mark := ""
		if coefficient(c.Margin) != coefficient(0) && c.Margin < 0 {
			mark = "● cavitates"
		}
		rows = append(rows, row{
			once(trim.ByWind(m.Part, sideOf(windFrom)), &last), m.Piece, coefficient(c.Number), coefficient(c.Peak), coefficient(c.Margin),
			percent(c.Share), number("m", c.Depth), fromSpeed(c), mark,
		})
	}
	p.table("Cavitation: each piece at the strip where the margin, cavitation number less pressure peak, is least, and the speed from which "+
		"its first strip would cavitate with its present load", []column{
		words("part"), words("piece"), figures("number"), figures("peak"), figures("margin"), figures("at % of span"), figures("depth m"),
		figures("from kn"), words(""),
	}, rows)
}

// fromSpeed says from what speed a piece cavitates.
func fromSpeed(c *trim.CavitationMargin) string {
	switch {
	case c.First == nil:
		return "none"
	case *c.First == 0:
		return "any"
	}
	return quantity.Numeral(float64(*c.First), quantity.Speed, "kn", quantity.Decimals(1))
}

// ventilation tells each piece's margins to stall and to ventilation, and the
// depth of its tip.
func (p *page) ventilation(all []trim.Margin, windFrom string) {
	var rows []row
	last := ""
	for i := range all {
		m := &all[i]
		cells := row{once(trim.ByWind(m.Part, sideOf(windFrom)), &last), m.Piece, "dry", "", "", "", "", "", ""}
		if m.LargestLift != nil {
			cells[2] = coefficient(m.LargestLift.Margin)
		}
		if v := m.Ventilation; v != nil {
			cells[3], cells[4], cells[5] = degree(v.Incidence.Degrees()), degree(v.Boundary.Degrees()), degree(v.Margin.Degrees())
			if v.Margin < 0 {
				cells[8] = "● may draw air"
			}
		}
		if m.Tip != nil {
			cells[6], cells[7] = number("m", m.Tip.Depth), quantity.Numeral(m.Tip.Chords, quantity.Number, "", quantity.Decimals(1))
			if m.Tip.Depth < 0 && cells[8] == "" {
				cells[8] = "● tip is out"
			}
		}
		rows = append(rows, cells)
	}
	p.table("Stall: lift coefficient in hand where it is least. Ventilation of pieces that pierce the surface: incidence above zero lift, the "+
		"boundary from which air may be drawn down, and the margin. Depth of free tips", []column{
		words("part"), words("piece"), figures("lift\nin hand"), figures("incidence\ndeg"), figures("boundary\ndeg"), figures("margin\ndeg"),
		figures("tip depth\nm"), figures("tip depth\nchords"), words(""),
	}, rows)
}

func degree(v float64) string {
	return quantity.Numeral(v, quantity.Number, "", quantity.Decimals(1))
}

// percent is a share in per cent, without decimals and unit.
func percent(share float64) string {
	return quantity.Numeral(share, quantity.Share, "%", quantity.Decimals(0))
}

// hinges tells what the water turns flaps with.
func (p *page) hinges(all []trim.Hinge, windFrom string) {
	var points []string
	for _, h := range all {
		way := "towards the lower sides, as a positive flap angle"
		if h.Moment < 0 {
			way = "towards the upper sides, as a negative flap angle"
		}
		points = append(points, fmt.Sprintf("%s: %s, pushing the trailing edges %s", trim.ByWind(h.Part, sideOf(windFrom)), newtonMetres(math.Abs(h.Moment)), way))
	}
	p.list("Hinge moment of flaps (ideal flow; a real flap's is a fifth to a third less, common practice; no scantling)", points)
}

func newtonMetres(v float64) string {
	return quantity.Format(v, quantity.Moment, "N·m", quantity.Decimals(0))
}
