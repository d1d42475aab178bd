package quantity

import (
	"math"
	"strings"
	"testing"
)

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
