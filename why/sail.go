package why

import (
	"context"
	"errors"
	"math"
	"slices"

	"foilwright/batch"
	"foilwright/boat"
	"foilwright/trim"
)

// better is by how much of itself what is sought must gain for an answer to be replaced:
// less than that is the search's own tolerance.
const better = 1e-6

// agreement is how near, over progress, answers from two neighbours count as one: a
// second trim that is better by more has mended the first.
const agreement = 5e-4

// answer is the best trim of one mixed boat, or why there is none.
type answer struct {
	trim *trim.Result // nil, or without an answer, where she cannot sail
	why  string
}

func (a answer) sails() bool { return a.trim != nil && a.trim.Answer == trim.Found }

// merit is what a trim makes most of: progress or, where the least wind is sought,
// how little of it.
func merit(r *trim.Result) float64 {
	if r.Aim == trim.LeastWind.String() {
		return -r.TrueWindSpeed.MetresPerSecond()
	}
	return r.Progress().MetresPerSecond()
}

// trimmer finds the best trim of a boat, from a neighbour's answer where there is one.
type trimmer func(ctx context.Context, b *boat.Boat, from *trim.Result, how search, w *trim.Workspace) (*trim.Result, error)

// search is how far a trim looks.
type search int

const (
	nearWays  search = iota // from the neighbour alone, in the ways of sailing that came near hers
	sameWay                 // from the neighbour alone, in hers
	allStarts               // in every way, from all starts, the neighbour among them
)

// trimming returns what trims boats as a request for each says.
func trimming(ask func(*boat.Boat) (trim.Request, error), carriedAt float64) trimmer {
	return func(ctx context.Context, b *boat.Boat, from *trim.Result, how search, w *trim.Workspace) (*trim.Result, error) {
		r, err := ask(b)
		if err != nil {
			return nil, err
		}
		r.CarriedAt, r.Why = carriedAt, trim.Shortfalls
		if from != nil {
			r.From = neighbour(from, b)
			if how != allStarts {
				r.Starts = trim.OnlyFrom
			}
			if how == sameWay && len(b.Modes) > 0 {
				r.Mode, r.Set = from.Mode, from.Set
			}
		}
		batch.GiveWay(ctx)
		return trim.Best(ctx, b, r, w)
	}
}

// neighbour returns an answer as a start for another boat: with its name, and with
// its controls' settings by their names; controls that the answer does not know
// begin where they do.
func neighbour(from *trim.Result, b *boat.Boat) *trim.Result {
	n := *from
	n.Boat, n.State = b.Name, stateOf(from, b)
	return &n
}

// stateOf returns an answer's state for another boat.
func stateOf(from *trim.Result, b *boat.Boat) boat.State {
	s := from.State.Clone()
	s.Settings = b.Starts()
	for i := range b.Controls {
		for _, k := range from.Controls {
			if k.Name == b.Controls[i].Name {
				s.Settings[i] = k.Value
			}
		}
	}
	return s
}

// voyage is the sailing of a fleet.
type voyage struct {
	fleet   *fleet
	trim    trimmer
	answers map[Coalition]answer
	trims   int
	mended  int // mixed boats of which the second trim is better
	done    func()
}

// sail finds the best trim of every boat of the fleet: first each from the best of
// its neighbours with one cause fewer, by size; a boat that can be sailed in ways that
// none of those can is searched from all starts too. Then each from the best of those
// with one cause more, in that neighbour's way, and the better answer stays. What has no answer then is searched from all starts. What a boat
// starts from is an answer of the stage before, so that the bits do not depend on
// the number of goroutines.
func (f *fleet) sail(ctx context.Context, t trimmer, first, second *trim.Result, workers int, done func()) (*voyage, error) {
	n := len(f.causes)
	v := &voyage{fleet: f, trim: t, answers: map[Coalition]answer{0: {trim: first}, All(n): {trim: second}}, done: done}
	bySize := make([][]Coalition, n+1)
	for _, c := range f.needed {
		bySize[c.Size()] = append(bySize[c.Size()], c)
	}
	for size := 1; size < n; size++ {
		if err := v.stage(ctx, bySize[size], Coalition.Without, nearWays, workers); err != nil {
			return nil, err
		}
		if size == 1 && f.alone != nil {
			f.alone(v)
		}
	}
	for size := n - 1; size > 0; size-- {
		if err := v.stage(ctx, bySize[size], Coalition.With, sameWay, workers); err != nil {
			return nil, err
		}
	}
	return v, v.last(ctx, workers)
}

// Trims returns how many trims sail takes at least.
func (f *fleet) trims() int { return 2 * max(0, len(f.needed)-2) }

// stage trims boats from their neighbours, each of which is one cause away.
func (v *voyage) stage(ctx context.Context, list []Coalition, move func(Coalition, int) Coalition, how search, workers int) error {
	found := make([]answer, len(list))
	err := trim.Steps(ctx, len(list), workers, func(ctx context.Context, i int, w *trim.Workspace) error {
		from, how := v.nearest(list[i], move, how)
		if how != allStarts {
			from = v.beyond(list[i], move, from)
		}
		var err error
		if from != nil {
			found[i], err = v.attempt(ctx, list[i], from, how, w)
		}
		v.done()
		return err
	}, nil)
	if err != nil {
		return err
	}
	for i, c := range list {
		v.keep(c, found[i])
	}
	return nil
}

// nearest returns the answer of the best neighbour, and how to search from it. Those
// that can be sailed in the same ways come first.
func (v *voyage) nearest(c Coalition, move func(Coalition, int) Coalition, how search) (*trim.Result, search) {
	var best, alike *trim.Result
	for k := range v.fleet.causes {
		next := move(c, k)
		near := v.answers[next]
		if next == c || !near.sails() {
			continue
		}
		if best == nil || merit(near.trim) > merit(best) {
			best = near.trim
		}
		if sameWays(v.fleet.boats[c], v.fleet.boats[next]) && (alike == nil || merit(near.trim) > merit(alike)) {
			alike = near.trim
		}
	}
	switch {
	case how == sameWay:
		return best, how
	case alike == nil:
		return best, allStarts
	}
	return alike, how
}

// beyond returns what a boat is searched from: where her nearest neighbour's trim would move
// with the one cause between them, if that moved it as it moves another boat's: the boats
// with and without it that lack one cause more. It is the neighbour's where there are none
// such, or they are sailed in another way.
func (v *voyage) beyond(c Coalition, move func(Coalition, int) Coalition, near *trim.Result) *trim.Result {
	n := len(v.fleet.causes)
	for k := range n {
		next := move(c, k)
		if next == c || v.answers[next].trim != near {
			continue
		}
		for j := range n {
			other, corner := move(c, j), move(next, j)
			if j == k || other == c || corner == next {
				continue
			}
			a, b := v.answers[other], v.answers[corner]
			if a.sails() && b.sails() && wayOf(a.trim) == wayOf(near) && wayOf(b.trim) == wayOf(near) {
				return near.Moved([]*trim.Result{a.trim, b.trim}, []float64{1, -1})
			}
		}
	}
	return near
}

// wayOf names the way in which a boat is sailed.
func wayOf(r *trim.Result) [2]string { return [2]string{r.Mode, r.Set} }

// sameWays tells whether two boats have modes and sets of sails of the same names.
func sameWays(a, b *boat.Boat) bool {
	modes := slices.EqualFunc(a.Modes, b.Modes, func(m, n boat.Mode) bool { return m.Name == n.Name && slices.Equal(m.Sets, n.Sets) })
	return modes && slices.EqualFunc(a.Sets, b.Sets, func(s, t boat.Set) bool { return s.Name == t.Name })
}

// last searches from all starts for boats that have no answer yet.
func (v *voyage) last(ctx context.Context, workers int) error {
	var list []Coalition
	for _, c := range v.fleet.needed {
		if !v.answers[c].sails() {
			list = append(list, c)
		}
	}
	found := make([]answer, len(list))
	err := trim.Steps(ctx, len(list), workers, func(ctx context.Context, i int, w *trim.Workspace) (err error) {
		found[i], err = v.attempt(ctx, list[i], nil, allStarts, w)
		return err
	}, nil)
	if err != nil {
		return err
	}
	for i, c := range list {
		v.trims++
		v.answers[c] = found[i]
	}
	return nil
}

// attempt trims one boat. That a boat cannot be asked is an answer, not an error.
func (v *voyage) attempt(ctx context.Context, c Coalition, from *trim.Result, how search, w *trim.Workspace) (answer, error) {
	r, err := v.trim(ctx, v.fleet.boats[c], from, how, w)
	switch {
	case ctx.Err() != nil || errors.Is(err, context.Canceled) || errors.Is(err, context.DeadlineExceeded):
		return answer{}, err
	case err != nil:
		return answer{why: err.Error()}, nil
	case r.Answer != trim.Found && r.Reason != nil:
		return answer{trim: r, why: r.Reason.Words}, nil
	}
	return answer{trim: r}, nil
}

// keep takes an answer where it is better than the one at hand.
func (v *voyage) keep(c Coalition, a answer) {
	if a.trim == nil && a.why == "" {
		return
	}
	v.trims++
	have := v.answers[c]
	switch {
	case !a.sails():
		if !have.sails() {
			v.answers[c] = a
		}
		return
	case have.sails():
		one := merit(have.trim)
		gain := (merit(a.trim) - one) / math.Abs(one)
		if !(gain > better) {
			return
		}
		if gain > agreement {
			v.mended++
		}
	}
	v.answers[c] = a
}
