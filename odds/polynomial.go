package odds

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"

	"foilwright/quantity"
)

// polynomials are orthonormal over the distribution of one unknown, up to a
// degree: their product's mean is 1 for a polynomial with itself, else 0. They
// are written in the unknown's standard score by their three-term recurrence,
// whose coefficients follow by Stieltjes' procedure (Gautschi 2004, section
// 2.2.3.1) with the distribution as a fine sum.
type polynomials struct {
	mean, deviation float64
	a, b            []float64 // b[k] is the root of the k-th coefficient
	slopes          []float64 // mean slope of the polynomial of each degree
}

// nodes returns points and weights for means over (0, 1) of functions that may
// run off steeply at either end, as quantile functions do: Gauss and Legendre's
// rule on intervals that halve towards both ends.
func nodes() (at, weight []float64) {
	const order, halvings = 16, 34
	x, w := make([]float64, order), make([]float64, order)
	add := func(low, high float64) {
		quad.Legendre{}.FixedLocations(x, w, low, high)
		at, weight = append(at, x...), append(weight, w...)
	}
	for k := halvings; k > 0; k-- {
		low := math.Ldexp(1, -k-1)
		if k == halvings {
			low = 0
		}
		high := math.Ldexp(1, -k)
		add(low, high)
		add(1-high, 1-low)
	}
	return at, weight
}

// newPolynomials returns the polynomials of a quantity; those of an exact one are
// the constant alone.
func newPolynomials(q quantity.Quantity, degree int) *polynomials {
	p := &polynomials{mean: q.Mean(), deviation: q.StandardDeviation()}
	if !(p.deviation > 0) {
		p.deviation = 1
		return p
	}
	at, weight := nodes()
	scores := make([]float64, len(at))
	for i := range at {
		scores[i] = (q.At(at[i]) - p.mean) / p.deviation
	}
	before, now := make([]float64, len(at)), make([]float64, len(at))
	for i := range now {
		now[i] = 1
	}
	root := 0.0
	for range degree {
		middle := 0.0
		for i, t := range scores {
			middle += weight[i] * t * now[i] * now[i]
		}
		norm := 0.0
		next := make([]float64, len(at))
		for i, t := range scores {
			next[i] = (t-middle)*now[i] - root*before[i]
			norm += weight[i] * next[i] * next[i]
		}
		root = math.Sqrt(norm)
		if !(root > 1e-9) {
			break
		}
		for i := range next {
			next[i] /= root
		}
		p.a, p.b = append(p.a, middle), append(p.b, root)
		before, now = now, next
	}
	p.meanSlopes(q, at, weight)
	return p
}

// meanSlopes keeps the mean slope of every polynomial.
func (p *polynomials) meanSlopes(q quantity.Quantity, at, weight []float64) {
	values, slopes := make([]float64, p.degree()+1), make([]float64, p.degree()+1)
	p.slopes = make([]float64, p.degree()+1)
	for i := range at {
		p.at(q.At(at[i]), values, slopes)
		for k, s := range slopes {
			p.slopes[k] += weight[i] * s
		}
	}
}

// meanSlope returns the mean slope of the polynomial of a degree.
func (p *polynomials) meanSlope(degree int) float64 { return p.slopes[degree] }

// degree returns the highest degree that there is.
func (p *polynomials) degree() int { return len(p.a) }

// at fills values with the polynomials of degree 0, 1, … at a value of the
// unknown, and slopes with their derivatives in it; slopes may be nil.
func (p *polynomials) at(value float64, values, slopes []float64) {
	t := (value - p.mean) / p.deviation
	before, now, root := 0.0, 1.0, 0.0
	slopeBefore, slope := 0.0, 0.0
	for k := range values {
		values[k] = now
		if slopes != nil {
			slopes[k] = slope / p.deviation
		}
		if k == len(p.a) {
			break
		}
		next := ((t-p.a[k])*now - root*before) / p.b[k]
		nextSlope := (now + (t-p.a[k])*slope - root*slopeBefore) / p.b[k]
		root = p.b[k]
		before, now = now, next
		slopeBefore, slope = slope, nextSlope
	}
}
