package quantity

import (
	"fmt"
	"math"
)

// Spread is the shape of a quantity's distribution. The zero value is Exact.
type Spread int

// The shapes.
const (
	Exact      Spread = iota // one value
	Normal                   // mean and standard deviation, tails cut
	Uniform                  // anything between two bounds is as likely
	Triangular               // low, likely and high
)

// String returns the shape in a word.
func (s Spread) String() string {
	switch s {
	case Exact:
		return "exact"
	case Normal:
		return "normal"
	case Uniform:
		return "uniform"
	case Triangular:
		return "triangular"
	}
	return "unknown spread"
}

// Quantity is a value with its dimension and its distribution. All numbers are
// SI, angles in radians, temperatures in kelvin. The zero value is an exact
// plain 0. Quantities compare with ==.
type Quantity struct {
	Likely float64 // the value itself; the mean of a normal, the middle of a uniform, the mode of a triangular
	Spread Spread
	// Low and High bound a Uniform or a Triangular. On a Normal they cut the
	// tails where Low < High; where both are 0 the tails end at TailDeviations.
	Low, High float64
	Deviation float64 // one standard deviation of a Normal before its tails are cut
	Dimension Dimension
	Unit      string // as the user wrote it, for showing the value again
}

// Of returns an exact quantity in the dimension's SI unit.
func Of(value float64, d Dimension) Quantity {
	return Quantity{Likely: value, Dimension: d, Unit: d.SI()}
}

// Exact reports whether the quantity has no spread.
func (q Quantity) Exact() bool { return q.Spread == Exact }

// Support returns the least and the greatest value that At can return, SI.
func (q Quantity) Support() (low, high float64) {
	switch q.Spread {
	case Normal:
		low, high = q.Likely-TailDeviations*q.Deviation, q.Likely+TailDeviations*q.Deviation
		if q.Low < q.High {
			low, high = min(max(low, q.Low), q.Likely), max(min(high, q.High), q.Likely)
		}
		return low, high
	case Uniform, Triangular:
		return q.Low, q.High
	}
	return q.Likely, q.Likely
}

// At returns the quantile p, SI: the value that the quantity falls below with
// probability p. It rises with p, so evenly spread points in (0, 1), of a Sobol
// sequence say, become evenly spread draws. p below 0 and above 1 give the ends
// of the support; a p that is no number gives the median.
//
// A Normal is drawn from the normal distribution truncated at TailDeviations
// (and at Low and High where it is cut), not clamped: no value is piled up at
// the ends. A Triangular inverts its piecewise quadratic distribution function.
func (q Quantity) At(p float64) float64 {
	if math.IsNaN(p) {
		p = 0.5
	}
	low, high := q.Support()
	if p <= 0 {
		return low
	}
	if p >= 1 {
		return high
	}
	var value float64
	switch q.Spread {
	case Normal:
		value = q.Likely + q.Deviation*q.tails().quantile(p)
	case Uniform:
		value = low + p*(high-low)
	case Triangular:
		if rise := q.Likely - low; p*(high-low) < rise {
			value = low + math.Sqrt(p*(high-low)*rise)
		} else {
			value = high - math.Sqrt((1-p)*(high-low)*(high-q.Likely))
		}
	default:
		return q.Likely
	}
	return min(max(value, low), high)
}

// Mean returns the mean of the distribution, SI. It differs from Likely for a
// lopsided Triangular and for a Normal that is cut on one side.
func (q Quantity) Mean() float64 {
	switch q.Spread {
	case Normal:
		return q.Likely + q.Deviation*q.tails().mean()
	case Triangular:
		return q.Likely + ((q.Low-q.Likely)+(q.High-q.Likely))/3
	}
	return q.Likely
}

// StandardDeviation returns the standard deviation of the distribution, SI; it
// is 0 for an exact quantity. For a Normal that only ends at TailDeviations it
// is Deviation itself, which the missing tails lower by less than 0.06 %.
func (q Quantity) StandardDeviation() float64 {
	switch q.Spread {
	case Normal:
		if q.Low < q.High {
			return q.Deviation * q.tails().deviation()
		}
		return q.Deviation
	case Uniform:
		return (q.High - q.Low) / math.Sqrt(12)
	case Triangular:
		a, b := q.Likely-q.Low, q.High-q.Likely
		return math.Sqrt((a*a + a*b + b*b) / 18)
	}
	return 0
}

// String returns the quantity in its own unit with as many digits as it takes:
// Parse reads what it gave back as the same Quantity, and a number that it never
// gave, such as the result of a calculation, to the last bit but one.
func (q Quantity) String() string {
	u, name := unitFor(q.Unit, q.Dimension)
	value := func(v float64) string { return join(digitsFor(v, u.number(v), u.si), name) }
	switch q.Spread {
	case Normal:
		text := value(q.Likely) + " ± " + join(digitsFor(q.Deviation, u.numberSpan(q.Deviation), u.siSpan), name)
		if q.Low < q.High {
			text += " within " + value(q.Low) + " to " + value(q.High)
		}
		return text
	case Uniform:
		return digitsFor(q.Low, u.number(q.Low), u.si) + " to " + value(q.High)
	case Triangular:
		return digitsFor(q.Low, u.number(q.Low), u.si) + " / " +
			digitsFor(q.Likely, u.number(q.Likely), u.si) + " / " + value(q.High)
	}
	return value(q.Likely)
}

// Cut returns the quantity with the tails of a Normal cut at two bounds, SI,
// either of which may be infinite: Cut(q, 0, math.Inf(1)) keeps a factor of
// 1.0 ± 0.5 positive. What remains keeps its shape; its mean moves away from a
// cut and its deviation shrinks.
//
// Only tails, which nobody wrote, are cut. Where the value itself or a bound
// that a person wrote lies outside, or the two bounds are not in order, the
// error says so and q is returned as it was.
func Cut(q Quantity, low, high float64) (Quantity, error) {
	fault := func(problem, hint string) (Quantity, error) {
		return q, &Error{Text: q.String(), Problem: problem, Hint: hint}
	}
	within := Range{Low: low, High: high, Dimension: q.Dimension, Unit: q.Unit}
	if !(low < high) {
		return fault(fmt.Sprintf("%s cannot be cut, its bounds are not in order", q), "")
	}
	from, until := q.Support()
	if q.Spread == Normal {
		if q.Likely < low || q.Likely > high {
			return fault(fmt.Sprintf("%s lies outside %s", q, within), "")
		}
		if from < low || until > high {
			q.Low, q.High = max(from, low), min(until, high)
		}
		return q, nil
	}
	if from < low || until > high {
		return fault(fmt.Sprintf("%s reaches outside %s", q, within), "write bounds that stay inside")
	}
	return q, nil
}
