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

// GUM H.2: resistance, reactance and impedance from five readings each of a voltage, a
// current and a phase, which depend on one another. Dependence is told by what they
// share: three independent unknowns and the factor of their means' covariance. What is
// drawn is held to what is printed, and closely to the law of propagation (JCGM
// 100:2008, equation 13), less what normals lose that are cut at so many deviations.
func TestGUMH2(t *testing.T) {
	const file = "jcgm100-2008.csv"
	mean, factor := ofReadings(published(t, file, "8.10 V"), published(t, file, "8.10 I"), published(t, file, "8.10 phi"))
	impedance := func(z []float64) []float64 {
		x := mean
		for i := range x {
			for k := range i + 1 {
				x[i] += factor[i][k] * z[k]
			}
		}
		volts, amperes, phase := x[0], x[1]*1e-3, x[2]
		return []float64{volts / amperes * math.Cos(phase), volts / amperes * math.Sin(phase), volts / amperes}
	}
	unit := says(t, "0 ± 1")
	got := drawn(t, []quantity.Quantity{unit, unit, unit}, 1<<14, impedance)
	likely, linear := impedance(make([]float64, 3)), propagated(impedance)
	values, uncertainties := published(t, file, "8.10"), published(t, file, "8.10 u")
	const tail = quantity.TailDeviations
	cut := math.Sqrt(1 - 2*tail*math.Exp(-tail*tail/2)/math.Sqrt(2*math.Pi)/math.Erf(tail/math.Sqrt2))
	for k, name := range [...]string{"R", "X", "Z"} {
		accuracy.Check(t, accuracy.Row{File: file, ID: "8.10", Quantity: "impedance of GUM H.2, " + name, Published: values[k], Computed: likely[k], Tolerance: 1e-3})
		accuracy.Check(t, accuracy.Row{File: file, ID: "8.10 u", Quantity: "standard uncertainty of GUM H.2, " + name, Published: uncertainties[k], Computed: *got[k].Deviation, Tolerance: 1e-3})
		near(t, "mean", got[k].Mean, values[k], 1e-3)
		near(t, "standard uncertainty", got[k].Deviation, cut*linear[k], 3e-5)
	}
}

// ofReadings returns the means of three rows of readings taken together, and the lower
// factor (Cholesky) of the means' covariance.
func ofReadings(rows ...[]float64) (mean [3]float64, factor [3][3]float64) {
	n := float64(len(rows[0]))
	for i, row := range rows {
		for _, v := range row {
			mean[i] += v / n
		}
	}
	for i := range 3 {
		for j := range i + 1 {
			sum := 0.0
			for s := range rows[i] {
				sum += (rows[i][s] - mean[i]) * (rows[j][s] - mean[j]) / (n * (n - 1))
			}
			for k := range j {
				sum -= factor[i][k] * factor[j][k]
			}
			if i == j {
				factor[i][i] = math.Sqrt(sum)
				continue
			}
			factor[i][j] = sum / factor[j][j]
		}
	}
	return mean, factor
}

// propagated returns the standard uncertainties of what a function makes of three
// independent unknowns of unit deviation, to first order.
func propagated(f func([]float64) []float64) [3]float64 {
	var u [3]float64
	for i := range 3 {
		z := make([]float64, 3)
		z[i] = 1e-3
		ahead := f(z)
		z[i] = -1e-3
		behind := f(z)
		for k := range u {
			u[k] = math.Hypot(u[k], (ahead[k]-behind[k])/2e-3)
		}
	}
	return u
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
