package trim

import (
	"context"
	"errors"
	"math"
	"slices"
	"sort"

	"foilwright/boat"
	"foilwright/si"
	"foilwright/solve"
)

// agreement is how near, over progress, two optima count as one, and a start as
// having reached the answer.
const agreement = 5e-4

// feasible is the largest violation that an answer may carry, in shares of
// weight and of weight times length, and in natural units of the limits.
const feasible = 1e-8

// attempt is the end of one search from one start.
type attempt struct {
	problem *problem
	outcome solve.Outcome
	start   []float64
}

func (a *attempt) ok() bool { return a.outcome.Violation <= a.problem.loose.feasible }

func (a *attempt) progress() float64 { return -a.outcome.Values.F * a.problem.request.unit() }

// Best finds the best trim of a boat. Errors are for requests that cannot be
// put (no such mode, nothing of that name to hold, no foil in the water) and
// for a cancelled context; a boat that cannot sail as asked is a Result whose
// Answer is NoAnswer. The same request gives the same bits.
func Best(ctx context.Context, b *boat.Boat, r Request, w *Workspace) (*Result, error) {
	if w == nil {
		w = new(Workspace)
	}
	if err := r.check(b); err != nil {
		return nil, err
	}
	found, err := search(ctx, b, &r, w)
	if err != nil {
		return nil, err
	}
	best := pick(found.refined)
	if best == nil {
		return nil, errors.New("internal error: no start was searched")
	}
	if !best.ok() {
		return noAnswer(ctx, b, &r, best, found, w)
	}
	var result *Result
	if r.Tell == StateAlone {
		result = best.problem.stateAlone(best)
	} else {
		result = best.problem.result(best, w)
	}
	result.count(found, best)
	result.remember(b, &r, found)
	if r.Tell == InFull {
		result.TellCarried(b, r.CarriedAt, w)
	}
	return result, nil
}

// check refuses requests that mean nothing.
func (r *Request) check(b *boat.Boat) error {
	switch wind := r.WindSpeed.MetresPerSecond(); {
	case !(wind > 0):
		return &RequestError{b.Name, "true wind speed", "must be above 0", "say the wind with --tws, as in 17 kn"}
	case wind > 60:
		return &RequestError{b.Name, "true wind speed", "must be at most 60 m/s", "check its unit"}
	case r.Aim == AtAngle && !(r.WindAngle > 0 && r.WindAngle.Radians() < math.Pi):
		return &RequestError{b.Name, "true wind angle", "must lie between 0 and 180 deg", "angles are taken from the track, on either side"}
	case len(b.Foils) == 0:
		return &RequestError{b.Name, "foils", "the boat has none", "a boat needs at least one foil to be balanced"}
	}
	return nil
}

// RequestError tells what about a request cannot be put to a boat.
type RequestError struct{ Boat, What, Problem, Hint string }

// Error words it in the house's style.
func (e *RequestError) Error() string {
	return e.Boat + ": " + e.What + ": " + e.Problem + "\nhint: " + e.Hint
}

// hopeless is the share of the best progress below which a way of sailing is not
// searched from more starts than those that it is judged by: optima of one way lie within a few
// per cent of each other, ways that lose lose by more.
const hopeless = 0.95

// outdone is the share of the best progress below which a way of sailing is left before its
// search ends, if it is nowhere near.
const outdone = 0.85

// search finds the optima of every way of sailing: a survey over all starts on
// foils that are cut coarsely, then a search on the strips that were asked for from
// each of its optima that comes near the best. What is searched depends on the
// request alone. Where the survey finds no flight, or what it found does not hold
// on the finer strips, every way is searched on those from where it came nearest.
func search(ctx context.Context, b *boat.Boat, r *Request, w *Workspace) (findings, error) {
	if from := r.from(b); from != nil && r.Starts == OnlyFrom {
		if f, ok, err := alongside(ctx, b, r, from, w); ok || err != nil {
			return f, err
		}
	}
	all, err := open(b, r)
	if err != nil {
		return findings{}, err
	}
	coarse, worthwhile := r.coarsely()
	if !worthwhile || r.Starts == OnlyFrom && len(all) == 1 {
		all, err := survey(ctx, b, r, &w.fine, tight(), w)
		return findings{surveyed: all, refined: all}, err
	}
	surveyed, err := survey(ctx, b, &coarse, &w.coarse, rough(), w)
	if err != nil {
		return findings{}, err
	}
	f := findings{surveyed: surveyed}
	for _, a := range promising(surveyed) {
		p, err := newSearch(b, r, a.problem.way, &w.fine, tight(), w)
		if err != nil {
			return findings{}, err
		}
		p.learnt, p.worth = a.outcome.Learnt, r.worth(f.refined, 1-near)
		fine, err := p.follow(ctx, p.onward(a), 0, w)
		if err != nil {
			return findings{}, err
		}
		f.refined = append(f.refined, fine)
	}
	if best := pick(f.refined); best == nil || !best.ok() {
		return f, f.doubt(ctx, b, r, w)
	}
	return f, nil
}

// onward returns where the search goes on from an end of the survey: from there; or,
// where an answer near by was all there was to start from, from that answer, for its
// own way of sailing.
func (p *problem) onward(a *attempt) []float64 {
	if from := p.request.from(p.boat); from != nil && p.request.Starts == OnlyFrom && from.Mode == p.way.mode.Name && from.SetIndex == p.way.set {
		return p.vector(from.State, from.TrueWindAngle)
	}
	return a.outcome.X
}

// findings are the ends of all searches of one request: on coarse strips and on
// those that were asked for; the same where there was no survey.
type findings struct{ surveyed, refined []attempt }

// unfinished is the largest violation with which a survey's search that ran out of
// steps counts as under way to an optimum.
const unfinished = 1e-3

// cutShort tells whether a search was all but balanced when its steps ran out.
func (a *attempt) cutShort() bool {
	return a.outcome.Status == solve.IterationLimit && a.outcome.Violation <= unfinished
}

// promising returns the ends of a survey that may be the best on finer strips:
// those near the best, each optimum once, and those whose search was cut short there.
func promising(surveyed []attempt) []*attempt {
	best := pick(surveyed)
	if best == nil || !best.ok() {
		return nil
	}
	chosen := []*attempt{best}
	for i := range surveyed {
		a := &surveyed[i]
		if !a.ok() && !a.cutShort() || a.progress() < best.progress()-near*math.Abs(best.progress()) {
			continue
		}
		known := slices.ContainsFunc(chosen, func(c *attempt) bool {
			return c.problem.way.is(&a.problem.way) && a.isBeside(c, best.progress())
		})
		if !known {
			chosen = append(chosen, a)
		}
	}
	return chosen
}

// isBeside tells whether two ends of one way are one optimum, where the best makes so
// much progress.
func (a *attempt) isBeside(c *attempt, best float64) bool {
	return math.Abs(c.progress()-a.progress()) <= agreement*math.Abs(best) && a.problem.within(apart, a.outcome.X, c.outcome.X)
}

// newSearch sets up one way of sailing that has a sketch.
func newSearch(b *boat.Boat, r *Request, way way, l *level, t tolerances, w *Workspace) (*problem, error) {
	p, err := newProblem(b, r, way, l)
	if err != nil {
		return nil, err
	}
	p.loose, p.drawn = t, &w.drawn
	return p, nil
}

// survey runs every way of sailing from the starts that it is judged by, and those that
// come near the best from all others; where none flies from those, the one that came
// nearest to flight, and the others only if that one then flies.
func survey(ctx context.Context, b *boat.Boat, r *Request, l *level, t tolerances, w *Workspace) ([]attempt, error) {
	all, err := open(b, r)
	if err != nil {
		return nil, err
	}
	problems := make([]*problem, len(all))
	starts := make([][][]float64, len(all))
	first := make([]attempt, len(all)) // the best of those that a way is judged by
	var attempts []attempt
	try := func(i, from, to int) error {
		for k := from; k < to; k++ {
			start := starts[i][k]
			if problems[i].isPosed(k) {
				start = problems[i].settle(ctx, start, w)
			}
			a, err := problems[i].try(ctx, start, w)
			if err != nil {
				return err
			}
			attempts = append(attempts, a)
		}
		return nil
	}
	for i, way := range all {
		if problems[i], err = newSearch(b, r, way, l, t, w); err != nil {
			return nil, err
		}
		problems[i].learnt = r.learnt(b, &problems[i].way)
		starts[i] = problems[i].starts()
		before := len(attempts)
		problems[i].worth = r.worth(attempts, outdone)
		if done, err := problems[i].fromAnother(ctx, attempts, w); err != nil {
			return nil, err
		} else if done != nil {
			attempts, first[i] = append(attempts, *done), *done
			continue
		}
		for k := range problems[i].judging {
			if k > 0 {
				problems[i].learnt = nil // they lie far apart
			}
			if err := try(i, k, k+1); err != nil {
				return nil, err
			}
		}
		if best := pick(attempts[before:]); best != nil {
			first[i] = *best
			if problems[i].judging > 1 {
				problems[i].learnt = best.outcome.Learnt
			}
		}
	}
	judge := pick(first)
	for turn, i := range nearestFirst(first) {
		switch best := pick(attempts); {
		case first[i].outcome.Status == solve.Outdone: // it will not come near
			continue
		case judge != nil && judge.ok() && first[i].ok() && first[i].progress() < judge.progress()-(1-hopeless)*math.Abs(judge.progress()):
			continue
		case turn > 0 && best != nil && !best.ok():
			continue
		}
		if err := try(i, problems[i].judging, len(starts[i])); err != nil {
			return nil, err
		}
	}
	if attempts, err = lookAside(ctx, r, attempts, (*problem).slid, w); err != nil {
		return nil, err
	}
	return lookAside(ctx, r, attempts, (*problem).asides, w)
}

// worth is the value of the objective that another search has to be able to come to, as a share
// of the progress of the best so far; zero where there is nothing to compare with.
func (r *Request) worth(attempts []attempt, share float64) float64 {
	best := pick(attempts)
	if best == nil || !best.ok() {
		return 0
	}
	return -(best.progress() - (1-share)*math.Abs(best.progress())) / r.unit()
}

// fromAnother searches a way of sailing from where the best of its mode with another set of
// sails has ended: what foils and sails have to do there is much the same. It is nil where
// that leads nowhere, or where there are other starts to judge the way by.
func (p *problem) fromAnother(ctx context.Context, attempts []attempt, w *Workspace) (*attempt, error) {
	from := pick(ofMode(attempts, p.way.mode))
	if p.judging != 1 || p.given() > 0 || p.request.Scatter != 0 || from == nil || !from.ok() {
		return nil, nil
	}
	p.kin = from.problem.sketch
	s := boat.State{Settings: make([]float64, len(p.boat.Controls))}
	angle := from.problem.state(from.outcome.X, &s)
	a, err := p.try(ctx, p.vector(s, angle), w)
	if err != nil || a.outcome.Status != solve.Outdone && (!a.ok() || a.outcome.Status != solve.Converged) {
		p.learnt = nil
		return nil, err
	}
	return &a, nil
}

// ofMode returns the attempts of one mode.
func ofMode(attempts []attempt, mode *boat.Mode) []attempt {
	return slices.DeleteFunc(slices.Clone(attempts), func(a attempt) bool { return a.problem.way.mode.Name != mode.Name })
}

// nearestFirst returns the order in which ways are searched from more starts: as they
// come, but where none flies yet, the one that came nearest to flight is the first.
func nearestFirst(first []attempt) []int {
	order := make([]int, len(first))
	for i := range order {
		order[i] = i
	}
	if best := pick(first); best != nil && !best.ok() {
		nearest := slices.IndexFunc(first, func(a attempt) bool { return a.problem == best.problem })
		order = slices.Insert(slices.Delete(order, nearest, nearest+1), 0, nearest)
	}
	return order
}

// mostIterations bounds the steps of one search.
const mostIterations = 150

// lookAside searches once more from points beside the best so far, where a request has
// the usual starts.
func lookAside(ctx context.Context, r *Request, attempts []attempt, points func(p *problem, x []float64) [][]float64, w *Workspace) ([]attempt, error) {
	best := pick(attempts)
	if r.Starts != 0 || r.Scatter != 0 || best == nil || !best.ok() {
		return attempts, nil
	}
	p := best.problem
	for _, start := range points(p, best.outcome.X) {
		a, err := p.try(ctx, start, w)
		if err != nil {
			return nil, err
		}
		attempts = append(attempts, a)
	}
	return attempts, nil
}

// try searches from one start. The curvature that the way's first search ends
// with begins the others, which then take a third of the steps. A search
// that comes beside an end of the same way is not finished: it counts as having
// ended there. An end is where a search converged, or ran for as long as any may.
func (p *problem) try(ctx context.Context, start []float64, w *Workspace) (attempt, error) {
	return p.search(ctx, start, solve.Minimise, 0, w)
}

// follow searches from a start that is near an end whose search has taught p.learnt; gains
// of no more than enough, over the unit, are left lying.
func (p *problem) follow(ctx context.Context, start []float64, enough float64, w *Workspace) (attempt, error) {
	return p.search(ctx, start, solve.Follow, enough, w)
}

type method func(context.Context, *solve.Problem, []float64, solve.Options, *solve.Workspace) solve.Outcome

func (p *problem) search(ctx context.Context, start []float64, by method, enough float64, w *Workspace) (attempt, error) {
	o := solve.Options{Iterations: p.loose.iterations, Feasibility: p.loose.feasible / 10, Stationarity: p.loose.stationary, StepLimit: 10, Noise: 1e-12, From: p.learnt, Enough: enough, Worth: p.worth}
	joined := -1
	o.Known = func(x []float64) bool {
		joined = slices.IndexFunc(p.ends, func(end solve.Outcome) bool { return p.within(joins, x, end.X) })
		return joined >= 0
	}
	a := attempt{problem: p, start: start, outcome: by(ctx, p.solve(), start, o, &w.solve)}
	switch out := &a.outcome; {
	case out.Status == solve.Joined:
		iterations, evaluations := out.Iterations, out.Evaluations
		*out = p.ends[joined]
		out.Iterations, out.Evaluations = iterations, evaluations
	case a.ok() && (out.Status == solve.Converged || out.Status == solve.IterationLimit && p.loose.iterations == mostIterations):
		p.ends = append(p.ends, *out)
	}
	if p.learnt == nil {
		p.learnt = a.outcome.Learnt
	}
	return a, ctx.Err()
}

// joins is how near an end a search has come, in usual changes of a variable, when
// there is no telling it from one that goes on there. Ends of a survey that lie
// further from one another than apart are two optima, or two places on a flat valley:
// on finer strips either may be the better.
const joins, apart = 0.3, 1.0

// within tells whether a point lies within so many usual changes of every variable
// from another.
func (p *problem) within(reach float64, x, y []float64) bool {
	for i := range x {
		if math.Abs(x[i]-y[i]) > reach*p.variables[i].scale {
			return false
		}
	}
	return true
}

// pick returns the attempt with most progress among those that close, or, where
// none does, the one that comes nearest to closing.
func pick(attempts []attempt) *attempt {
	var best *attempt
	for i := range attempts {
		a := &attempts[i]
		if len(a.outcome.Values.Equal) == 0 {
			continue
		}
		switch {
		case best == nil,
			a.ok() && !best.ok(),
			a.ok() && best.ok() && a.progress() > best.progress(),
			!a.ok() && !best.ok() && a.outcome.Violation < best.outcome.Violation:
			best = a
		}
	}
	return best
}

// count fills in what the search met besides the answer.
func (res *Result) count(f findings, best *attempt) {
	res.Others = []Optimum{}
	top := pick(f.surveyed)
	for i := range f.surveyed {
		a := &f.surveyed[i]
		res.Search.Starts++
		res.Search.Evaluations += a.outcome.Evaluations
		if a.outcome.Status == solve.Outdone {
			res.addOther(a)
		}
		if !a.ok() {
			continue
		}
		if a.outcome.Status == solve.Converged {
			res.Search.Converged++
		}
		gap := (top.progress() - a.progress()) / math.Abs(top.progress())
		if gap <= agreement {
			res.Search.Agreeing++
		}
		if gap <= agreement && a.problem.way.is(&top.problem.way) || a.outcome.Status != solve.Converged {
			continue
		}
		res.addOther(a)
	}
	sort.SliceStable(res.Others, func(i, j int) bool {
		return math.Abs(float64(res.Others[i].VMG)) > math.Abs(float64(res.Others[j].VMG))
	})
}

// addOther notes a local optimum, or where a way of sailing was left, once.
func (res *Result) addOther(a *attempt) {
	p := a.problem
	angle := p.state(a.outcome.X, &p.state0)
	o := Optimum{
		Mode: p.way.mode.Name, Set: setName(p.boat, p.way.set), Speed: p.state0.Speed,
		VMG:  si.Speed(p.state0.Speed.MetresPerSecond() * angle.Cos()),
		Heel: p.state0.Attitude.Heel, Times: 1, LeftEarly: a.outcome.Status == solve.Outdone,
	}
	switch p.way.tips {
	case tipsUnder:
		o.Tips = "under"
	case tipsMayShow:
		o.Tips = "out"
	}
	for i := range res.Others {
		k := &res.Others[i]
		if k.Mode == o.Mode && k.Set == o.Set && k.Tips == o.Tips && k.LeftEarly == o.LeftEarly && math.Abs(float64(k.Speed-o.Speed)) <= agreement*float64(o.Speed) {
			k.Times++
			return
		}
	}
	res.Others = append(res.Others, o)
}

func setName(b *boat.Boat, set int) string {
	if set < 0 {
		return "bare poles"
	}
	return b.Sets[set].Name
}
