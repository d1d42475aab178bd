package batch

import (
	"context"
	"testing"
	"testing/synctest"
	"time"
)

// Work waits while an answer is worked out and a little longer, and no more than its
// patience; without a gate, or with an open one, it does not wait.
func TestWorkGivesWay(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var g Gate
		ctx := Behind(t.Context(), &g)
		waited := func(ctx context.Context) time.Duration {
			began := time.Now()
			GiveWay(ctx)
			return time.Since(began)
		}
		if w := waited(t.Context()) + waited(ctx); w != 0 {
			t.Errorf("waited %v at an open gate", w)
		}
		leave := g.Enter()
		g.Enter()()
		time.AfterFunc(time.Second, leave)
		if w := waited(ctx); w < time.Second+Linger || w > time.Second+2*Linger {
			t.Errorf("waited %v for an answer that took a second", w)
		}
		if w := waited(ctx); w != 0 {
			t.Errorf("waited %v at a gate that is open again", w)
		}
		defer g.Enter()()
		if w := waited(ctx); w < patience || w > patience+Linger {
			t.Errorf("waited %v beside a hand that never rests", w)
		}
		short, cancel := context.WithTimeout(ctx, time.Millisecond)
		defer cancel()
		if w := waited(short); w > time.Millisecond {
			t.Errorf("waited %v in a context that had ended", w)
		}
	})
}
