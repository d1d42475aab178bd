package study

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"sync"
	"sync/atomic"
	"testing"

	"foilwright/si"
	"foilwright/trim"
)

// Whoever asks for a trim that is being looked for waits for that one search; what is
// found is kept, what fails is not.
func TestTrimsAreLookedForOnce(t *testing.T) {
	var all trims
	begun, on := make(chan struct{}), make(chan struct{})
	var looks atomic.Int32
	look := func(context.Context) (*trim.Result, error) {
		if looks.Add(1) == 1 {
			close(begun)
		}
		<-on
		return &trim.Result{}, nil
	}
	var group sync.WaitGroup
	for range 4 {
		group.Go(func() { <-all.join("a", look).done })
	}
	<-begun
	close(on)
	group.Wait()
	<-all.join("a", look).done
	if looks.Load() != 1 {
		t.Errorf("%d searches for one trim", looks.Load())
	}
	failing := func(context.Context) (*trim.Result, error) { return nil, errors.New("no") }
	for range 2 {
		if s := all.join("b", failing); func() error { <-s.done; return s.err }() == nil {
			t.Error("a failure was not told")
		}
	}
	if all.all["b"] != nil {
		t.Error("a failure was kept")
	}
	s := all.join("c", func(context.Context) (*trim.Result, error) { panic("own fault") })
	if <-s.done; s.panic != "own fault" {
		t.Errorf("the panic is told as %v", s.panic)
	}
}

// A search goes on while anyone waits for it, and is given up when nobody does.
func TestTrimsAreGivenUp(t *testing.T) {
	var all trims
	ended := make(chan error, 1)
	s := all.join("a", func(ctx context.Context) (*trim.Result, error) {
		<-ctx.Done()
		ended <- ctx.Err()
		return nil, ctx.Err()
	})
	if all.join("a", nil) != s {
		t.Fatal("a second search was begun")
	}
	all.leave("a", s)
	if s.ended() || all.all["a"] != s {
		t.Fatal("given up while one waits")
	}
	all.leave("a", s)
	if err := <-ended; !errors.Is(err, context.Canceled) || all.all["a"] == s {
		t.Errorf("not given up: %v", err)
	}
}

// No more are kept than there is room for.
func TestTrimsKeepToTheirRoom(t *testing.T) {
	var all trims
	found := func(context.Context) (*trim.Result, error) { return &trim.Result{}, nil }
	for i := range 2 * fullTrims {
		<-all.join(fmt.Sprint(i), found).done
	}
	if len(all.all) != fullTrims || len(all.order) != fullTrims {
		t.Errorf("%d kept, %d in order, and there is room for %d", len(all.all), len(all.order), fullTrims)
	}
}

// A first answer says what it is and balances; once the best trim is on the shelf it is
// told in its place, and a shelf changes no figure of it.
func TestFirstAnswer(t *testing.T) {
	var shelf Shelf
	ask := func(first bool, on *Shelf) *ViewResult {
		t.Helper()
		q := &View{Sailing: Sailing{WindSpeeds: []si.Speed{17 * si.Knot}, Conditions: Standard()}, First: first}
		r, err := Run(context.Background(), Request{Boats: []string{sorrel}, Question: q, Open: open, Shelf: on})
		if err != nil {
			t.Fatal(err)
		}
		return r.Results.([]*ViewResult)[0]
	}
	one := ask(true, &shelf)
	if one.Searched != OneStart || one.Trim.Answer != trim.Found {
		t.Errorf("searched %q, answer %q", one.Searched, one.Trim.Answer)
	}
	best := ask(false, &shelf)
	again := ask(true, &shelf)
	if best.Searched != Everywhere || again.Searched != Everywhere {
		t.Errorf("searched %q, then %q", best.Searched, again.Searched)
	}
	if one.Trim.Progress() > best.Trim.Progress()*(1+1e-6) {
		t.Errorf("the first answer makes %v, the best %v", one.Trim.Progress(), best.Trim.Progress())
	}
	text := func(v *ViewResult) string {
		text, err := json.Marshal(v)
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	}
	if text(again) != text(best) || text(ask(false, nil)) != text(best) {
		t.Error("a shelf changes the answer")
	}
}
