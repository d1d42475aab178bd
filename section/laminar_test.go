package section

import (
	"math"
	"slices"
	"strings"
	"testing"

	"foilwright/si"
)

func mustLaminar(t testing.TB, s Section, share float64) LaminarTable {
	t.Helper()
	table, err := s.LaminarTable(share)
	if err != nil {
		t.Fatal(err)
	}
	return table
}

// Nineteen places in twenty lie within 0.025 of the chord of transition itself;
// the rest are where it jumps.
func TestLaminarTableMeetsTransition(t *testing.T) {
	for _, name := range []string{"naca 0012", "naca 64-209"} {
		s := mustParse(t, name)
		table := mustLaminar(t, s, 0.3)
		var off []float64
		for _, degrees := range []si.Angle{-6.2, 0, 1.1, 8.3} {
			flap := Flap{0.3, degrees * si.Degree}
			f := mustFlow(t, s, flap, PanelCount)
			for lift := -0.8; lift < 1.4; lift += 0.013 {
				for _, reynolds := range []float64{4e5, 1.3e6, 7e6, 2e7} {
					up, down := f.Transition(f.AngleFor(lift), reynolds)
					upper, lower := table.Sides(lift, reynolds, flap.Deflection)
					off = append(off, math.Abs(upper-up), math.Abs(lower-down))
					share := table.Share(lift, reynolds, flap.Deflection)
					above, below := math.Pow(1+lift/4, 3), math.Pow(1-lift/4, 3)
					near(t, "share of both", share, (above*upper+below*lower)/(above+below), 0.02)
					if share < min(upper, lower) || share > max(upper, lower) {
						t.Fatalf("the share of %.3f and %.3f is %.3f", upper, lower, share)
					}
				}
			}
		}
		slices.Sort(off)
		if at := off[len(off)*95/100]; at > 0.025 {
			t.Errorf("%s: one place in twenty is off by more than %.4f of the chord, want 0.025", name, at)
		}
	}
}

func TestLaminarTableIsSmoothAndFinite(t *testing.T) {
	table := mustLaminar(t, mustParse(t, "naca 66-012"), 0.25)
	const h = 1e-7
	for name, share := range map[string]func(v float64) float64{
		"lift":     func(v float64) float64 { return table.Share(v, 2e6, 0.07) },
		"flap":     func(v float64) float64 { return table.Share(0.4, 2e6, si.Angle(v/4)) },
		"reynolds": func(v float64) float64 { return table.Share(0.2, math.Exp(15+3*v), 0) },
	} {
		slope := func(v float64) float64 { return (share(v+h) - share(v-h)) / (2 * h) }
		previous := slope(-3.0)
		for v := -3.0; v < 3; v += 2e-5 {
			now := slope(v)
			// Where transition jumps the slope itself runs up to 20.
			if !(math.Abs(now-previous) < 0.2) {
				t.Fatalf("slope over %s jumps from %g to %g at %g", name, previous, now, v)
			}
			previous = now
		}
	}
	wild := []float64{math.NaN(), math.Inf(1), math.Inf(-1), 0, -1e300, 1e300}
	for _, lift := range wild {
		for _, reynolds := range wild {
			for _, flap := range wild {
				if s := table.Share(lift, reynolds, si.Angle(flap)); !(s >= 0 && s <= 1) {
					t.Errorf("share at %g, %g, %g is %g", lift, reynolds, flap, s)
				}
			}
		}
	}
	if s := (LaminarTable{}).Share(0.3, 1e6, 0.1); s != 0 {
		t.Errorf("no table has a share of %g", s)
	}
}

// A flap down moves the laminar range to more lift.
func TestFlapMovesTheLaminarRange(t *testing.T) {
	s := mustParse(t, "naca 65-209")
	table := mustLaminar(t, s, 0.25)
	flap := Flap{0.25, 8 * si.Degree}
	lift := s.IdealLift + flap.Effect(0).IdealLift
	if with, without := table.Share(lift, 5e6, flap.Deflection), table.Share(lift, 5e6, 0); with < without+0.2 {
		t.Errorf("at lift %.2f the laminar share is %.3f with the flap and %.3f without", lift, with, without)
	}
	plain := mustLaminar(t, s, 0)
	near(t, "without flap", plain.Share(0.2, 5e6, 0.3), table.Share(0.2, 5e6, 0), 1e-9)
}

func TestLaminarTableSaysWhy(t *testing.T) {
	_, err := mustParse(t, "naca 0012").LaminarTable(0.9)
	if err == nil || !strings.Contains(err.Error(), "laminar run: section \"naca 0012\": flap of 90 %") {
		t.Errorf("error is %v", err)
	}
}

func BenchmarkLaminarTable(b *testing.B) {
	s := mustParse(b, "naca 64-209")
	for b.Loop() {
		if _, err := s.LaminarTable(0.3); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkLaminarShare(b *testing.B) {
	table := mustLaminar(b, mustParse(b, "naca 64-209"), 0.3)
	b.ReportAllocs()
	sum := 0.0
	for b.Loop() {
		sum += table.Share(0.43, 2e6, 0.06)
	}
	_ = sum
}
