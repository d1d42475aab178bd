package trim

import (
	"math"
	"slices"

	"foilwright/boat"
	"foilwright/sail"
)

// largestLiftRows keeps every strip of a sail below its largest lift: a row a
// strip. The best twist makes the hardest strips equal, so that the least of all
// has its kink just where the answer lies, and a search by slopes does not come to
// rest there.
func (p *problem) largestLiftRows(rows []row, position int, name string) []row {
	for k := range sail.StripsOf(&p.here.Sail) {
		rows = append(rows, row{
			limit: name, unit: "1", figure: largestLift, sail: position, strip: k, lower: leastLiftInHand, upper: math.Inf(1), size: 1,
		})
	}
	return rows
}

// leewardRows keeps every strip of a sail pulling to leeward, or between the
// boat's own bounds on their lift coefficients: a row a strip, since the least of
// all has kinks where it changes strips.
func (p *problem) leewardRows(rows []row, position int, sailName string) []row {
	own := boat.Limit{Kind: boat.LimitSailLoad, Lower: leastLoading, Upper: math.Inf(1)}
	for _, l := range p.way.limits {
		if l.Kind == own.Kind && (l.Part == sailName || l.Part == "" && own.Part == "") {
			own = l
		}
	}
	r := row{limit: sailName + " " + own.Kind.String(), unit: "1", figure: loading, sail: position, size: 1}
	if p.request.relaxed(own.Name()) || p.request.relaxed(r.limit) {
		return rows
	}
	for r.strip = range sail.StripsOf(&p.here.Sail) {
		rows = between(rows, r, own.Lower, own.Upper)
	}
	return rows
}

// sheetRows keeps the sheet loads of the sails that are up between bounds. A
// sail's own limit stands in for the one for all.
func (p *problem) sheetRows(rows []row, l boat.Limit) []row {
	if p.way.set < 0 {
		return rows
	}
	for i, index := range p.boat.Sets[p.way.set].Sails {
		name := p.boat.Sails[index].Name
		own := slices.ContainsFunc(p.way.limits, func(o boat.Limit) bool { return o.Kind == l.Kind && o.Part == name })
		if p.request.relaxed(name + " " + l.Kind.String()) {
			continue
		}
		if l.Part == name || l.Part == "" && !own {
			rows = between(rows, row{limit: name + " sheet load", unit: "N", figure: sheetLoad, sail: i, size: p.boat.Weight()}, l.Lower, l.Upper)
		}
	}
	return rows
}
