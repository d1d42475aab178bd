package trim

import (
	"math"
	"testing"
)

// Searched from a neighbour's answer, progress is that of a search from all starts but for
// what is said to be left lying; the state alone is the same boat's.
func TestFollowedAnswers(t *testing.T) {
	b := monohull(t)
	base := found(t, b, usual(17))
	for _, knots := range []float64{16, 17.5, 19} {
		cold := found(t, b, usual(knots))
		for _, tell := range []Tell{WithoutCarried, StateAlone} {
			r := usual(knots)
			r.From, r.Starts, r.Tell = base, OnlyFrom, tell
			warm := found(t, b, r)
			loss := 1 - float64(warm.Progress()/cold.Progress())
			t.Logf("%g kn, told to %d: loses %.1e in %d evaluations in place of %d", knots, tell, loss, warm.Search.Evaluations, cold.Search.Evaluations)
			if loss > r.enough() {
				t.Errorf("%g kn: %.6f m/s from the answer in 17 kn, %.6f from all starts", knots, float64(warm.Progress()), float64(cold.Progress()))
			}
			if warm.answered.outcome.Violation > feasible {
				t.Errorf("%g kn: the six equations are missed by %.1e", knots, warm.answered.outcome.Violation)
			}
			if warm.answered.problem.request.From != nil {
				t.Error("an answer keeps the one that it was searched from")
			}
		}
	}
}

// A start that is moved by what each change does alone lies nearer to where both lead
// together than the answer without them.
func TestMoved(t *testing.T) {
	heavier := func() *Result {
		b := monohull(t)
		b.Weights[0].Mass += 60
		r := usual(17)
		r.From, r.Starts = found(t, monohull(t), usual(17)), OnlyFrom
		return found(t, b, r)
	}()
	base := found(t, monohull(t), usual(17))
	windier := usual(18)
	windier.From, windier.Starts = base, OnlyFrom
	inMoreWind := found(t, monohull(t), windier)

	b := monohull(t)
	b.Weights[0].Mass += 30
	both := usual(18.5)
	both.From, both.Starts = base, OnlyFrom
	end := found(t, b, both)
	moved := base.Moved([]*Result{heavier, nil, inMoreWind}, []float64{0.5, 1, 1.5})
	p := end.answered.problem
	far := func(x []float64) float64 {
		most := 0.0
		for i := range x {
			most = math.Max(most, math.Abs(x[i]-end.answered.ends[0].x[i])/p.variables[i].scale)
		}
		return most
	}
	before, after := far(base.answered.ends[0].x), far(moved.answered.ends[0].x)
	t.Logf("%.3f usual changes of a variable from the end, moved %.3f", before, after)
	if !(after < before/3) {
		t.Errorf("moved, the start is %.3f usual changes of a variable from the end, %.3f before", after, before)
	}
	both.From = moved
	if again := found(t, b, both); math.Abs(float64(again.Progress()/end.Progress())-1) > both.enough() {
		t.Errorf("%.6f m/s from the moved start, %.6f", float64(again.Progress()), float64(end.Progress()))
	}
	if unmoved := base.answered.ends[0].x; &unmoved[0] == &moved.answered.ends[0].x[0] {
		t.Error("the answer itself is moved")
	}
}

// The best angle is followed from the most speed at an angle near by, and that from the best angle.
func TestFollowedAcrossAims(t *testing.T) {
	b := monohull(t)
	best := found(t, b, usual(17))
	beside := usual(17)
	beside.Aim, beside.WindAngle, beside.From, beside.Starts = AtAngle, best.TrueWindAngle+0.05, best, OnlyFrom
	at := found(t, b, beside)
	beside.From, beside.Starts = nil, 0
	if cold := found(t, b, beside); float64(at.Speed/cold.Speed) < 1-beside.enough() {
		t.Errorf("%.6f m/s beside the best angle, %.6f from all starts", float64(at.Speed), float64(cold.Speed))
	}
	back := usual(17)
	back.From, back.Starts = at, OnlyFrom
	again := found(t, b, back)
	t.Logf("%d evaluations there, %d back, %d from all starts", at.Search.Evaluations, again.Search.Evaluations, best.Search.Evaluations)
	if loss := 1 - float64(again.Progress()/best.Progress()); loss > back.enough() {
		t.Errorf("back at the best angle %.1e of progress is lost", loss)
	}
}
