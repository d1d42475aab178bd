package why

import (
	"context"
	"errors"
	"sync"

	"foilwright/trim"
)

// each does steps 0 to n−1 over a number of goroutines (at least one), each with
// a workspace of its own. The error is that of the first step in order that failed
// for itself; the others are then given up. A panic is raised again in the caller.
func each(ctx context.Context, n, workers int, do func(ctx context.Context, i int, w *trim.Workspace) error) error {
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
	for _, err := range errs {
		if err != nil && !errors.Is(err, context.Canceled) {
			return err
		}
	}
	return nil
}
