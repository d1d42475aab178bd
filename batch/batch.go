package batch

import (
	"context"
	"errors"
	"sync"
)

// Work is the pieces from From up to, and without, Until.
type Work struct {
	From, Until int
	// Do makes one piece. It is called from any goroutine, must not depend on
	// what other pieces made, and gives the same bytes for the same piece.
	Do func(ctx context.Context, piece int) ([]byte, error)
	// Take receives every piece in order, one at a time. An error ends the work.
	Take func(piece int, made []byte) error
}

// Runner does work. It ends with nil once every piece was taken; else with the
// error of the first piece, in order, that failed for itself, or with that of
// the context. The pieces that were taken are then an unbroken beginning.
type Runner func(ctx context.Context, w Work) error

// ahead is how many pieces for each goroutine may be made before the one that is
// to be taken next: it bounds what is held.
const ahead = 16

// made is one piece that was made, or why it was not.
type made struct {
	piece int
	bytes []byte
	err   error
	panic any
}

// Cores returns the runner that makes pieces on a number of goroutines, at least
// one. A panic in a piece is raised again in the caller.
func Cores(workers int) Runner {
	workers = max(1, workers)
	return func(ctx context.Context, w Work) error {
		ctx, giveUp := context.WithCancel(ctx)
		defer giveUp()
		next, done := make(chan int), make(chan made)
		slots := make(chan struct{}, ahead*workers)
		var group sync.WaitGroup
		for range workers {
			group.Go(func() {
				for piece := range next {
					done <- make1(ctx, w, piece)
				}
			})
		}
		group.Go(func() {
			defer close(next)
			for piece := w.From; piece < w.Until; piece++ {
				select {
				case slots <- struct{}{}:
				case <-ctx.Done():
					return
				}
				select {
				case next <- piece:
				case <-ctx.Done():
					return
				}
			}
		})
		go func() {
			group.Wait()
			close(done)
		}()
		return gather(ctx, w, done, slots, giveUp)
	}
}

// make1 makes one piece.
func make1(ctx context.Context, w Work, piece int) (m made) {
	m.piece = piece
	defer func() { m.panic = recover() }()
	m.bytes, m.err = w.Do(ctx, piece)
	return m
}

// gather hands pieces on in order until all are done.
func gather(ctx context.Context, w Work, done <-chan made, slots <-chan struct{}, giveUp func()) error {
	waiting := make(map[int]made)
	due, failed := w.From, error(nil)
	var raised any
	for m := range done {
		if m.panic != nil && raised == nil {
			raised = m.panic
		}
		if m.err != nil || m.panic != nil {
			giveUp()
		}
		waiting[m.piece] = m
		for {
			m, here := waiting[due]
			if !here || failed != nil || raised != nil {
				break
			}
			delete(waiting, due)
			due++
			<-slots
			if failed = m.err; failed == nil {
				failed = w.Take(m.piece, m.bytes)
			}
			if failed != nil {
				giveUp()
			}
		}
	}
	if raised != nil {
		panic(raised)
	}
	return reason(ctx, failed, waiting, due < w.Until)
}

// reason returns why the work ended: an error of its own before one that only
// says that it was given up. short tells whether pieces are missing.
func reason(ctx context.Context, failed error, waiting map[int]made, short bool) error {
	if failed != nil && !errors.Is(failed, context.Canceled) {
		return failed
	}
	first, err := -1, error(nil)
	for piece, m := range waiting {
		if m.err != nil && !errors.Is(m.err, context.Canceled) && (first < 0 || piece < first) {
			first, err = piece, m.err
		}
	}
	switch {
	case err != nil:
		return err
	case failed != nil:
		return failed
	case short:
		return ctx.Err()
	}
	return nil
}
