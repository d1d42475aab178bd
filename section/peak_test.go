package section

import (
	"math"
	"strings"
	"testing"

	"foilwright/si"
)

func mustTable(t testing.TB, s Section, share float64) PeakTable {
	t.Helper()
	table, err := s.PeakTable(share)
	if err != nil {
		t.Fatal(err)
	}
	return table
}

// Between its points the table comes near the flow itself: within 1 % of the
// peak and the 0.02 by which corners are rounded off.
func TestPeakTableMeetsTheFlow(t *testing.T) {
	s := mustParse(t, "naca 63-412")
	table := mustTable(t, s, 0.3)
	for _, degrees := range []si.Angle{-8.6, -1.2, 0, 3.7, 11.1} {
		f := mustFlow(t, s, Flap{0.3, degrees * si.Degree}, PanelCount)
		for lift := -0.53; lift < 1.3; lift += 0.06 {
			want := f.Peak(f.AngleFor(lift))
			near(t, "peak", table.Peak(lift, degrees*si.Degree), want, 0.02-0.01*want)
		}
	}
	plain := mustTable(t, s, 0)
	for lift := -1.0; lift < 1.5; lift += 0.1 {
		near(t, "peak without flap", plain.Peak(lift, 0.2), table.Peak(lift, 0), 0.001-0.001*table.Peak(lift, 0))
	}
}

func TestPeakTableIsSmoothAndFinite(t *testing.T) {
	table := mustTable(t, mustParse(t, "naca 64-209"), 0.25)
	const h = 1e-7
	for name, peak := range map[string]func(v float64) float64{
		"lift":     func(v float64) float64 { return table.Peak(v, 0.07) },
		"flap":     func(v float64) float64 { return table.Peak(0.4, si.Angle(v)) },
		"diagonal": func(v float64) float64 { return table.Peak(v, si.Angle(v/4)) },
	} {
		slope := func(v float64) float64 { return (peak(v+h) - peak(v-h)) / (2 * h) }
		previous := slope(-3.0)
		for v := -3.0; v < 3.2; v += 2e-5 {
			now := slope(v)
			// A kink jumps by 1 to 20; rounded off it takes many steps.
			if !(math.Abs(now-previous) < 0.6) {
				t.Fatalf("slope over %s jumps from %g to %g at %g", name, previous, now, v)
			}
			previous = now
		}
	}
	for _, lift := range []float64{-1e6, 1e6} {
		for _, flap := range []si.Angle{-3, 3} {
			if p := table.Peak(lift, flap); !finite(p) {
				t.Errorf("peak at lift %g is %g", lift, p)
			}
		}
	}
	if p := (PeakTable{}).Peak(0.3, 0.1); p != 0 {
		t.Errorf("no table has a peak of %g", p)
	}
}

// More lift than the ideal deepens the peak; a flap that carries the lift eases
// the nose.
func TestPeakTrends(t *testing.T) {
	table := mustTable(t, mustParse(t, "naca 64-209"), 0.3)
	for lift := 0.6; lift < 2; lift += 0.1 {
		if table.Peak(lift+0.1, 0) >= table.Peak(lift, 0) {
			t.Errorf("peak eases from lift %.1f to %.1f", lift, lift+0.1)
		}
	}
	if table.Peak(0.8, 5*si.Degree) <= table.Peak(0.8, 0) {
		t.Error("a flap does not ease the nose at a lift of 0.8")
	}
}

// A symmetric section's peaks do not care which way is up.
func TestPeaksOfTheMirrorImage(t *testing.T) {
	table := mustTable(t, mustParse(t, "naca 0010"), 0.3)
	for lift := -1.5; lift < 1.5; lift += 0.13 {
		for flap := -0.3; flap < 0.3; flap += 0.07 {
			a, b := table.Peak(lift, si.Angle(flap)), table.Peak(-lift, si.Angle(-flap))
			near(t, "peak", a, b, 1e-5*(1-a))
		}
	}
}

func TestPeakTableSaysWhy(t *testing.T) {
	_, err := mustParse(t, "naca 0012").PeakTable(0.9)
	if err == nil || !strings.Contains(err.Error(), "flap of 90 % of the chord, allowed is 5 to 60 %") {
		t.Errorf("error is %v", err)
	}
}

func BenchmarkPeakTable(b *testing.B) {
	s := mustParse(b, "naca 64-209")
	for b.Loop() {
		if _, err := s.PeakTable(0.3); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPeak(b *testing.B) {
	table := mustTable(b, mustParse(b, "naca 64-209"), 0.3)
	b.ReportAllocs()
	sum := 0.0
	for b.Loop() {
		sum += table.Peak(0.43, 0.06)
	}
	_ = sum
}
