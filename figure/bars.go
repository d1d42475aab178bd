package figure

import (
	"fmt"
	"math"
	"strings"

	"foilwright/balance"
	"foilwright/boat"
	"foilwright/compare"
	"foilwright/quantity"
	"foilwright/trim"
)

// BarsPart is rows of bars from one zero line, a bar for each boat.
type BarsPart struct {
	Axis  string   `json:"axis"`
	Boats []string `json:"boats"`
	Rows  []BarRow `json:"rows"`
}

// BarRow is one row. Its bars are nil where a boat has no such figure.
type BarRow struct {
	Name string    `json:"name"`
	Rank string    `json:"rank"` // part or sum
	Bars []*Number `json:"bars"`
}

// answered returns the error of the first boat without an answer.
func answered(boats []*trim.Result) error {
	for _, b := range boats {
		if b.Answer != trim.Found {
			return noAnswer(b)
		}
	}
	return nil
}

// budget fills the chart with righting and heeling moments.
func (c *Chart) budget(r *compare.Result) error {
	if err := answered(r.Boats); err != nil {
		return err
	}
	u := c.units.On(r.Boats[0].Weight, "N·m")
	c.Bars = &BarsPart{Axis: "moment about each boat's own line of action, " + u.Unit + ": + as the row says, − against it"}
	named := names(r.Boats)
	c.Bars.Boats = named
	for _, kind := range []struct{ kind, name string }{
		{"weight", "righting: "}, {"buoyancy", "righting: buoyancy of "}, {"water", "righting: water on "}, {"sails", "heeling: "}, {"windage", "heeling: windage of "},
	} {
		parts := budgetParts(r.Boats, kind.kind)
		if kind.kind == "windage" || kind.kind == "buoyancy" {
			c.row(u, strings.TrimSuffix(kind.name, " of "), "part", r.Boats, func(b *trim.Result) float64 { return budgetSum(&b.Budget, kind.kind, "") })
			continue
		}
		for _, part := range parts {
			name := kind.name + trim.ByWind(part, side(r.Boats[0].WindFrom))
			if kind.kind == "weight" {
				name += " (weight)"
			}
			c.row(u, name, "part", r.Boats, func(b *trim.Result) float64 { return budgetSum(&b.Budget, kind.kind, part) })
		}
		if kind.kind == "water" {
			c.row(u, "righting moment", "sum", r.Boats, func(b *trim.Result) float64 { return b.Budget.Righting })
		}
	}
	c.row(u, "heeling moment", "sum", r.Boats, func(b *trim.Result) float64 { return b.Budget.Heeling })
	best, at := most(r.Boats, func(b *trim.Result) float64 { return b.Budget.Righting })
	c.Title = fmt.Sprintf("%s stands up to most: a righting moment of %s", best, u.Format(at))
	c.barsWords("Righting-moment budget", r.Boats, u)
	return nil
}

// drag fills the chart with drag by cause.
func (c *Chart) drag(r *compare.Result) error {
	if err := answered(r.Boats); err != nil {
		return err
	}
	u := c.units.On(r.Boats[0].Weight, "N")
	if u.Unit == "kN" {
		u = quantity.SI.For("N")
	}
	c.Bars = &BarsPart{Axis: "drag, " + u.Unit + ": the water's along the track, the air's along the apparent wind", Boats: names(r.Boats)}
	for _, medium := range []struct {
		medium boat.Medium
		name   string
		all    func(*trim.Result) float64
	}{
		{boat.Water, "in the water", func(b *trim.Result) float64 { return b.Drag.Water() }},
		{boat.Air, "in the air", func(b *trim.Result) float64 { return b.Drag.Air() }},
	} {
		for cause := range boat.Cause(boat.Causes) {
			if cause.Medium() == medium.medium {
				c.row(u, cause.String(), "part", r.Boats, func(b *trim.Result) float64 { return b.Drag[cause] })
			}
		}
		c.row(u, medium.name, "sum", r.Boats, medium.all)
	}
	least, at := most(r.Boats, func(b *trim.Result) float64 { return -b.Drag.Water() })
	c.Title = fmt.Sprintf("%s drags least in the water: %s", least, u.Format(-at))
	c.barsWords("Drag by cause", r.Boats, u)
	return nil
}

// row adds a row, where any boat has a figure to show.
func (c *Chart) row(u quantity.Usual, name, rank string, boats []*trim.Result, of func(*trim.Result) float64) {
	row, shown := BarRow{Name: name, Rank: rank}, rank == "sum"
	for _, b := range boats {
		v := of(b)
		shown = shown || !nearZero(u, v)
		n := numberIn(u, v)
		row.Bars = append(row.Bars, &n)
	}
	if shown {
		c.Bars.Rows = append(c.Bars.Rows, row)
	}
}

// barsWords ends a chart of bars: what is under its title, its table, its summary.
func (c *Chart) barsWords(what string, boats []*trim.Result, u quantity.Usual) {
	c.Under = what + ". " + capital(c.wind(boats[0]))
	c.Table.Head = []string{"row"}
	for _, b := range c.Bars.Boats {
		c.Table.Head = append(c.Table.Head, b+" ("+u.Unit+")")
	}
	var sums []string
	for _, row := range c.Bars.Rows {
		line := []string{row.Name}
		for i, n := range row.Bars {
			line = append(line, n.Text)
			if row.Rank == "sum" {
				sums = append(sums, fmt.Sprintf("%s, %s: %s %s", c.Bars.Boats[i], row.Name, n.Text, u.Unit))
			}
		}
		c.Table.Rows = append(c.Table.Rows, line)
	}
	c.Summary = what + " as bars from zero. " + strings.Join(sums, "; ") + "."
}

func names(boats []*trim.Result) []string {
	var all []string
	for _, b := range boats {
		all = append(all, b.Boat)
	}
	return all
}

func most(boats []*trim.Result, of func(*trim.Result) float64) (string, float64) {
	name, best := "", math.Inf(-1)
	for _, b := range boats {
		if v := of(b); v > best {
			name, best = b.Boat, v
		}
	}
	return name, best
}

// budgetParts names the parts of a kind, in the order that boats have them.
func budgetParts(boats []*trim.Result, kind string) []string {
	var parts []string
	known := func(part string) bool {
		for _, p := range parts {
			if p == part {
				return true
			}
		}
		return false
	}
	for _, b := range boats {
		for _, row := range b.Budget.Rows {
			if row.Kind == kind && !known(row.Part) {
				parts = append(parts, row.Part)
			}
		}
	}
	return parts
}

// budgetSum adds up rows of a kind, of one part or, where none is named, of all.
func budgetSum(b *balance.Budget, kind, part string) float64 {
	sum := 0.0
	for _, row := range b.Rows {
		if row.Kind == kind && (part == "" || row.Part == part) {
			sum += row.Moment
		}
	}
	return sum
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
