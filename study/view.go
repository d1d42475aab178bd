package study

import (
	"context"

	"foilwright/balance"
	"foilwright/boat"
	"foilwright/foil"
	"foilwright/trim"
)

// View asks for one boat's best trim together with her shape in that state, for
// drawings of her.
type View struct {
	Sailing

	// Near asks for the search to begin at the last answer for the boat's file on the
	// shelf alone, in that answer's way of sailing: while something is dragged, answers
	// lie near by. The side force carried is left out. Where there is none the search is the usual one. What such a search
	// finds is a best trim near by; a usual one confirms it or finds a better.
	Near bool `json:"near,omitempty"`

	// First asks for what there is to show at once: the best trim where the shelf has
	// it, else what is found from one start in the first mode and set of sails. Where
	// that finds nothing the search is the usual one.
	First bool `json:"first,omitempty"`
}

// Verb names the question.
func (*View) Verb() string { return "view" }

// ViewResult is a boat in one state: how she lies, what acts on her, and what of her
// can be taken hold of.
type ViewResult struct {
	Trim     *trim.Result `json:"trim"`               // where there is no answer, the best attempt
	Searched Searched     `json:"searched,omitempty"` // empty where nothing was
	Dragged  bool         `json:"dragged,omitempty"`  // the side force carried is left out
	Shape    Shape        `json:"shape"`
	Spans    []Span       `json:"spans"`
	Handles  []Handle     `json:"handles"`
	Held     HeldState    `json:"held"` // a question that holds her in this state
}

// Searched tells how an answer was searched for.
type Searched string

// The ways to search.
const (
	Everywhere Searched = "from the usual starts"
	NearBy     Searched = "from the last answer alone"
	OneStart   Searched = "from one start alone"
)

func (q *View) ask(ctx context.Context, d *desk) (any, Verdict, error) {
	b, err := d.one(q.Verb())
	if err != nil {
		return nil, "", err
	}
	bench := d.request.Shelf.bench()
	defer d.request.Shelf.putBack(bench)
	views, verdict := []*ViewResult{}, HonestNo
	requests, err := q.requests()
	if err != nil {
		return nil, "", err
	}
	for _, r := range requests {
		if r, err = q.forBoat(b, r); err != nil {
			return nil, "", err
		}
		answer, searched, err := q.search(ctx, d, trim.Job{Boat: b, Request: r}, bench)
		if err != nil {
			return nil, "", err
		}
		if answer.Answer == trim.Found {
			verdict = Answered
		}
		bench.cut(r.Foil)
		v := viewOf(b, answer, bench)
		v.Searched, v.Dragged = searched, searched == NearBy
		views = append(views, v)
	}
	return views, verdict, nil
}

// search finds a best trim as it is asked for, and tells how.
func (q *View) search(ctx context.Context, d *desk, j trim.Job, w *bench) (*trim.Result, Searched, error) {
	file := d.request.Boats[0]
	last := d.request.Shelf.lastOf(file)
	switch {
	case q.Near && last.fits(j.Boat, j.Request):
		j.Request.From, j.Request.Starts, j.Request.Why = last.Result, trim.OnlyFrom, trim.Shortfalls
		j.Request.Mode, j.Request.Set, j.Request.Tell = last.Mode, last.Set, trim.WithoutCarried
		answer, err := trim.Best(ctx, j.Boat, j.Request, &w.trim)
		if err == nil && answer.Answer == trim.Found {
			d.request.Shelf.keepLast(file, answer)
		}
		return answer, NearBy, err
	case q.First && !d.request.Shelf.knows(d.prints[j.Boat], &j.Request):
		answer, err := trim.Best(ctx, j.Boat, firstWay(j), &w.trim)
		if err != nil || answer.Answer == trim.Found {
			return answer, OneStart, err
		}
	}
	answer, err := d.best(ctx, j, &w.trim)
	if err == nil && answer.Answer == trim.Found {
		d.request.Shelf.keepLast(file, answer)
	}
	return answer, Everywhere, err
}

// firstWay returns the request for one start, in the first mode and set of sails that
// are asked for.
func firstWay(j trim.Job) trim.Request {
	r, b := j.Request, j.Boat
	r.Starts, r.Why = 1, trim.Shortfalls
	for i := range b.Modes {
		m := &b.Modes[i]
		if r.Mode != "" && r.Mode != m.Name {
			continue
		}
		sets := m.Sets // none are all
		for set := 0; len(m.Sets) == 0 && set < len(b.Sets); set++ {
			sets = append(sets, set)
		}
		for _, set := range sets {
			if r.Set == "" || r.Set == b.Sets[set].Name {
				r.Mode, r.Set = m.Name, b.Sets[set].Name
				return r
			}
		}
	}
	if r.Set == "" && len(b.Sets) > 0 {
		r.Set = b.Sets[0].Name
	}
	return r
}

// viewOf tells how a boat lies in the state of a result, and what of her can be taken
// hold of.
func viewOf(b *boat.Boat, r *trim.Result, w *bench) *ViewResult {
	v := &ViewResult{Trim: r, Shape: shapeOf(b, r), Spans: []Span{}, Held: heldAs(b, r)}
	if _, err := balance.At(b, r.State, r.SetIndex, r.Conditions, &w.state); err == nil {
		v.Spans = spans(b, foil.Strips(b, r.State, r.Conditions.Water, &w.state.Foil))
	}
	v.Handles = handlesOf(b, r)
	return v
}

// last is an answer that was kept.
type last struct{ *trim.Result }

// fits tells whether an answer can stand at the beginning of a search.
func (l last) fits(b *boat.Boat, r trim.Request) bool {
	return l.Result != nil && l.Boat == b.Name && len(l.State.Settings) == len(b.Controls) && l.Conditions.WindFrom() == r.WindFrom &&
		(r.Mode == "" || r.Mode == l.Mode) && (r.Set == "" || r.Set == l.Set)
}

// lastOf returns the last answer for the boat of a file.
func (s *Shelf) lastOf(file string) last {
	if s == nil {
		return last{}
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	return last{s.last[file]}
}

// keepLast keeps an answer for the boat of a file.
func (s *Shelf) keepLast(file string, r *trim.Result) {
	if s == nil {
		return
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.last == nil {
		s.last = map[string]*trim.Result{}
	}
	s.last[file] = r
}
