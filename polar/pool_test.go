package polar

import (
	"context"
	"errors"
	"testing"

	"foilwright/trim"
)

// The error is that of the first step that failed for itself; nothing is done
// twice, and a panic reaches the caller.
func TestEachTellsWhatFailed(t *testing.T) {
	broken := errors.New("broken")
	do := func(ctx context.Context, i int, _ *trim.Workspace) error {
		if i == 3 {
			return broken
		}
		return ctx.Err()
	}
	for _, workers := range []int{0, 1, 2, 9} {
		if err := each(t.Context(), 6, workers, do, func(int) {}); !errors.Is(err, broken) {
			t.Errorf("%d goroutines: error %v, want that of the step that broke", workers, err)
		}
	}
	if err := each(t.Context(), 0, 2, do, func(int) {}); err != nil {
		t.Errorf("no steps: %v", err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if err := each(ctx, 3, 2, do, func(int) {}); !errors.Is(err, context.Canceled) {
		t.Errorf("error %v, want that it was cancelled", err)
	}
	defer func() {
		if recover() != "fault" {
			t.Error("the panic was lost")
		}
	}()
	_ = each(t.Context(), 3, 2, func(context.Context, int, *trim.Workspace) error { panic("fault") }, func(int) {})
}
