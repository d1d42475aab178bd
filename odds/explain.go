package odds

import "slices"

// leastFitted is how few samples a surrogate is fitted to.
const leastFitted = 12

// explain finds where the spread of every figure comes from.
func (p *Plan) explain(r *Result) {
	for i := range p.Unknowns {
		u := &p.Unknowns[i]
		in := Input{Name: u.Name, Kind: u.Kind, Says: u.Quantity.String(), Where: u.Where, Basis: u.Basis, Others: []Share{}}
		for _, b := range u.Boats {
			in.Boats = append(in.Boats, p.Boats[b])
		}
		r.Inputs = append(r.Inputs, in)
	}
	e := explainer{plan: p, result: r, basis: DefaultBasis()}
	for i := range p.Unknowns {
		e.of = append(e.of, newPolynomials(p.Unknowns[i].Quantity, e.basis.Degree))
	}
	for a := range p.Boats {
		for b := a + 1; b < len(p.Boats); b++ {
			e.add(differenceName(p.Boats[a], p.Boats[b]), a, b)
		}
	}
	for a, name := range p.Boats {
		e.add(name, a, -1)
	}
	for i := range r.Pairs {
		if r.Pairs[i].Call == TooClose {
			r.Pairs[i].Settle = r.Pairs[i].settle(r.Inputs)
		}
	}
}

// explainer fits surrogates to the samples of a result.
type explainer struct {
	plan   *Plan
	result *Result
	basis  Basis
	of     []*polynomials // of every unknown
}

// add explains the progress of a boat, less that of another where there is one
// (−1 for none), by the unknowns that either uses.
func (e *explainer) add(name string, boat, less int) {
	var used []int
	for i, u := range e.plan.Unknowns {
		if slices.Contains(u.Boats, boat) || slices.Contains(u.Boats, less) {
			used = append(used, i)
		}
	}
	var values [][]float64
	var figures []float64
	t := e.result.Table
	for s, row := range t.Outcomes {
		figure, sails := row[boat].Progress, row[boat].State == Sails
		if less >= 0 {
			figure, sails = figure-row[less].Progress, sails && row[less].State == Sails
		}
		if !sails {
			continue
		}
		own := make([]float64, len(used))
		for k, i := range used {
			own[k] = t.Values[s][i]
		}
		values, figures = append(values, own), append(figures, figure)
	}
	if len(figures) < leastFitted {
		return
	}
	of := make([]*polynomials, len(used))
	for k, i := range used {
		of[k] = e.of[i]
	}
	fitted := e.basis.fit(of, values, figures)
	shares := make([]Share, len(e.plan.Unknowns))
	for i := range shares {
		shares[i].Of = name
	}
	for k, share := range fitted.shares(name) {
		shares[used[k]] = share
	}
	for i := range shares {
		in := &e.result.Inputs[i]
		if len(e.result.Surrogates) == 0 {
			in.Share = shares[i]
		} else {
			in.Others = append(in.Others, shares[i])
		}
	}
	e.result.Surrogates = append(e.result.Surrogates, Fit{Of: name, Samples: len(figures), Terms: len(fitted.terms), Unexplained: fitted.unexplained})
}
