package quantity

import (
	"math"
	"strconv"
	"strings"
)

// Digits says how many digits a number is shown with: a positive Digits is that
// many significant digits, so Format(v, Speed, "kn", 3) reads as it looks. The
// zero value is Shortest.
type Digits int

// Shortest shows as many digits as it takes to tell the number from its
// neighbours, up to twelve.
const Shortest Digits = 0

// decimalsZero is the Digits of no decimals; fewer lie below it.
const decimalsZero = -100

// mostDigits is as many as a float64 holds.
const mostDigits = 15

// Significant shows n significant digits, 1 to 15.
func Significant(n int) Digits { return Digits(min(max(n, 1), mostDigits)) }

// Decimals shows n digits behind the point, up to 15; a negative n rounds to
// tens, hundreds and so on.
func Decimals(n int) Digits { return Digits(decimalsZero + min(max(n, -mostDigits), mostDigits)) }

// Following shows the digits that a standard deviation (SI) leaves meaning, in
// the unit named: two digits of a deviation that begins with 100 to 354, one of
// 355 to 949, and 950 and more round up to 1000, of which two are kept (Particle
// Data Group, Phys. Rev. D 98 (2018) 030001, introduction, section 5.3). A
// deviation of 0 gives Shortest.
func Following(deviation float64, d Dimension, unit string) Digits {
	u, _ := unitFor(unit, d)
	span := math.Abs(u.numberSpan(deviation))
	if !(span > 0) || math.IsInf(span, 0) {
		return Shortest
	}
	return Decimals(lastPlace(span))
}

// lastPlace returns how many decimals a positive standard deviation leaves
// meaning, fewer than none for tens and hundreds.
func lastPlace(span float64) int {
	text := strconv.FormatFloat(span, 'e', 2, 64)
	if leadingDigits(text) >= 355 {
		return -exponentOf(text)
	}
	return 1 - exponentOf(text)
}

// leadingDigits returns 123 of 1.23e+04, exponentOf 4.
func leadingDigits(text string) int {
	mantissa, _, _ := strings.Cut(text, "e")
	digits, _ := strconv.Atoi(strings.Replace(mantissa, ".", "", 1))
	return digits
}

func exponentOf(text string) int {
	_, power, _ := strings.Cut(text, "e")
	exponent, _ := strconv.Atoi(power)
	return exponent
}

// Format returns a value (SI) in the unit named, such as "31.6 kn". Where the
// unit is not one of the dimension's, the SI unit is used and shown. A value
// that is no number reads "no value", an infinite one "no limit".
func Format(value float64, d Dimension, unit string, digits Digits) string {
	u, name := unitFor(unit, d)
	if words := notFinite(value); words != "" {
		return words
	}
	return join(numeral(u.number(value), digits), name)
}

// Numeral is Format without the unit, for columns that name it in their head.
func Numeral(value float64, d Dimension, unit string, digits Digits) string {
	u, _ := unitFor(unit, d)
	if words := notFinite(value); words != "" {
		return words
	}
	return numeral(u.number(value), digits)
}

// FormatChange is Format for a difference of two values (SI), with its sign
// always shown, "+0.44 kn". Scales with their own zero, such as °C, keep it out.
func FormatChange(change float64, d Dimension, unit string, digits Digits) string {
	u, name := unitFor(unit, d)
	if words := notFinite(change); words != "" {
		return words
	}
	text := numeral(u.numberSpan(change), digits)
	if !strings.HasPrefix(text, "-") && strings.ContainsAny(text, "123456789") {
		text = "+" + text
	}
	return join(text, name)
}

// FormatSpread returns a value and its standard deviation (both SI) with the
// digits that the deviation leaves meaning, see Following: "31.6 ± 0.4 kn". A
// deviation of 0 is left out. In per cent both parts carry the sign, since
// "30 ± 2 %" could be read in two ways.
func FormatSpread(value, deviation float64, d Dimension, unit string) string {
	u, name := unitFor(unit, d)
	number, span := u.number(value), math.Abs(u.numberSpan(deviation))
	if !(span > 0) || math.IsInf(span, 0) || notFinite(value) != "" {
		return Format(value, d, unit, Significant(4))
	}
	mean, spread := withSpread(number, span)
	if u.perCent() || name == "°" {
		return join(mean, name) + " ± " + join(spread, name)
	}
	return join(mean+" ± "+spread, name)
}

// withSpread writes a number and its deviation to the same last place.
func withSpread(number, span float64) (mean, spread string) {
	last := lastPlace(span)
	size := max(math.Abs(number), span)
	if size >= plainFrom && size < plainUpTo {
		return numeral(number, Decimals(last)), numeral(span, Decimals(last))
	}
	// With a power of ten the last place is a count of significant digits.
	upTo := func(n float64) string {
		digits := exponentOf(strconv.FormatFloat(n, 'e', 2, 64)) + last + 1
		if n == 0 || digits < 1 {
			return "0"
		}
		return power(strconv.FormatFloat(n, 'e', min(digits, mostDigits)-1, 64))
	}
	return upTo(number), upTo(span)
}

// FormatRange returns two values (SI) as "0.1 to 0.8 kn".
func FormatRange(low, high float64, d Dimension, unit string, digits Digits) string {
	if notFinite(low) != "" || notFinite(high) != "" {
		return Format(low, d, unit, digits) + " to " + Format(high, d, unit, digits)
	}
	return Numeral(low, d, unit, digits) + " to " + Format(high, d, unit, digits)
}

// InUnit returns a value (SI) as a number of the unit named, for the axes of
// charts; where the unit is not one of the dimension's, of the SI unit.
func InUnit(value float64, d Dimension, unit string) float64 {
	u, _ := unitFor(unit, d)
	return u.number(value)
}

func notFinite(value float64) string {
	switch {
	case math.IsNaN(value):
		return "no value"
	case math.IsInf(value, 0):
		return "no limit"
	}
	return ""
}

// join puts a unit behind a number: a degree sign close, all others apart.
func join(number, unit string) string {
	switch unit {
	case "":
		return number
	case "°":
		return number + unit
	}
	return number + " " + unit
}

// Sizes from plainFrom up to plainUpTo are written without an exponent.
const (
	plainFrom = 1e-4
	plainUpTo = 1e7
)

// numeral writes a finite number with a plain minus, never as "-0".
func numeral(number float64, digits Digits) string {
	var text string
	switch {
	case digits == Shortest:
		text = numeralShortest(number)
	case digits > 0:
		text = numeralSignificant(number, min(int(digits), mostDigits))
	default:
		text = numeralDecimals(number, int(digits)-decimalsZero)
	}
	if !strings.ContainsAny(text, "123456789") {
		text = strings.TrimPrefix(text, "-")
	}
	return text
}

func numeralShortest(number float64) string {
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(number, 'g', 12, 64), 64)
	if err != nil {
		rounded = number
	}
	return plainOrPower(rounded, -1)
}

// plainOrPower writes a number with decimals, or with a power of ten where it is
// very large or small.
func plainOrPower(number float64, decimals int) string {
	size := math.Abs(number)
	if size == 0 || size >= plainFrom && size < plainUpTo {
		return strconv.FormatFloat(number, 'f', decimals, 64)
	}
	return power(strconv.FormatFloat(number, 'e', -1, 64))
}

// power writes Go's 1.19e-06 as 1.19e-6.
func power(text string) string {
	mantissa, exponent, found := strings.Cut(text, "e")
	if n, err := strconv.Atoi(exponent); found && err == nil {
		return mantissa + "e" + strconv.Itoa(n)
	}
	return text
}

func numeralSignificant(number float64, digits int) string {
	text := strconv.FormatFloat(number, 'e', digits-1, 64)
	rounded, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return power(text)
	}
	size := math.Abs(rounded)
	if size != 0 && (size < plainFrom || size >= plainUpTo) {
		return power(text)
	}
	return strconv.FormatFloat(rounded, 'f', max(digits-1-exponentOf(text), 0), 64)
}

func numeralDecimals(number float64, decimals int) string {
	size := math.Abs(number)
	if size >= 1e15 {
		return numeralSignificant(number, mostDigits)
	}
	if decimals >= 0 {
		return strconv.FormatFloat(number, 'f', decimals, 64)
	}
	ten := math.Pow10(-decimals)
	return strconv.FormatFloat(math.RoundToEven(number/ten)*ten, 'f', 0, 64)
}

// trimZeros takes zeros off the end of decimals.
func trimZeros(text string) string {
	if !strings.Contains(text, ".") || strings.Contains(text, "e") {
		return text
	}
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}

// digitsFor returns the fewest digits near a number that turn back into exactly
// the same SI value.
func digitsFor(value, number float64, si func(float64) float64) string {
	if words := notFinite(value); words != "" {
		return words
	}
	for digits := 1; digits <= 17; digits++ {
		text := strconv.FormatFloat(number, 'g', digits, 64)
		if back, err := strconv.ParseFloat(text, 64); err == nil && si(back) == value {
			return canonical(back)
		}
	}
	// Rounding on the way out can land beside the number that was read.
	for _, direction := range []float64{math.Inf(1), math.Inf(-1)} {
		beside := number
		for range 4 {
			beside = math.Nextafter(beside, direction)
			if si(beside) == value {
				return canonical(beside)
			}
		}
	}
	return canonical(number)
}

func canonical(number float64) string {
	if number == 0 {
		return "0"
	}
	return plainOrPower(number, -1)
}
