package trim

import (
	"math"

	"foilwright/solve"
)

// price writes into an answer what each active limit, and each end of a control's
// range that holds it, costs: the search's multipliers, turned into progress per
// unit. Several rows of one limit (the points of a hull, the strips of a foil) are
// relaxed together, so that their prices add up.
func (p *problem) price(res *Result, o *solve.Outcome) {
	unit := p.request.unit()
	for j := range p.rows {
		r := &p.rows[j]
		if r.equality() || r.slack > 0 {
			continue // held by the request, or a bound of the search's own
		}
		gain := o.InequalPrice[j-p.equalities] * unit / r.size
		for i := range res.Limits {
			if res.Limits[i].Name == r.limit && gain > 0 {
				res.Limits[i].Price += gain
			}
		}
	}
	for i := range p.variables {
		v := &p.variables[i]
		gain := math.Abs(o.BoundPrice[i]) * unit
		if gain == 0 || v.lower == v.upper {
			continue
		}
		if v.kind == controlVariable {
			res.Controls[v.control].Price = gain
			continue
		}
		for k := range res.Limits {
			if res.Limits[k].Name == v.name {
				res.Limits[k].Price = gain
			}
		}
	}
}
