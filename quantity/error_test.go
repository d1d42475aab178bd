package quantity

import (
	"errors"
	"strings"
	"testing"
)

// A refusal is a text, what was wanted, and the error at an offset of the text.
type refusal struct {
	text   string
	d      Dimension
	offset int
	want   string
}

var withoutUnit = []refusal{
	{"5.2", Angle, 0, "5.2 has no unit\nhint: write 5.2 deg or 0.09 rad"},
	{"0.2", Angle, 0, "0.2 has no unit\nhint: write 0.2 deg or 0.003 rad"},
	{"-5.2", Angle, 0, "-5.2 has no unit\nhint: write -5.2 deg or -0.09 rad"},
	{"8", Speed, 0, "8 has no unit\nhint: write 8 kn or 4.12 m/s"},
	{"0", Length, 0, "0 has no unit\nhint: write 0 m or 0 mm"},
	{"1180", Mass, 0, "1180 has no unit\nhint: write 1180 kg or 1.18 t"},
	{"15", Temperature, 0, "15 has no unit\nhint: write 15 °C or 288.15 K"},
	{"288", Temperature, 0, "288 has no unit\nhint: write 288 K or 14.85 °C"},
	{"12 to 32", Angle, 0, "12 to 32 has no unit\nhint: write 12 to 32 deg"},
	{"5.2 ± 0.1", Length, 0, "5.2 ± 0.1 has no unit\nhint: write 5.2 m ± 0.1 m"},
	{"6 x 88", Mass, 0, "6 x 88 has no unit\nhint: write 6 x 88 kg"},
	{"1180 ± 2 %", Mass, 0, "1180 has no unit\nhint: write 1180 kg ± 2 %"},
	{"5.20 m ± 0.05", Length, 10, "0.05 has no unit\nhint: write 5.20 m ± 0.05 m"},
	{"50 % to 0.8", Share, 8, "0.8 has no unit\nhint: write 50 % to 0.8 %"},
}

var wrongUnit = []refusal{
	{"5.2 kg", Angle, 4, "5.2 kg is a mass, and an angle is wanted\nhint: units that would do: deg, rad or mrad"},
	{"5.2 m ± 1 kg", Length, 11, "1 kg is a mass, and a length is wanted\nhint: units that would do: m, mm, cm, km, µm, nmi, ft or in"},
	{"2 m", Number, 2, "2 m is a length, and a number is wanted\nhint: write a number with no unit, such as 1.02"},
	{"2 m", Share, 2, "2 m is a length, and a share is wanted\nhint: write a share such as 0.30 or 30 %"},
	{"24 KN", Force, 3, "KN in 24 KN is not a known unit\nhint: did you mean kN (force) or kn (speed)?"},
	{"24 KN", Speed, 3, "KN in 24 KN is not a known unit\nhint: did you mean kn (speed) or kN (force)?"},
	{"5 Deg", Angle, 2, "Deg in 5 Deg is not a known unit\nhint: did you mean deg (angle)?"},
	{"5 k", Mass, 2, "k in 5 k is not a known unit\nhint: units that would do: kg, t, g or lb"},
	{"5 nm", Length, 2, "nm in 5 nm is not a known unit\nhint: write nmi for nautical miles or Nm for newton metres"},
	{"5 Knots", Speed, 2, "Knots in 5 Knots is not a known unit\nhint: write 5 kn"},
	{"5 furlongs", Mass, 2, "furlongs in 5 furlongs is not a known unit\nhint: units that would do: kg, t, g or lb"},
	{"5 m wide", Length, 2, "wide after 5 m is not understood\nhint: write the quantity alone, such as 5.20 m ± 0.05 m"},
	{"5 m\x00", Length, 2, "\"m\\x00\" in \"5 m\\x00\" is not a known unit\nhint: units that would do: m, mm, cm, km, µm, nmi, ft or in"},
}

var notNumbers = []refusal{
	{"", Length, 0, "no value is given\nhint: write a number and its unit, such as 5.20 m"},
	{"  ", Length, 0, "no value is given\nhint: write a number and its unit, such as 5.20 m"},
	{"m", Length, 0, "m does not begin with a number\nhint: write a number and its unit, such as 5.20 m"},
	{"5 m to ", Length, 7, "5 m to ends where a number is missing\nhint: write a number and its unit, such as 5.20 m"},
	{"NaN m", Length, 0, "NaN m is not a finite number\nhint: write a number and its unit, such as 5.20 m"},
	{"-Inf", Number, 0, "-Inf is not a finite number\nhint: write a number and its unit, such as 5.20 m"},
	{"1e400 m", Length, 0, "1e400 is too large to reckon with, 1e30 in SI units is the limit"},
	{"1e29 km", Length, 0, "1e29 km is too large to reckon with, 1e30 in SI units is the limit"},
	{"1e-400 m", Length, 0, "1e-400 is too small to reckon with, 1e-30 in SI units is the limit\nhint: write 0 where nothing is meant"},
	{"1e-40 m", Length, 0, "1e-40 m is too small to reckon with, 1e-30 in SI units is the limit"},
	{"-300 °C", Temperature, 0, "-300 °C is below absolute zero"},
}

var wrongMarks = []refusal{
	{"5,20 m", Length, 1, "5,20 has a comma, the decimal sign is a point\nhint: write 5.20 m"},
	{"5,20", Length, 1, "5,20 has a comma, the decimal sign is a point\nhint: write 5.20"},
	{"1,180 kg", Mass, 1, "1,180 has a comma, the decimal sign is a point\nhint: write 1.180 kg or 1180 kg"},
	{"1 180 kg", Mass, 2, "1 and 180 kg have nothing between them\nhint: write 1180 kg: thousands are not set apart"},
	{"8, 10 kn", Speed, 1, "8, 10 kn is a list, and one value is wanted\nhint: give one of them"},
	{"5-6 m", Length, 1, "5 and -6 m have nothing between them that is understood\nhint: write 5 to 6 m for a range"},
	{"5 – 6 m", Length, 2, "5 and – 6 m have nothing between them that is understood\nhint: write 5 to 6 m for a range"},
	{"5 m +1 m", Length, 4, "5 m and +1 m have nothing between them that is understood\nhint: write 5 m +/- 1 m for a spread"},
}

var wrongSpreads = []refusal{
	{"5 m ± -1 m", Length, 7, "a spread of -1 m is negative\nhint: write the size of one standard deviation"},
	{"5 ± 0 m", Length, 5, "a spread of 0 m is none\nhint: write 5 m where the value is exact"},
	{"0 m ± 2 %", Length, 7, "2 % of 0 m is none\nhint: write a spread with its unit"},
	{"15 °C ± 2 %", Temperature, 10, "2 % of 15 °C has no meaning on a scale with its own zero\nhint: write a spread in °C"},
	{"30 ± 2 %", Share, 0, "30 ± 2 % can be read in two ways\nhint: write 30 % ± 2 %"},
	{"0.30 ± 2 %", Share, 0, "0.30 ± 2 % can be read in two ways\nhint: write 0.30 ± 0.006 for 2 % of it, or 30 % ± 2 % for points"},
	{"5.3 to 5.1 m", Length, 0, "5.3 m to 5.1 m runs backwards\nhint: write 5.1 m to 5.3 m"},
	{"5 to 5 m", Length, 0, "5 m to 5 m has a spread of none\nhint: write 5 m where the value is exact"},
	{"5.3 / 5.1 / 5.4 m", Length, 6, "the likely value 5.1 m lies outside 5.3 m to 5.4 m\nhint: write low / likely / high, such as 5.1 m / 5.3 m / 5.4 m"},
	{"5.3 / 5.5 / 5.4 m", Length, 6, "the likely value 5.5 m lies outside 5.3 m to 5.4 m\nhint: write low / likely / high, such as 5.3 m / 5.4 m / 5.5 m"},
	{"5.1 / 5.4 m", Length, 0, "5.1 / 5.4 m has two values, low / likely / high has three\nhint: write 5.1 to 5.4 m for a range"},
	{"1 to 2 to 3 m", Length, 0, "1 to 2 to 3 m is not a shape of quantity that is known\nhint: write A, A ± B, A to B, or A / B / C for low, likely and high"},
	{"1 ± 0.5 within 3 to 2", Number, 16, "3 to 2 runs backwards\nhint: write 2 to 3"},
	{"1 ± 0 within 0 to 2", Number, 5, "a spread of 0 is none\nhint: write 1 where the value is exact"},
	{"1e29 / 2 / 1e30 km", Length, 0, "1e29 is too large to reckon with, 1e30 in SI units is the limit"},
	{"1 / 1e-40 / 2 m", Length, 4, "1e-40 is too small to reckon with, 1e-30 in SI units is the limit"},
	{"1 m ± 1e-40 %", Length, 7, "1e-40 % is too small to reckon with, 1e-30 in SI units is the limit"},
	{"1 ± 0.5 within 2 to 3", Number, 0, "1 lies outside 2 to 3\nhint: cut tails only, the value itself must stay inside"},
}

var wrongProducts = []refusal{
	{"6 x 88 kg ± 4 kg", Mass, 0, "6 x 88 kg ± 4 kg has a spread or range that may belong to one or to all of them\nhint: write 528 kg ± 9.8 kg if each varies by itself, or ± 24 kg if all vary together"},
	{"6 x 80 to 90 kg", Mass, 0, "6 x 80 to 90 kg has a spread or range that may belong to one or to all of them\nhint: write the sum and its own spread"},
	{"2.5 x 3 m", Length, 0, "2.5 is not a count, a whole number from 1 to 10000 is wanted before x\nhint: write a count and a quantity, such as 6 x 88 kg"},
	{"5 m x 3 m", Area, 4, "x 3 m after 5 m is not understood\nhint: only a whole count may be multiplied, as in 6 x 88 kg"},
	{"2 x 15 °C", Temperature, 0, "2 x 15 °C multiplies a reading on a scale with its own zero\nhint: write the temperature alone, such as 15 °C"},
}

var wrongTexts = []refusal{
	{"5 \xff", Length, 0, "\"5 \\xff\" is not UTF-8 text\nhint: save the file as UTF-8"},
	{strings.Repeat("1", 201), Number, 0, "a quantity of 201 characters is too long, 200 are allowed"},
	{"5", Dimension(-1), 0, "the dimension wanted here is not one that is known"},
}

func TestParseErrors(t *testing.T) {
	for _, table := range [][]refusal{
		withoutUnit, wrongUnit, notNumbers, wrongMarks, wrongSpreads, wrongProducts, wrongTexts,
	} {
		for _, c := range table {
			_, err := Parse(c.text, c.d)
			checkError(t, c.text, err, c.offset, c.want)
		}
	}
}

func checkError(t *testing.T, text string, err error, offset int, want string) {
	t.Helper()
	var fault *Error
	if !errors.As(err, &fault) {
		t.Errorf("%q: got %v, want the error %q", text, err, want)
		return
	}
	if fault.Error() != want {
		t.Errorf("%q: got the error\n%s\nwant\n%s", text, fault, want)
	}
	if fault.Offset != offset || fault.Text != text {
		t.Errorf("%q: the error stands at %d of %q, want %d", text, fault.Offset, fault.Text, offset)
	}
}
