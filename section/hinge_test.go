package section

import (
	"math"
	"strings"
	"testing"

	"foilwright/si"
)

func mustHinge(t testing.TB, s Section, share float64) HingeTable {
	t.Helper()
	table, err := s.HingeTable(share)
	if err != nil {
		t.Fatal(err)
	}
	return table
}

// hingeSlopes takes the slopes of hinge moment by angle of attack and by flap
// angle off the panel flow.
func hingeSlopes(t *testing.T, s Section, share float64) (byAngle, byFlap float64) {
	t.Helper()
	const step = 0.5 * si.Degree
	flow := mustFlow(t, s, Flap{Share: share}, PanelCount)
	byAngle = (flow.HingeMoment(step) - flow.HingeMoment(-step)) / (2 * step.Radians())
	down := mustFlow(t, s, Flap{share, step}, PanelCount)
	up := mustFlow(t, s, Flap{share, -step}, PanelCount)
	return byAngle, (down.HingeMoment(0) - up.HingeMoment(0)) / (2 * step.Radians())
}

// Moments of 2 and 4 % thick sections are below thin-aerofoil theory by up to
// 9 %; carried on in a straight line to no thickness they meet it within 0.5 %.
func TestHingeMomentApproachesThinTheory(t *testing.T) {
	thin, thick := mustParse(t, "naca 0002"), mustParse(t, "naca 0004")
	for _, share := range []float64{0.1, 0.2, 0.3, 0.4} {
		byAngle, byFlap := HingeSlopes(share)
		a2, f2 := hingeSlopes(t, thin, share)
		a4, f4 := hingeSlopes(t, thick, share)
		near(t, "by angle of attack, in the limit", (2*a2-a4)/byAngle, 1, 0.005)
		near(t, "by flap angle, in the limit", (2*f2-f4)/byFlap, 1, 0.005)
		for _, got := range []float64{a2 / byAngle, a4 / byAngle, f2 / byFlap, f4 / byFlap} {
			if got > 1 || got < 0.9 {
				t.Errorf("share %.1f: a thin section has %.3f of the moment by theory", share, got)
			}
		}
	}
}

// The closed forms against quadrature of the bent plate's loading (Glauert 1927),
// and, with the whole chord as the flap, the plate's moment about its nose.
func TestHingeSlopes(t *testing.T) {
	for _, share := range []float64{0.05, 0.2, 0.35, 0.6, 0.9} {
		hinge := math.Acos(2*share - 1)
		var byAngle, byFlap float64
		const n = 400000
		step := (math.Pi - hinge) / n
		for i := range n {
			theta := hinge + (float64(i)+0.5)*step
			sin, cos := math.Sincos(theta)
			arm := (math.Cos(hinge) - cos) / 2 * sin / 2 * step
			plate := 4 * (1 + cos) / sin
			bend := 4 / math.Pi * math.Log(math.Abs(math.Sin((theta+hinge)/2)/math.Sin((theta-hinge)/2)))
			byAngle -= plate * arm / (share * share)
			byFlap -= ((1-hinge/math.Pi)*plate + bend) * arm / (share * share)
		}
		a, f := HingeSlopes(share)
		near(t, "by angle of attack", a, byAngle, 1e-5)
		near(t, "by flap angle", f, byFlap, 1e-5)
	}
	a, f := HingeSlopes(1)
	near(t, "the whole plate by angle", a, -math.Pi/2, 1e-12)
	near(t, "the whole plate by flap", f, -math.Pi/2, 1e-12)
}

func TestHingeTableMeetsTheFlow(t *testing.T) {
	s := mustParse(t, "naca 63-412")
	table := mustHinge(t, s, 0.3)
	for _, degrees := range []si.Angle{-8.6, -1.2, 0, 3.7, 11.1} {
		f := mustFlow(t, s, Flap{0.3, degrees * si.Degree}, PanelCount)
		for lift := -0.53; lift < 1.3; lift += 0.06 {
			near(t, "hinge moment", table.Moment(lift, degrees*si.Degree), f.HingeMoment(f.AngleFor(lift)), 0.0015)
		}
		fine := mustFlow(t, s, Flap{0.3, degrees * si.Degree}, 600)
		near(t, "on three times the panels", f.HingeMoment(f.AngleFor(0.5)), fine.HingeMoment(fine.AngleFor(0.5)), 0.002)
	}
}

// The flow turns a flap back, the more so at more lift; a mirror image mirrors
// the moment.
func TestHingeTrends(t *testing.T) {
	table := mustHinge(t, mustParse(t, "naca 0010"), 0.25)
	for lift := -1.0; lift < 1.2; lift += 0.1 {
		for flap := -0.25; flap < 0.25; flap += 0.06 {
			at := func(l, f float64) float64 { return table.Moment(l, si.Angle(f)) }
			if at(lift+0.1, flap) >= at(lift, flap) || at(lift, flap+0.06) >= at(lift, flap) {
				t.Errorf("moment rises at lift %.1f, flap %.2f", lift, flap)
			}
			near(t, "moment of the mirror image", at(lift, flap), -at(-lift, -flap), 1e-5)
		}
	}
	near(t, "moment at no lift and no flap angle", table.Moment(0, 0), 0, 1e-6)
}

func TestHingeTableIsSmoothAndFinite(t *testing.T) {
	table := mustHinge(t, mustParse(t, "naca 64-209"), 0.25)
	peaks := mustTable(t, mustParse(t, "naca 64-209"), 0.25)
	const h = 1e-7
	for name, c := range map[string]struct {
		of   func(v float64) float64
		jump float64
	}{
		"hinge moment over lift": {func(v float64) float64 { return table.Moment(v, 0.07) }, 1e-4},
		"hinge moment over flap": {func(v float64) float64 { return table.Moment(0.4, si.Angle(v)) }, 1e-3},
		"peak at hinge":          {func(v float64) float64 { return peaks.PeakAtHinge(0.4, si.Angle(v)) }, 0.6},
	} {
		slope := func(v float64) float64 { return (c.of(v+h) - c.of(v-h)) / (2 * h) }
		previous := slope(-3.0)
		for v := -3.0; v < 3; v += 2e-5 {
			now := slope(v)
			if !(math.Abs(now-previous) < c.jump) {
				t.Fatalf("slope of %s jumps from %g to %g at %g", name, previous, now, v)
			}
			previous = now
		}
	}
	if m := table.Moment(1e6, -3); !finite(m) {
		t.Errorf("moment far outside is %g", m)
	}
	if m := (HingeTable{}).Moment(0.3, 0.1); m != 0 {
		t.Errorf("no table has a moment of %g", m)
	}
}

// A turned flap's least pressure aft is the flow's own about the hinge, and at
// moderate lift it is the section's.
func TestPeakAtHinge(t *testing.T) {
	s := mustParse(t, "naca 64-209")
	table := mustTable(t, s, 0.3)
	flap := Flap{0.3, 10 * si.Degree}
	f := mustFlow(t, s, flap, PanelCount)
	cp := f.Pressure(f.AngleFor(0.7))
	least, at := 0.0, 0.0
	for i, p := range f.Nodes() {
		if p.X > 0.58 && cp[i] < least {
			least, at = cp[i], p.X
		}
	}
	near(t, "place of the hinge peak", at, 0.7, 0.02)
	near(t, "hinge peak", table.PeakAtHinge(0.7, flap.Deflection), least, 0.02-0.02*least)
	near(t, "hinge peak and peak", table.PeakAtHinge(0.7, flap.Deflection), table.Peak(0.7, flap.Deflection), 0.01)
	for lift := -1.0; lift < 1.5; lift += 0.1 {
		for a := -0.3; a < 0.3; a += 0.05 {
			if table.PeakAtHinge(lift, si.Angle(a)) < table.Peak(lift, si.Angle(a))-1e-12 {
				t.Fatalf("at lift %.1f, flap %.2f the hinge has less pressure than the section", lift, a)
			}
		}
	}
	if p := (PeakTable{}).PeakAtHinge(0.3, 0.1); p != 0 {
		t.Errorf("no table has a peak of %g", p)
	}
}

func TestHingeSaysWhy(t *testing.T) {
	s := mustParse(t, "naca 0012")
	for says, share := range map[string]float64{"has no flap": 0, "flap of 90 % of the chord, allowed is 5 to 60 %": 0.9} {
		if _, err := s.HingeTable(share); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("error is %v, want one that says %q", err, says)
		}
	}
	if m := mustFlow(t, s, Flap{}, PanelCount).HingeMoment(0.1); m != 0 {
		t.Errorf("no flap has a moment of %g", m)
	}
}

func BenchmarkHingeTable(b *testing.B) {
	s := mustParse(b, "naca 64-209")
	for b.Loop() {
		if _, err := s.HingeTable(0.3); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkHingeMoment(b *testing.B) {
	table := mustHinge(b, mustParse(b, "naca 64-209"), 0.3)
	b.ReportAllocs()
	sum := 0.0
	for b.Loop() {
		sum += table.Moment(0.43, 0.06)
	}
	_ = sum
}

// The table runs smoothly through the flap in line, where the flow's own panels
// lie otherwise: each moment is near the parabola of its neighbours.
func TestHingeTableHasNoBumpInLine(t *testing.T) {
	table := mustHinge(t, mustParse(t, "naca 64-209"), 0.3)
	for lift := -0.5; lift < 1.2; lift += 0.1 {
		for k := -6; k <= 6; k++ {
			at := func(step int) float64 { return table.Moment(lift, peakFlapStep*si.Angle(k+step)) }
			near(t, "bend over flap angle", at(-1)-2*at(0)+at(1), 0, 0.0004)
		}
	}
}
