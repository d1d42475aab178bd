package report

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math"
	"strings"

	"foilwright/polar"
	"foilwright/quantity"
	"foilwright/si"
	"foilwright/trim"
)

// polar tells one boat over winds and angles: best angles with their bands, then
// each wind in a table of its own.
func (p *page) polar(r *polar.Result) {
	p.say(fmt.Sprintf("%s at her best trim over winds and angles.", r.Boat))
	var rows []row
	for i := range r.Winds {
		w := &r.Winds[i]
		for _, aim := range []struct {
			name string
			best *polar.Best
		}{{"to windward", &w.Windward}, {"to leeward", &w.Leeward}} {
			cells := row{windSpeed(w.Speed), aim.name, "none"}
			if b := aim.best; b.Answer == trim.Found {
				cells = row{
					windSpeed(w.Speed), aim.name, number("rad", float64(b.Angle)), number("m/s", float64(b.Speed)), number("m/s", math.Abs(float64(b.VMG))),
					bandEnd(b.From), bandEnd(b.To), b.Mode + ", " + b.Set,
				}
			}
			rows = append(rows, cells)
		}
	}
	p.table("Best angles, and the band around each in which at most 1 % of progress is lost", []column{
		figures("wind\nkn"), words("best progress"), figures("angle\ndeg"), figures("speed\nkn"), figures("made good\nkn"),
		figures("band from\ndeg"), figures("to\ndeg"), narrow("mode, sails", 24),
	}, rows)
	var all []*trim.Result
	for i := range r.Winds {
		w := &r.Winds[i]
		all = append(all, w.Windward.Trim, w.Leeward.Trim)
		for k := range w.Points {
			all = append(all, w.Points[k].Trim)
		}
	}
	p.seaOf(all)
	p.bandNotes(r)
	for i := range r.Winds {
		p.polarWind(r, &r.Winds[i])
	}
	p.crossovers(r)
	p.gaps(r)
}

func bandEnd(e *polar.BandEnd) string {
	if e == nil {
		return ""
	}
	return number("rad", float64(e.Angle))
}

// bandNotes says where a band does not end for what is lost.
func (p *page) bandNotes(r *polar.Result) {
	var notes []string
	for i := range r.Winds {
		w := &r.Winds[i]
		for _, e := range []*polar.BandEnd{w.Windward.From, w.Windward.To, w.Leeward.From, w.Leeward.To} {
			if e != nil && e.Why != polar.LossReached {
				notes = append(notes, fmt.Sprintf("%s, %s: the band ends with %s of progress lost; %s", knots(w.Speed), degrees(e.Angle),
					quantity.Format(e.Lost, quantity.Share, "%", quantity.Decimals(2)), e.Why))
			}
		}
	}
	p.list("Bands", notes)
}

func (p *page) polarWind(r *polar.Result, w *polar.Wind) {
	var rows []row
	t := tack(r.WindFrom)
	for k := range w.Points {
		at := &w.Points[k]
		if at.Answer != trim.Found {
			rows = append(rows, row{number("rad", float64(at.Angle)), "none"})
			continue
		}
		var active []string
		for _, a := range at.Active {
			active = append(active, a.Name)
		}
		rows = append(rows, row{
			number("rad", float64(at.Angle)), number("m/s", float64(at.Speed)), number("m/s", math.Abs(float64(at.VMG))),
			number("rad", float64(at.ApparentWindAngle)), number("rad", 0-t*float64(at.Heel)), number("m", at.RideHeight),
			at.Mode + ", " + at.Set, strings.Join(active, ", "),
		})
	}
	p.table(fmt.Sprintf("In %s of true wind; made good is to windward, beyond 90 deg to leeward; seen is the apparent wind's angle", knots(w.Speed)),
		[]column{
			figures("angle\ndeg"), figures("speed\nkn"), figures("made good\nkn"), figures("seen\ndeg"), figures("heel deg\n+ to windward"),
			figures("ride\nm"), narrow("mode, sails", 14), narrow("held by", 30),
		}, rows)
}

func (p *page) crossovers(r *polar.Result) {
	var all []string
	for i := range r.Winds {
		for _, x := range r.Winds[i].Crossovers {
			all = append(all, fmt.Sprintf("%s: at %s %s, %s gives way to %s, %s", knots(r.Winds[i].Speed), degrees(x.Angle),
				x.Below.Mode, x.Below.Set, x.Above.Mode, x.Above.Set))
		}
	}
	p.list("Where the best mode or set of sails changes, within half a degree", all)
}

func (p *page) gaps(r *polar.Result) {
	var all []string
	told := func(v *si.Angle, asked si.Angle) string {
		if v == nil {
			return degrees(asked)
		}
		return degrees(*v)
	}
	for i := range r.Winds {
		for _, g := range r.Winds[i].Gaps {
			words := fmt.Sprintf("%s, from %s to %s: %s", knots(r.Winds[i].Speed), told(g.From, g.First), told(g.To, g.Last), g.Words)
			if g.Limit != "" {
				words += fmt.Sprintf("; without the limit on %s she flies there", trim.ByWind(g.Limit, sideOf(r.WindFrom)))
			}
			all = append(all, words)
		}
	}
	p.list("Where she cannot fly", all)
}

// polarCSV writes a polar in one flat table: a line of names with units, then a
// line for each point, best angle, end of a band and crossover.
func polarCSV(r *polar.Result) ([]byte, error) {
	columns, rows := r.Table()
	head := make([]string, len(columns))
	for i, c := range columns {
		head[i] = c.Name
		if unit := as(c.Unit).unit; c.Unit != "" && unit != "" {
			head[i] += " (" + unit + ")"
		}
	}
	lines := [][]string{head}
	for _, cells := range rows {
		line := make([]string, len(cells))
		for i, c := range cells {
			line[i] = c.Words
			if c.Figure != nil {
				s := as(columns[i].Unit)
				line[i] = quantity.Numeral(*c.Figure, s.dimension, s.unit, quantity.Significant(figuresInCSV))
			}
		}
		lines = append(lines, line)
	}
	var out bytes.Buffer
	if err := csv.NewWriter(&out).WriteAll(lines); err != nil {
		return nil, fmt.Errorf("internal error: the polar cannot be written: %w", err)
	}
	return out.Bytes(), nil
}
