package odds

import (
	"math"
	"testing"
)

// race is a stand-in for best trims: progress goes with the root of power over
// drag, which depends on a foil's span, a weight and factors that the boats share.
type race struct{ span, weight, friction, power float64 }

func (r race) progress() float64 {
	drag := 0.4*r.friction*(0.5+0.5*r.span) + 0.6*r.weight*r.weight/(r.span*r.span)
	return 9 * math.Pow(r.power/drag, 1.0/3)
}

// Over two thousand truths, the 80 % band of the difference holds it as often as
// it says. Each truth is measured, with an error that has the stated spread
// (normal, uniform, triangular), and odds are asked about what was measured.
func TestBandsAreHonest(t *testing.T) {
	const truths = 2000
	chance := random(2026)
	triangle := func() float64 { return chance.Float64() + chance.Float64() - 1 } // ±1, mode 0
	held, wider := 0, 0
	for k := range uint64(truths) {
		truth := [6]float64{1 + 0.05*chance.NormFloat64(), 1 + 0.03*chance.NormFloat64(), 1, 1, 1, 1}
		truth[2], truth[3] = 1+0.03*chance.NormFloat64(), 1+0.03*chance.NormFloat64()
		truth[4], truth[5] = 1+0.04*chance.NormFloat64(), 1+0.05*chance.NormFloat64()
		seen := [6]float64{
			truth[0] + 0.02*chance.NormFloat64(), truth[1] + 0.02*chance.NormFloat64(),
			truth[2] + 0.03*(2*chance.Float64()-1), truth[3] + 0.02*triangle(),
			1, 1,
		}
		span := says(t, "1 ± 0.02")
		other := span
		span.Likely, other.Likely = seen[0], seen[1]
		weight := says(t, "0.97 to 1.03")
		weight.Low, weight.High, weight.Likely = seen[2]-0.03, seen[2]+0.03, seen[2]
		second := says(t, "0.98 / 1 / 1.02")
		second.Low, second.High, second.Likely = seen[3]-0.02, seen[3]+0.02, seen[3]
		unknowns := []Unknown{
			own(t, 0, "foil.span", "1 ± 0.02"), own(t, 1, "foil.span", "1 ± 0.02"),
			own(t, 0, "weight.mass", "0.97 to 1.03"), own(t, 1, "weight.mass", "0.98 / 1 / 1.02"),
			shared(t, "friction", "1 ± 0.04", 0, 1), shared(t, "power", "1 ± 0.05", 0, 1),
		}
		unknowns[0].Quantity, unknowns[1].Quantity, unknowns[2].Quantity, unknowns[3].Quantity = span, other, weight, second
		p := standIn(unknowns,
			func(x []float64) float64 { return race{x[0], x[2], x[4], x[5]}.progress() },
			func(x []float64) float64 { return race{x[1], x[3], x[4], x[5]}.progress() })
		p.Seed, p.Samples = k, 256
		d := sampled(t, p).Pairs[0].Difference
		is := race{truth[0], truth[2], truth[4], truth[5]}.progress() - race{truth[1], truth[3], truth[4], truth[5]}.progress()
		if *d.P10 <= is && is <= *d.P90 {
			held++
		}
		if *d.P5 <= is && is <= *d.P95 {
			wider++
		}
	}
	if rate := float64(held) / truths; rate < 0.77 || rate > 0.83 {
		t.Errorf("the 80 %% band holds %.1f %% of the truths", 100*rate)
	}
	if rate := float64(wider) / truths; rate < 0.88 || rate > 0.92 {
		t.Errorf("the 90 %% band holds %.1f %% of the truths", 100*rate)
	}
	t.Logf("of %d truths the 80 %% band holds %d, the 90 %% band %d", truths, held, wider)
}

// The stated sampling errors are not below what seeds make of chance and mean, and
// the points better than independent ones for the mean.
func TestSamplingErrorsAreHonest(t *testing.T) {
	unknowns := []Unknown{own(t, 0, "foil.span", "1.01 ± 0.02"), own(t, 1, "foil.span", "1 ± 0.02"), shared(t, "friction", "1 ± 0.04", 0, 1)}
	p := standIn(unknowns,
		func(x []float64) float64 { return race{x[0], 1, x[2], 1}.progress() },
		func(x []float64) float64 { return race{x[1], 1, x[2], 1}.progress() })
	p.Samples = 256
	var chances, means []float64
	stated, statedMean := 0.0, 0.0
	const seeds = 200
	for seed := range uint64(seeds) {
		p.Seed = seed
		pair := sampled(t, p).Pairs[0]
		chances, means = append(chances, pair.FirstFaster), append(means, *pair.Difference.Mean)
		stated += pair.ChanceError / seeds
		statedMean += *pair.Difference.MeanError / seeds
	}
	if got := math.Sqrt(varianceOf(chances)); got > stated*1.1 {
		t.Errorf("chances of %d seeds have a deviation of %.4f, the stated error is %.4f", seeds, got, stated)
	}
	if got := math.Sqrt(varianceOf(means)); got > statedMean/2 {
		t.Errorf("mean differences of %d seeds have a deviation of %.5f, independent samples %.5f", seeds, got, statedMean)
	}
}

// What is shared cancels in the difference, by the amount that linear theory
// gives: one scale for both boats, or one friction factor, against one for each.
func TestSharingNarrowsTheDifference(t *testing.T) {
	const a, b, own0, own1 = 3.0, 2.5, 0.3, 0.4 // m/s per unit of scale, and of each boat's own
	linear := func(scale, mine int, by, own float64) func([]float64) float64 {
		return func(x []float64) float64 { return 9 + by*(x[scale]-1) + own*x[mine] }
	}
	together := standIn([]Unknown{own(t, 0, "w.m", "0 ± 0.1"), own(t, 1, "w.m", "0 ± 0.1"), shared(t, "photo scale", "1 ± 0.02", 0, 1)},
		linear(2, 0, a, own0), linear(2, 1, b, own1))
	apart := standIn([]Unknown{own(t, 0, "w.m", "0 ± 0.1"), own(t, 1, "w.m", "0 ± 0.1"), own(t, 0, "s.s", "1 ± 0.02"), own(t, 1, "s.s", "1 ± 0.02")},
		linear(2, 0, a, own0), linear(3, 1, b, own1))
	sigma, scale := says(t, "0 ± 0.1").StandardDeviation(), says(t, "1 ± 0.02").StandardDeviation()
	rest := sigma * sigma * (own0*own0 + own1*own1)
	wantTogether := math.Sqrt(rest + scale*scale*(a-b)*(a-b))
	wantApart := math.Sqrt(rest + scale*scale*(a*a+b*b))
	together.Samples, apart.Samples = 4096, 4096
	one, two := answered(t, together), answered(t, apart)
	near(t, "deviation with one scale", one.Pairs[0].Difference.Deviation, wantTogether, 0.01*wantTogether)
	near(t, "deviation with two scales", two.Pairs[0].Difference.Deviation, wantApart, 0.01*wantApart)
	if got := one.Pairs[0].Apart; math.Abs(got-wantApart) > 0.01*wantApart {
		t.Errorf("deviation if nothing were shared: %g, want %g", got, wantApart)
	}
	// The difference's first-order indices are shares of its variance.
	for _, in := range one.Inputs {
		want := scale * scale * (a - b) * (a - b)
		switch in.Name {
		case "boat0.yaml: w.m":
			want = sigma * sigma * own0 * own0
		case "boat1.yaml: w.m":
			want = sigma * sigma * own1 * own1
		}
		want /= wantTogether * wantTogether
		if math.Abs(in.FirstOrder-want) > 0.005 || math.Abs(in.Shapley-want) > 0.005 || math.Abs(in.Total-want) > 0.005 {
			t.Errorf("%s: first order %g, Shapley %g, total %g, want %g", in.Name, in.FirstOrder, in.Shapley, in.Total, want)
		}
	}
}
