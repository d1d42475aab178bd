package quantity

import (
	"math"
	"testing"
)

const (
	degree = math.Pi / 180
	knot   = 1852.0 / 3600
)

func exact(v float64) Quantity     { return Quantity{Likely: v} }
func normal(v, s float64) Quantity { return Quantity{Likely: v, Spread: Normal, Deviation: s} }
func uniform(l, h float64) Quantity {
	return Quantity{Likely: (l + h) / 2, Spread: Uniform, Low: l, High: h}
}
func triangular(l, m, h float64) Quantity {
	return Quantity{Likely: m, Spread: Triangular, Low: l, High: h}
}

var parsed = []struct {
	text string
	d    Dimension
	want Quantity
	unit string
}{
	{"5.20 m", Length, exact(5.2), "m"},
	{" 5.20m ", Length, exact(5.2), "m"},
	{"5.20\u00a0m", Length, exact(5.2), "m"},
	{"-0.30 m", Length, exact(-0.3), "m"},
	{"−1.2 deg", Angle, exact(-1.2 * degree), "deg"},
	{"+3°", Angle, exact(3 * degree), "°"},
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
	{"17 kn", Speed, exact(17 * knot), "kn"},
	{"17 kts", Speed, exact(17 * knot), "kts"},
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
	{"12 deg/m", AnglePerLength, exact(12 * degree), "deg/m"},
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
}

func TestParse(t *testing.T) {
	for _, c := range parsed {
		got, err := Parse(c.text, c.d)
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
			continue
		}
		c.want.Dimension, c.want.Unit = c.d, c.unit
		if !nearly(got, c.want) {
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

// nearly compares quantities with room for the last bits of a conversion.
func nearly(a, b Quantity) bool {
	same := func(x, y float64) bool { return math.Abs(x-y) <= 1e-14*max(math.Abs(x), math.Abs(y)) }
	return same(a.Likely, b.Likely) && same(a.Low, b.Low) && same(a.High, b.High) &&
		same(a.Deviation, b.Deviation) && a.Spread == b.Spread && a.Dimension == b.Dimension && a.Unit == b.Unit
}
