package report

import (
	"bytes"
	"encoding/json"
	"fmt"

	"foilwright/compare"
	"foilwright/odds"
	"foilwright/polar"
	"foilwright/study"
	"foilwright/trim"
	"foilwright/why"
)

// Text returns a result as text for people.
func Text(r *study.Result) string {
	var p page
	switch results := r.Results.(type) {
	case *study.CheckResult:
		if len(results.Rule) == 0 {
			p.check(results)
			return p.String()
		}
		p.rules(results.Rule)
	case *study.LeversResult:
		p.levers(results)
	case *study.TowResult:
		p.tow(results)
	case *study.SweepResult:
		p.sweep(results)
	case *study.SensitivityResult:
		p.sensitivity(results)
	case []*trim.Result:
		p.trims(results)
	case *polar.Result:
		p.polar(results)
	case *polar.TakeOff:
		p.takeOff(results)
	case []*compare.Result:
		p.compares(results)
	case []*why.Result:
		p.whys(results)
	case *odds.Result:
		p.odds(results)
	}
	p.source(r)
	return p.String()
}

// JSON returns a result as indented JSON.
func JSON(r *study.Result) ([]byte, error) {
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(r); err != nil {
		return nil, fmt.Errorf("internal error: the result cannot be written: %w", err)
	}
	return out.Bytes(), nil
}

// source ends a page: the caution, and what the figures rest on.
func (p *page) source(r *study.Result) {
	p.say(r.Caution)
	invented := ""
	for _, b := range r.Boats {
		if b.Figures == "invented" {
			invented = " Boats whose files say so are invented, every figure of them."
		}
	}
	p.say(fmt.Sprintf("foilwright %s, kernel %s, inputs %.12s.%s", r.Version, r.Kernel, r.Fingerprint, invented))
}
