package report

import (
	"fmt"
	"math"
	"strings"

	"foilwright/figure"
	"foilwright/quantity"
	"foilwright/trim"
	"foilwright/why"
)

// whys tells splits: one in full, several a line each.
func (p *page) whys(results []*why.Result) {
	p.weight = results[0].Boats[0].Weight
	if len(results) == 1 {
		p.why(results[0])
		return
	}
	for _, r := range results {
		p.say(p.because(r).String())
	}
	p.say(reading(results[0]))
	for _, r := range results {
		if r.Difference != nil {
			p.parts(r, fmt.Sprintf("In %s", p.inWind(r)))
		}
		p.reasons(r.Boats[:])
	}
}

// why tells one split in full.
func (p *page) why(r *why.Result) {
	p.say(p.because(r).String())
	if r.Difference == nil {
		p.reasons(r.Boats[:])
		return
	}
	p.say(reading(r))
	p.parts(r, "")
	p.held(r)
	p.pairsOf(r)
	p.steps(r, "The same trims by other figures", r.Figures)
	p.ledger(r)
	p.exceptions(r)
	for _, b := range r.Boats {
		p.list("Warnings for "+b.Boat, b.Warnings)
	}
}

// inWind names the wind of a split.
func (p *page) inWind(r *why.Result) string {
	if leastWind(r) {
		return "the least wind"
	}
	said := p.wind(r.TrueWindSpeed) + " of true wind"
	if r.Aim == trim.AtAngle.String() {
		said += " at " + degrees(r.Boats[0].TrueWindAngle)
	}
	return said
}

// leastWind tells whether it is the wind to fly in that is split.
func leastWind(r *why.Result) bool { return r.Aim == trim.LeastWind.String() }

// fliesAt tells at which angles the second and the first boat fly in the least wind.
func fliesAt(r *why.Result) string {
	one, other := degrees(r.Boats[1].TrueWindAngle), degrees(r.Boats[0].TrueWindAngle)
	if one == other {
		return one + " off it"
	}
	return one + " and " + other + " off it"
}

// Shares of the difference that words rest on.
const (
	mostly  = 0.5 // the first cause is most of it
	enough  = 0.8 // causes are named until they make up this much of what works that way
	against = 0.1 // what works the other way and is named
)

// because says by how much, and why: the sentence on top.
func (p *page) because(r *why.Result) sentence {
	first, second := r.First, r.Second
	if r.Difference == nil {
		var none []string
		for _, s := range [2]why.Side{first, second} {
			if s.Answer != trim.Found {
				none = append(none, s.Boat)
			}
		}
		if leastWind(r) {
			return sentenced("%s cannot fly in any wind as asked: there is no difference to split.", strings.Join(none, " and "))
		}
		return sentenced("%s cannot sail as asked in %s: there is no difference to split.", strings.Join(none, " and "), p.inWind(r))
	}
	if len(r.Causes) == 0 {
		return sentenced("The files of %s and %s do not differ in any figure.", second.Boat, first.Boat)
	}
	unit, difference := p.as(r.Unit), *r.Difference
	small := unit.numeral(difference) == unit.numeral(0)
	if r.Figure == "progress" || r.Figure == "speed" {
		small = small || math.Abs(difference) < tooClose*math.Abs(*first.Value)
	}
	if small && leastWind(r) {
		return sentenced("%s and %s take the same wind to fly, %s, %s.%s", second.Boat, first.Boat, unit.with(*first.Value), fliesAt(r), p.cancelling(r))
	}
	if small {
		return sentenced("%s and %s are equal in %s, %s: %s against %s.%s", second.Boat, first.Boat, r.Figure, p.inWind(r),
			unit.with(*second.Value), unit.with(*first.Value), p.cancelling(r))
	}
	return sentenced("%s: %s.", p.lead(r), p.reasoned(r))
}

// reasonAlone is because where who, and by how much, has been said.
func (p *page) reasonAlone(r *why.Result) sentence {
	whole := p.because(r)
	if r.Difference == nil || len(r.Causes) == 0 || !strings.HasSuffix(whole.String(), p.reasoned(r).String()+".") {
		return whole
	}
	return sentenced("%s.", p.reasoned(r))
}

// lead says who and by how much.
func (p *page) lead(r *why.Result) string {
	unit, difference := p.as(r.Unit), *r.Difference
	amount := unit.with(math.Abs(difference))
	choose := func(more, less string) string {
		if difference > 0 {
			return more
		}
		return less
	}
	first, second := r.First.Boat, r.Second.Boat
	switch {
	case leastWind(r):
		return fmt.Sprintf("%s needs %s %s wind to fly than %s, %s against %s, %s", second, amount, choose("more", "less"), first,
			unit.with(*r.Second.Value), unit.with(*r.First.Value), fliesAt(r))
	case r.Figure == "progress" && r.Aim != trim.AtAngle.String():
		return fmt.Sprintf("%s makes %s %s %s than %s in %s", second, amount, choose("more", "less"), aimed(r.Aim), first, p.inWind(r))
	case r.Figure == "progress" || r.Figure == "speed":
		return fmt.Sprintf("%s is %s than %s by %s in %s", second, choose("faster", "slower"), first, amount, p.inWind(r))
	}
	return fmt.Sprintf("%s of %s is %s %s than that of %s in %s", strings.ToUpper(r.Figure[:1])+r.Figure[1:], second, amount, choose("more", "less"), first, p.inWind(r))
}

// reasoned names the causes that make most of a difference, then what works the
// other way.
func (p *page) reasoned(r *why.Result) sentence {
	sign := math.Copysign(1, *r.Difference)
	with := 0.0
	for i := range r.Causes {
		with += math.Max(0, sign*r.Causes[i].Part)
	}
	var causes, others []sentence
	sum, first := 0.0, "from"
	for _, i := range r.Sorted() {
		c := &r.Causes[i]
		switch part := sign * c.Part; {
		case !p.shows(r.Unit, c.Part):
		case part > 0 && len(causes) < named && sum < enough*with:
			if len(causes) == 0 && part >= mostly*math.Abs(*r.Difference) {
				first = "mostly"
			}
			causes = append(causes, p.parted(r, c))
			sum += part
		case part < 0 && len(others) < named && -part >= against*math.Abs(*r.Difference):
			others = append(others, p.parted(r, c))
		}
	}
	if len(causes) == 0 {
		return sentenced(fmt.Sprintf("from %d causes, none of which shows by itself", len(r.Causes)))
	}
	if len(others) > 0 {
		return sentenced(first+" %s; the other way %s", listedPhrases(causes), listedPhrases(others))
	}
	return sentenced(first+" %s", listedPhrases(causes))
}

// shows tells whether a figure is not nothing as it is written.
func (p *page) shows(unit string, v float64) bool {
	s := p.as(unit)
	return s.numeral(v) != s.numeral(0)
}

// parted is a cause with its part.
func (p *page) parted(r *why.Result, c *why.Part) sentence {
	said := p.as(r.Unit).change(c.Part)
	if p.shows(r.Unit, c.Error) {
		said += " ± " + p.as(r.Unit).numeral(c.Error)
	}
	return sentenced("%s (%s)", c.Name, charted(strings.TrimSpace(said+" "+p.as(r.Unit).unit), figure.Causes))
}

// listed joins words: one, two and three.
func listed(all []string) string {
	if len(all) < 2 {
		return strings.Join(all, "")
	}
	return strings.Join(all[:len(all)-1], ", ") + " and " + all[len(all)-1]
}

// cancelling names the largest parts of a difference that comes to nothing.
func (p *page) cancelling(r *why.Result) sentence {
	var parts []sentence
	for _, i := range r.Sorted() {
		if c := &r.Causes[i]; len(parts) < named && p.shows(r.Unit, c.Part) {
			parts = append(parts, p.parted(r, c))
		}
	}
	switch len(parts) {
	case 0:
		return sentenced(" No cause makes a difference.")
	case 1:
		return sentenced(" What shows at all is %s.", parts[0])
	}
	return sentenced(" Causes cancel: %s.", listedPhrases(parts))
}

// reading says how the parts are to be read.
func reading(r *why.Result) string {
	said := fmt.Sprintf("Parts are changes from %s to %s. %s; the parts add up to the difference.", r.First.Boat, r.Second.Boat, r.Work.Method)
	if r.Work.Mixed > 0 {
		said += fmt.Sprintf(" Each is trimmed from two neighbours, and the better trim counts: the second was better by more than 0.05 %% for %d of %d.", r.Work.Mended, r.Work.Mixed)
	}
	if leastWind(r) {
		return said + " Every boat is in the least wind in which she flies. Held equal: water, air, aim."
	}
	return said + " Held equal: true wind, water, air, aim."
}

// parts is the table of the causes, the largest first, between the two boats.
func (p *page) parts(r *why.Result, title string) {
	unit := p.as(r.Unit)
	columns := []column{words(r.Figure), figures(unit.unit)}
	sampled := r.Work.Orders > 0
	if sampled {
		columns = append(columns, figures("±"))
	}
	columns = append(columns, figures("% of it"), words(""))
	cells := func(name, value, spread, share, bar string) row {
		if sampled {
			return row{name, value, spread, share, bar}
		}
		return row{name, value, share, bar}
	}
	rows := []row{cells(r.First.Boat, unit.numeral(*r.First.Value), "", "", "")}
	most := 0.0
	for i := range r.Causes {
		if p.shows(r.Unit, r.Causes[i].Part) {
			most = math.Max(most, math.Abs(r.Causes[i].Part))
		}
	}
	for _, i := range r.Sorted() {
		c := &r.Causes[i]
		of := ""
		if p.shows(r.Unit, *r.Difference) {
			of = quantity.Numeral(c.Part / *r.Difference, quantity.Share, "%", quantity.Decimals(0))
		}
		rows = append(rows, cells(c.Name, unit.change(c.Part), unit.numeral(c.Error), of, bar(c.Part, most)))
	}
	rows = append(rows, cells(r.Second.Boat, unit.numeral(*r.Second.Value), "", "", ""))
	p.table(title, columns, rows)
}

// barLength is how many columns the longest bar has on its side of the line.
const barLength = 14

// bar draws a part to the left of a line where it is below zero, else to the right.
func bar(part, most float64) string {
	if !(most > 0) {
		return ""
	}
	n := int(math.Round(math.Abs(part) / most * barLength))
	if part < 0 {
		return strings.Repeat(" ", barLength-n) + strings.Repeat("▒", n) + "│"
	}
	return strings.Repeat(" ", barLength) + "│" + strings.Repeat("█", n)
}

// Bounds on what is shown of what a cause holds.
const (
	shownChanges = 4
	longestText  = 44
)

// held lists what each cause holds.
func (p *page) held(r *why.Result) {
	var points []string
	for _, i := range r.Sorted() {
		c := &r.Causes[i]
		var all []string
		for k, ch := range c.Changes {
			if k == shownChanges && len(c.Changes) > shownChanges+1 {
				all = append(all, fmt.Sprintf("and %d more", len(c.Changes)-k))
				break
			}
			all = append(all, ch.Path+" "+shortened(ch.From)+" → "+shortened(ch.To))
		}
		points = append(points, c.Name+": "+strings.Join(all, "; "))
	}
	p.list(fmt.Sprintf("What each cause changes, from %s to %s", r.First.Boat, r.Second.Boat), points)
}

// shortened cuts a long text of a file.
func shortened(text string) string {
	if letters := []rune(text); len(letters) > longestText {
		return strings.TrimSpace(string(letters[:longestText])) + " …"
	}
	return text
}

// pairsShown is how many pairs a table has.
const pairsShown = 15

// pairsOf tells how causes act on each other.
func (p *page) pairsOf(r *why.Result) {
	var rows []row
	for i, k := range r.Pairs {
		if i == pairsShown {
			break
		}
		rows = append(rows, row{k.One, k.Other, p.as(r.Unit).change(k.Interaction)})
	}
	p.table("How two causes act on each other: what both add together beyond what each adds alone, on average over orders (Grabisch and Roubens 1999)",
		[]column{words("cause"), words("with"), figures(p.as(r.Unit).unit)}, rows)
}
