package trim

import (
	"fmt"
	"math"

	"foilwright/boat"
	"foilwright/solve"
)

// answered is what an answer keeps of its search, to say what changes are worth.
type answered struct {
	problem *problem
	x       []float64
	outcome solve.Outcome
	ends    []end // of the ways of sailing
}

// Worth returns what a small change of the boat would gain in progress, m/s, at the
// re-optimised trim, without solving again: to first order the optimum moves with
// its Lagrangian at fixed trim (the envelope theorem), whose multipliers the answer
// has. The boat that is passed is the answer's with something changed a little;
// figures, limits and ranges may differ, parts may not.
//
// The error says that the change cannot be told so: parts were added or taken
// away, or the changed boat has no loads in the answer's state.
func (res *Result) Worth(changed *boat.Boat) (float64, error) {
	a := res.answered
	if a == nil {
		return 0, fmt.Errorf("%s: there is no answer whose changes could be told", res.Boat)
	}
	p := a.problem
	w := p.way
	w.lower, w.upper = changed.Bounds(p.way.mode, p.request.windFrom())
	w.limits = changed.LimitsIn(p.way.mode)
	l := new(level)
	other, err := newProblem(changed, p.request, w, l)
	if err != nil {
		return 0, err
	}
	own, err := newProblem(p.boat, p.request, p.way, l)
	if err != nil {
		return 0, err
	}
	if len(other.variables) != len(p.variables) || len(other.rows) != len(p.rows) {
		return 0, fmt.Errorf("%s: the changed boat has other parts or limits: trim her for herself", res.Boat)
	}
	before, after := p.blank(), p.blank()
	if !own.values(a.x, &before) || !other.values(a.x, &after) {
		return 0, fmt.Errorf("%s: the changed boat has no loads in this state", res.Boat)
	}
	o := &a.outcome
	change := after.F - before.F
	for j := range before.Equal {
		change -= o.EqualPrice[j] * (after.Equal[j] - before.Equal[j])
	}
	for j := range before.Inequal {
		change -= o.InequalPrice[j] * (after.Inequal[j] - before.Inequal[j])
	}
	for i := range p.variables {
		switch price := o.BoundPrice[i]; {
		case price > 0:
			change += price * (other.variables[i].lower - p.variables[i].lower)
		case price < 0:
			change += price * (other.variables[i].upper - p.variables[i].upper)
		}
	}
	if math.IsNaN(change) {
		return 0, fmt.Errorf("%s: the changed boat has no loads in this state", res.Boat)
	}
	return -change * p.request.unit(), nil
}

// blank returns values of the problem's size.
func (p *problem) blank() solve.Values {
	return solve.Values{Equal: make([]float64, 6+p.equalities), Inequal: make([]float64, len(p.rows)-p.equalities)}
}
