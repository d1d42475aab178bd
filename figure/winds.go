package figure

import (
	"fmt"
	"strings"

	"foilwright/compare"
	"foilwright/odds"
	"foilwright/trim"
)

// WindsPart is progress over the wind's speed, a curve for each boat, and differences
// under it over the same winds.
type WindsPart struct {
	Axis   string     `json:"axis"`
	Across string     `json:"across"` // axis of the winds
	Boats  []WindLine `json:"boats"`
	Gain   string     `json:"gain_axis"`
	Gains  []WindLine `json:"gains"` // of the first pair; none of one boat
}

// WindLine is a curve over the winds, broken where there is no figure.
type WindLine struct {
	Name   string   `json:"name"`
	Points []WindAt `json:"points"`
}

// WindAt is one wind. Its figure is nil where a boat cannot sail.
type WindAt struct {
	Wind  Number  `json:"wind"`
	Value *Number `json:"value"`
	Bands []Band  `json:"bands"` // none where nothing is uncertain
}

// winds fills the chart with boats compared in several winds.
func (c *Chart) winds(all []*compare.Result) error {
	if len(all) < 2 {
		return fmt.Errorf("figure: winds is drawn over several winds, and one was asked about\nhint: write --tws \"8 to 20 kn by 2 kn\"")
	}
	first, u := all[0].Boats[0], c.usual("m/s")
	c.windsPart(first.Aim)
	at := func(r *compare.Result) Number { return c.windAt(float64(r.Boats[0].TrueWindSpeed)) }
	for i, name := range names(all[0].Boats) {
		line := WindLine{Name: name}
		for _, r := range all {
			p := WindAt{Wind: at(r), Bands: []Band{}}
			if r.Boats[i].Answer == trim.Found {
				v := numberIn(u, r.Progress(i))
				p.Value = &v
			}
			line.Points = append(line.Points, p)
		}
		c.Winds.Boats = append(c.Winds.Boats, line)
	}
	if len(all[0].Boats) > 1 {
		line := WindLine{Name: all[0].Boats[1].Boat + " less " + first.Boat}
		for _, r := range all {
			p := WindAt{Wind: at(r), Bands: []Band{}}
			if r.Boats[0].Answer == trim.Found && r.Boats[1].Answer == trim.Found {
				v := changeIn(u, r.Progress(1)-r.Progress(0))
				p.Value = &v
			}
			line.Points = append(line.Points, p)
		}
		c.Winds.Gains = append(c.Winds.Gains, line)
	}
	return c.windsWords(first.Aim, "each at her best trim, wind from "+first.WindFrom)
}

// bands fills the chart with odds over a range of winds.
func (c *Chart) bands(r *odds.Result) error {
	if len(r.Bands) < 2 {
		return fmt.Errorf("figure: winds is drawn over several winds, and these odds have no bands over them\nhint: ask odds with --winds \"8 to 20 kn by 2 kn\"")
	}
	u := c.usual("m/s")
	c.windsPart(r.Aim)
	for i := range r.Boats {
		line := WindLine{Name: r.Boats[i].Name}
		for _, b := range r.Bands {
			d := b.Boats[i].Progress
			p := WindAt{Wind: c.windAt(float64(b.Wind)), Bands: append([]Band{}, bandsOf(&d, func(v float64) Number { return numberIn(u, v) })...)}
			if d.P50 != nil {
				v := numberIn(u, *d.P50)
				p.Value = &v
			}
			line.Points = append(line.Points, p)
		}
		c.Winds.Boats = append(c.Winds.Boats, line)
	}
	if len(r.Pairs) > 0 {
		line := WindLine{Name: r.Pairs[0].First + " less " + r.Pairs[0].Second}
		for _, b := range r.Bands {
			d := b.Pairs[0].Difference
			p := WindAt{Wind: c.windAt(float64(b.Wind)), Bands: append([]Band{}, bandsOf(&d, func(v float64) Number { return changeIn(u, v) })...)}
			if d.P50 != nil {
				v := changeIn(u, *d.P50)
				p.Value = &v
			}
			line.Points = append(line.Points, p)
		}
		c.Winds.Gains = append(c.Winds.Gains, line)
	}
	return c.windsWords(r.Aim, fmt.Sprintf("medians and bands of %s over %d samples, the same for all", c.Level, r.Samples))
}

func (c *Chart) windsPart(aim string) {
	kn := unitOf(c.usual("m/s"))
	what := strings.TrimPrefix(progressWord(aim), "of ")
	c.Winds = &WindsPart{Axis: what + kn, Across: "true wind speed" + kn, Gain: "difference" + kn, Gains: []WindLine{}}
}

func (c *Chart) windAt(v float64) Number {
	u := c.usual("m/s").To(1)
	return numberIn(u, v)
}

// windsWords ends the chart: title, table, summary.
func (c *Chart) windsWords(aim, how string) error {
	unit := c.usual("m/s").Unit
	c.Table.Head = []string{c.Winds.Across}
	lines := append(append([]WindLine{}, c.Winds.Boats...), c.Winds.Gains...)
	for _, l := range lines {
		c.Table.Head = append(c.Table.Head, l.Name+" ("+unit+")")
		if len(l.Points[0].Bands) > 0 {
			c.Table.Head = append(c.Table.Head, c.Level+" from", c.Level+" to")
		}
	}
	sails := 0
	for i, p := range lines[0].Points {
		row := []string{p.Wind.Text}
		for _, l := range lines {
			row = append(row, textOf(l.Points[i].Value))
			if len(l.Points[0].Bands) > 0 {
				row = append(row, c.ends(l.Points[i].Bands)...)
			}
			if l.Points[i].Value != nil {
				sails++
			}
		}
		c.Table.Rows = append(c.Table.Rows, row)
	}
	if sails == 0 {
		return &NoAnswer{Boat: lines[0].Name, Words: "she sails in none of the winds asked"}
	}
	c.Title = c.windsTitle(unit)
	c.Under = capital(strings.TrimPrefix(progressWord(aim), "of ")) + " over the true wind speed, " + how
	var told []string
	for _, l := range c.Winds.Boats {
		var points []string
		for _, p := range l.Points {
			if p.Value != nil {
				points = append(points, p.Value.Text+" at "+p.Wind.Text)
			}
		}
		told = append(told, l.Name+": "+joined(points))
	}
	c.Summary = c.Title + ". " + strings.Join(told, "; ") + ", all in " + unit + "."
	return nil
}

// ends are the ends of the band that stands out, as the table has them.
func (c *Chart) ends(bands []Band) []string {
	for _, b := range bands {
		if b.Level == c.Level {
			return []string{b.From.Text, b.To.Text}
		}
	}
	return []string{"", ""}
}

// windsTitle says who leads, and whether that turns with the wind.
func (c *Chart) windsTitle(unit string) string {
	if len(c.Winds.Gains) == 0 {
		return c.Winds.Boats[0].Name + " over the wind"
	}
	plus, minus, level, names := 0, 0, 0, strings.SplitN(c.Winds.Gains[0].Name, " less ", 2)
	turn, last := "", 0.0
	for _, p := range c.Winds.Gains[0].Points {
		if p.Value == nil {
			continue
		}
		// What reads as nothing is nobody's lead.
		if sign := p.Value.Text[0]; sign != '+' && sign != '-' {
			level++
			continue
		}
		if p.Value.At*last < 0 && turn == "" {
			turn = p.Wind.Text
		}
		if last = p.Value.At; last > 0 {
			plus++
		} else {
			minus++
		}
	}
	switch {
	case plus == 0 && minus == 0:
		return fmt.Sprintf("%s are level in all winds", joined(names))
	case minus == 0:
		return fmt.Sprintf("%s is ahead of %s in %d of %d winds", names[0], names[1], plus, plus+level)
	case plus == 0:
		return fmt.Sprintf("%s is ahead of %s in %d of %d winds", names[1], names[0], minus, minus+level)
	}
	return fmt.Sprintf("Who leads of %s turns with the wind, by %s %s", joined(names), turn, unit)
}
