package quantity

import (
	"math"
	"strings"
	"testing"
)

var seeds = []string{
	"5.20 m", "5.20 m ± 0.05 m", "5.20 ± 0.05 m", "1180 kg +/- 2 %", "0.60 to 0.80", "5.1 / 5.2 / 5.4 m",
	"6 x 88 kg", "6×88kg ± 2 %", "−1.2°", "15 °C ± 2 °C", "59 °F", "35 g/kg", "30 % ± 2 %", "1 ± 0.5 within 0 to 2",
	"45 cm to 1.10 m", "95 kN m", "1.19e-6 m²/s", "7 kN·m/deg", "24 KN", "5,20 m", "1 180 kg", "NaN", "1e400 m",
	"", "5-6 m", "5 m x 3 m", "at least 0.15 m", "at most 24 kN", "-15 to 110 deg", "0 %", ">= 5 deg",
	"8,10,12 kn", "8 to 20 kn by 2", "0 to 1 kn by 0.1", "8 kn ± 1 kn, 10 kn", "5 m\x00", "\xff", "1e-30 mm ± 1e-28 %",
	"1 ft ± 1 cm", "1 in / 1 ft / 1 m", "1e30 m", "-273.15 °C", "3 deg ± 2 % within 0 to 1 rad", "5 m/", "1 /2/ 3m/s",
}

func seed(f *testing.F) {
	for i, text := range seeds {
		f.Add(text, i%len(everyDimension()))
		f.Add(text, int(Length))
		f.Add(text, int(Number))
		f.Add(text, int(Share))
		f.Add(text, int(Speed))
	}
}

// sound fails unless a quantity is finite, in order, and reads back as itself.
func sound(t *testing.T, text string, q Quantity, want Dimension) {
	t.Helper()
	low, high := q.Support()
	for _, v := range []float64{q.Likely, q.Low, q.High, q.Deviation, low, high, q.Mean(), q.StandardDeviation()} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.Fatalf("%q gives a number that is none: %#v", text, q)
		}
	}
	if !(low <= q.Likely && q.Likely <= high) || q.StandardDeviation() < 0 || q.Dimension != want {
		t.Fatalf("%q is out of order: %#v", text, q)
	}
	if q.Exact() != (q.StandardDeviation() == 0) {
		t.Fatalf("%q: exact %v, deviation %v", text, q.Exact(), q.StandardDeviation())
	}
	last := low
	for p := 0.0; p <= 1; p += 1.0 / 64 {
		v := q.At(p)
		if !(v >= last && v <= high) {
			t.Fatalf("%q: the quantile %v is %v after %v", text, p, v, last)
		}
		last = v
	}
	again, err := Parse(q.String(), want)
	if err != nil || again != q {
		t.Fatalf("%q is written %q and reads back as %#v, %v; was %#v", text, q, again, err, q)
	}
}

func spoken(t *testing.T, text string, err error) {
	t.Helper()
	fault, ok := err.(*Error)
	if !ok || fault.Problem == "" || fault.Offset < 0 || fault.Offset > len(text) || fault.Text != text {
		t.Fatalf("%q gives a poor error: %#v", text, err)
	}
	if strings.ContainsFunc(fault.Problem+fault.Hint, func(r rune) bool { return r < ' ' }) {
		t.Fatalf("%q puts control characters into its error: %q", text, err)
	}
}

func FuzzParse(f *testing.F) {
	seed(f)
	f.Fuzz(func(t *testing.T, text string, dimension int) {
		q, err := Parse(text, Dimension(dimension))
		if err != nil {
			spoken(t, text, err)
			return
		}
		sound(t, text, q, Dimension(dimension))
	})
}

func FuzzParseRange(f *testing.F) {
	seed(f)
	f.Fuzz(func(t *testing.T, text string, dimension int) {
		r, err := ParseRange(text, Dimension(dimension))
		if err != nil {
			spoken(t, text, err)
			return
		}
		if !(r.Low <= r.High) {
			t.Fatalf("%q is out of order: %#v", text, r)
		}
		again, err := ParseRange(r.String(), Dimension(dimension))
		if err != nil || again != r {
			t.Fatalf("%q is written %q and reads back as %#v, %v; was %#v", text, r, again, err, r)
		}
	})
}

func FuzzParseList(f *testing.F) {
	seed(f)
	f.Fuzz(func(t *testing.T, text string, dimension int) {
		list, err := ParseList(text, Dimension(dimension))
		if err != nil {
			spoken(t, text, err)
			return
		}
		if len(list) == 0 || len(list) > 1000 {
			t.Fatalf("%q gives %d points", text, len(list))
		}
		for _, q := range list {
			sound(t, text, q, Dimension(dimension))
		}
	})
}
