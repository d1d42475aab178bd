package report

import (
	"fmt"
	"slices"
	"strings"

	"foilwright/why"
)

// figuresAcross is how many figures stand in one table of steps.
const figuresAcross = 6

// steps are tables with a line for each cause between the two boats, and a column
// for each figure.
func (p *page) steps(r *why.Result, title string, all []why.Row) {
	order := r.Sorted()
	moved := slices.DeleteFunc(slices.Clone(all), func(f why.Row) bool { return !p.anyMoves(f) })
	for from := 0; from < len(moved); from += figuresAcross {
		some := moved[from:min(from+figuresAcross, len(moved))]
		columns := []column{words("")}
		first, last := row{r.First.Boat}, row{r.Second.Boat}
		if strings.HasPrefix(title, ledgerTitle) {
			last = row{r.Second.Boat + ", same state"}
		}
		rows := make([]row, len(order))
		for k, i := range order {
			rows[k] = row{r.Causes[i].Name}
		}
		for _, f := range some {
			unit := p.as(f.Unit)
			columns = append(columns, figures(headed(f.Figure, unit.unit)))
			first, last = append(first, unit.numeral(f.First)), append(last, unit.numeral(f.Second))
			for k, i := range order {
				rows[k] = append(rows[k], unit.change(f.Parts[i]))
			}
		}
		if from > 0 {
			title = ""
		}
		p.table(title, columns, append(append([]row{first}, rows...), last))
	}
}

// anyMoves tells whether any cause moves a figure as far as it is written.
func (p *page) anyMoves(f why.Row) bool {
	return slices.ContainsFunc(f.Parts, func(part float64) bool { return p.shows(f.Unit, part) })
}

// headed breaks a figure's name and unit into the lines of a narrow head.
func headed(name, unit string) string {
	const wide = 10
	name = strings.TrimPrefix(name, "drag: ")
	var lines []string
	for _, word := range strings.Fields(name) {
		if n := len(lines); n > 0 && len(lines[n-1])+1+len(word) <= wide {
			lines[n-1] += " " + word
			continue
		}
		lines = append(lines, word)
	}
	if unit == "" {
		return strings.Join(lines, "\n")
	}
	return strings.Join(append(lines, unit), "\n")
}

const ledgerTitle = "Ledger in a fixed state"

// ledger tells what causes do with nothing trimmed anew: figures, then drag by cause.
func (p *page) ledger(r *why.Result) {
	if r.Ledger == nil {
		return
	}
	var main, drags []why.Row
	for _, f := range r.Ledger.Rows {
		if strings.HasPrefix(f.Figure, "drag: ") {
			drags = append(drags, f)
		} else {
			main = append(main, f)
		}
	}
	before := p.Len()
	p.steps(r, ledgerTitle+": the "+r.Ledger.State+", nothing trimmed anew; figures that no cause moves are left out. "+
		"What is left over is what the boat is then out of balance by", main)
	p.steps(r, ledgerTitle+": drag by cause", drags)
	if p.Len() == before && len(r.Ledger.Rows) > 0 {
		p.say(ledgerTitle + ": no cause moves a figure in the " + r.Ledger.State + ".")
	}
	if len(r.Ledger.Missing) > 0 {
		p.list("Not in the ledger", r.Ledger.Missing)
	}
}

// exceptions tells what was merged, and which mixed boats have no figure.
func (p *page) exceptions(r *why.Result) {
	var merged, cannot []string
	for _, m := range r.Merged {
		merged = append(merged, fmt.Sprintf("%s: a boat with one and without another cannot be built (%s)", listed(m.Causes), m.Why))
	}
	p.list("Causes that cannot be told apart", merged)
	for i, s := range r.CannotSail {
		if i == mostListed {
			cannot = append(cannot, fmt.Sprintf("and %d more (all in the JSON)", len(r.CannotSail)-i))
			break
		}
		cannot = append(cannot, fmt.Sprintf("%s with %s of %s: counts as %s (%s). %s", r.First.Boat, listed(s.Causes), r.Second.Boat,
			p.as(r.Unit).with(s.Value), s.Of, strings.ReplaceAll(s.Why, "\n", "; ")))
	}
	p.list(fmt.Sprintf("Mixed boats without a figure of their own, %d of %d", len(r.CannotSail), r.Work.Mixed), cannot)
}

// mostListed is how many boats a list names.
const mostListed = 6
