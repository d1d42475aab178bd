package batch

import (
	"context"
	"sync"
	"time"
)

// Gate holds long work up while somebody waits for short work. The zero value is
// open, and goroutines may share it.
type Gate struct {
	mu     sync.Mutex
	inside int       // short answers that are being worked out
	last   time.Time // when the last of them was there
}

// Times of a gate: how long it stays shut after an answer, since whoever drags asks again
// at once, and how long it holds one part of long work up at most, so that this comes on
// also beside a hand that never rests.
const (
	Linger   = 200 * time.Millisecond
	patience = 5 * time.Second
)

// Enter shuts the gate until the function that it returns is called, and for a little
// while longer.
func (g *Gate) Enter() (leave func()) {
	g.mu.Lock()
	defer g.mu.Unlock()
	g.inside++
	return sync.OnceFunc(func() {
		g.mu.Lock()
		defer g.mu.Unlock()
		g.inside--
		g.last = time.Now()
	})
}

// shut returns how long the gate stays shut at least; 0 where it is open.
func (g *Gate) shut() time.Duration {
	g.mu.Lock()
	defer g.mu.Unlock()
	if g.inside > 0 {
		return Linger
	}
	if g.last.IsZero() {
		return 0
	}
	return max(0, Linger-time.Since(g.last))
}

// wait returns when the gate is open, when patience has run out or the context ended.
func (g *Gate) wait(ctx context.Context) {
	for began := time.Now(); time.Since(began) < patience; {
		left := g.shut()
		if left == 0 {
			return
		}
		select {
		case <-ctx.Done():
			return
		case <-time.After(left):
		}
	}
}

type gateKey struct{}

// Behind returns a context whose work gives way at a gate.
func Behind(ctx context.Context, g *Gate) context.Context {
	return context.WithValue(ctx, gateKey{}, g)
}

// GiveWay holds work up while the gate that its context stands behind is shut. Long work
// calls it between its parts; without a gate it returns at once.
func GiveWay(ctx context.Context) {
	if g, behind := ctx.Value(gateKey{}).(*Gate); behind {
		g.wait(ctx)
	}
}
