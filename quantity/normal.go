package quantity

import "math"

// TailDeviations is where the tails of a normal end, in standard deviations to
// each side: 6 draws in 100,000 would lie beyond, and a factor four deviations
// out is a mistake in the spread rather than a boat.
const TailDeviations = 4

// tails is a standard normal variate confined to low..high.
type tails struct{ low, high float64 }

// tails returns where the quantity's normal ends, in deviations from its mean.
func (q Quantity) tails() tails {
	t := tails{-TailDeviations, TailDeviations}
	if q.Low < q.High && q.Deviation > 0 {
		t.low = min(max(t.low, (q.Low-q.Likely)/q.Deviation), 0)
		t.high = max(min(t.high, (q.High-q.Likely)/q.Deviation), 0)
	}
	return t
}

// below is the standard normal distribution function, density its derivative.
func below(z float64) float64   { return math.Erfc(-z/math.Sqrt2) / 2 }
func density(z float64) float64 { return math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) }

// narrow is the width below which the density inside is as good as even and the
// closed forms would lose their digits to cancellation.
const narrow = 1e-3

// quantile inverts the distribution function of the confined variate.
func (t tails) quantile(p float64) float64 {
	if t.low == -t.high && p == 0.5 {
		return 0
	}
	if t.high-t.low < narrow {
		return t.low + p*(t.high-t.low)
	}
	left := below(t.low)
	z := -math.Sqrt2 * math.Erfcinv(2*(left+p*(below(t.high)-left)))
	return min(max(z, t.low), t.high)
}

// mean and deviation of the confined variate: Johnson, Kotz and Balakrishnan,
// Continuous Univariate Distributions 1 (1994), chapter 13, section 10.1.
func (t tails) mean() float64 {
	if t.high-t.low < narrow {
		return (t.low + t.high) / 2
	}
	if t.low == -t.high {
		return 0
	}
	return (density(t.low) - density(t.high)) / (below(t.high) - below(t.low))
}

func (t tails) deviation() float64 {
	if t.high-t.low < narrow {
		return (t.high - t.low) / math.Sqrt(12)
	}
	inside := below(t.high) - below(t.low)
	mean := t.mean()
	return math.Sqrt(1 + (t.low*density(t.low)-t.high*density(t.high))/inside - mean*mean)
}
