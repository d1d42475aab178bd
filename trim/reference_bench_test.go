package trim

import (
	"math"
	"os"
	"path/filepath"
	"runtime"
	"testing"
	"time"

	"foilwright/balance"
	"foilwright/boat"
)

// One best trim by this program and by bench/reference, each on one core and
// cold, in turn: bench/run runs it and says on what machine. The problem, the
// starts and what they reach are the same: TestReferenceIsTheSameProblem. Of the
// runs the fastest counts on either side.
func BenchmarkAgainstReference(b *testing.B) {
	needSciPy(b)
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	sorrel, r := readExample(b, referenceBoat), referenceRequest()
	file := filepath.Join(b.TempDir(), "problem.json")
	reference, best := writeReference(b, sorrel, &r, file)
	one := r
	one.Starts = 1
	here, there := times{}, times{}
	var answer referenceAnswer
	for b.Loop() {
		here.whole.take(timed(b, sorrel, r))
		here.start.take(timed(b, sorrel, one))
		here.state.take(stateTime(b, sorrel, best))
		runReference(b, &answer, file)
		there.whole.take(answer.Seconds)
		there.start.take(answer.Ends[0].Seconds)
		there.state.take(answer.OneState)
	}
	if answer.Best == nil || math.Abs(answer.Best.Progress/best.progress()-1) > 1e-3 {
		b.Fatal("the reference does not reach the same optimum")
	}
	b.Logf("%s GOEXPERIMENT=%q against %s", runtime.Version(), os.Getenv("GOEXPERIMENT"), answer.Build)
	b.Logf("%d starts; progress %.6f m/s here, %.6f m/s there", len(reference.Starts), best.progress(), answer.Best.Progress)
	b.ReportMetric(0, "ns/op")
	for _, row := range []struct {
		what        string
		here, there seconds
	}{{"trim", here.whole, there.whole}, {"start", here.start, there.start}, {"state", here.state, there.state}} {
		b.ReportMetric(1e3*float64(row.here), row.what+"-here-ms")
		b.ReportMetric(1e3*float64(row.there), row.what+"-numpy-ms")
		b.ReportMetric(float64(row.there/row.here), row.what+"-ratio")
	}
}

// seconds is the shortest time taken so far, s; nothing taken yet is 0.
type seconds float64

func (s *seconds) take(v float64) {
	if *s == 0 || v < float64(*s) {
		*s = seconds(v)
	}
}

// times holds the shortest times of a best trim from all starts, of one from the
// first start alone, and of all loads in one state whose geometry is new.
type times struct{ whole, start, state seconds }

// timed returns how long a best trim takes with nothing kept from before, s.
func timed(b *testing.B, sorrel *boat.Boat, r Request) float64 {
	begin := time.Now()
	if _, err := Best(b.Context(), sorrel, r, nil); err != nil {
		b.Fatal(err)
	}
	return time.Since(begin).Seconds()
}

// stateTime returns the shortest of as many times as bench/reference takes for
// one state, s.
func stateTime(b *testing.B, sorrel *boat.Boat, best *attempt) float64 {
	p := best.problem
	var w balance.Workspace
	w.Foil.Options = p.request.Foil
	s := p.state0.Clone()
	angle := p.state(best.outcome.X, &s)
	shortest := math.Inf(1)
	for range 50 {
		s.Attitude.Heel += 1e-7
		begin := time.Now()
		if _, err := balance.At(sorrel, s, p.way.set, p.request.conditions(angle), &w); err != nil {
			b.Fatal(err)
		}
		shortest = math.Min(shortest, time.Since(begin).Seconds())
	}
	return shortest
}
