package quantity_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	. "foilwright/quantity"
)

func TestParse(t *testing.T) {
	const deg, kn = math.Pi / 180, 1852.0 / 3600
	exact := func(v float64) Quantity { return Quantity{Likely: v} }
	normal := func(v, s float64) Quantity { return Quantity{Likely: v, Spread: Normal, Deviation: s} }
	uniform := func(l, h float64) Quantity {
		return Quantity{Likely: (l + h) / 2, Spread: Uniform, Low: l, High: h}
	}
	triangular := func(l, m, h float64) Quantity {
		return Quantity{Likely: m, Spread: Triangular, Low: l, High: h}
	}
	for _, c := range []struct {
		text string
		d    Dimension
		want Quantity
		unit string
	}{
		{"5.20 m", Length, exact(5.2), "m"},
		{" 5.20m ", Length, exact(5.2), "m"},
		{"5.20\u00a0m", Length, exact(5.2), "m"},
		{"-0.30 m", Length, exact(-0.3), "m"},
		{"−1.2 deg", Angle, exact(-1.2 * deg), "deg"},
		{"+3°", Angle, exact(3 * deg), "°"},
		{"-0 m", Length, exact(0), "m"},
		{".5 m", Length, exact(0.5), "m"},
		{"5. m", Length, exact(5), "m"},
		{"42 mm", Length, exact(0.042), "mm"},
		{"0.5 nmi", Length, exact(926), "nmi"},
		{"100 μm", Length, exact(1e-4), "μm"},
		{"0.27 m2", Area, exact(0.27), "m2"},
		{"0.27 m^2", Area, exact(0.27), "m^2"},
		{"66 m² ± 2 m²", Area, normal(66, 2), "m²"},
		{"7.4 t", Mass, exact(7400), "t"},
		{"17 kn", Speed, exact(17 * kn), "kn"},
		{"17 kts", Speed, exact(17 * kn), "kts"},
		{"36 km/h", Speed, exact(10), "km/h"},
		{"10 m / s", Speed, exact(10), "m/s"},
		{"24 kN", Force, exact(24000), "kN"},
		{"95 kNm", Moment, exact(95000), "kNm"},
		{"95 kN m", Moment, exact(95000), "kN·m"},
		{"95 kN⋅m", Moment, exact(95000), "kN⋅m"},
		{"1013 hPa", Pressure, exact(101300), "hPa"},
		{"1025 kg/m3", Density, exact(1025), "kg/m3"},
		{"1.19e-6 m²/s", Viscosity, exact(1.19e-6), "m²/s"},
		{"1.19 mm2/s", Viscosity, exact(1.19e-6), "mm2/s"},
		{"15 °C", Temperature, exact(288.15), "°C"},
		{"15 C ± 2 C", Temperature, normal(288.15, 2), "C"},
		{"288.15 K ± 1 %", Temperature, normal(288.15, 2.8815), "K"},
		{"1.5 min", Time, exact(90), "min"},
		{"12 deg/m", AnglePerLength, exact(12 * deg), "deg/m"},
		{"35 g/kg", Share, exact(0.035), "g/kg"},
		{"35 g/kg ± 2 %", Share, normal(0.035, 0.0007), "g/kg"},
		{"30 %", Share, exact(0.3), "%"},
		{"0.35", Share, exact(0.35), ""},
		{"30 % ± 2 %", Share, normal(0.3, 0.02), "%"},
		{"60 to 100 %", Share, uniform(0.6, 1), "%"},
		{"0.60 to 0.80", Share, uniform(0.6, 0.8), ""},
		{"1.00 ± 0.02", Number, normal(1, 0.02), ""},
		{"1.00 ± 2 %", Number, normal(1, 0.02), ""},
		{"102 %", Number, exact(1.02), "%"},
		{"5.20 m ± 0.05 m", Length, normal(5.2, 0.05), "m"},
		{"5.20 ± 0.05 m", Length, normal(5.2, 0.05), "m"},
		{"5.20 m +/- 0.05 m", Length, normal(5.2, 0.05), "m"},
		{"5.20m+-5cm", Length, normal(5.2, 0.05), "m"},
		{"1180 kg ± 2 %", Mass, normal(1180, 23.6), "kg"},
		{"-10 m ± 2 %", Length, normal(-10, 0.2), "m"},
		{"5.1 m to 5.3 m", Length, uniform(5.1, 5.3), "m"},
		{"-5 to -3 m", Length, uniform(-5, -3), "m"},
		{"45 cm to 1.10 m", Length, uniform(0.45, 1.10), "cm"},
		{"5 t to 6 t", Mass, uniform(5000, 6000), "t"},
		{"5t to6t", Mass, uniform(5000, 6000), "t"},
		{"5.1 / 5.2 / 5.4 m", Length, triangular(5.1, 5.2, 5.4), "m"},
		{"5.1/5.2/5.4m", Length, triangular(5.1, 5.2, 5.4), "m"},
		{"1 m/s / 2 m/s / 3 m/s", Speed, triangular(1, 2, 3), "m/s"},
		{"1 / 1 / 3", Number, triangular(1, 1, 3), ""},
		{"6 x 88 kg", Mass, exact(528), "kg"},
		{"6×88kg", Mass, exact(528), "kg"},
		{"6 x 88 kg ± 2 %", Mass, normal(528, 10.56), "kg"},
		{"1.0 ± 0.5 within 0 to 2", Number, Quantity{Likely: 1, Spread: Normal, Deviation: 0.5, High: 2}, ""},
	} {
		got, err := Parse(c.text, c.d)
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
			continue
		}
		c.want.Dimension, c.want.Unit = c.d, c.unit
		if !close(got, c.want) {
			t.Errorf("%s is %#v, want %#v", c.text, got, c.want)
		}
		if math.Signbit(got.Likely) && got.Likely == 0 {
			t.Errorf("%s is a negative nought", c.text)
		}
		if again, err := Parse(got.String(), c.d); err != nil || again != got {
			t.Errorf("%s is written %s and reads back as %#v, %v", c.text, got, again, err)
		}
	}
}

// close compares quantities with room for the last bits of a conversion.
func close(a, b Quantity) bool {
	same := func(x, y float64) bool { return math.Abs(x-y) <= 1e-14*max(math.Abs(x), math.Abs(y)) }
	return same(a.Likely, b.Likely) && same(a.Low, b.Low) && same(a.High, b.High) &&
		same(a.Deviation, b.Deviation) && a.Spread == b.Spread && a.Dimension == b.Dimension && a.Unit == b.Unit
}

func TestParseErrors(t *testing.T) {
	for _, c := range []struct {
		text   string
		d      Dimension
		offset int
		want   string
	}{
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

		{"5.2 kg", Angle, 4, "5.2 kg is a mass, and an angle is wanted\nhint: units that would do: deg, rad or mrad"},
		{"5.2 m ± 1 kg", Length, 11, "1 kg is a mass, and a length is wanted\nhint: units that would do: m, mm, cm, km, µm, nmi, ft or in"},
		{"2 m", Number, 2, "2 m is a length, and a number is wanted\nhint: write a number with no unit, such as 1.02"},
		{"2 m", Share, 2, "2 m is a length, and a share is wanted\nhint: write a share such as 0.30 or 30 %"},
		{"24 KN", Force, 3, "KN in 24 KN is not a known unit\nhint: did you mean kN (force) or kn (speed)?"},
		{"24 KN", Speed, 3, "KN in 24 KN is not a known unit\nhint: did you mean kn (speed) or kN (force)?"},
		{"5 Deg", Angle, 2, "Deg in 5 Deg is not a known unit\nhint: did you mean deg (angle)?"},
		{"5 nm", Length, 2, "nm in 5 nm is not a known unit\nhint: write nmi for nautical miles or Nm for newton metres"},
		{"5 Knots", Speed, 2, "Knots in 5 Knots is not a known unit\nhint: write 5 kn"},
		{"5 furlongs", Mass, 2, "furlongs in 5 furlongs is not a known unit\nhint: units that would do: kg, t, g or lb"},
		{"5 m wide", Length, 2, "wide after 5 m is not understood\nhint: write the quantity alone, such as 5.20 m ± 0.05 m"},
		{"5 m\x00", Length, 2, "\"m\\x00\" in \"5 m\\x00\" is not a known unit\nhint: units that would do: m, mm, cm, km, µm, nmi, ft or in"},

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

		{"5,20 m", Length, 1, "5,20 has a comma, the decimal sign is a point\nhint: write 5.20 m"},
		{"5,20", Length, 1, "5,20 has a comma, the decimal sign is a point\nhint: write 5.20"},
		{"1,180 kg", Mass, 1, "1,180 has a comma, the decimal sign is a point\nhint: write 1.180 kg or 1180 kg"},
		{"1 180 kg", Mass, 2, "1 and 180 kg have nothing between them\nhint: write 1180 kg: thousands are not set apart"},
		{"8, 10 kn", Speed, 1, "8, 10 kn is a list, and one value is wanted\nhint: give one of them"},
		{"5-6 m", Length, 1, "5 and -6 m have nothing between them that is understood\nhint: write 5 to 6 m for a range"},
		{"5 – 6 m", Length, 2, "5 and – 6 m have nothing between them that is understood\nhint: write 5 to 6 m for a range"},
		{"5 m +1 m", Length, 4, "5 m and +1 m have nothing between them that is understood\nhint: write 5 m +/- 1 m for a spread"},

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
		{"1 ± 0.5 within 2 to 3", Number, 0, "1 lies outside 2 to 3\nhint: cut tails only, the value itself must stay inside"},

		{"6 x 88 kg ± 4 kg", Mass, 0, "6 x 88 kg ± 4 kg has a spread or range that may belong to one or to all of them\nhint: write 528 kg ± 9.8 kg if each varies by itself, or ± 24 kg if all vary together"},
		{"6 x 80 to 90 kg", Mass, 0, "6 x 80 to 90 kg has a spread or range that may belong to one or to all of them\nhint: write the sum and its own spread"},
		{"2.5 x 3 m", Length, 0, "2.5 is not a count, a whole number from 1 to 10000 is wanted before x\nhint: write a count and a quantity, such as 6 x 88 kg"},
		{"5 m x 3 m", Area, 4, "x 3 m after 5 m is not understood\nhint: only a whole count may be multiplied, as in 6 x 88 kg"},
		{"2 x 15 °C", Temperature, 0, "2 x 15 °C multiplies a reading on a scale with its own zero\nhint: write the temperature alone, such as 15 °C"},

		{"5 \xff", Length, 0, "\"5 \\xff\" is not UTF-8 text\nhint: save the file as UTF-8"},
		{strings.Repeat("1", 201), Number, 0, "a quantity of 201 characters is too long, 200 are allowed"},
		{"5", Dimension(-1), 0, "the dimension wanted here is not one that is known"},
	} {
		checkError(t, c.text, func() error { _, err := Parse(c.text, c.d); return err }(), c.offset, c.want)
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

func TestParseRange(t *testing.T) {
	inf := math.Inf(1)
	for _, c := range []struct {
		text      string
		d         Dimension
		low, high float64
		back      string
	}{
		{"0.45 to 1.10 m", Length, 0.45, 1.1, "0.45 to 1.1 m"},
		{"0.45 m to 1.10 m", Length, 0.45, 1.1, "0.45 to 1.1 m"},
		{"-1.35 to 1.35 m", Length, -1.35, 1.35, "-1.35 to 1.35 m"},
		{"at least 0.15 m", Length, 0.15, inf, "at least 0.15 m"},
		{"  at most 24 kN", Force, -inf, 24000, "at most 24 kN"},
		{"at least 0", Number, 0, inf, "at least 0"},
		{"60 to 100 %", Share, 0.6, 1, "60 to 100 %"},
		{"0 %", Share, 0, 0, "0 %"},
		{"2 to 2 m", Length, 2, 2, "2 m"},
		{"at most 6 x 110 kg", Mass, -inf, 660, "at most 660 kg"},
	} {
		r, err := ParseRange(c.text, c.d)
		if err != nil || r.Low != c.low || r.High != c.high || r.Dimension != c.d || r.String() != c.back {
			t.Errorf("%s is %#v (%s), %v", c.text, r, r, err)
		}
		if again, err := ParseRange(r.String(), c.d); err != nil || again != r {
			t.Errorf("%s reads back as %#v, %v", r, again, err)
		}
		if r.Pinned() != (c.low == c.high) || !r.Contains(min(max(0, c.low), c.high)) || r.Contains(math.NaN()) {
			t.Errorf("%s: pinned %v, contains its own end %v", r, r.Pinned(), r.Contains(c.low))
		}
	}
	if open := (Range{Low: -inf, High: inf}); open.String() != "any" {
		t.Errorf("an open range reads %q", open)
	}
	for _, c := range []struct {
		text   string
		offset int
		want   string
	}{
		{"32 to 12 deg", 0, "32 deg to 12 deg runs backwards\nhint: write 12 deg to 32 deg"},
		{"5 deg ± 1 deg", 0, "5 deg ± 1 deg has a spread, and a range has none\nhint: write A to B, at least A, at most B, or one value"},
		{"1 / 2 / 3 deg", 0, "1 / 2 / 3 deg is not a range\nhint: write A to B, at least A, at most B, or one value"},
		{"at least 1 to 2 deg", 9, "at least 1 to 2 deg is not a range\nhint: write A to B, at least A, at most B, or one value"},
		{">= 5 deg", 0, ">= 5 deg does not begin with a number\nhint: write at least 5 deg"},
		{"≤5 deg", 0, "≤5 deg does not begin with a number\nhint: write at most 5 deg"},
		{"at least 5", 9, "5 has no unit\nhint: write at least 5 deg"},
		{"at least ", 9, "at least ends where a number is missing\nhint: write a number and its unit, such as 5.20 m"},
		{"12,5 to 32 deg", 2, "12,5 has a comma, the decimal sign is a point\nhint: write 12.5 to 32 deg"},
		{"0.1 m to 2 m", 4, "0.1 m is a length, and an angle is wanted\nhint: units that would do: deg, rad or mrad"},
		{"", 0, "no value is given\nhint: write a number and its unit, such as 5.20 m"},
	} {
		_, err := ParseRange(c.text, Angle)
		checkError(t, c.text, err, c.offset, c.want)
	}
}

func TestParseList(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"8,10,12 kn", "8 kn|10 kn|12 kn"},
		{"8, 10 kn , 4 m/s", "8 kn|10 kn|4 m/s"},
		{"8 kn", "8 kn"},
		{"12, 8 kn", "12 kn|8 kn"},
		{"8 to 20 kn by 4", "8 kn|12 kn|16 kn|20 kn"},
		{"8 to 21 kn by 4 kn", "8 kn|12 kn|16 kn|20 kn"},
		{"8 to 9 by 0.5 kn", "8 kn|8.5 kn|9 kn"},
		{"-0.2 to 0.2 kn by 0.1", "-0.2 kn|-0.1 kn|0 kn|0.1 kn|0.2 kn"},
		{"0 to 0.7 kn by 0.1", "0 kn|0.1 kn|0.2 kn|0.3 kn|0.4 kn|0.5 kn|0.6 kn|0.7 kn"},
		{"8 kn, 10 kn ± 1 kn", "8 kn|10 kn ± 1 kn"},
		{"8 kn ± 5 %, 10 kn", "8 kn ± 0.4 kn|10 kn"},
		{"8 to 9 kn by 100", "8 kn"},
	} {
		list, err := ParseList(c.text, Speed)
		var got []string
		for _, q := range list {
			got = append(got, q.String())
		}
		if err != nil || strings.Join(got, "|") != c.want {
			t.Errorf("%s is %s, %v; want %s", c.text, strings.Join(got, "|"), err, c.want)
		}
	}
	if list, err := ParseList("1 to 1000 kn by 1", Speed); err != nil || len(list) != 1000 {
		t.Errorf("a thousand points: %d, %v", len(list), err)
	}
	for _, c := range []struct {
		text   string
		offset int
		want   string
	}{
		{"8 to 20 kn", 0, "8 to 20 kn is a range, and single values are wanted\nhint: write a step too, such as 8 to 20 kn by 2"},
		{"8 kn, 10", 6, "10 has no unit\nhint: write 8 kn, 10 kn"},
		{"8,10", 0, "8,10 has no unit\nhint: write 8, 10 kn"},
		{"8 to 20 kn by 0", 14, "a step of 0 leads nowhere\nhint: write a step above 0"},
		{"8 to 20 kn by -2", 14, "a step of -2 leads nowhere\nhint: write a step above 0"},
		{"20 to 8 kn by 2", 0, "20 kn to 8 kn runs backwards\nhint: write 8 kn to 20 kn"},
		{"0 to 1000 kn by 1", 16, "a step of 1 makes more than 1000 points\nhint: write a longer step"},
		{"8 kn by 2", 0, "8 kn by 2 is not a sweep\nhint: write A to B by C, such as 8 to 20 kn by 2"},
		{"8,,9 kn", 2, ",9 kn does not begin with a number\nhint: write a number and its unit, such as 5.20 m"},
		{"8 kn,", 5, "8 kn, ends where a number is missing\nhint: write a number and its unit, such as 5.20 m"},
		{"8 kg", 2, "8 kg is a mass, and a speed is wanted\nhint: units that would do: kn, m/s, km/h or mph"},
	} {
		_, err := ParseList(c.text, Speed)
		checkError(t, c.text, err, c.offset, c.want)
	}
}
