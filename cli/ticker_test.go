package cli

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"foilwright/odds"
	"foilwright/study"
)

// What is left is told in seconds, then in minutes, and not where nothing is known.
func TestTimeLeft(t *testing.T) {
	for _, c := range []struct {
		elapsed         time.Duration
		done, remaining int
		want            string
	}{
		{10 * time.Second, 100, 200, ", 20 s left"},
		{10 * time.Second, 10, 200, ", 3 min left"},
		{10 * time.Second, 0, 200, ""},
		{10 * time.Second, 200, 0, ""},
	} {
		if got := left(c.elapsed, c.done, c.remaining); got != c.want {
			t.Errorf("%v for %d, %d to go: %q, want %q", c.elapsed, c.done, c.remaining, got, c.want)
		}
	}
}

// A line tells how far work has come and what can be said so far; off a terminal
// there is none.
func TestTicker(t *testing.T) {
	r := &study.Result{Results: &odds.Result{Boats: []odds.Figure{{Name: "Sorrel"}}, Pairs: []odds.Pair{{First: "Sorrel", Second: "Tansy", FirstFaster: 0.71, SecondFaster: 0.29, ChanceError: 0.03}}}}
	var off bytes.Buffer
	silent := newTicker(&off)
	silent.tick(1, 2)
	silent.running(r)
	silent.clear()
	if off.Len() > 0 {
		t.Errorf("off a terminal: %q", off.String())
	}
	var on bytes.Buffer
	shows := &ticker{w: &on}
	shows.running(r)
	shows.tick(16, 1024)
	shows.tick(24, 1024) // too soon after the last
	shows.tick(1024, 1024)
	shows.clear()
	got := on.String()
	for _, want := range []string{"16 of 1024", "1024 of 1024", "; Sorrel faster: 71.0 % ± 3.0 %", "\r\x1b[K"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q does not show %q", got, want)
		}
	}
	if strings.Contains(got, "\r\x1b[K24 of") || !strings.HasSuffix(got, "\r\x1b[K") {
		t.Errorf("%q", got)
	}
}
