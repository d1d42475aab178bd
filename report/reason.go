package report

import (
	"fmt"
	"strings"

	"foilwright/trim"
)

// noAnswer tells why there is none, and the best attempt.
func (p *page) noAnswer(r *trim.Result) {
	p.WriteString(reason(r) + "\n")
	if r.Reason != nil {
		var rows []row
		for _, s := range r.Reason.Shortfalls {
			unit := p.as(s.Unit)
			if n := unit.numeral(s.Amount); n != unit.numeral(0) {
				rows = append(rows, row{trim.ByWind(s.Name, sideOf(r.WindFrom)), n, unit.unit})
			}
		}
		if len(rows) > 1 {
			p.table("What the best attempt leaves open", []column{words(""), figures("by"), words("unit")}, rows)
		}
	}
	p.list("Warnings", r.Warnings)
}

// reason is the honest no in the house's wording: what is short, the best
// attempt, and which limit alone stands in the way.
func reason(r *trim.Result) string {
	words := "no steady flight"
	if r.Reason != nil {
		words = r.Reason.Words
	}
	said := wrapped(fmt.Sprintf("%s: %s", r.Boat, words), "") + wrapped("best attempt: "+attempt(r), "  ")
	if r.Reason == nil {
		return strings.TrimRight(said, "\n")
	}
	return said + strings.TrimRight(wrapped("hint: "+wayOut(r), "  "), "\n")
}

// wayOut says what would let a boat sail that cannot; empty where nothing is known.
func wayOut(r *trim.Result) string {
	switch {
	case r.Reason == nil:
		return ""
	case r.Reason.Limit == trim.TheSea:
		return "in a calm she sails: these waves ask for more room than her limits leave"
	case r.Reason.Limit != "" && isControl(r, r.Reason.Limit):
		return fmt.Sprintf("a wider range of %s alone lets her sail", trim.ByWind(r.Reason.Limit, sideOf(r.WindFrom)))
	case r.Reason.Limit != "":
		return fmt.Sprintf("relax limits.%s, which alone lets her sail", r.Reason.Limit)
	case len(r.Reason.Relaxations) > 0:
		tried := make([]string, len(r.Reason.Relaxations))
		for i, name := range r.Reason.Relaxations {
			tried[i] = trim.ByWind(name, sideOf(r.WindFrom))
		}
		return "no limit alone stands in the way; relaxed one at a time in vain: " + strings.Join(tried, ", ")
	}
	return "no limit stands in the way; ask in more wind"
}

// isControl tells whether a name is that of a control and not of a limit.
func isControl(r *trim.Result, name string) bool {
	for i := range r.Controls {
		if r.Controls[i].Name == name {
			return true
		}
	}
	return false
}

// attempt tells the state of a best attempt with what stands at its end.
func attempt(r *trim.Result) string {
	parts := []string{knots(r.Speed), "ride height " + metres(r.RideHeight)}
	for _, c := range r.Controls {
		if c.State == "at its lower end" || c.State == "at its upper end" {
			s := controlUnit(c.Unit)
			at := s.with(c.Value)
			if isShift(&c) {
				at = sideways(c.Value, s, -tack(r.WindFrom))
			}
			parts = append(parts, c.Called+" at its limit "+at)
		}
	}
	return strings.Join(parts, ", ")
}
