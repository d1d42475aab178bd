package solve

import (
	"context"
	"math"
	"testing"
)

// Along a chain of neighbouring problems, each begun from the answer of the
// last, what was learnt about the curvature saves steps and moves no answer.
func TestChain(t *testing.T) {
	var w Workspace
	cold, warm, n := 0, 0, 0
	for seed := range uint64(10) {
		g := newGlider(12, 24, 0.1, seed)
		at := Minimise(context.Background(), g.problem(), g.start(1), Options{}, &w)
		for range 6 {
			g.push *= 1.05
			without := Minimise(context.Background(), g.problem(), at.X, Options{}, &w)
			with := Minimise(context.Background(), g.problem(), at.X, Options{From: at.Learnt}, &w)
			if with.Status != Converged || math.Abs(with.Values.F-without.Values.F) > 1e-8 {
				t.Errorf("problem %d: %v, F %.10g, begun afresh %.10g", seed, with.Status, with.Values.F, without.Values.F)
			}
			cold += without.Gradients
			warm += with.Gradients
			n++
			at = with
		}
	}
	t.Logf("%d problems: %.1f sets of slopes begun afresh, %.1f with what was learnt", n, float64(cold)/float64(n), float64(warm)/float64(n))
	if warm >= cold {
		t.Errorf("%d sets of slopes with what was learnt, %d without", warm, cold)
	}
}

// What belongs to other variables is left aside.
func TestLearntOfOtherVariables(t *testing.T) {
	g := newGlider(12, 24, 0.1, 1)
	at := Minimise(context.Background(), g.problem(), g.start(1), Options{}, nil)
	p := g.problem()
	p.Lower[3], p.Upper[3] = at.X[3], at.X[3]
	plain := Minimise(context.Background(), p, g.start(1), Options{}, nil)
	out := Minimise(context.Background(), p, g.start(1), Options{From: at.Learnt}, nil)
	if out.Iterations != plain.Iterations || out.Values.F != plain.Values.F {
		t.Errorf("F %.16g after %d, plain %.16g after %d", out.Values.F, out.Iterations, plain.Values.F, plain.Iterations)
	}
}
