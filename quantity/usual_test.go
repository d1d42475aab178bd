package quantity

import "testing"

// The units of a choice, and its name as a page says it.
func TestUnitsOfAChoice(t *testing.T) {
	const kn = 1852.0 / 3600
	for _, c := range []struct {
		units Units
		unit  string
		value float64
		want  string
	}{
		{Trade, "m/s", 17 * kn, "17.00 kn"}, {SI, "m/s", 17 * kn, "8.75 m/s"},
		{Trade, "N", 24100, "24.10 kN"}, {SI, "N", 24100, "24100 N"},
		{Trade, "N·m", 91900, "91.9 kN·m"}, {SI, "N·m", 91900, "91900 N·m"},
		{Trade, "rad", 0.5, "28.6 deg"}, {SI, "rad", 0.5, "28.6 deg"},
		{SI, "s", 4, "4.0 s"}, {SI, "m", 1.234, "1.23 m"},
	} {
		if got := c.units.For(c.unit).Format(c.value); got != c.want {
			t.Errorf("%v %s: %q, want %q", c.units, c.unit, got, c.want)
		}
	}
	if got := SI.On(1000, "N").Format(12.34); got != "12.3 N" {
		t.Errorf("a light boat's force: %q", got)
	}
	for _, name := range []string{"trade", "si"} {
		var c Units
		if err := c.UnmarshalText([]byte(name)); err != nil {
			t.Error(err)
		}
		if back, err := c.MarshalText(); err != nil || string(back) != name {
			t.Errorf("%q comes back as %q (%v)", name, back, err)
		}
	}
	if err := new(Units).UnmarshalText([]byte("imperial")); err == nil {
		t.Error("units that are not known are taken")
	}
}

// People type a figure with its unit close or apart, in any unit that would do.
func TestTypedSpellings(t *testing.T) {
	for _, c := range []struct {
		text string
		d    Dimension
		want string
	}{
		{"14 kn", Speed, "7.20 m/s"}, {"14kn", Speed, "7.20 m/s"}, {"14 kt", Speed, "7.20 m/s"}, {"7.2 m/s", Speed, "7.20 m/s"},
		{"3°", Angle, "3.0 deg"}, {"3 °", Angle, "3.0 deg"}, {"3 deg", Angle, "3.0 deg"}, {"0.1 rad", Angle, "5.7 deg"}, {"-2.5°", Angle, "-2.5 deg"},
		{"95 kN·m", Moment, "95000 N·m"}, {"95 kNm", Moment, "95000 N·m"}, {"1.2 m", Length, "1.20 m"}, {"120 cm", Length, "1.20 m"},
	} {
		v, err := Parse(c.text, c.d)
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
			continue
		}
		if got := SI.For(dimensions[c.d].si).Format(v.Likely); got != c.want {
			t.Errorf("%q reads %s, want %s", c.text, got, c.want)
		}
	}
}
