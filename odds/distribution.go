package odds

import (
	"math"
	"slices"
)

// Distribution is how a figure is spread. Mean and deviation are over the samples
// that have it; quantiles count those in which the first of the figure's boats
// does not sail as below, and those in which only the second does not as above,
// every figure: a quantile that falls among them is nil.
type Distribution struct {
	Mean      *float64 `json:"mean"` // nil where no sample has the figure
	Deviation *float64 `json:"deviation"`
	MeanError *float64 `json:"mean_error"` // standard error of the mean, as if samples were independent: above that of Sobol points
	P2        *float64 `json:"p2_5"`
	P5        *float64 `json:"p5"`
	P10       *float64 `json:"p10"`
	P25       *float64 `json:"p25"`
	P50       *float64 `json:"p50"`
	P75       *float64 `json:"p75"`
	P90       *float64 `json:"p90"`
	P95       *float64 `json:"p95"`
	P97       *float64 `json:"p97_5"`
}

// weighed is a value with its weight; values may be infinite.
type weighed struct{ value, weight float64 }

// spread returns the distribution of weighed values. Their order is changed.
func spread(values []weighed) Distribution {
	var d Distribution
	sum, squares, mean := 0.0, 0.0, 0.0
	for _, v := range values {
		if !math.IsInf(v.value, 0) {
			sum += v.weight
			squares += v.weight * v.weight
			mean += v.weight * v.value
		}
	}
	if sum > 0 {
		mean /= sum
		moment := 0.0
		for _, v := range values {
			if !math.IsInf(v.value, 0) {
				moment += v.weight * (v.value - mean) * (v.value - mean)
			}
		}
		d.Mean = &mean
		// As many independent samples as would say as much (Kish 1965).
		if size := sum * sum / squares; size > 1+1e-9 {
			deviation := math.Sqrt(moment / sum * size / (size - 1))
			err := deviation / math.Sqrt(size)
			d.Deviation, d.MeanError = &deviation, &err
		}
	}
	slices.SortFunc(values, func(a, b weighed) int {
		switch {
		case a.value < b.value:
			return -1
		case a.value > b.value:
			return 1
		}
		return 0
	})
	for _, q := range []struct {
		share float64
		at    **float64
	}{{0.025, &d.P2}, {0.05, &d.P5}, {0.10, &d.P10}, {0.25, &d.P25}, {0.50, &d.P50}, {0.75, &d.P75}, {0.90, &d.P90}, {0.95, &d.P95}, {0.975, &d.P97}} {
		if v, ok := quantileOf(values, q.share); ok {
			*q.at = &v
		}
	}
	return d
}

// quantileOf returns a quantile of sorted weighed values: each value stands in the
// middle of its weight, and between two the quantile runs straight (with equal
// weights the rule of Hazen 1914). It is false among values that are infinite.
func quantileOf(values []weighed, share float64) (float64, bool) {
	total := 0.0
	for _, v := range values {
		total += v.weight
	}
	if !(total > 0) {
		return 0, false
	}
	at, before := share*total, 0.0
	lower, place := math.NaN(), 0.0
	for _, v := range values {
		if v.weight == 0 {
			continue
		}
		middle := before + v.weight/2
		if at <= middle {
			result := v.value
			if !math.IsNaN(lower) && at < middle {
				if math.IsInf(lower, 0) || math.IsInf(v.value, 0) {
					return 0, false
				}
				result = lower + (v.value-lower)*(at-place)/(middle-place)
			}
			return result, !math.IsInf(result, 0)
		}
		before += v.weight
		lower, place = v.value, middle
	}
	return lower, !math.IsInf(lower, 0)
}
