package accuracy

import (
	"math"
	"strconv"
)

// Shown returns the computed value to the digits of the tolerance, and where
// there is none to eight: what is smaller than that is the machine's.
func (r *Row) Shown() string { return shown(r.Computed, r.Tolerance) }

// Step is one unit of the last digit that Shown shows.
func (r *Row) Step() float64 {
	if r.Tolerance > 0 {
		return math.Pow(10, math.Floor(math.Log10(r.Tolerance)+1e-9))
	}
	return math.Max(math.Abs(r.Published), 1e-9) * 1e-7
}

func shown(value, tolerance float64) string {
	if !(tolerance > 0) {
		return strconv.FormatFloat(value, 'g', 8, 64)
	}
	digits := -int(math.Floor(math.Log10(tolerance) + 1e-9))
	size := math.Abs(value)
	text := strconv.FormatFloat(value, 'f', max(0, digits), 64)
	if size > 0 && size < 1e-3 && digits > 6 {
		text = strconv.FormatFloat(value, 'e', max(0, digits+int(math.Floor(math.Log10(size)))), 64)
	}
	if number, err := strconv.ParseFloat(text, 64); err == nil && number == 0 {
		return "0" // not -0.000
	}
	return text
}

// Number returns a published value or a tolerance as it was written, without
// the noise of a product in its last bits.
func Number(v float64) string {
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 10, 64), 64)
	if err != nil {
		rounded = v
	}
	return strconv.FormatFloat(rounded, 'g', -1, 64)
}
