//go:build unix

package trim

import (
	"math"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"syscall"
	"testing"
	"time"

	"foilwright/balance"
	"foilwright/boat"
	"foilwright/lattice"
)

// One best trim by this program and by bench/reference, each on one core and
// cold, in turn: bench/run runs it and says on what machine. The problem, the
// starts and what they reach are the same: TestReferenceIsTheSameProblem. Of the
// runs the fastest counts on either side. Times of the processor stand beside those
// by the clock, for a machine that has other things to do.
func BenchmarkAgainstReference(b *testing.B) {
	needSciPy(b)
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	sorrel, r := readExample(b, referenceBoat), referenceRequest()
	file := filepath.Join(b.TempDir(), "problem.json")
	reference, best := writeReference(b, sorrel, &r, file)
	_, found := searched(b, sorrel, &r)
	one := r
	one.Starts = 1
	var here, there times
	var answer referenceAnswer
	for b.Loop() {
		here.trim.take(timed(b, sorrel, r))
		here.start.take(timed(b, sorrel, one))
		here.state.take(stateTime(b, sorrel, best))
		answer = referenceAnswer{}
		runReference(b, &answer, file)
		there.trim.take(spent{answer.Seconds, answer.CPU})
		there.start.take(spent{answer.Ends[0].Seconds, answer.Ends[0].CPU})
		there.state.take(spent{clock: answer.OneState})
	}
	if answer.Best == nil || math.Abs(answer.Best.Progress/best.progress()-1) > 1e-3 {
		b.Fatal("the reference does not reach the same optimum")
	}
	b.ReportMetric(0, "ns/op")
	b.Logf("%s, GOEXPERIMENT=%q, lattice kernel %s, against %s", runtime.Version(), os.Getenv("GOEXPERIMENT"), lattice.Kernel(), answer.Build)
	b.Logf("%d starts; best progress %.6f m/s here, %.6f m/s there", len(reference.Starts), best.progress(), answer.Best.Progress)
	for _, a := range slices.Concat(found.surveyed, found.refined) {
		b.Logf("here: %2d strips a piece, %2d iterations, %3d evaluations, %2d sets of slopes", a.problem.strips(), a.outcome.Iterations, a.outcome.Evaluations, a.outcome.Gradients)
	}
	for _, end := range answer.Ends {
		b.Logf("numpy: %2d strips a piece, %2d iterations, %3d evaluations, %2d sets of slopes", best.problem.strips(), end.Iterations, end.Evaluations, end.Gradients)
	}
	b.Logf("%-44s %12s %12s %8s", "", "here", "numpy", "ratio")
	row := func(what, unit string, here, there float64) {
		b.Logf("%-44s %9.3f ms %9.1f ms %8.1f", what, 1e3*here, 1e3*there, there/here)
		b.ReportMetric(there/here, unit)
	}
	row("one best trim, all starts, by the clock", "trim-ratio", here.trim.clock, there.trim.clock)
	row("one best trim, all starts, processor", "trim-cpu-ratio", here.trim.cpu, there.trim.cpu)
	row("one best trim, first start, by the clock", "start-ratio", here.start.clock, there.start.clock)
	row("one best trim, first start, processor", "start-cpu-ratio", here.start.cpu, there.start.cpu)
	row("all loads in one state, new geometry, clock", "state-ratio", here.state.clock, there.state.clock)
}

// times are the shortest times of a best trim from all starts, of one from the
// first start alone, and of all loads in one state whose geometry is new.
type times struct{ trim, start, state spent }

// spent is time by the clock and of the processor, s; nothing taken yet is 0.
type spent struct{ clock, cpu float64 }

// take keeps the shorter of either.
func (s *spent) take(o spent) {
	if s.clock == 0 || o.clock < s.clock {
		s.clock = o.clock
	}
	if s.cpu == 0 || o.cpu < s.cpu {
		s.cpu = o.cpu
	}
}

// timed returns how long a best trim takes with nothing kept from before.
func timed(b *testing.B, sorrel *boat.Boat, r Request) spent {
	b.Helper()
	runtime.GC() // what others left behind is not this trim's
	begin, before := time.Now(), processorTime(b)
	if _, err := Best(b.Context(), sorrel, r, nil); err != nil {
		b.Fatal(err)
	}
	return spent{time.Since(begin).Seconds(), processorTime(b) - before}
}

// processorTime returns what this process has used of the processor, s.
func processorTime(b *testing.B) float64 {
	b.Helper()
	var used syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &used); err != nil {
		b.Fatal(err)
	}
	return time.Duration(used.Utime.Nano() + used.Stime.Nano()).Seconds()
}

// stateTime returns the shortest of as many times as bench/reference takes for
// one state.
func stateTime(b *testing.B, sorrel *boat.Boat, best *attempt) spent {
	b.Helper()
	p := best.problem
	var w balance.Workspace
	w.Foil.Options = p.request.Foil
	s := p.state0.Clone()
	angle := p.state(best.outcome.X, &s)
	shortest := math.Inf(1)
	for range 50 {
		s.Attitude.Heel += 1e-7
		begin := time.Now()
		if _, err := balance.At(sorrel, s, p.way.set, p.conditions(angle), &w); err != nil {
			b.Fatal(err)
		}
		shortest = math.Min(shortest, time.Since(begin).Seconds())
	}
	return spent{clock: shortest}
}
