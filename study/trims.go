package study

import (
	"context"
	"fmt"
	"sync"

	"foilwright/trim"
)

// trims are best trims that were found, and those that are being looked for: whoever
// asks for one of these waits for it beside who asked first. They are kept by the texts
// that made the boat and by the request, so a boat that is changed and changed back is
// answered at once. The zero value is ready, and goroutines may share it.
type trims struct {
	mu    sync.Mutex
	all   map[string]*search
	order []string // of those that ended, the oldest first
}

// fullTrims is how many best trims are kept: several winds for all boats of a desk.
const fullTrims = 64

// search is one that is under way or has ended.
type search struct {
	done   chan struct{} // closed at its end
	giveUp context.CancelFunc
	asking int // who waits for it

	result *trim.Result
	err    error
	panic  any
}

// best finds the best trim of a boat that texts of a print made, or has it. The result
// is the caller's own to add to; what lies behind it is shared, and is read only.
func (s *Shelf) best(ctx context.Context, print string, j trim.Job, w *trim.Workspace) (*trim.Result, error) {
	key, shared := keyOf(print, &j.Request)
	if s == nil || !shared {
		return trim.Best(ctx, j.Boat, j.Request, w)
	}
	one := s.trims.join(key, func(ctx context.Context) (*trim.Result, error) {
		bench := s.bench() // answers hold on to what they were worked out in: here all to the same few
		defer s.putBack(bench)
		return trim.Best(ctx, j.Boat, j.Request, &bench.trim)
	})
	select {
	case <-one.done:
	case <-ctx.Done():
		s.trims.leave(key, one)
		return nil, ctx.Err()
	}
	if one.panic != nil {
		panic(one.panic)
	}
	if one.err != nil {
		return nil, one.err
	}
	own := *one.result
	return &own, nil
}

// knows tells whether a best trim is at hand.
func (s *Shelf) knows(print string, r *trim.Request) bool {
	key, shared := keyOf(print, r)
	if s == nil || !shared {
		return false
	}
	s.trims.mu.Lock()
	defer s.trims.mu.Unlock()
	one := s.trims.all[key]
	return one != nil && one.ended()
}

// keyOf returns what a best trim is kept under; false for searches that begin at an
// answer, which are as many as there are answers.
func keyOf(print string, r *trim.Request) (string, bool) {
	return fmt.Sprintf("%s %+v", print, *r), print != "" && r.From == nil
}

// join takes a seat at a search, which is begun where there is none.
func (t *trims) join(key string, look func(context.Context) (*trim.Result, error)) *search {
	t.mu.Lock()
	defer t.mu.Unlock()
	s := t.all[key]
	if s == nil {
		if t.all == nil {
			t.all = map[string]*search{}
		}
		ctx, giveUp := context.WithCancel(context.Background())
		s = &search{done: make(chan struct{}), giveUp: giveUp}
		t.all[key] = s
		go t.look(ctx, key, s, look)
	}
	s.asking++
	return s
}

// leave gives a seat up. A search for which nobody waits any more is given up, and who
// asks next begins anew.
func (t *trims) leave(key string, s *search) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if s.asking--; s.asking == 0 && !s.ended() {
		s.giveUp()
		t.forget(key, s)
	}
}

// forget takes a search out, unless another is in its place.
func (t *trims) forget(key string, s *search) {
	if t.all[key] == s {
		delete(t.all, key)
	}
}

// ended tells whether a search has ended.
func (s *search) ended() bool {
	select {
	case <-s.done:
		return true
	default:
		return false
	}
}

// look does a search, and keeps what it found. What failed is not kept.
func (t *trims) look(ctx context.Context, key string, s *search, look func(context.Context) (*trim.Result, error)) {
	defer s.giveUp()
	func() {
		defer func() { s.panic = recover() }()
		s.result, s.err = look(ctx)
	}()
	t.mu.Lock()
	defer t.mu.Unlock()
	defer close(s.done)
	if s.err != nil || s.panic != nil {
		t.forget(key, s)
		return
	}
	if t.all[key] != s {
		return // nobody waited any more
	}
	if t.order = append(t.order, key); len(t.order) > fullTrims {
		delete(t.all, t.order[0])
		t.order = t.order[1:]
	}
}
