package cli

import (
	"fmt"
	"io"
	"os"
	"sync"
	"time"

	"foilwright/report"
	"foilwright/study"
)

// ticker shows on a terminal how far long work has come, how long the rest will
// take, and what can be said so far. Elsewhere it is silent.
type ticker struct {
	w     io.Writer // nil where nothing is shown
	mutex sync.Mutex
	shown bool // a line is on the screen
	last  time.Time
	began time.Time
	first int // parts that were done when it began
	words string
}

// between is the least time from one line to the next.
const between = 100 * time.Millisecond

func newTicker(w io.Writer) *ticker {
	t := &ticker{}
	if f, ok := w.(*os.File); ok {
		if info, err := f.Stat(); err == nil && info.Mode()&os.ModeCharDevice != 0 {
			t.w = f
		}
	}
	return t
}

// tick tells that so many parts of so many are done.
func (t *ticker) tick(done, of int) {
	if t.w == nil {
		return
	}
	t.mutex.Lock()
	defer t.mutex.Unlock()
	now := time.Now()
	if t.began.IsZero() {
		t.began, t.first = now, done
	}
	if now.Sub(t.last) < between && done != of {
		return
	}
	t.last, t.shown = now, true
	fmt.Fprintf(t.w, "\r\x1b[K%d of %d%s%s", done, of, left(now.Sub(t.began), done-t.first, of-done), t.words)
}

// running tells what can be said so far.
func (t *ticker) running(r *study.Result) {
	if t.w == nil {
		return
	}
	t.mutex.Lock()
	defer t.mutex.Unlock()
	t.words = "; " + report.Running(r)
}

// left says how long the rest takes at the speed so far.
func left(elapsed time.Duration, done, remaining int) string {
	if done <= 0 || remaining <= 0 {
		return ""
	}
	return ", " + report.Left(elapsed.Seconds()*float64(remaining)/float64(done))
}

func (t *ticker) clear() {
	t.mutex.Lock()
	defer t.mutex.Unlock()
	if t.shown {
		fmt.Fprint(t.w, "\r\x1b[K")
	}
}
