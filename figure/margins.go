package figure

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"foilwright/trim"
)

// MarginsPart is where a boat stands between the bounds of her limits.
type MarginsPart struct {
	Boat string      `json:"boat"`
	Rows []MarginRow `json:"rows"`
}

// MarginRow is one limit. A side that is open has no text.
type MarginRow struct {
	Name  string   `json:"name"`
	At    *float64 `json:"at"` // share of the way from lower to upper; nil where a side is open
	Stand string   `json:"stand"`
	Lower string   `json:"lower"`
	Upper string   `json:"upper"`
	Value string   `json:"value"`
	Room  string   `json:"room"`  // to the nearer bound
	Price string   `json:"price"` // what more room would gain; empty where it is not on its bound
}

// limits fills the chart with a boat's limits.
func (c *Chart) limits(r *trim.Result) error {
	if r.Answer != trim.Found {
		return noAnswer(r)
	}
	m := &MarginsPart{Boat: r.Boat}
	c.Margins = m
	c.Table.Head = []string{"limit", "value", "lower", "upper", "room", "price"}
	rows := append([]trim.LimitRow{}, r.Limits...)
	sort.SliceStable(rows, func(i, j int) bool { return rows[i].Active && !rows[j].Active })
	var dear []string
	best, dearest := "", 0.0
	for _, l := range rows {
		u := c.units.On(r.Weight, l.Unit)
		row := MarginRow{Name: trim.ByWind(l.Name, side(r.WindFrom)), Stand: "inside", Value: u.Format(l.Value), Room: u.Format(math.Max(0, l.Margin))}
		if nearZero(u, l.Value) {
			row.Value = u.Format(0)
		}
		if l.Lower != nil {
			row.Lower = u.Format(*l.Lower)
		}
		if l.Upper != nil {
			row.Upper = u.Format(*l.Upper)
		}
		if l.Lower != nil && l.Upper != nil && *l.Upper > *l.Lower {
			at := math.Min(1, math.Max(0, (l.Value-*l.Lower)/(*l.Upper-*l.Lower)))
			row.At = &at
		}
		if l.Active {
			step, per := stepOf(l.Unit)
			row.Stand, row.Room = "on its bound", ""
			row.Price = c.usual("m/s").To(3).FormatChange(l.Price*step) + " for " + per
			if l.Price*step > dearest {
				best, dearest = row.Name, l.Price*step
			}
			dear = append(dear, row.Name+" ("+row.Price+")")
		}
		m.Rows = append(m.Rows, row)
		c.Table.Rows = append(c.Table.Rows, []string{row.Name, row.Value, row.Lower, row.Upper, row.Room, row.Price})
	}
	c.Title = r.Boat + " stands on none of her limits"
	if best != "" {
		c.Title = fmt.Sprintf("%s: %d of %d limits hold her back, the dearest is %s", r.Boat, len(dear), len(rows), best)
	}
	c.Under = "Limits with their margins, and what a step more room would gain in progress. " + capital(c.wind(r))
	c.Summary = c.Title + "."
	if len(dear) > 0 {
		c.Summary = fmt.Sprintf("%s stands on %s.", r.Boat, strings.Join(dear, ", "))
	}
	return nil
}

// stepOf returns the step of a limit that its price is told for, in SI and in words.
func stepOf(unit string) (float64, string) {
	switch unit {
	case "rad":
		return math.Pi / 180, "1 deg more"
	case "m":
		return 0.01, "1 cm more"
	case "N":
		return 1e3, "1 kN more"
	case "N·m":
		return 1e3, "1 kN·m more"
	case "m/s":
		return 1, "1 m/s more"
	}
	return 0.01, "0.01 more"
}
