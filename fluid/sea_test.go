package fluid

import (
	"math"
	"strings"
	"testing"

	"foilwright/si"
)

// Lengths, speeds and encounters of deep-water waves against closed forms, and the
// Rayleigh law against the ratios that every handbook derives from it
// (Longuet-Higgins 1952, table 1: the mean of the highest third is the significant
// height, the mean of all 0.626 of it, the mean of the highest tenth 1.271).
func TestSea(t *testing.T) {
	s, err := NewSea(0.6, 3.2)
	if err != nil {
		t.Fatal(err)
	}
	if want := si.Gravity * 3.2 * 3.2 / (2 * math.Pi); math.Abs(s.Length()-want) > 1e-12 || math.Abs(s.Number()*s.Length()-2*math.Pi) > 1e-12 {
		t.Errorf("length %.6f m, number %.6f; want %.6f m", s.Length(), s.Number(), want)
	}
	celerity := si.Speed(s.Length() / s.Period)
	if e := s.Encounter(celerity, 180*si.Degree); math.Abs(e) > 1e-12 {
		t.Errorf("running with the waves at their speed a boat meets them at %g rad/s", e)
	}
	if e := s.Encounter(celerity, 0); math.Abs(e-2*s.Frequency()) > 1e-12 {
		t.Errorf("against them at their speed it meets them at %g rad/s, want %g", e, 2*s.Frequency())
	}
	if e := s.Encounter(celerity, 90*si.Degree); math.Abs(e-s.Frequency()) > 1e-12 {
		t.Errorf("along the crests it meets them at %g rad/s, want %g", e, s.Frequency())
	}
	for _, c := range []struct{ highest, ratio float64 }{{1, 0.626}, {3, 1}, {10, 1.271}} {
		if got := meanOfHighest(s, c.highest) / s.Height; math.Abs(got-c.ratio) > 0.002 {
			t.Errorf("the mean of the highest 1/%g is %.4f of the significant height, want %.3f", c.highest, got, c.ratio)
		}
	}
	if s.Exceeded(1) != 0 || s.Exceeded(0) != 0 || s.Exceeded(math.NaN()) != 0 {
		t.Error("every wave is above nothing")
	}
}

// meanOfHighest sums the heights above each share of the waves, twice the amplitude.
func meanOfHighest(s Sea, highest float64) float64 {
	const n = 200000
	sum := 0.0
	for i := range n {
		share := (float64(i) + 0.5) / n / highest
		sum += 2 * s.Exceeded(1/share)
	}
	return sum / n
}

func TestCalmSea(t *testing.T) {
	s, err := NewSea(0, 5)
	if err != nil || !s.Calm() || s != (Sea{}) {
		t.Errorf("height 0: %+v, %v", s, err)
	}
	if s.Length() != 0 || s.Number() != 0 || s.Encounter(10, 0) != 0 || s.Exceeded(20) != 0 {
		t.Error("a calm sea has waves")
	}
}

func TestSeasThatAreNone(t *testing.T) {
	for _, c := range []struct {
		height, period float64
		want           string
	}{
		{-1, 3, "wave height: -1 m, allowed is 0 to 20 m\nhint: give the significant height, such as 0.6 m"},
		{math.NaN(), 3, "wave height: NaN m, allowed"},
		{1, 0, "wave period: 0 s, allowed is above 0 to 30 s\nhint: give the period of the highest waves, such as 3.2 s"},
		{1, 60, "wave period: 60 s, allowed"},
		{1, 1.5, "wave height: 1 m on waves that a period of 1.5 s makes 3.51 m long is steeper than waves can be (0.142 of their length)\nhint: such a height needs a period of 2.2 s or more"},
	} {
		if _, err := NewSea(c.height, c.period); err == nil || !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("height %g, period %g: %v, want %q", c.height, c.period, err, c.want)
		}
	}
}
