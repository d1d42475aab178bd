package report

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"foilwright/figure"
	"foilwright/odds"
	"foilwright/quantity"
	"foilwright/si"
	"foilwright/study"
	"foilwright/why"
)

// odds tells how sure an answer is.
func (p *page) odds(r *odds.Result) {
	p.say(Call(r))
	for _, pair := range r.Pairs[min(1, len(r.Pairs)):] {
		p.say(p.calledPair(r, pair).String())
	}
	p.say(drawn(r))
	p.distributions("How progress and its differences are spread, kn", r.Boats, r.Pairs)
	if said := narrowed(r); said != "" {
		p.say(said)
	}
	p.anchored(r)
	p.inputs(r)
	p.tornado(r)
	p.bands(r)
	p.list("Mind", r.Warnings)
}

// Call says in a sentence or two what the first pair comes to, or how the one
// boat's progress is spread.
func Call(r *odds.Result) string {
	if len(r.Pairs) > 0 {
		return new(page).calledPair(r, r.Pairs[0]).String()
	}
	return new(page).spreadOf(r).String()
}

// spreadOf says how the first boat's progress is spread.
func (p *page) spreadOf(r *odds.Result) sentence {
	b := r.Boats[0]
	if b.Progress.Mean == nil {
		return sentenced("%s cannot sail in any of %s samples in %s of true wind.", b.Name, count(r.Samples), p.wind(r.Wind))
	}
	return sentenced("%s makes %s %s in %s of true wind%s.", b.Name, p.speed(si.Speed(*b.Progress.Mean)), aimed(r.Aim), p.wind(r.Wind), p.within80(b.Progress))
}

// calledPair says what a pair comes to.
func (p *page) calledPair(r *odds.Result, pair odds.Pair) sentence {
	where := fmt.Sprintf("%s in %s of true wind", aimed(r.Aim), p.wind(r.Wind))
	faster, slower, chance, sign := pair.First, pair.Second, pair.FirstFaster, 1.0
	if pair.SecondFaster > pair.FirstFaster {
		faster, slower, chance, sign = pair.Second, pair.First, pair.SecondFaster, -1
	}
	by, error := p.difference(pair, sign), perCent(pair.ChanceError)
	switch pair.Call {
	case odds.CallNeither:
		return sentenced("Neither %s nor %s sails %s: chance %s.", pair.First, pair.Second, where, perCent(pair.Neither))
	case odds.TooClose:
		return sentenced("Too close to call: the chance that %s is faster than %s %s is %s, with a sampling error of %s, and %s is asked for. %s%s",
			faster, slower, where, charted(perCent(chance), figure.Difference), error, perCent(r.Confidence), by, settles(pair))
	}
	return sentenced("%s is faster than %s %s: chance %s, with a sampling error of %s. %s", faster, slower, where,
		charted(perCent(chance), figure.Difference), error, by)
}

// difference tells a pair's difference from the faster boat's side.
func (p *page) difference(pair odds.Pair, sign float64) sentence {
	d := pair.Difference
	if d.Mean == nil {
		return sentenced("There is no sample in which both sail.")
	}
	low, high := d.P10, d.P90
	if sign < 0 {
		low, high = negative(d.P90), negative(d.P10)
	}
	way := "more"
	mean := sign * *d.Mean
	if mean < 0 {
		mean, way = -mean, "less"
	}
	on := sentenced("On average she makes %s %s", charted(p.speed(si.Speed(mean)), figure.Difference), way)
	if !p.shows("m/s", mean) {
		on = sentenced("On average she gains nothing")
	}
	if low == nil || high == nil {
		return sentenced("%s where both sail.", on)
	}
	return sentenced("%s, and with 80 %% between %s and %s.", on, charted(p.as("m/s").change(*low), figure.Difference), charted(p.as("m/s").change(*high)+" "+p.as("m/s").unit, figure.Difference))
}

func negative(v *float64) *float64 {
	if v == nil {
		return nil
	}
	n := 0 - *v
	return &n
}

// plain is a speed with its unit, without a sign for what is rounded to nothing.
func plain(v float64) string { return knots(si.Speed(v)) }

// within80 tells the 80 % band of a distribution.
func (p *page) within80(d odds.Distribution) string {
	if d.P10 == nil || d.P90 == nil {
		return ""
	}
	return fmt.Sprintf(", and with 80 %% between %s and %s", p.as("m/s").numeral(*d.P10), p.speed(si.Speed(*d.P90)))
}

// settles names what would settle a pair.
func settles(p odds.Pair) sentence {
	s := p.Settle
	if s == nil {
		return nil
	}
	narrows := func(left float64) Phrase { return charted(perCent(1-left/s.Deviation), figure.Inputs) }
	said := sentenced(" Knowing %s would settle most: the spread of the difference is expected to narrow by %s.", s.Input, narrows(s.Left))
	if s.MeasureLeft != nil {
		said = append(said, sentenced(" Of what can be measured on the boats, that is %s, by %s.", s.Measure, narrows(*s.MeasureLeft))...)
	}
	return said
}

// count writes a number of things.
func count(n int) string {
	return quantity.Format(float64(n), quantity.Number, "", quantity.Decimals(0))
}

// drawn says what was drawn, and what of it failed.
func drawn(r *odds.Result) string {
	words := fmt.Sprintf("%s samples (seed %d) of %s inputs, each drawn once for all boats that share it; every sample is a full best trim of every boat.",
		count(r.Samples), r.Seed, count(len(r.Inputs)))
	if r.Failed > 0 {
		var each []string
		for _, b := range r.Boats {
			if b.Failed > 0 {
				each = append(each, fmt.Sprintf("%s in %s", b.Name, count(b.Failed)))
			}
		}
		words += fmt.Sprintf(" In %s of them a boat cannot sail (%s), and loses to one that does.", count(r.Failed), strings.Join(each, ", "))
	} else {
		words += " Every boat sails in all of them."
	}
	if s := r.Starts; s != nil && s.Checked > 0 {
		share := func(v float64) string { return quantity.Format(v, quantity.Share, "%", quantity.Decimals(2)) }
		on := "better by " + share(s.Mean)
		switch {
		case share(math.Abs(s.Mean)) == share(0):
			on = "no better"
		case s.Mean < 0:
			on = "worse by " + share(-s.Mean)
		}
		words += fmt.Sprintf(" %s trims searched again from other starts are better by %s at most, and %s on average.", count(s.Checked), share(s.Loss), on)
	}
	return words
}

// orNone shows a figure that may be missing.
func orNone(v *float64, show func(float64) string) string {
	if v == nil {
		return "none"
	}
	return show(*v)
}

// distributions tables boats and pairs.
func (p *page) distributions(title string, boats []odds.Figure, pairs []odds.Pair) {
	columns := []column{narrow("", 25), figures("likely"), figures("mean"), figures("sd"), figures("5 %"), figures("10 %"), figures("25 %"), figures("50 %"), figures("75 %"), figures("90 %"), figures("95 %")}
	line := func(name string, likely *float64, d odds.Distribution, show func(float64) string) row {
		cells := row{name, orNone(likely, show), orNone(d.Mean, show), orNone(d.Deviation, as("m/s").numeral)}
		for _, q := range []*float64{d.P5, d.P10, d.P25, d.P50, d.P75, d.P90, d.P95} {
			cells = append(cells, orNone(q, show))
		}
		return cells
	}
	var rows []row
	for _, b := range boats {
		rows = append(rows, line(b.Name, b.Likely, b.Progress, as("m/s").numeral))
	}
	for _, d := range pairs {
		rows = append(rows, line(d.First+" less "+d.Second, d.Likely, d.Difference, as("m/s").change))
	}
	p.table(title, columns, rows)
}

// narrowed says what sharing does to the first pair.
func narrowed(r *odds.Result) string {
	if len(r.Pairs) == 0 || r.Pairs[0].Difference.Deviation == nil || !(r.Pairs[0].Apart > 0) {
		return ""
	}
	pair := r.Pairs[0]
	return fmt.Sprintf("The difference of %s and %s has a standard deviation of %s; were nothing shared between them it would be %s.",
		pair.First, pair.Second, plain(*pair.Difference.Deviation), plain(pair.Apart))
}

// Running is a line on what long work comes to so far; empty where nothing can be said.
func Running(r *study.Result) string {
	switch so := r.Results.(type) {
	case *odds.Result:
		return running(so)
	case *why.SoFar:
		return splitSoFar(so)
	}
	return ""
}

// mostAlone is how many causes are named before a split is done.
const mostAlone = 3

// splitSoFar is a line on a split.
func splitSoFar(so *why.SoFar) string {
	u := quantity.UsualOn(so.Weight, so.Unit)
	words := fmt.Sprintf("%s less %s: %s", so.Second.Boat, so.First.Boat, u.FormatChange(so.Difference))
	alone := slices.Clone(so.Alone)
	slices.SortStableFunc(alone, func(a, b why.Alone) int { return cmp.Compare(math.Abs(b.Change), math.Abs(a.Change)) })
	for i, a := range alone[:min(mostAlone, len(alone))] {
		if i == 0 {
			words += "; alone on " + so.First.Boat + ", "
		} else {
			words += ", "
		}
		words += a.Name + " " + u.FormatChange(a.Change)
	}
	return words
}

// running is a line on odds.
func running(r *odds.Result) string {
	if len(r.Pairs) == 0 {
		if m := r.Boats[0].Progress.Mean; m != nil {
			return r.Boats[0].Name + " " + plain(*m)
		}
		return r.Boats[0].Name + " does not sail"
	}
	pair := r.Pairs[0]
	faster, chance := pair.First, pair.FirstFaster
	if pair.SecondFaster > chance {
		faster, chance = pair.Second, pair.SecondFaster
	}
	return fmt.Sprintf("%s faster: %s ± %s", faster, perCent(chance), perCent(pair.ChanceError))
}

// bands tables the range of winds.
func (p *page) bands(r *odds.Result) {
	if len(r.Bands) == 0 {
		return
	}
	columns := []column{figures("wind kn")}
	for _, b := range r.Boats {
		columns = append(columns, figures(b.Name+" 10 %"), figures("50 %"), figures("90 %"))
	}
	var rows []row
	for _, band := range r.Bands {
		cells := row{windSpeed(band.Wind)}
		for _, b := range band.Boats {
			for _, q := range []*float64{b.Progress.P10, b.Progress.P50, b.Progress.P90} {
				cells = append(cells, orNone(q, as("m/s").numeral))
			}
		}
		rows = append(rows, cells)
	}
	p.table("Bands over the winds: progress, kn", columns, rows)
	for i, pair := range r.Pairs {
		rows = nil
		for _, band := range r.Bands {
			d := band.Pairs[i]
			rows = append(rows, row{
				windSpeed(band.Wind), orNone(d.Difference.P10, as("m/s").change), orNone(d.Difference.P50, as("m/s").change), orNone(d.Difference.P90, as("m/s").change),
				perCent(d.FirstFaster), perCent(d.ChanceError), perCent(d.Neither),
			})
		}
		p.table(fmt.Sprintf("%s less %s over the winds: kn, and chances", pair.First, pair.Second),
			[]column{figures("wind kn"), figures("10 %"), figures("50 %"), figures("90 %"), figures(pair.First + " faster"), figures("error"), figures("neither sails")}, rows)
	}
}

// round is a share as a plain number with two decimals.
func round(v float64) string {
	return quantity.Format(v, quantity.Number, "", quantity.Decimals(2))
}

// small tells whether a share is nothing worth a line.
func small(v float64) bool { return math.Abs(v) < 0.005 }
