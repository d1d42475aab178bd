package trim

import (
	"context"
	"fmt"
	"math"
	"slices"
	"sort"

	"foilwright/balance"
	"foilwright/boat"
	"foilwright/si"
	"foilwright/solve"
)

// noAnswer tells the best attempt and why it is none: limits that stand in the
// way are relaxed one at a time, the one that hurts most first, and the first
// whose relaxing alone lets the boat sail, on the survey's coarse strips, is the
// reason. A request for shortfalls alone gets those.
func noAnswer(ctx context.Context, b *boat.Boat, r *Request, best *attempt, found findings, w *Workspace) (*Result, error) {
	p := best.problem
	res := p.describe(best.outcome.X, w)
	res.Answer = NoAnswer
	res.Closing = []string{}
	res.count(found, best)
	reason := &Reason{Shortfalls: p.shortfalls(&best.outcome), Relaxations: []string{}}
	reason.Words = reason.inWords(res, p)
	res.Reason, res.attempted = reason, best
	if r.Why != WithLimit {
		best.problem.letGo()
		return res, nil
	}
	return res, res.LookForLimit(ctx, b, w)
}

// LookForLimit looks into the reason of no answer as a request WithLimit does, where
// the request asked for shortfalls alone. The boat is the answer's. Where there is an
// answer, or the limit was looked for before, nothing happens. Copies of the result keep
// the reason that they have.
func (res *Result) LookForLimit(ctx context.Context, b *boat.Boat, w *Workspace) error {
	best := res.attempted
	if best == nil {
		return nil
	}
	best, err := best.finished(ctx, b, w)
	if err != nil {
		return err
	}
	reason := *res.Reason
	for _, name := range best.problem.blame(&best.outcome) {
		sails, err := sailsWithout(ctx, b, best.problem.request, name, best, w)
		if err != nil {
			return err
		}
		if sails {
			reason.Limit = name
			break
		}
		reason.Relaxations = append(slices.Clip(reason.Relaxations), name)
	}
	res.Reason, res.attempted = &reason, nil
	return nil
}

// finished goes on with an attempt whose steps ran out before it was plain what stands in its way.
func (a *attempt) finished(ctx context.Context, b *boat.Boat, w *Workspace) (*attempt, error) {
	if a.outcome.Status != solve.IterationLimit {
		return a, nil
	}
	p, err := newSearch(b, a.problem.request, a.problem.way, &w.fine, tight(), w)
	if err != nil {
		return nil, err
	}
	on, err := p.try(ctx, a.outcome.X, w)
	if err != nil || on.ok() {
		return a, err
	}
	return &on, nil
}

// sailsWithout tells whether a boat sails once a limit no longer holds: in the mode
// and set of the best attempt, searched from its end and from the first start.
func sailsWithout(ctx context.Context, b *boat.Boat, r *Request, limit string, best *attempt, w *Workspace) (bool, error) {
	relaxed := *r
	relaxed.Starts = 1 // the survey's, whatever was asked for
	if coarse, worthwhile := relaxed.coarsely(); worthwhile {
		relaxed = coarse
	}
	relaxed.Relaxed = append(append([]string(nil), r.Relaxed...), limit)
	from := best.problem
	relaxed.Mode, relaxed.Set = from.way.mode.Name, ""
	if len(b.Modes) == 0 {
		relaxed.Mode = ""
	}
	if from.way.set >= 0 {
		relaxed.Set = b.Sets[from.way.set].Name
	}
	all, err := ways(b, &relaxed)
	if err != nil {
		return false, err
	}
	for _, way := range all {
		p, err := newSearch(b, &relaxed, way, &w.coarse, rough(), w)
		if err != nil {
			return false, err
		}
		s := boat.State{Settings: make([]float64, len(b.Controls))}
		angle := from.state(best.outcome.X, &s)
		for _, start := range [][]float64{p.vector(s, angle), p.starts()[0]} {
			a, err := p.try(ctx, start, w)
			if err != nil {
				return false, err
			}
			if a.ok() {
				return true, nil
			}
		}
	}
	return false, nil
}

// shortfalls lists what the outcome leaves open, each name once and the worst
// first: by shares of weight and of weight times length, and of the limits'
// natural sizes.
func (p *problem) shortfalls(o *solve.Outcome) []Shortfall {
	var all []Shortfall
	var shares []float64
	add := func(name string, share, size float64, unit string) {
		if i := slices.IndexFunc(all, func(s Shortfall) bool { return s.Name == name }); i >= 0 {
			if math.Abs(share) <= shares[i] {
				return
			}
			all, shares = slices.Delete(all, i, i+1), slices.Delete(shares, i, i+1)
		}
		at := sort.Search(len(shares), func(i int) bool { return shares[i] < math.Abs(share) })
		all = slices.Insert(all, at, Shortfall{name, share * size, unit})
		shares = slices.Insert(shares, at, math.Abs(share))
	}
	weight := p.boat.Weight()
	equal, inequal := o.Broken(feasible)
	for _, j := range equal {
		switch {
		case j < 3:
			add(balance.Equation(j), o.Values.Equal[j], weight, "N")
		case j < 6:
			add(balance.Equation(j), o.Values.Equal[j], weight*p.boat.Length, "N·m")
		default:
			r := &p.rows[j-6]
			add(r.limit, o.Values.Equal[j], r.size, r.unit)
		}
	}
	for _, j := range inequal {
		r := &p.rows[p.equalities+j]
		broken := o.Values.Inequal[j]
		if !math.IsInf(r.upper, 1) || r.figure == hingeMoment { // which is held against either way
			broken = -broken
		}
		add(r.limit, broken, r.size, r.unit)
	}
	return all
}

// blame lists limits and ranges by what they cost: by their prices where the
// search proved that nothing near is better, then everything else on its bound.
func (p *problem) blame(o *solve.Outcome) []string {
	cost := map[string]float64{}
	note := func(name string, price float64) {
		if name != "" && !math.IsNaN(price) {
			cost[name] = math.Max(cost[name], price)
		}
	}
	const onBound = 1e-12 // so that what stands on its bound is tried after what has a price
	for j := range p.rows {
		r := &p.rows[j]
		if r.equality() {
			continue
		}
		k := j - p.equalities
		if price := o.InequalPrice[k]; price > 0 {
			note(r.limit, price)
			if r.figure == seaHull || r.figure == seaTip {
				cost[TheSea] += price
			}
		} else if o.Values.Inequal[k] <= 1e-6 {
			note(r.limit, onBound)
		}
	}
	for i := range p.variables {
		v := &p.variables[i]
		if v.kind == angleVariable || v.kind == windVariable || v.kind == heightVariable || v.lower == v.upper {
			continue
		}
		if v.kind == speedVariable && v.lower == p.request.slowest() && v.upper == fastest {
			continue // no limit of the boat's
		}
		on := math.Min(o.X[i]-v.lower, v.upper-o.X[i]) <= nearBound*(v.upper-v.lower)
		if price := math.Abs(o.BoundPrice[i]) * v.scale; price > 0 {
			note(v.name, price)
		} else if on {
			note(v.name, onBound)
		}
	}
	names := make([]string, 0, len(cost))
	for name := range cost {
		names = append(names, name)
	}
	sort.Slice(names, func(i, j int) bool {
		if cost[names[i]] != cost[names[j]] {
			return cost[names[i]] > cost[names[j]]
		}
		return names[i] < names[j]
	})
	if len(names) > mostBlamed {
		names = names[:mostBlamed]
	}
	return names
}

// mostBlamed bounds how many limits are relaxed in search of a reason.
const mostBlamed = 6

func (r *Reason) inWords(res *Result, p *problem) string {
	doing := "flight"
	switch p.request.Branch {
	case Afloat:
		doing = "sailing afloat"
	case AnyHeight:
		doing = "sailing"
	}
	words := fmt.Sprintf("no steady %s at true wind %.1f kn", doing, res.TrueWindSpeed.Knots())
	if p.request.Aim == AtAngle {
		words += fmt.Sprintf(", %.0f deg", res.TrueWindAngle.Degrees())
	}
	if len(r.Shortfalls) > 0 {
		worst := r.Shortfalls[0]
		words += fmt.Sprintf(": %s is %s", worst.Name, worst.inWords())
	}
	return words
}

// inThousands is from where forces and moments are told in thousands, N and N·m.
const inThousands = 100

// inWords says by how much, and which way: an equation is short, whatever its sign.
func (s *Shortfall) inWords() string {
	way := "short"
	if s.Amount > 0 && !s.ofEquation() {
		way = "over"
	}
	a, unit := math.Abs(s.Amount), s.Unit
	switch {
	case (unit == "N" || unit == "N·m") && a >= inThousands:
		a, unit = a/1000, "k"+unit
	case unit == "rad":
		a, unit = si.Angle(a).Degrees(), "deg"
	}
	return fmt.Sprintf("%.3g %s %s", a, unit, way)
}

// ofEquation tells whether it is one of the six equations that is not met.
func (s *Shortfall) ofEquation() bool {
	for j := range 6 {
		if balance.Equation(j) == s.Name {
			return true
		}
	}
	return false
}
