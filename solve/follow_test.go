package solve

import (
	"context"
	"math"
	"testing"
)

// Along a chain of neighbouring problems an optimum that is followed is the one that is
// searched for, found on fewer sets of slopes.
func TestFollow(t *testing.T) {
	var w Workspace
	searched, followed := 0, 0
	for seed := range uint64(10) {
		g := newGlider(12, 24, 0.1, seed)
		at := Minimise(context.Background(), g.problem(), g.start(1), Options{}, &w)
		for range 6 {
			g.push *= 1.05
			want := Minimise(context.Background(), g.problem(), at.X, Options{From: at.Learnt}, &w)
			got := Follow(context.Background(), g.problem(), at.X, Options{From: at.Learnt}, &w)
			if got.Status != Converged || math.Abs(got.Values.F-want.Values.F) > 1e-8 {
				t.Errorf("problem %d: %v, F %.10g, searched for %.10g", seed, got.Status, got.Values.F, want.Values.F)
			}
			if !(got.Stationarity <= 1e-6 && got.Violation <= 1e-9) {
				t.Errorf("problem %d: stationary within %.1e, violated by %.1e", seed, got.Stationarity, got.Violation)
			}
			for j, price := range got.EqualPrice {
				if math.Abs(price-want.EqualPrice[j]) > 1e-4*(1+math.Abs(price)) {
					t.Errorf("problem %d: price %d is %.6g, searched for %.6g", seed, j, price, want.EqualPrice[j])
				}
			}
			searched += want.Gradients
			followed += got.Gradients
			at = got
		}
	}
	t.Logf("sets of slopes: %d searched, %d followed", searched, followed)
	if followed >= searched {
		t.Errorf("%d sets of slopes followed, %d searched", followed, searched)
	}
}

// What Enough leaves lying is less than it says, and saves slopes.
func TestEnough(t *testing.T) {
	const enough = 1e-4
	var w Workspace
	whole, early, most := 0, 0, 0.0
	for seed := range uint64(10) {
		g := newGlider(12, 24, 0.1, seed)
		at := Minimise(context.Background(), g.problem(), g.start(1), Options{}, &w)
		g.push *= 1.1
		want := Follow(context.Background(), g.problem(), at.X, Options{From: at.Learnt}, &w)
		got := Follow(context.Background(), g.problem(), at.X, Options{From: at.Learnt, Enough: enough}, &w)
		loss := got.Values.F - want.Values.F
		if got.Status != Converged || got.Violation > 1e-9 || loss > enough || loss < -1e-8 {
			t.Errorf("problem %d: %v, violated by %.1e, loses %.1e", seed, got.Status, got.Violation, loss)
		}
		most = math.Max(most, loss)
		whole += want.Gradients
		early += got.Gradients
	}
	t.Logf("sets of slopes: %d to the end, %d to a gain of %.0e, which loses %.1e at most", whole, early, enough, most)
	if early >= whole {
		t.Errorf("%d sets of slopes to a gain of %.0e, %d to the end", early, enough, whole)
	}
}

// From beside the optimum, with its curvature alone, the benchmarks end there again.
func TestFollowFromElsewhere(t *testing.T) {
	for _, b := range smallBenchmarks {
		want := Minimise(context.Background(), b.problem(), b.start, Options{}, nil)
		if want.Status != Converged {
			continue
		}
		start := append([]float64(nil), want.X...)
		for i := range start {
			start[i] += 0.01 * math.Pow(-1, float64(i))
		}
		got := Follow(context.Background(), b.problem(), start, Options{From: want.Learnt.Elsewhere()}, nil)
		if got.Status != Converged || math.Abs(got.Values.F-want.Values.F) > 1e-6*(1+math.Abs(want.Values.F)) {
			t.Errorf("problem %d: %v, F %.10g, published optimum's %.10g", b.number, got.Status, got.Values.F, want.Values.F)
		}
	}
}

// What is known of a problem with other variables, or nothing, leaves the search to Minimise.
func TestFollowNothingKnown(t *testing.T) {
	g := newGlider(12, 24, 0.1, 1)
	at := Minimise(context.Background(), g.problem(), g.start(1), Options{}, nil)
	p := g.problem()
	p.Lower[3], p.Upper[3] = at.X[3], at.X[3]
	want := Minimise(context.Background(), p, g.start(1), Options{}, nil)
	for _, known := range []*Learnt{nil, at.Learnt} {
		got := Follow(context.Background(), p, g.start(1), Options{From: known}, nil)
		if got.Status != Converged || math.Abs(got.Values.F-want.Values.F) > 1e-8 {
			t.Errorf("%v, F %.10g, searched for %.10g", got.Status, got.Values.F, want.Values.F)
		}
	}
}

// A problem without a feasible point is told as Minimise tells it.
func TestFollowToNoFeasiblePoint(t *testing.T) {
	b := smallBenchmarks[0]
	at := Minimise(context.Background(), b.problem(), b.start, Options{}, nil)
	b.values = func(x []float64, v *Values) { v.F, v.Equal[0] = x[0], 1+x[0]*x[0]+x[1]*x[1] }
	out := Follow(context.Background(), b.problem(), at.X, Options{From: at.Learnt}, nil)
	if out.Status == Converged || out.Violation < 0.5 {
		t.Errorf("%v, violated by %.1e", out.Status, out.Violation)
	}
}

// What is learnt of a problem is of use for one in which a variable is free that was held, and
// for one in which a free one is held: followed, the optimum is that of a search.
func TestFollowOtherVariables(t *testing.T) {
	var w Workspace
	g := newGlider(12, 24, 0.1, 1)
	whole := g.problem()
	at := Minimise(context.Background(), whole, g.start(1), Options{}, &w)
	index := make([]int, len(at.X))
	for i := range index {
		index[i] = i
	}
	if at.Learnt.For(whole, index, 1, 1) != at.Learnt {
		t.Error("for the same problem what is learnt is copied")
	}
	held := g.problem()
	held.Lower, held.Upper = append([]float64(nil), held.Lower...), append([]float64(nil), held.Upper...)
	held.Lower[3], held.Upper[3] = at.X[3]+0.01, at.X[3]+0.01
	for _, c := range []struct {
		name     string
		from, to *Problem
	}{{"held", whole, held}, {"freed", held, whole}} {
		known := Minimise(context.Background(), c.from, at.X, Options{}, &w)
		want := Minimise(context.Background(), c.to, known.X, Options{}, &w)
		got := Follow(context.Background(), c.to, known.X, Options{From: known.Learnt.For(c.to, index, 1, 1)}, &w)
		if got.Status != Converged || math.Abs(got.Values.F-want.Values.F) > 1e-8 {
			t.Errorf("%s: %v, F %.10g, searched for %.10g", c.name, got.Status, got.Values.F, want.Values.F)
		}
		t.Logf("%s: %d sets of slopes, %d searched for", c.name, got.Gradients, want.Gradients)
	}
	// F times two has twice the curvature.
	twice := at.Learnt.For(whole, index, 2, 1)
	for k, v := range twice.curvature {
		if math.Abs(v-2*at.Learnt.curvature[k]) > 1e-12 {
			t.Fatalf("curvature %d is %g, %g before", k, v, at.Learnt.curvature[k])
		}
	}
}

// Half-way between two problems whose optima are known the slopes that both point to lead to the
// optimum on fewer fresh ones than the curvature alone.
func TestFollowBetween(t *testing.T) {
	var w Workspace
	between, elsewhere := 0, 0
	for seed := range uint64(10) {
		g := newGlider(12, 24, 0.1, seed)
		a := Minimise(context.Background(), g.problem(), g.start(1), Options{}, &w)
		g.push *= 1.2
		b := Minimise(context.Background(), g.problem(), a.X, Options{From: a.Learnt}, &w)
		g.push *= 1.1 / 1.2
		x := make([]float64, len(a.X))
		for i := range x {
			x[i] = (a.X[i] + b.X[i]) / 2
		}
		want := Minimise(context.Background(), g.problem(), x, Options{From: a.Learnt}, &w)
		moved := a.Learnt.Moved(x, []*Learnt{b.Learnt}, []float64{0.5})
		for known, sets := range map[*Learnt]*int{moved: &between, a.Learnt.Elsewhere(): &elsewhere} {
			got := Follow(context.Background(), g.problem(), x, Options{From: known}, &w)
			if got.Status != Converged || math.Abs(got.Values.F-want.Values.F) > 1e-8 {
				t.Errorf("problem %d: %v, F %.10g, searched for %.10g", seed, got.Status, got.Values.F, want.Values.F)
			}
			*sets += got.Gradients
		}
	}
	t.Logf("sets of slopes: %d with those of both, %d without", between, elsewhere)
	if between >= elsewhere {
		t.Errorf("%d sets of slopes with those of both neighbours, %d without", between, elsewhere)
	}
	held := newGlider(12, 24, 0.1, 1)
	at := Minimise(context.Background(), held.problem(), held.start(1), Options{}, &w)
	if other := at.Learnt.Moved(at.X, []*Learnt{at.Learnt.Elsewhere()}, []float64{1}); other.jacobian != nil {
		t.Error("slopes are moved toward some that are not known")
	}
}

// A problem that has changed much is followed to its end as well: where the constraints contradict
// one another within a step they are relaxed.
func TestFollowFar(t *testing.T) {
	var w Workspace
	for seed := range uint64(10) {
		g := newGlider(12, 24, 0.1, seed)
		at := Minimise(context.Background(), g.problem(), g.start(1), Options{}, &w)
		g.push *= 2
		want := Minimise(context.Background(), g.problem(), at.X, Options{}, &w)
		got := Follow(context.Background(), g.problem(), at.X, Options{From: at.Learnt, StepLimit: 0.05}, &w)
		if got.Status != want.Status || math.Abs(got.Values.F-want.Values.F) > 1e-7 {
			t.Errorf("problem %d: %v, F %.10g, searched for %v, %.10g", seed, got.Status, got.Values.F, want.Status, want.Values.F)
		}
	}
}
