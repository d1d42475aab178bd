package trim

import (
	"context"
	"errors"
	"strings"
	"sync"

	"foilwright/boat"
)

// Job is one request for one boat.
type Job struct {
	Boat    *boat.Boat
	Request Request
}

// Each answers every job over a number of goroutines (at least one), each with a
// workspace of its own, and returns the answers in the order of the jobs. One
// goroutine or many, the bits are the same: no job sees another. done, where it
// is not nil, is called after each job, from any of the goroutines.
//
// The error is that of the first job in order that failed for itself; the others
// are then given up. A panic in a job is raised again in the caller.
func Each(ctx context.Context, jobs []Job, workers int, done func(job int)) ([]*Result, error) {
	results := make([]*Result, len(jobs))
	err := Steps(ctx, len(jobs), workers, func(ctx context.Context, i int, w *Workspace) (err error) {
		results[i], err = Best(ctx, jobs[i].Boat, jobs[i].Request, w)
		return err
	}, done)
	return results, err
}

// Steps does steps 0 to n−1 over a number of goroutines (at least one), each with a
// workspace of its own, and returns when all have ended. done, where it is not nil,
// is called after each step that did not fail, from any of the goroutines.
//
// The error is the context's where that was cancelled, else that of the first step in
// order that failed for itself; the others are then given up. A panic in a step is
// raised again in the caller.
func Steps(ctx context.Context, n, workers int, do func(ctx context.Context, i int, w *Workspace) error, done func(i int)) error {
	outer := ctx
	ctx, giveUp := context.WithCancel(ctx)
	defer giveUp()
	errs, panics := make([]error, n), make([]any, n)
	next := make(chan int)
	var group sync.WaitGroup
	for range min(max(1, workers), max(1, n)) {
		group.Go(func() {
			var w Workspace
			for i := range next {
				func() {
					defer func() { panics[i] = recover() }()
					errs[i] = do(ctx, i, &w)
				}()
				if errs[i] != nil || panics[i] != nil {
					giveUp()
				} else if done != nil {
					done(i)
				}
			}
		})
	}
feed:
	for i := range n {
		select {
		case next <- i:
		case <-ctx.Done():
			break feed
		}
	}
	close(next)
	group.Wait()
	for _, p := range panics {
		if p != nil {
			panic(p)
		}
	}
	if err := outer.Err(); err != nil {
		return err
	}
	return firstOwn(errs)
}

// firstOwn returns the first error that is not another job's failure passed on,
// else the first of all.
func firstOwn(errs []error) error {
	var passed error
	for _, err := range errs {
		if err != nil && !errors.Is(err, context.Canceled) {
			return err
		}
		if passed == nil {
			passed = err
		}
	}
	return passed
}

// ByWind names a part, piece or control by the wind: "starboard main" is the
// "leeward main" with the wind from port. Names without a side stay.
func ByWind(name string, windFrom boat.Side) string {
	side, rest, _ := strings.Cut(name, " ")
	for _, b := range [2]boat.Bearing{boat.Windward, boat.Leeward} {
		if side == b.On(windFrom).String() {
			return strings.TrimSpace(b.String() + " " + rest)
		}
	}
	return name
}

// BySide is the inverse of ByWind: "leeward main" is the "starboard main" with
// the wind from port.
func BySide(name string, windFrom boat.Side) string {
	bearing, rest, _ := strings.Cut(name, " ")
	for _, b := range [2]boat.Bearing{boat.Windward, boat.Leeward} {
		if bearing == b.String() {
			return strings.TrimSpace(b.On(windFrom).String() + " " + rest)
		}
	}
	return name
}
