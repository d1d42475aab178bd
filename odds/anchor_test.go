package odds

import (
	"math"
	"slices"
	"strings"
	"testing"
)

// anchoredPlan is two boats whose progress is linear in a friction that they share
// and a figure of each.
func anchoredPlan(t *testing.T, observed, deviation float64) *Plan {
	unknowns := []Unknown{own(t, 0, "w.m", "0 ± 0.1"), own(t, 1, "w.m", "0 ± 0.1"), shared(t, "friction", "1 ± 0.04", 0, 1)}
	p := standIn(unknowns,
		func(x []float64) float64 { return 10 - 5*(x[2]-1) + x[0] },
		func(x []float64) float64 { return 9.95 - 8*(x[2]-1) + x[1] })
	p.Samples = 8192
	p.Anchor = &Anchor{Boat: 0, Wind: 9, Observed: observed, Deviation: deviation, Words: "Sorrel was seen"}
	return p
}

// A linear model with normal inputs and a normal observation has a posterior in
// closed form (Kalman 1960); weighted samples meet it.
func TestAnchorIsBayesRule(t *testing.T) {
	const observed, deviation = 9.8, 0.1
	r := answered(t, anchoredPlan(t, observed, deviation))
	a := r.Anchor
	f, w := 0.04*5.0, 0.1 // what friction and the boat's own figure do to the anchor's speed
	prior := f*f + w*w
	gain := 1 / (prior + deviation*deviation)
	near(t, "score", a.Score, (observed-10)/math.Sqrt(prior+deviation*deviation), 0.02)
	near(t, "speed before", a.Before.Mean, 10, 1e-3)
	near(t, "speed after", a.After.Mean, 10+prior*gain*(observed-10), 0.004)
	near(t, "its deviation", a.After.Deviation, math.Sqrt(prior-prior*prior*gain), 0.003)
	at := slices.IndexFunc(a.Factors, func(m Moved) bool { return strings.Contains(m.Input, "friction") })
	if at < 0 {
		t.Fatalf("friction is not among what moved: %+v", a.Factors)
	}
	friction := a.Factors[at]
	near(t, "friction after", &friction.Then, 1-0.04*f*gain*(observed-10), 0.001)
	near(t, "its deviation", &friction.Left, 0.04*math.Sqrt(1-f*f*gain), 0.001)
	// The other boat follows through the factor that both share alone.
	g := 0.04 * 8.0
	near(t, "the other boat after", r.Boats[1].Progress.Mean, 9.95+g*f*gain*(observed-10), 0.006)
	near(t, "the other boat before", a.Boats[1].Progress.Mean, 9.95, 1e-3)
	// Expected worth of the weighted samples: N √(1 + 2s) / (1 + s) e^(…), for a
	// likelihood of relative variance; here only that it lies between.
	if !(a.Effective > 500 && a.Effective < float64(r.Samples)) || a.Used != Weighted {
		t.Errorf("effective samples %g of %d, %s", a.Effective, r.Samples, a.Used)
	}
	if r.Pairs[0].ChanceError <= a.Pairs[0].ChanceError {
		t.Errorf("the weighted chance has an error of %g, below that of all samples, %g", r.Pairs[0].ChanceError, a.Pairs[0].ChanceError)
	}
	sum := 0.0
	for _, w := range r.Table.Weights {
		sum += w
	}
	near(t, "sum of weights", &sum, 1, 1e-12)
}

// An observation that no sample comes near is not used, and that is said.
func TestAnchorTooFar(t *testing.T) {
	r := answered(t, anchoredPlan(t, 7, 0.02))
	a := r.Anchor
	if a.Used != TooFar || a.Score == nil || *a.Score > -5 || r.Table.Weights != nil {
		t.Errorf("%s, score %v", a.Used, a.Score)
	}
	near(t, "mean as before", r.Boats[0].Progress.Mean, *a.Boats[0].Progress.Mean, 0)
	if !slices.ContainsFunc(r.Warnings, func(w string) bool { return strings.Contains(w, "the anchor is not used") }) {
		t.Errorf("warnings: %q", r.Warnings)
	}
	p := anchoredPlan(t, 9, 0)
	if err := p.check(); err == nil || !strings.Contains(err.Error(), "its own uncertainty") {
		t.Errorf("an exact observation: %v", err)
	}
	p = anchoredPlan(t, 9, 1)
	p.Evaluate = standIn(p.Unknowns, func([]float64) float64 { return math.Inf(-1) }, func([]float64) float64 { return 9 }).Evaluate
	if r := answered(t, p); r.Anchor.Score != nil || r.Anchor.Used != TooFar {
		t.Errorf("a boat that never sails: %+v", r.Anchor)
	}
}
