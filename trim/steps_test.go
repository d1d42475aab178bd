package trim

import (
	"context"
	"errors"
	"testing"
)

// The error is that of the first step that failed for itself; nothing is done
// twice, and a panic reaches the caller.
func TestStepsTellWhatFailed(t *testing.T) {
	broken := errors.New("broken")
	do := func(ctx context.Context, i int, _ *Workspace) error {
		if i == 3 {
			return broken
		}
		return ctx.Err()
	}
	for _, workers := range []int{0, 1, 2, 9} {
		if err := Steps(t.Context(), 6, workers, do, nil); !errors.Is(err, broken) {
			t.Errorf("%d goroutines: error %v, want that of the step that broke", workers, err)
		}
	}
	if err := Steps(t.Context(), 0, 2, do, nil); err != nil {
		t.Errorf("no steps: %v", err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if err := Steps(ctx, 3, 2, do, nil); !errors.Is(err, context.Canceled) {
		t.Errorf("error %v, want that it was cancelled", err)
	}
	defer func() {
		if recover() != "fault" {
			t.Error("the panic was lost")
		}
	}()
	_ = Steps(t.Context(), 3, 2, func(context.Context, int, *Workspace) error { panic("fault") }, nil)
}
