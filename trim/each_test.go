package trim

import (
	"context"
	"errors"
	"strings"
	"sync/atomic"
	"testing"

	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/si"
)

func easy(t *testing.T) Job {
	t.Helper()
	return Job{Boat: monohull(t), Request: Request{
		WindSpeed: 9, Profile: fluid.OpenSea(), WindAngle: 90 * si.Degree, Water: fluid.StandardSea(), Air: fluid.StandardAir(), Aim: AtAngle, Starts: 1,
	}}
}

// Answers come in the order of the jobs, and every job is counted.
func TestEachKeepsTheOrder(t *testing.T) {
	a, b := easy(t), easy(t)
	b.Request.WindSpeed = 8
	var counted atomic.Int64
	got, err := Each(t.Context(), []Job{a, b}, 2, func(int) { counted.Add(1) })
	if err != nil {
		t.Fatal(err)
	}
	if got[0].TrueWindSpeed != 9 || got[1].TrueWindSpeed != 8 || counted.Load() != 2 {
		t.Errorf("winds %v and %v, %d counted", got[0].TrueWindSpeed, got[1].TrueWindSpeed, counted.Load())
	}
	none, err := Each(t.Context(), nil, 0, nil)
	if err != nil || len(none) != 0 {
		t.Errorf("no jobs: %v, %v", none, err)
	}
}

// A job that cannot be put stops the others, and its error is the one told.
func TestEachTellsTheJobThatFailed(t *testing.T) {
	a, b := easy(t), easy(t)
	b.Request.WindSpeed = -1
	_, err := Each(t.Context(), []Job{a, b}, 2, nil)
	var refused *RequestError
	if !errors.As(err, &refused) || !strings.Contains(err.Error(), "true wind speed") {
		t.Errorf("error %v, want that of the second job", err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := Each(ctx, []Job{a, a}, 2, nil); !errors.Is(err, context.Canceled) {
		t.Errorf("error %v, want that it was cancelled", err)
	}
}

// A panic in a job reaches the caller, who can tell of it.
func TestEachPassesPanicsOn(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("the panic was lost")
		}
	}()
	_, _ = Each(t.Context(), []Job{easy(t), {Request: easy(t).Request}}, 2, nil)
}

func TestNamesByWind(t *testing.T) {
	for _, c := range []struct {
		name, byWind string
		windFrom     boat.Side
	}{
		{"starboard main cant", "leeward main cant", boat.Port},
		{"starboard main cant", "windward main cant", boat.Starboard},
		{"port main", "windward main", boat.Port},
		{"port", "windward", boat.Port},
		{"rudder", "rudder", boat.Port},
		{"portly", "portly", boat.Port},
	} {
		if got := ByWind(c.name, c.windFrom); got != c.byWind {
			t.Errorf("%s with the wind from %s is %q, want %q", c.name, c.windFrom, got, c.byWind)
		}
		if got := BySide(c.byWind, c.windFrom); got != c.name {
			t.Errorf("%s with the wind from %s is %q, want %q", c.byWind, c.windFrom, got, c.name)
		}
	}
}
