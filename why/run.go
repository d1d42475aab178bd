package why

import (
	"context"
	"fmt"
	"math"
	"slices"
	"sort"
	"sync/atomic"

	"foilwright/boat"
	"foilwright/boatfile"
	"foilwright/trim"
)

// Request asks why two boats differ.
type Request struct {
	First, Second *boatfile.Sheet
	Ask           func(*boat.Boat) (trim.Request, error) // the request put to a boat, with what she calls her own controls
	Figure        Figure                                 // that is split
	Others        []Figure                               // split beside it
	Groups        []Group
	Depth         Depth
	Orders        int          // sampled where there are more than ExactCauses; 0 for DefaultOrders
	Seed          uint64       // of the orders
	Running       func(*SoFar) // called now and then with what can be said so far, from the caller's goroutine; may be nil
	CannotSail    *float64     // what a mixed boat counts for that cannot sail; nil: as the slowest of those that can
}

// Depth is how far a split goes.
type Depth int

// The depths.
const (
	Singly  Depth = iota // each cause for itself
	InPairs              // and how each two of them act on each other
)

// DefaultOrders is how many orders are sampled where nothing is said.
const DefaultOrders = 64

// LeastOrders is the least number of orders that tells a scatter, MostOrders the most
// that are taken.
const (
	LeastOrders = 4
	MostOrders  = 4096
)

// Run splits a difference over a number of goroutines (at least one). done, where
// it is not nil, is called from any of them as trims end, with how many there have
// been and how many there will be at least. The same request gives the same bits on
// any number of goroutines. Where one of the boats cannot sail as asked, the result
// has no difference and no parts.
//
// Errors are for requests that cannot be put: [GroupError], [FigureError], what
// Ask says of one of the two boats; and for a cancelled context.
func Run(ctx context.Context, r Request, workers int, done func(done, of int)) (*Result, error) {
	if r.Orders == 0 {
		r.Orders = DefaultOrders
	}
	if r.Orders < LeastOrders {
		return nil, fmt.Errorf("%d orders tell no scatter\nhint: take %d or more", r.Orders, LeastOrders)
	}
	if r.Orders > MostOrders {
		return nil, fmt.Errorf("%d orders are more than %d\nhint: the work grows as their number, the error falls as its root only", r.Orders, MostOrders)
	}
	causes, err := Causes(boatfile.DiffOfPoints(r.First, r.Second), r.Groups)
	if err != nil {
		return nil, err
	}
	if r.Depth == InPairs && len(causes) > ExactCauses {
		return nil, fmt.Errorf("pairs are told of up to %d causes, and there are %d\nhint: gather causes with --cause, or leave pairs out", ExactCauses, len(causes))
	}
	ends, err := r.ends(ctx, workers)
	if err != nil {
		return nil, err
	}
	res := ends.result(&r)
	if res.Difference == nil {
		if ends.trims[0].Answer == trim.Found && ends.trims[1].Answer == trim.Found {
			return nil, r.noFigure(ends)
		}
		return res, nil
	}
	if r.Running != nil {
		r.Running(res.soFar())
	}
	f, err := assemble(ctx, causes, mixing(r.First, causes), sampling{r.Orders, r.Seed}, workers)
	if err != nil {
		return nil, err
	}
	var count atomic.Int64
	tick := func() {
		if done != nil {
			done(int(count.Add(1)), f.trims())
		}
	}
	f.alone = func(v *voyage) {
		if r.Running != nil {
			r.Running(v.soFar(&r, res))
		}
	}
	v, err := f.sail(ctx, trimming(r.Ask, res.CarriedAt), ends.trims[0], ends.trims[1], workers, tick)
	if err != nil {
		return nil, err
	}
	res.tell(&r, v)
	res.Ledger, err = f.ledger(ctx, ends.trims[0], res.CarriedAt, workers)
	return res, err
}

// ends are the two whole boats.
type ends struct {
	boats     [2]*boat.Boat
	trims     [2]*trim.Result
	carriedAt float64
}

// ends trims the two whole boats, each from all starts.
func (r *Request) ends(ctx context.Context, workers int) (*ends, error) {
	e := &ends{}
	jobs := make([]trim.Job, 2)
	for i, s := range [2]*boatfile.Sheet{r.First, r.Second} {
		b, err := s.Boat(nil)
		if err != nil {
			return nil, err
		}
		request, err := r.Ask(b)
		if err != nil {
			return nil, err
		}
		e.boats[i], jobs[i] = b, trim.Job{Boat: b, Request: request}
	}
	answers, err := trim.Each(ctx, jobs, workers, nil)
	if err != nil {
		return nil, err
	}
	e.trims = [2]*trim.Result(answers)
	if e.carriedAt = jobs[0].Request.CarriedAt; e.carriedAt == 0 {
		e.carriedAt = meanEffort(answers)
	}
	var w trim.Workspace
	for i, a := range answers {
		a.TellCarried(e.boats[i], e.carriedAt, &w)
	}
	return e, nil
}

// meanEffort returns the mean height of the sails' centres of effort, m.
func meanEffort(answers []*trim.Result) float64 {
	sum, n := 0.0, 0
	for _, a := range answers {
		if h, ok := a.EffortHeight(); ok && a.Answer == trim.Found {
			sum += h
			n++
		}
	}
	if n == 0 {
		return 0
	}
	return sum / float64(n)
}

// result is the two boats before anything is split.
func (e *ends) result(r *Request) *Result {
	first, second := e.trims[0], e.trims[1]
	res := &Result{
		Figure: r.Figure.Name, Unit: r.Figure.Unit, Aim: first.Aim, TrueWindSpeed: first.TrueWindSpeed, WindFrom: first.WindFrom,
		First: side(r.Figure, first), Second: side(r.Figure, second), CarriedAt: e.carriedAt, Boats: e.trims,
		Causes: []Part{}, Pairs: []Pair{}, Figures: []Row{}, Merged: []Merged{}, CannotSail: []StandIn{},
	}
	if res.First.Value != nil && res.Second.Value != nil {
		d := *res.Second.Value - *res.First.Value
		res.Difference = &d
	}
	return res
}

func side(f Figure, a *trim.Result) Side {
	s := Side{Boat: a.Boat, Answer: a.Answer}
	if a.Answer != trim.Found {
		return s
	}
	if v, ok := f.Read(a); ok {
		s.Value = &v
	}
	return s
}

// noFigure is the error of a figure that one of the boats does not have.
func (r *Request) noFigure(e *ends) error {
	for _, a := range e.trims {
		if side(r.Figure, a).Value == nil {
			hint := "ask for progress, speed, or a figure that foilwright compare shows of both boats"
			if a.CarriedMissing != "" && r.Figure.Name == "side force carried" {
				hint = a.CarriedMissing
			}
			return &FigureError{r.Figure.Name, a.Boat + " has no such figure at her best trim", hint}
		}
	}
	return fmt.Errorf("internal error: figure %s is there and is not", r.Figure.Name)
}

// worths are a figure of every needed boat.
type worths struct {
	of      map[Coalition]float64
	missing []Coalition // boats that have none, and have that of the boat that stands in for them
}

func (w *worths) at(c Coalition) float64 { return w.of[c] }

// worths reads a figure off every boat; false where some boat has none and neither
// has the one that is to stand in for it.
func (v *voyage) worths(fig Figure, standIn Coalition) (*worths, bool) {
	w := &worths{of: make(map[Coalition]float64, len(v.fleet.needed))}
	instead, ok := fig.Read(v.answers[standIn].trim)
	for _, c := range v.fleet.needed {
		if v.answers[c].sails() {
			if value, has := fig.Read(v.answers[c].trim); has {
				w.of[c] = value
				continue
			}
		}
		w.missing = append(w.missing, c)
		w.of[c] = instead
	}
	return w, ok || len(w.missing) == 0
}

// tell fills in the parts from a voyage.
func (res *Result) tell(r *Request, v *voyage) {
	f := v.fleet
	standIn := v.slowest()
	w, ok := v.worths(r.Figure, standIn)
	if !ok {
		// The slowest has no such figure: the first boat, which has one, stands in.
		standIn = 0
		w, _ = v.worths(r.Figure, standIn)
	}
	for _, c := range w.missing {
		stand := StandIn{Causes: f.names(c), Why: v.answers[c].why, Of: v.called(standIn)}
		switch {
		case v.answers[c].sails():
			stand.Why = "she sails, and has no " + r.Figure.Name
		case r.CannotSail != nil:
			w.of[c], stand.Of = *r.CannotSail, "as asked"
		}
		stand.Value = w.of[c]
		res.CannotSail = append(res.CannotSail, stand)
	}
	parts, errors := f.split(w.at)
	for i, c := range f.causes {
		res.Causes = append(res.Causes, Part{Name: c.Name, Part: parts[i], Error: errors[i], Changes: changesOf(c)})
	}
	if r.Depth == InPairs {
		res.Pairs = f.pairs(w.at)
	}
	for _, fig := range r.Others {
		if row, ok := v.row(fig); ok {
			res.Figures = append(res.Figures, row)
		}
	}
	res.Merged = f.merged
	res.Work = v.work(r)
}

// row splits another figure; false where a boat that sails does not have it.
func (v *voyage) row(fig Figure) (Row, bool) {
	w, ok := v.worths(fig, v.slowest())
	for _, c := range w.missing {
		ok = ok && !v.answers[c].sails()
	}
	if !ok {
		return Row{}, false
	}
	row := Row{Figure: fig.Name, Unit: fig.Unit, First: w.at(0), Second: w.at(All(len(v.fleet.causes)))}
	row.Difference = row.Second - row.First
	row.Parts, row.Errors = v.fleet.split(w.at)
	return row, true
}

// pairs returns the interactions of all pairs, the strongest first.
func (f *fleet) pairs(worth func(Coalition) float64) []Pair {
	n := len(f.causes)
	all := make([]float64, len(f.needed))
	for i, c := range f.needed {
		all[i] = worth(c)
	}
	index := Interactions(n, all)
	pairs := []Pair{}
	for i := range n {
		for j := i + 1; j < n; j++ {
			pairs = append(pairs, Pair{f.causes[i].Name, f.causes[j].Name, index[i][j]})
		}
	}
	sort.SliceStable(pairs, func(a, b int) bool { return math.Abs(pairs[a].Interaction) > math.Abs(pairs[b].Interaction) })
	return pairs
}

// slowest returns the boat with the least progress, or that needs most wind, of
// those that sail.
func (v *voyage) slowest() Coalition {
	least := Coalition(0)
	for _, c := range v.fleet.needed {
		if a := v.answers[c]; a.sails() && merit(a.trim) < merit(v.answers[least].trim) {
			least = c
		}
	}
	return least
}

// called names a boat of the fleet.
func (v *voyage) called(c Coalition) string {
	n := len(v.fleet.causes)
	switch c {
	case 0:
		return v.answers[0].trim.Boat
	case All(n):
		return v.answers[c].trim.Boat
	}
	said := v.answers[0].trim.Boat + " with"
	for i, name := range v.fleet.names(c) {
		if i > 0 {
			said += ","
		}
		said += " " + name
	}
	return said + " of " + v.answers[All(n)].trim.Boat
}

// work tells what the split took.
func (v *voyage) work(r *Request) Evaluation {
	n := len(v.fleet.causes)
	e := Evaluation{Mixed: max(0, len(v.fleet.needed)-2), Trims: 2 + v.trims, Mended: v.mended}
	e.Method = fmt.Sprintf("Shapley's value over all orders of %d causes: every one of %d mixed boats at her best trim", n, e.Mixed)
	if n == 1 {
		e.Method = "One cause is the whole difference"
	}
	if v.fleet.orders != nil {
		e.Orders, e.Seed = len(v.fleet.orders), r.Seed
		e.Method = fmt.Sprintf("Shapley's value over %d sampled orders of %d causes: each of %d mixed boats at her best trim", e.Orders, n, e.Mixed)
	}
	return e
}

// Sorted returns the indices of the parts, the largest first.
func (r *Result) Sorted() []int {
	order := make([]int, len(r.Causes))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		one, other := math.Abs(r.Causes[a].Part), math.Abs(r.Causes[b].Part)
		switch {
		case one > other:
			return -1
		case one < other:
			return 1
		}
		return 0
	})
	return order
}
