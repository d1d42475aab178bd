package report

import (
	"fmt"
	"math"
	"strings"

	"foilwright/quantity"
	"foilwright/rule"
)

// rules tells how boats stand against a class rule: what is broken, then each limit.
func (p *page) rules(all []*rule.Result) {
	for _, r := range all {
		p.rule(r)
	}
}

// limitFigure is how figures of a rule are shown: to the millimetre and the kilogram.
func limitFigure(unit string) shown {
	s := as(unit)
	switch unit {
	case "m", "m²":
		s.decimals = 3
	case "kg":
		s.decimals = 1
	case "1":
		s.decimals = 0
	}
	return s
}

func (p *page) rule(r *rule.Result) {
	said := fmt.Sprintf("%s keeps every one of the %d limits of %s.", r.Boat, len(r.Limits), r.Rule)
	if r.Broken > 0 {
		said = fmt.Sprintf("%s breaks %d of the %d limits of %s.", r.Boat, r.Broken, len(r.Limits), r.Rule)
	}
	if r.Figures == "invented" {
		said += " Every figure of the rule is invented."
	}
	p.say(said)
	var broken []string
	var rows []row
	for i := range r.Limits {
		l := &r.Limits[i]
		s := limitFigure(l.Unit)
		measured := l.Measure
		if l.Axis != "" {
			measured += " " + l.Axis
		}
		if l.Verdict == rule.Broken {
			broken = append(broken, fmt.Sprintf("%s: %s of %s%s is %s, and %s is allowed: %s past it. The limit stands at %s, the part at %s.",
				l.Limit, measured, l.Part, atSettings(l.At), s.with(l.Value), allowed(l), s.with(-l.Margin), l.Where, l.BoatAt))
		}
		mark := ""
		if l.Verdict == rule.Broken {
			mark = "broken"
		}
		rows = append(rows, row{l.Limit, measured, l.Part, s.numeral(l.Value), allowed(l), s.change(l.Margin), mark, lineOf(l.Where)})
	}
	p.list("Broken", broken)
	p.table(fmt.Sprintf("%s against %s", r.Boat, r.File), []column{
		words("limit"), words("measured"), narrow("part", 16), figures("figure"), words("allowed"), figures("margin"), words(""), figures("line"),
	}, rows)
}

// allowed says what a limit allows.
func allowed(l *rule.Row) string {
	r := quantity.Range{Low: math.Inf(-1), High: math.Inf(1), Dimension: limitFigure(l.Unit).dimension, Unit: limitFigure(l.Unit).unit}
	if l.Lower != nil {
		r.Low = *l.Lower
	}
	if l.Upper != nil {
		r.High = *l.Upper
	}
	return r.String()
}

func atSettings(at string) string {
	if at == "" {
		return ""
	}
	return " at " + at
}

// lineOf returns the line and column of a place.
func lineOf(place string) string {
	parts := strings.Split(place, ":")
	if len(parts) < 3 {
		return ""
	}
	return strings.Join(parts[len(parts)-2:], ":")
}
