package quantity

import (
	"math"
	"testing"
)

func TestFormat(t *testing.T) {
	const kn = 1852.0 / 3600
	for _, c := range []struct {
		value  float64
		d      Dimension
		unit   string
		digits Digits
		want   string
	}{
		{31.6423 * kn, Speed, "kn", 3, "31.6 kn"},
		{31.6423 * kn, Speed, "kn", Decimals(2), "31.64 kn"},
		{17 * kn, Speed, "kn", Shortest, "17 kn"},
		{17 * kn, Speed, "kn", Significant(4), "17.00 kn"},
		{17 * kn, Speed, "", 3, "8.75 m/s"},
		{17 * kn, Speed, "kg", 3, "8.75 m/s"},
		{99.96, Length, "m", 3, "100 m"},
		{99.94, Length, "m", 3, "99.9 m"},
		{999.96, Length, "m", Significant(4), "1000 m"},
		{1234.5, Mass, "kg", 3, "1230 kg"},
		{1235, Mass, "kg", Decimals(-1), "1240 kg"},
		{0.125, Number, "", Decimals(2), "0.12"},
		{-0.004, Length, "m", Decimals(1), "0.0 m"},
		{math.Copysign(0, -1), Length, "m", 3, "0.00 m"},
		{math.Copysign(0, -1), Length, "m", Shortest, "0 m"},
		{-4, Length, "m", Decimals(-1), "0 m"},
		{-1.5, Length, "m", 2, "-1.5 m"},
		{1.19e-6, Viscosity, "m²/s", 3, "1.19e-6 m²/s"},
		{12345678, Pressure, "Pa", 3, "1.23e7 Pa"},
		{0.5, Angle, "°", 3, "28.6°"},
		{0.3, Share, "%", 2, "30 %"},
		{288.15, Temperature, "°C", 3, "15.0 °C"},
		{math.NaN(), Length, "m", 3, "no value"},
		{math.Inf(-1), Length, "m", 3, "no limit"},
		{1, Dimension(77), "m", 3, "1.00"},
	} {
		if got := Format(c.value, c.d, c.unit, c.digits); got != c.want {
			t.Errorf("Format(%v, %s, %q, %d) = %q, want %q", c.value, c.d, c.unit, c.digits, got, c.want)
		}
	}
	if got := Numeral(31.6423*kn, Speed, "kn", 3); got != "31.6" {
		t.Errorf("Numeral gives %q", got)
	}
	if got := Numeral(math.NaN(), Speed, "kn", 3); got != "no value" {
		t.Errorf("Numeral of no number gives %q", got)
	}
	if got := Format(1.25e16, Number, "", Decimals(1)); got != "1.25000000000000e16" {
		t.Errorf("decimals of a huge number give %q", got)
	}
	if got := FormatRange(0.1*kn, 0.8*kn, Speed, "kn", 1); got != "0.1 to 0.8 kn" {
		t.Errorf("FormatRange gives %q", got)
	}
	if got := FormatRange(0, math.Inf(1), Speed, "kn", 1); got != "0 kn to no limit" {
		t.Errorf("an open FormatRange gives %q", got)
	}
}

func TestFormatChange(t *testing.T) {
	for _, c := range []struct {
		change float64
		d      Dimension
		unit   string
		want   string
	}{
		{0.44, Speed, "m/s", "+0.44 m/s"},
		{-0.44, Speed, "m/s", "-0.44 m/s"},
		{0.0001, Speed, "m/s", "0.00 m/s"},
		{-0.0001, Speed, "m/s", "0.00 m/s"},
		{2, Temperature, "°C", "+2.00 °C"},
	} {
		if got := FormatChange(c.change, c.d, c.unit, Decimals(2)); got != c.want {
			t.Errorf("FormatChange(%v, %s) = %q, want %q", c.change, c.unit, got, c.want)
		}
	}
}

func TestFormatSpread(t *testing.T) {
	for _, c := range []struct {
		value, deviation float64
		d                Dimension
		unit, want       string
	}{
		{31.6423, 0.4, Number, "", "31.6 ± 0.4"},
		// Particle Data Group, Phys. Rev. D 98 (2018) 030001, section 5.3: the
		// rule was read as quoted elsewhere, the two pairs are from memory.
		{0.827, 0.119, Number, "", "0.83 ± 0.12"},
		{0.827, 0.367, Number, "", "0.8 ± 0.4"},
		{12.2136, 0.03215, Number, "", "12.214 ± 0.032"},
		{12.2136, 0.06515, Number, "", "12.21 ± 0.07"},
		{1.2345, 0.0963, Number, "", "1.23 ± 0.10"},
		{1234, 40, Mass, "kg", "1230 ± 40 kg"},
		{1234, 12, Mass, "kg", "1234 ± 12 kg"},
		{-0.001, 0.4, Length, "m", "0.0 ± 0.4 m"},
		{1.19e-6, 2e-8, Viscosity, "m²/s", "1.190e-6 ± 2.0e-8 m²/s"},
		{1e-9, 2e-6, Viscosity, "m²/s", "0 ± 2.0e-6 m²/s"},
		{5.2e8, 4e6, Pressure, "Pa", "5.20e8 ± 4e6 Pa"},
		{0.3, 0.02, Share, "%", "30.0 % ± 2.0 %"},
		{0.5, 0.1, Angle, "°", "29° ± 6°"},
		{288.15, 2, Temperature, "°C", "15.0 ± 2.0 °C"},
		{5.2, 0, Length, "m", "5.200 m"},
		{5.2, math.NaN(), Length, "m", "5.200 m"},
		{math.NaN(), 1, Length, "m", "no value"},
	} {
		if got := FormatSpread(c.value, c.deviation, c.d, c.unit); got != c.want {
			t.Errorf("FormatSpread(%v, %v, %s) = %q, want %q", c.value, c.deviation, c.unit, got, c.want)
		}
	}
	if got := Format(31.6423, Number, "", Following(0.4, Number, "")); got != "31.6" {
		t.Errorf("Following 0.4 gives %q", got)
	}
	if Following(0, Number, "") != Shortest {
		t.Error("a deviation of nought does not leave all digits")
	}
}
