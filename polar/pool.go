package polar

import (
	"context"
	"errors"
	"sync"

	"foilwright/trim"
)

// each does n steps over a number of goroutines, each with a workspace of its
// own, and returns when all have ended. The first failure gives up the rest;
// the error is that of the first step in order that failed for itself. A panic
// in a step is raised again in the caller.
func each(ctx context.Context, n, workers int, do func(ctx context.Context, i int, w *trim.Workspace) error, done func(i int)) error {
	outer := ctx
	ctx, giveUp := context.WithCancel(ctx)
	defer giveUp()
	errs, panics := make([]error, n), make([]any, n)
	next := make(chan int)
	var group sync.WaitGroup
	for range min(max(1, workers), max(1, n)) {
		group.Go(func() {
			var w trim.Workspace
			for i := range next {
				func() {
					defer func() { panics[i] = recover() }()
					errs[i] = do(ctx, i, &w)
				}()
				if errs[i] != nil || panics[i] != nil {
					giveUp()
				} else {
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

// firstOwn returns the first error that is not another step's failure passed on.
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
