package job

import (
	"fmt"
	"strings"
	"time"

	"foilwright/report"
	"foilwright/study"
)

// pace is how fast work came on lately.
type pace struct {
	times []time.Time // of the latest, the oldest first
	done  []int
}

// How much of the past counts for the pace, in marks and between them.
const (
	paceMarks = 24
	paceTime  = 500 * time.Millisecond
)

// at notes how far work had come.
func (p *pace) at(now time.Time, done int) {
	if n := len(p.times); n > 0 && now.Sub(p.times[n-1]) < paceTime {
		return
	}
	p.times, p.done = append(p.times, now), append(p.done, done)
	if len(p.times) > paceMarks {
		p.times, p.done = p.times[1:], p.done[1:]
	}
}

// left returns how long the rest takes at that pace, s; nil where that is not known.
func (p *pace) left(of int) *float64 {
	last := len(p.times) - 1
	if last < 1 || p.done[last] <= p.done[0] || of <= p.done[last] {
		return nil
	}
	each := p.times[last].Sub(p.times[0]).Seconds() / float64(p.done[last]-p.done[0])
	left := each*float64(of-p.done[last]) - time.Since(p.times[last]).Seconds()
	left = max(0, left)
	return &left
}

// words says how far a job has come.
func (s *State) words() string {
	switch s.Standing {
	case Waiting:
		if s.Done > 0 {
			return fmt.Sprintf("waits, with %s done", counted(s.Done, s.Of))
		}
		return "waits for its turn"
	case Running:
		switch {
		case s.Of == 0:
			return "begins: the boats as they are"
		case s.Done >= s.Of:
			return counted(s.Done, s.Of) + ", gathers the answer"
		case s.Left != nil:
			return counted(s.Done, s.Of) + ", " + report.Left(*s.Left)
		}
		return counted(s.Done, s.Of)
	case Done:
		if s.Verdict == study.HonestNo {
			return "done: there is no answer, and it says why"
		}
		return "done"
	case Cancelled, Interrupted:
		if s.Of > 0 {
			return fmt.Sprintf("%s, with %s done", s.Standing, counted(s.Done, s.Of))
		}
	}
	return string(s.Standing)
}

func counted(done, of int) string { return fmt.Sprintf("%d of %d", done, of) }

// finding is the first sentence of an answer.
func finding(r *study.Result) string {
	if words := report.Running(r); words != "" {
		return words
	}
	first, _, _ := strings.Cut(report.Text(r), "\n\n")
	return strings.Join(strings.Fields(first), " ")
}
