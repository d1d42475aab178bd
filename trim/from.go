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
		if !t.ok() || t.outcome.Learnt == nil {
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
		for j := range p.variables {
			e.names = append(e.names, p.variables[j].name)
		}
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
	if r.Tell == StateAlone {
		return 3e-5
	}
	return 1e-6
}

// Moved returns an answer as a start for a neighbour: where each way of sailing ended is moved
// by so many times the way from there to where it ended in other answers. With answers to
// one change each, and each change as a multiple of that, the start is right to first order
// for all of them together. An end that one of them does not know stays where it is; nil ones
// move nothing.
func (res *Result) Moved(others []*Result, times []float64) *Result {
	if res.answered == nil {
		return res
	}
	moved, a := *res, *res.answered
	a.ends = slices.Clone(a.ends)
	for i := range a.ends {
		e := &a.ends[i]
		x := slices.Clone(e.x)
		for k, other := range others {
			if other == nil || times[k] == 0 {
				continue
			}
			o := other.answered.like(e)
			if o == nil {
				x = slices.Clone(e.x)
				break
			}
			for j := range x {
				x[j] += times[k] * (o.x[j] - e.x[j])
			}
		}
		e.x, e.learnt = x, e.learnt.Elsewhere()
	}
	moved.answered = &a
	return &moved
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
const rivalIterations = 25

// search goes on from an end on the strips that are asked for.
func (n *nearby) search(ctx context.Context, e *end) error {
	t := tight()
	if best := pick(n.refined); best != nil && best.ok() {
		t.iterations = rivalIterations
	}
	a, err := n.follow(ctx, e, n.r, &n.w.fine, t)
	if err != nil || a == nil {
		return err
	}
	n.refined = append(n.refined, *a)
	if e.behind <= 0 {
		n.gain = a.gainOn(e)
	}
	return nil
}

// survey goes on from an end of a survey, and on the strips that are asked for where its
// way has come near the best.
func (n *nearby) survey(ctx context.Context, e *end) error {
	coarse, worthwhile := n.r.coarsely()
	if !worthwhile {
		return nil
	}
	a, err := n.follow(ctx, e, &coarse, &n.w.coarse, rough())
	if err != nil || a == nil || !a.ok() {
		return err
	}
	n.surveyed = append(n.surveyed, *a)
	if best := pick(n.refined); best.ok() && e.behind+n.gain-a.gainOn(e) > near {
		return nil
	}
	next := *e
	next.x, next.learnt = a.outcome.X, a.outcome.Learnt
	fine, err := n.follow(ctx, &next, n.r, &n.w.fine, tight())
	if err == nil && fine != nil {
		n.refined = append(n.refined, *fine)
	}
	return err
}

// follow searches the way of an end from there; nil where that way is not allowed.
func (n *nearby) follow(ctx context.Context, e *end, r *Request, l *level, t tolerances) (*attempt, error) {
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
	p.learnt = e.learnt.For(p.solve(), index, n.times(r), unknownCurvature)
	a, err := p.follow(ctx, start, n.r.enough(), n.w)
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
