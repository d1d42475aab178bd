package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"foilwright/boat"
	"foilwright/compare"
	"foilwright/figure"
	"foilwright/trim"
)

// compares tells comparisons: one in full, several a line each.
func (p *page) compares(results []*compare.Result) {
	p.weight = results[0].Boats[results[0].BaseIndex].Weight
	if len(results) == 1 {
		p.compare(results[0])
		return
	}
	names := boatNames(results[0])
	p.say(fmt.Sprintf("%s in each wind, %s; changes are from %s.", strings.Join(names, ", "), results[0].Boats[0].Aim, results[0].Base))
	columns := []column{figures("wind kn"), figures("angle deg")}
	for i, n := range names {
		columns = append(columns, figures(n+" kn"))
		if i != results[0].BaseIndex && len(names) <= 1+abreast {
			columns = append(columns, figures("change kn"), figures("%"))
		}
	}
	columns = append(columns, words("faster"))
	var rows []row
	for _, c := range results {
		base := c.Boats[c.BaseIndex]
		cells := row{windSpeed(base.TrueWindSpeed), angleAsked(base)}
		for i := range c.Boats {
			cells = append(cells, progressCells(c, i)...)
		}
		if c.Fastest >= 0 {
			cells = append(cells, c.Boats[c.Fastest].Boat)
		}
		rows = append(rows, cells)
	}
	p.table("", columns, rows)
	var all []*trim.Result
	for _, c := range results {
		all = append(all, c.Boats...)
	}
	p.seaOf(all)
	for _, c := range results {
		p.reasons(c.Boats)
	}
}

func boatNames(c *compare.Result) []string {
	names := make([]string, len(c.Boats))
	for i, b := range c.Boats {
		names[i] = b.Boat
	}
	return names
}

// progressCells are a boat's cells in a table of many winds.
func progressCells(c *compare.Result, i int) []string {
	b, base := c.Boats[i], c.Boats[c.BaseIndex]
	cells := []string{"none"}
	if b.Answer == trim.Found {
		cells[0] = number("m/s", c.Progress(i))
	}
	if i == c.BaseIndex || len(c.Boats) > 1+abreast {
		return cells
	}
	if b.Answer != trim.Found || base.Answer != trim.Found {
		return append(cells, "", "")
	}
	change := c.Progress(i) - c.Progress(c.BaseIndex)
	return append(cells, as("m/s").change(change), share(change/c.Progress(c.BaseIndex)))
}

// share shows a share in per cent with its sign and without the unit, for
// columns that name it.
func share(v float64) string {
	return strings.TrimSuffix(changed(v), " %")
}

// compare tells one comparison in full.
func (p *page) compare(c *compare.Result) {
	p.say(p.verdict(c).String())
	if said := p.largest(c).String(); said != "" {
		p.say(said)
	}
	for i, s := range c.Shifts {
		if said := shifted(c, i, s); said != "" {
			p.say(said)
		}
	}
	p.say(heldEqual(c) + sailed(c))
	p.seaOf(c.Boats)
	if c.Fastest >= 0 {
		p.differences(pointed(c.Differences, c.Boats[c.BaseIndex].WindFrom), boatNames(c), c.BaseIndex)
		p.sheet(c)
	}
	for _, b := range c.Boats {
		if b.Answer == trim.Found {
			p.list("Warnings for "+b.Boat, b.Warnings)
		}
	}
	p.reasons(c.Boats)
}

// aimed names what the aim makes most of.
func aimed(aim string) string {
	switch aim {
	case trim.Windward.String():
		return "to windward"
	case trim.Leeward.String():
		return "to leeward"
	}
	return "at that angle"
}

// verdict says who, and by how much.
func (p *page) verdict(c *compare.Result) sentence {
	base := c.Boats[c.BaseIndex]
	wind := fmt.Sprintf("in %s of true wind", p.wind(base.TrueWindSpeed))
	if base.Aim == trim.AtAngle.String() {
		wind += " at " + degrees(base.TrueWindAngle)
	}
	if c.Fastest < 0 {
		return sentenced("None of the boats can sail as asked %s.", wind)
	}
	// The fastest is held against the base; where it is the base, or the base has no
	// answer, against the next.
	other := c.BaseIndex
	if c.Fastest == c.BaseIndex || base.Answer != trim.Found {
		other = -1
		for i, b := range c.Boats {
			if i != c.Fastest && b.Answer == trim.Found && (other < 0 || c.Progress(i) > c.Progress(other)) {
				other = i
			}
		}
	}
	best, made := c.Boats[c.Fastest], worked(p.speed(c.Boats[c.Fastest].Progress()), "progress")
	if other < 0 {
		return sentenced("%s makes %s %s %s; no other boat here can sail as asked.", boatOf(c, c.Fastest), made, aimed(best.Aim), wind)
	}
	change := c.Progress(c.Fastest) - c.Progress(other)
	if math.Abs(change) < tooClose*c.Progress(other) {
		return sentenced("%s and %s are equally good %s %s: %s.", boatOf(c, c.Fastest), boatOf(c, other), aimed(best.Aim), wind, made)
	}
	by, against := worked(p.as("m/s").with(change), "progress"), worked(p.speed(c.Boats[other].Progress()), "progress")
	more := worked(perCent(change/c.Progress(other)), "progress")
	if best.Aim != trim.AtAngle.String() {
		return sentenced("%s makes %s more %s than %s %s: %s against %s, %s more.", boatOf(c, c.Fastest), by, aimed(best.Aim), boatOf(c, other),
			wind, made, against, more)
	}
	return sentenced("%s is faster than %s by %s %s: %s against %s, %s more.", boatOf(c, c.Fastest), boatOf(c, other), by, wind, made, against, more)
}

// boatOf names a boat of a comparison.
func boatOf(c *compare.Result, i int) Phrase { return Phrase{Text: c.Boats[i].Boat, Boat: i + 1} }

// tooClose is the share of progress below which two best trims are not told
// apart: what the search itself agrees to.
const tooClose = 5e-4

// named is how many of the largest differences the sentence names.
const named = 3

// largest names the largest differences in the balance sheet, as differences.
func (p *page) largest(c *compare.Result) sentence {
	var said sentence
	for i := range c.Boats {
		if i == c.BaseIndex {
			continue
		}
		var parts []sentence
		for k := range c.Sheet {
			if len(parts) == named {
				break
			}
			row := &c.Sheet[k]
			if d := row.Changes[i]; d != nil && math.Hypot(d.Forward, math.Hypot(d.Leeward, d.Up)) > leastNamed {
				parts = append(parts, sentenced(row.Part+" "+row.Cause+" (%s)", charted(p.resolved(d), chartOf(row.Cause))))
			}
		}
		if len(parts) == 0 {
			continue
		}
		if len(said) > 0 {
			said = said.and(" ")
		}
		said = append(said, sentenced("%s against %s: the largest differences in the balance sheet are %s.",
			boatOf(c, i), boatOf(c, c.BaseIndex), joinedPhrases(parts, ", "))...)
	}
	return said
}

// chartOf returns the chart that shows a cause: forces that carry and right stand in
// the budget, drags in that of drag.
func chartOf(cause string) figure.Kind {
	switch cause {
	case boat.Gravity.String(), boat.Buoyancy.String(), boat.Potential.String(), boat.SailLift.String():
		return figure.Budget
	}
	return figure.Drag
}

// leastNamed is the least difference of force that a sentence names, N.
const leastNamed = 5.0

// resolved says a change of force by its largest directions.
func (p *page) resolved(d *compare.Resolved) string {
	most := math.Max(math.Abs(d.Forward), math.Max(math.Abs(d.Leeward), math.Abs(d.Up)))
	var parts []string
	add := func(v float64, plus, minus string) {
		switch {
		case math.Abs(v) < most/5:
		case v > 0:
			parts = append(parts, p.force(v)+" more "+plus)
		default:
			parts = append(parts, p.force(-v)+" more "+minus)
		}
	}
	add(d.Forward, "forward", "aft")
	add(d.Leeward, "to leeward", "to windward")
	add(d.Up, "up", "down")
	return strings.Join(parts, ", ")
}

// shifted says where paper and balance part between two boats.
func shifted(c *compare.Result, i int, s *compare.Shift) string {
	if s == nil || s.Loaded == nil || s.Line == nil {
		return ""
	}
	paper, line := *s.Loaded, *s.Line
	m := as("m")
	if math.Abs(paper-line) < apart {
		return ""
	}
	said := fmt.Sprintf("The load-weighted centre of %s's %s lies %s of %s's, her line of action, at the same height, %s:",
		c.Boats[i].Boat, s.Foil, sideways(paper, m, 1), c.Base, sideways(line, m, 1))
	switch {
	case math.Abs(line) < apart && paper > 0:
		return said + " she gains lever on paper and nothing in the balance."
	case math.Abs(line) < apart:
		return said + " she loses lever on paper and nothing in the balance."
	}
	return said + fmt.Sprintf(" %s of that is on paper alone.", m.with(math.Abs(paper-line)))
}

// heldEqual says what was the same for all.
func heldEqual(c *compare.Result) string {
	b := c.Boats[c.BaseIndex]
	said := fmt.Sprintf("Held equal: true wind %s kn from %s, %s; water, air and the wind's profile; the model's factors (%s)",
		windSpeed(b.TrueWindSpeed), b.WindFrom, b.Aim, c.SameModel)
	if c.CarriedAt > 0 {
		said += fmt.Sprintf("; side force carried, at %s above the water for all", metres(c.CarriedAt))
	}
	return said + ". Each boat sails her own best trim. Changes are from " + c.Base + "."
}

// sailed says in what mode and with what sails each boat is at her best.
func sailed(c *compare.Result) string {
	said := ""
	for _, b := range c.Boats {
		if b.Answer == trim.Found {
			said += fmt.Sprintf(" %s sails in mode %s with %s sails.", b.Boat, b.Mode, b.Set)
		}
	}
	return said
}

// pointed says in the figures' names which way is +: heel to windward, as that is
// how foiling boats sail, leeway to leeward, weights that shift by the wind.
func pointed(all []compare.Difference, windFrom string) []compare.Difference {
	out := slices.Clone(all)
	for i := range out {
		d := &out[i]
		switch {
		case d.Figure == "heel to leeward":
			d.Figure, d.Values, d.Changes = "heel, + to windward", turned(d.Values), turned(d.Changes)
		case d.Figure == "pitch bow down":
			d.Figure = "pitch, + bow down"
		case d.Figure == "leeway":
			d.Figure = "leeway, + to leeward"
		case strings.HasPrefix(d.Figure, "control: ") && strings.HasSuffix(d.Figure, " y") && d.Unit == "m":
			d.Figure += ", + to windward"
			if tack(windFrom) < 0 {
				d.Values, d.Changes = turned(d.Values), turned(d.Changes)
			}
		}
	}
	return out
}

// turned returns figures with their signs turned; none stays none.
func turned(all []*float64) []*float64 {
	out := make([]*float64, len(all))
	for i, v := range all {
		if v != nil {
			n := 0 - *v
			out[i] = &n
		}
	}
	return out
}

// abreast is how many boats besides the base stand in one table.
const abreast = 2

// differences sets figures side by side, a few boats to a table.
func (p *page) differences(all []compare.Difference, names []string, base int) {
	var others []int
	for i := range names {
		if i != base {
			others = append(others, i)
		}
	}
	for some := range slices.Chunk(others, abreast) {
		p.someDifferences(all, names, base, some)
	}
}

func (p *page) someDifferences(all []compare.Difference, names []string, base int, others []int) {
	columns := []column{words("figure"), words("unit"), figures(names[base])}
	for _, i := range others {
		columns = append(columns, figures(names[i]), figures("change"), figures("%"))
	}
	var rows []row
	group := ""
	for _, d := range all {
		s := p.shownOf(&d)
		head, _, grouped := strings.Cut(d.Figure, ": ")
		if grouped && head != group {
			rows = append(rows, nil)
			group = head
		}
		cells := row{d.Figure, s.unit, cell(d.Values[base], s.numeral)}
		for _, i := range others {
			cells = append(cells, cell(d.Values[i], s.numeral), known(d.Changes[i], s.change), known(d.Shares[i], share))
		}
		rows = append(rows, cells)
	}
	p.table(fmt.Sprintf("Side by side; changes and per cent are of %s's figure", names[base]), columns, rows)
}

// shownOf tells how a figure of the table is shown.
func (p *page) shownOf(d *compare.Difference) shown {
	if strings.HasPrefix(d.Figure, "control: ") {
		return controlUnit(d.Unit)
	}
	return p.as(d.Unit)
}

func cell(v *float64, show func(float64) string) string {
	if v == nil {
		return "none"
	}
	return show(*v)
}

// known is cell with nothing where there is no figure.
func known(v *float64, show func(float64) string) string {
	if v == nil {
		return ""
	}
	return show(*v)
}

// sheetRows is how many rows of the balance sheet's differences are shown.
const sheetRows = 12

// sheet tells the largest differences in the balance sheet.
func (p *page) sheet(c *compare.Result) {
	for i, b := range c.Boats {
		if i == c.BaseIndex {
			continue
		}
		var rows []row
		for k := range c.Sheet {
			d := &c.Sheet[k]
			if d.Changes[i] == nil || len(rows) == sheetRows {
				continue
			}
			f, base, ch := d.Forces[i], d.Forces[c.BaseIndex], d.Changes[i]
			kN := p.as("N")
			rows = append(rows, row{
				d.Part, d.Cause, kN.numeral(base.Forward), kN.numeral(f.Forward), kN.change(ch.Forward), kN.change(ch.Leeward), kN.change(ch.Up),
			})
		}
		p.table(fmt.Sprintf("Balance sheet: the largest differences of %s from %s, %s (all in the JSON)", b.Boat, c.Base, p.kN()), []column{
			words("part"), words("item"), figures(c.Base + " forward"), figures(b.Boat + " forward"), figures("change forward"),
			figures("to leeward"), figures("up"),
		}, rows)
	}
}
