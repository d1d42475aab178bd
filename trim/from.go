package trim

import (
	"context"
	"math"
	"slices"

	"foilwright/boat"
	"foilwright/solve"
)

// farBehind is the share of an answer's progress below which a way of sailing that
// its search met is not searched again from that answer alone: near by in boat or
// conditions, ways do not gain as much on one another.
const farBehind = 0.95

// open returns the ways of sailing that are searched: every one that the request
// allows, but from an answer alone only its own and those that came near it in its
// own search. Where that is none of those allowed, all are.
func open(b *boat.Boat, r *Request) ([]way, error) {
	all, err := ways(b, r)
	from := r.from(b)
	if err != nil || from == nil || r.Starts != OnlyFrom {
		return all, err
	}
	var near []way
	for _, w := range all {
		if from.cameNear(b, &w) {
			near = append(near, w)
		}
	}
	if len(near) == 0 {
		return all, nil
	}
	return near, nil
}

// cameNear tells whether a way of sailing is an answer's own, or came near it.
func (res *Result) cameNear(b *boat.Boat, w *way) bool {
	set := setName(b, w.set)
	if w.mode.Name == res.Mode && set == res.Set {
		return true
	}
	for _, o := range res.Others {
		theirs, own := math.Abs(float64(o.VMG)), math.Abs(float64(res.VMG))
		if res.Aim == AtAngle.String() {
			theirs, own = float64(o.Speed), float64(res.Speed)
		}
		if o.Mode == w.mode.Name && o.Set == set && theirs >= farBehind*own {
			return true
		}
	}
	return false
}

// end is where a search of one way of sailing ended, as an answer keeps it for the
// searches of its neighbours.
type end struct {
	mode     string
	set      int
	tips     tipSide
	names    []string // of the variables
	x        []float64
	learnt   *solve.Learnt
	progress float64 // on the strips that it is of, m/s
	behind   float64 // the best end on the same strips, over that one's progress
	fine     bool    // it is of the strips that were asked for
	anew     bool    // it is of the request that is searched for, not of the answer that keeps it
}

// names are those of a problem's variables.
func (p *problem) names() []string {
	var all []string
	for i := range p.variables {
		all = append(all, p.variables[i].name)
	}
	return all
}

// of tells whether an end is of a way of sailing.
func (e *end) of(w *way) bool { return e.mode == w.mode.Name && e.set == w.set && e.tips == w.tips }

// remember keeps the ends of a search: of each way the best, on the finest strips that it
// was searched on. Ends of the answer it began from, of ways that were not searched again,
// are kept as they were; ways that were and do not sail here are forgotten.
func (res *Result) remember(b *boat.Boat, r *Request, f findings) {
	a := res.answered
	alone := *a.problem.request
	alone.From = nil // or every answer of a chain would keep those before it
	a.problem.request = &alone
	a.problem.letGo()
	a.keep(f.refined, true)
	a.keep(f.surveyed, false)
	if from := r.from(b); from != nil && from.answered != nil {
		for _, e := range from.answered.ends {
			if !a.knows(&e) && !f.searched(&e) {
				a.ends = append(a.ends, e)
			}
		}
	}
}

// searched tells whether an end's way was searched.
func (f *findings) searched(e *end) bool {
	return slices.ContainsFunc(f.surveyed, func(a attempt) bool { return e.of(&a.problem.way) })
}

func (a *answered) knows(e *end) bool {
	return slices.ContainsFunc(a.ends, func(k end) bool { return k.mode == e.mode && k.set == e.set && k.tips == e.tips })
}

// keep adds the best end of each way that is not known yet.
func (a *answered) keep(attempts []attempt, fine bool) {
	top := pick(attempts)
	if top == nil || !top.ok() {
		return
	}
	var fresh []end
	for i := range attempts {
		t := &attempts[i]
		if left := fine && t.outcome.Status == solve.Outdone; !left && !t.ok() || t.outcome.Learnt == nil {
			continue
		}
		p := t.problem
		e := end{
			mode: p.way.mode.Name, set: p.way.set, tips: p.way.tips, x: t.outcome.X, learnt: t.outcome.Learnt,
			progress: t.progress(), behind: (top.progress() - t.progress()) / math.Abs(top.progress()), fine: fine,
		}
		if a.knows(&e) {
			continue
		}
		e.names = p.names()
		switch at := slices.IndexFunc(fresh, func(k end) bool { return k.of(&p.way) }); {
		case at < 0:
			fresh = append(fresh, e)
		case fresh[at].progress < e.progress:
			fresh[at] = e
		}
	}
	a.ends = append(a.ends, fresh...)
}

// enough returns the gain, over the true wind's speed, below which a search from a
// neighbour's answer takes no further slopes: its last step takes nine tenths of it or more.
func (r *Request) enough() float64 {
	switch {
	case r.Tell == StateAlone:
		return 3e-5
	case r.Nearly > 0:
		return r.Nearly
	}
	return 1e-6
}

// Moved returns an answer as a start for a neighbour: where each way of sailing ended is moved
// by so many times the way from there to where it ended in other answers, and so are the slopes
// there. With answers to one change each, and each change as a multiple of that, the start is
// right to first order for all of them together. An end that one of them does not know stays
// where it is; nil ones move nothing.
func (res *Result) Moved(others []*Result, times []float64) *Result {
	if res.answered == nil {
		return res
	}
	moved, a := *res, *res.answered
	a.ends = slices.Clone(a.ends)
	for i := range a.ends {
		a.ends[i].move(others, times)
	}
	moved.answered = &a
	return &moved
}

// move moves an end as Moved says.
func (e *end) move(others []*Result, times []float64) {
	x := slices.Clone(e.x)
	var learnt []*solve.Learnt
	var by []float64
	for k, other := range others {
		if other == nil || times[k] == 0 {
			continue
		}
		o := other.answered.like(e)
		if o == nil {
			e.learnt = e.learnt.Elsewhere()
			return
		}
		learnt, by = append(learnt, o.learnt), append(by, times[k])
		for j := range x {
			x[j] += times[k] * (o.x[j] - e.x[j])
		}
	}
	e.x, e.learnt = x, e.learnt.Moved(x, learnt, by)
}

// Lands tells whether an answer that was searched for from another, such as Moved returns, is
// in that one's way of sailing and lies within one usual change of every variable from where
// that put it: then it is on the same branch.
func (res *Result) Lands(start *Result) bool {
	if res.Answer != Found || res.answered == nil || start.answered == nil {
		return false
	}
	own := &res.answered.problem.way
	for i := range start.answered.ends {
		if e := &start.answered.ends[i]; e.fine && e.of(own) {
			return len(e.x) == len(res.answered.x) && res.answered.problem.within(apart, e.x, res.answered.x)
		}
	}
	return false
}

// like returns the end of the same way, on strips as fine, in the same variables.
func (a *answered) like(e *end) *end {
	if a == nil {
		return nil
	}
	for i := range a.ends {
		o := &a.ends[i]
		if o.mode == e.mode && o.set == e.set && o.tips == e.tips && o.fine == e.fine && slices.Equal(o.names, e.names) {
			return o
		}
	}
	return nil
}

// alongside searches from an answer alone: each way of sailing from where its own search
// ended then. Ways whose ends are of the strips that are asked for, and lay within near of
// the best, are searched on these; of the others, those that were surveyed and lay within
// farBehind are surveyed again, and searched if they have come near, or if the first lead to no
// flight. It is not ok where the answer keeps no ends of the ways that are allowed.
func alongside(ctx context.Context, b *boat.Boat, r *Request, from *Result, w *Workspace) (f findings, ok bool, err error) {
	if from.answered == nil {
		return f, false, nil
	}
	all, err := ways(b, r)
	if err != nil {
		return f, false, err
	}
	n := nearby{b: b, r: r, from: from, ways: all, w: w}
	ends := from.answered.ends
	for i := range ends {
		if e := &ends[i]; e.fine && e.behind <= near {
			if err := n.search(ctx, e); err != nil {
				return f, false, err
			}
		}
	}
	if len(n.refined) == 0 {
		return f, false, nil
	}
	for i := range ends {
		if e := &ends[i]; !e.fine && e.behind <= 1-farBehind {
			if err := n.survey(ctx, e); err != nil {
				return f, false, err
			}
		}
	}
	n.surveyed = append(n.surveyed, n.refined...)
	return n.findings, true, nil
}

// nearby is a search from an answer alone.
type nearby struct {
	b    *boat.Boat
	r    *Request
	from *Result
	ways []way
	w    *Workspace
	findings
	gain float64 // of the best on the strips that are asked for, over what it was
}

// rivalIterations bounds the steps of a search of another way of sailing once one sails: one
// that takes more is mostly one that does not sail there.
const rivalIterations = 15

// search goes on from an end on the strips that are asked for.
func (n *nearby) search(ctx context.Context, e *end) error {
	if best := pick(n.refined); best != nil && best.ok() {
		return n.rival(ctx, e, best)
	}
	a, err := n.follow(ctx, e, n.r, &n.w.fine, tight(), n.r.enough())
	if err == nil && a != nil {
		n.add(a, e)
	}
	return err
}

// rival goes on from the end of another way than the best: only as far as tells that it stays
// behind, and to its own end where it may not.
func (n *nearby) rival(ctx context.Context, e *end, best *attempt) error {
	t, least := tight(), best.outcome.Values.F
	t.iterations = rivalIterations
	enough := math.Max(n.r.enough(), rivalShare*e.behind*math.Abs(least))
	a, err := n.follow(ctx, e, n.r, &n.w.fine, t, enough)
	if err != nil || a == nil {
		return err
	}
	if left := a.outcome; enough > n.r.enough() && left.Learnt != nil && left.Values.F < least+rivalMargin*enough {
		a.problem.learnt = left.Learnt
		*a, err = a.problem.follow(ctx, left.X, n.r.enough(), n.w)
		a.outcome.Evaluations += left.Evaluations
	}
	n.add(a, e)
	return err
}

// The search of another way leaves rivalShare of what it was behind lying, and goes on where it
// comes within rivalMargin times that of the best.
const rivalShare, rivalMargin = 0.1, 3

// add counts in a search that went on from an end.
func (n *nearby) add(a *attempt, e *end) {
	n.refined = append(n.refined, *a)
	if e.behind <= 0 {
		n.gain = a.gainOn(e)
	}
}

// survey goes on from an end of a survey, and on the strips that are asked for where its
// way has come near the best.
func (n *nearby) survey(ctx context.Context, e *end) error {
	coarse, worthwhile := n.r.coarsely()
	if !worthwhile {
		return nil
	}
	a, err := n.follow(ctx, e, &coarse, &n.w.coarse, rough(), n.r.enough())
	if err != nil || a == nil || !a.ok() {
		return err
	}
	n.surveyed = append(n.surveyed, *a)
	if best := pick(n.refined); best.ok() && e.behind+n.gain-a.gainOn(e) > near {
		return nil
	}
	next := *e
	next.x, next.names, next.anew = a.outcome.X, a.problem.names(), true
	if next.learnt = a.outcome.Learnt; next.learnt == nil { // its steps ran out
		next.learnt = a.problem.learnt
	}
	fine, err := n.follow(ctx, &next, n.r, &n.w.fine, tight(), n.r.enough())
	if err == nil && fine != nil {
		n.refined = append(n.refined, *fine)
	}
	return err
}

// follow searches the way of an end from there; nil where that way is not allowed.
func (n *nearby) follow(ctx context.Context, e *end, r *Request, l *level, t tolerances, enough float64) (*attempt, error) {
	at := slices.IndexFunc(n.ways, func(w way) bool { return e.of(&w) })
	if at < 0 {
		return nil, nil
	}
	p, err := newSearch(n.b, r, n.ways[at], l, t, n.w)
	if err != nil {
		return nil, err
	}
	start := p.vector(n.from.State, n.from.TrueWindAngle)
	index := make([]int, len(start))
	for i := range p.variables {
		v := &p.variables[i]
		if index[i] = slices.Index(e.names, v.name); index[i] >= 0 {
			start[i] = math.Min(math.Max(e.x[index[i]], v.lower), v.upper)
		}
	}
	if r.Patience > 0 {
		p.loose.iterations = min(p.loose.iterations, r.Patience)
	}
	times := 1.0
	if !e.anew {
		times = n.times(r)
	}
	p.learnt = e.learnt.For(p.solve(), index, times, unknownCurvature)
	a, err := p.follow(ctx, start, enough, n.w)
	return &a, err
}

// unknownCurvature is what a variable gets that was not free where the curvature was learnt: a
// wind angle, of whose square progress loses some ten times as much.
const unknownCurvature = 0.02

// times is by how much more a change of speed counts in a request than in that of the answer to
// start from.
func (n *nearby) times(r *Request) float64 {
	own := n.from.answered.problem.request
	if own.Aim == r.Aim {
		return 1
	}
	if own.Aim == LeastWind || r.Aim == LeastWind {
		return own.unit() / r.unit()
	}
	angle := n.from.TrueWindAngle.Radians()
	return math.Abs(r.progress(1, angle)/own.progress(1, angle)) * own.unit() / r.unit()
}

// gainOn is by how much a search has gained on the end that it went on from, over that.
func (a *attempt) gainOn(e *end) float64 { return (a.progress() - e.progress) / math.Abs(e.progress) }
