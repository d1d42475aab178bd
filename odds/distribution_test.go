package odds

import (
	"math"
	"testing"

	"foilwright/accuracy"
	"foilwright/quantity"
)

// Quantiles stand where Hazen's rule has them, weights count as repetitions, and
// samples without an answer are below or above all others.
func TestDistribution(t *testing.T) {
	var ten, doubled []weighed
	for i := range 10 {
		v := float64((i * 7) % 10)
		ten = append(ten, weighed{v, 1})
		doubled = append(doubled, weighed{v, 1}, weighed{v, 1})
	}
	d := spread(ten)
	near(t, "mean", d.Mean, 4.5, 1e-12)
	near(t, "deviation", d.Deviation, math.Sqrt(82.5/9), 1e-12)
	near(t, "error of the mean", d.MeanError, math.Sqrt(82.5/9/10), 1e-12)
	for share, want := range map[float64]float64{0.05: 0, 0.10: 0.5, 0.5: 4.5, 0.25: 2, 0.95: 9, 0.01: 0, 0.99: 9} {
		if got, ok := quantileOf(ten, share); !ok || math.Abs(got-want) > 1e-12 {
			t.Errorf("quantile %g: %g, want %g", share, got, want)
		}
	}
	near(t, "mean of weights", spread(doubled).Mean, 4.5, 1e-12)
	near(t, "median of weights", spread(doubled).P50, 4.5, 1e-12)
	weighted := spread([]weighed{{0, 1}, {1, 0}, {2, 3}})
	near(t, "weighted mean", weighted.Mean, 1.5, 1e-12)
	near(t, "weighted quantile", weighted.P50, 2*(2-0.5)/(2.5-0.5), 1e-12)
	for i := range 2 {
		ten[i].value = math.Inf(-1)
	}
	failing := spread(ten)
	if failing.P5 != nil || failing.P10 != nil {
		t.Errorf("quantiles among samples without an answer: %v, %v", failing.P5, failing.P10)
	}
	near(t, "median with failures", failing.P50, 4.5, 1e-12)
	if none := spread([]weighed{{math.Inf(-1), 1}, {math.Inf(1), 1}}); none != (Distribution{}) {
		t.Errorf("nothing has a distribution: %+v", none)
	}
	one := spread([]weighed{{3, 2}})
	near(t, "mean of one", one.Mean, 3, 0)
	if one.Deviation != nil {
		t.Error("one value has a deviation")
	}
	if empty := spread(nil); empty != (Distribution{}) {
		t.Errorf("no values have a distribution: %+v", empty)
	}
}

// The error of a chance is the binomial's, and never nothing.
func TestChanceError(t *testing.T) {
	want := published(t, "closed-forms.csv", "8.14")[0]
	accuracy.Check(t, accuracy.Row{File: "closed-forms.csv", ID: "8.14", Published: want, Computed: 4 * ChanceError(math.Pi/4, 1e4), Tolerance: 1e-6})
	for _, chance := range []float64{0, 1} {
		if e := ChanceError(chance, 100); !(e > 0.005 && e < 0.01) {
			t.Errorf("error of a chance of %g in 100 samples: %g", chance, e)
		}
	}
	if ChanceError(0.5, 0) != 1 {
		t.Error("no samples leave a chance open")
	}
}

func TestWilksSize(t *testing.T) {
	want := published(t, "wilks-1941.csv", "8.09")
	for i, sides := range []Sides{OneSided, TwoSided} {
		accuracy.Check(t, accuracy.Row{File: "wilks-1941.csv", ID: "8.09", Quantity: "Wilks' sample size for 95/95, " + [...]string{"one-sided", "two-sided"}[i], Published: want[i], Computed: float64(WilksSize(0.95, 0.95, sides)), Tolerance: 0})
	}
	for _, bad := range []float64{0, 1, math.NaN()} {
		if WilksSize(bad, 0.9, OneSided) != 0 || WilksSize(0.9, bad, OneSided) != 0 {
			t.Errorf("a share or confidence of %g has a size", bad)
		}
	}
}

// means of functions of unknowns, by scrambled points.
func drawn(t *testing.T, spreads []quantity.Quantity, samples int, f func(x []float64) []float64) []Distribution {
	t.Helper()
	names := make([]string, len(spreads))
	for i := range names {
		names[i] = string(rune('a' + i))
	}
	points, err := NewPoints(1, names)
	if err != nil {
		t.Fatal(err)
	}
	var values [][]weighed
	x := make([]float64, len(spreads))
	for s := range samples {
		for i := range x {
			x[i] = spreads[i].At(points.At(uint32(s), i))
		}
		for k, v := range f(x) {
			if s == 0 {
				values = append(values, nil)
			}
			values[k] = append(values[k], weighed{v, 1})
		}
	}
	var all []Distribution
	for _, v := range values {
		all = append(all, spread(v))
	}
	return all
}

// GUM H.2: resistance, reactance and impedance from a voltage, a current and a
// phase that depend on one another. Dependence is told by what they share: three
// independent unknowns and the factor of their correlations (−0.36, 0.86, −0.65)
// and uncertainties (JCGM 100:2008, table H.2), whose results are 0.071, 0.295 and
// 0.236 Ω. These are from memory; the correlations have two digits, which leaves
// 0.0015 Ω of the first open.
func TestGUMH2(t *testing.T) {
	want := published(t, "jcgm100-2008.csv", "8.10")
	const uV, uI, uPhi, rVI, rVP, rIP = 0.0032, 0.0095e-3, 0.00075, -0.36, 0.86, -0.65
	l22 := math.Sqrt(1 - rVI*rVI)
	l32 := (rIP - rVI*rVP) / l22
	l33 := math.Sqrt(1 - rVP*rVP - l32*l32)
	unit := says(t, "0 ± 1")
	impedance := func(z []float64) []float64 {
		v := 4.999 + uV*z[0]
		i := 19.661e-3 + uI*(rVI*z[0]+l22*z[1])
		phi := 1.04446 + uPhi*(rVP*z[0]+l32*z[1]+l33*z[2])
		return []float64{v / i * math.Cos(phi), v / i * math.Sin(phi), v / i}
	}
	got := drawn(t, []quantity.Quantity{unit, unit, unit}, 1<<14, impedance)
	likely := impedance([]float64{0, 0, 0})
	for k, u := range []float64{0.071, 0.295, 0.236} {
		accuracy.Check(t, accuracy.Row{File: "jcgm100-2008.csv", ID: "8.10", Quantity: "impedance of GUM H.2, " + [...]string{"R", "X", "Z"}[k], Published: want[k], Computed: likely[k], Tolerance: 1e-3})
		near(t, "mean", got[k].Mean, want[k], 1e-3)
		near(t, "standard uncertainty", got[k].Deviation, u, 1.5e-3)
	}
}

// JCGM 101, 9.2.3: the sum of four rectangular inputs of unit variance.
func TestSumOfFourRectangular(t *testing.T) {
	want := published(t, "jcgm101-2008.csv", "8.13")
	q := says(t, "-1.7320508075688772 to 1.7320508075688772")
	var values []weighed
	d := drawn(t, []quantity.Quantity{q, q, q, q}, 1<<19, func(x []float64) []float64 {
		sum := x[0] + x[1] + x[2] + x[3]
		values = append(values, weighed{sum, 1})
		return []float64{sum}
	})[0]
	spread(values) // in order
	low, _ := quantileOf(values, 0.025)
	high, _ := quantileOf(values, 0.975)
	accuracy.Check(t, accuracy.Row{File: "jcgm101-2008.csv", ID: "8.13", Quantity: "sum of four R(−√3, √3): standard uncertainty", Published: want[0], Computed: *d.Deviation, Tolerance: 1e-3})
	accuracy.Check(t, accuracy.Row{File: "jcgm101-2008.csv", ID: "8.13", Quantity: "sum of four R(−√3, √3): half of 95 %", Published: want[1], Computed: (high - low) / 2, Tolerance: 1e-3})
}
