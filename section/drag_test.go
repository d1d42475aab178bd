package section

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"foilwright/accuracy"
	"foilwright/si"
)

func TestTrippedNACA0012(t *testing.T) {
	want := published(t, "ladson-1988.csv")
	s := mustParse(t, "naca 0012")
	held(t, figure{"ladson-1988.csv", "5.02", 0, "measured drag of 0012, tripped", "Re 6e6, no lift", ""}, s.Drag(0, 6e6, 0), 0.0003)
	held(t, figure{"ladson-1988.csv", "5.03", 1, "measured drag of 0012, tripped", fmt.Sprintf("Re 6e6, lift %g", want["5.03"][0]), ""}, s.Drag(want["5.03"][0], 6e6, 0), 0.0005)
	// The usable lift is meant to stay below the largest measured, by at most 0.15.
	accuracy.Note(t, figure{"ladson-1988.csv", "5.04", 0, "measured largest lift of 0012, tripped; usable lift", "Re 6e6; it may be lower", ""}.row(want["5.04"][0], s.LargestLift, 0.15))
	if most := want["5.04"][0]; s.LargestLift > most || s.LargestLift < most-0.15 {
		t.Errorf("largest usable lift is %.3f, want up to 0.15 below the %.3f measured, row 5.04", s.LargestLift, most)
	}
}

// All of Ladson's tripped runs up to the largest usable lift; the scatter
// between his three grits is up to 0.0005.
func TestLadson(t *testing.T) {
	s := mustParse(t, "naca 0012")
	sum, n := 0.0, 0
	for _, zone := range zones(t, openData(t, "naca0012/CLCD_Ladson_TM4074.dat"), 3) {
		for _, row := range zone {
			lift, drag := row[1], row[2]
			if row[0] > 15 {
				continue
			}
			got := s.Drag(lift, 6e6, 0)
			near(t, fmt.Sprintf("drag at lift %.3f", lift), got, drag, 0.0011)
			sum += (got - drag) * (got - drag)
			n++
		}
	}
	rms := math.Sqrt(sum / float64(n))
	accuracy.Note(t, accuracy.Row{
		ID: "5.03", Quantity: "measured drag of 0012, tripped: rms of model less measured", Conditions: fmt.Sprintf("Re 6e6, %d runs up to 15°", n), Unit: "-",
		Source: "Ladson, NASA TM 4074 (1988), open data", Evidence: "published", Computed: rms, Tolerance: 0.0005,
	})
	if n < 30 || rms > 0.0005 {
		t.Errorf("over %d runs the drag is off by %.5f rms, want 0.0005", n, rms)
	}
}

// Row 5.07 is from memory: it holds only that the laminar share that explains
// the smooth section's least drag is a believable one.
func TestSmoothNACA0012(t *testing.T) {
	want := published(t, "abbott-1959.csv")["5.07"]
	s := mustParse(t, "naca 0012")
	lo, hi := 0.0, 1.0
	for range 50 {
		if mid := (lo + hi) / 2; s.Drag(0, 6e6, mid) > 0.00585 {
			lo = mid
		} else {
			hi = mid
		}
	}
	if lo < 0.25 || lo > 0.45 {
		t.Errorf("drag of %g needs a laminar share of %.3f, want 0.25 to 0.45", want[0], lo)
	}
	accuracy.Check(t, figure{"abbott-1959.csv", "5.07", 2, "largest lift of 0012, smooth; usable lift", "Re 6e6", ""}.row(1.59, s.LargestLift, 0.12))
}

// The estimate of largest lift against measured smooth sections of 8 to 15 %:
// it is meant to stay below on the whole and near each.
func TestLargestLift(t *testing.T) {
	sum, n := 0.0, 0.0
	for _, row := range publishedRows(t, "abbott-1945-lift.csv") {
		s := mustParse(t, "naca "+row[0])
		if s.Thickness < 0.08 {
			continue
		}
		measured := number(row[3])
		accuracy.Check(t, abbott(row[0], "measured largest lift, smooth; usable lift", measured, s.LargestLift, 0.21))
		sum += s.LargestLift - measured
		n++
	}
	near(t, "mean of estimate less measured", sum/n, -0.05, 0.05)
}

// abbott is a row of the measured sections.
func abbott(name, quantity string, want, got, tolerance float64) accuracy.Row {
	return accuracy.Row{
		File: "abbott-1945-lift.csv", ID: name, Topic: 5, Quantity: quantity, Conditions: "NACA " + name + ", Re 9e6", Unit: "-",
		Evidence: "published, second-hand", Published: want, Computed: got, Tolerance: tolerance,
	}
}

// Thin-aerofoil moments and angles of no lift against the same tests: the
// boundary layer takes about a quarter of the camber, and the tests are read to
// half a degree.
func TestMeasuredCamber(t *testing.T) {
	for _, row := range publishedRows(t, "abbott-1945-lift.csv") {
		s := mustParse(t, "naca "+row[0])
		if s.IdealLift > 0 {
			angle, moment := number(row[2]), number(row[4])
			noLift := abbott(row[0], "measured angle of no lift; theory times 3/4", angle, 0.75*s.ZeroLift.Degrees(), 0.5)
			noLift.Unit = "deg"
			accuracy.Check(t, noLift)
			accuracy.Check(t, abbott(row[0], "measured moment; theory times 3/4", moment, 0.75*s.Moment, 0.014))
		}
	}
}

// Continuous slope in lift everywhere: at the ideal lift, at the usable ends,
// far past them.
func TestDragIsSmooth(t *testing.T) {
	s := mustParse(t, "naca 63-412")
	flap := Flap{Share: 0.3, Deflection: 8 * si.Degree}
	const h = 1e-6
	for name, drag := range map[string]func(lift float64) float64{
		"lift":          func(v float64) float64 { return s.Drag(v, 2e6, 0.2) },
		"flapped, lift": func(v float64) float64 { return s.DragParts(v, 2e6, 0.2, flap, 1).Total() },
		"flap angle": func(v float64) float64 {
			return s.DragParts(0.5, 2e6, 0.2, Flap{0.3, si.Angle(v)}, 1).Total()
		},
		"logarithm of Reynolds number": func(v float64) float64 { return s.Drag(0.5, math.Exp(5*v+5), 0.2) },
	} {
		slope := func(v float64) float64 { return (drag(v+h) - drag(v-h)) / (2 * h) }
		previous := slope(-3.0)
		for v := -3.0; v < 3; v += 0.001 {
			now := slope(v)
			if !(math.Abs(now-previous) < 0.02) {
				t.Fatalf("slope of drag over %s jumps from %g to %g at %g", name, previous, now, v)
			}
			previous = now
		}
	}
}

func TestDragIsFinite(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, err := Parse(rapid.SampledFrom([]string{"naca 0012", "naca 4412", "naca 66-006", "naca 63-412 at 25 %"}).Draw(t, "section"))
		if err != nil {
			t.Fatal(err)
		}
		lift := rapid.Float64Range(-1e6, 1e6).Draw(t, "lift")
		re := rapid.Float64Range(0, 1e10).Draw(t, "Reynolds number")
		share := rapid.Float64Range(-1, 2).Draw(t, "laminar share")
		flap := Flap{rapid.Float64Range(0, 1).Draw(t, "flap share"), si.Angle(rapid.Float64Range(-2, 2).Draw(t, "flap"))}
		parts := s.DragParts(lift, re, share, flap, 1)
		if !(parts.Friction > 0 && parts.Lift >= 0 && parts.Flap >= 0 && parts.Stall >= 0 && finite(parts.Total())) {
			t.Errorf("drag is %+v", parts)
		}
	})
	if d := mustParse(t, "naca 0012").Drag(0, 0, 0); !(d > 0 && d < 0.1) {
		t.Errorf("drag coefficient at rest is %g", d)
	}
}

// A section and its mirror image, loaded the other way, drag the same; a flap
// turned over with it too.
func TestDragOfTheMirrorImage(t *testing.T) {
	s := mustParse(t, "naca 0012")
	rapid.Check(t, func(t *rapid.T) {
		lift := rapid.Float64Range(-2, 2).Draw(t, "lift")
		angle := si.Angle(rapid.Float64Range(-0.4, 0.4).Draw(t, "flap"))
		a := s.DragParts(lift, 3e6, 0.1, Flap{0.3, angle}, 1)
		b := s.DragParts(-lift, 3e6, 0.1, Flap{0.3, -angle}, 1)
		if math.Abs(a.Total()-b.Total()) > 1e-14 {
			t.Errorf("drag is %+v one way and %+v the other", a, b)
		}
	})
}

func TestLiftMarginEndsWhereThePenaltyBegins(t *testing.T) {
	s := mustParse(t, "naca 64-209")
	flap := Flap{Share: 0.25, Deflection: 6 * si.Degree}
	for lift := -3.0; lift < 3; lift += 0.01 {
		margin := s.LiftMargin(lift, flap, 1)
		stall := s.DragParts(lift, 1e6, 0, flap, 1).Stall
		if (margin < 0) != (stall > 0) {
			t.Fatalf("at lift %.2f the margin is %g and the penalty %g", lift, margin, stall)
		}
	}
}

func TestWithLargestLift(t *testing.T) {
	s, err := mustParse(t, "naca 63-412").WithLargestLift(1.3)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "largest lift", s.LargestLift, 1.3, 1e-12)
	near(t, "margin at 1.2", s.LiftMargin(1.2, Flap{}, 1), 0.1, 1e-12)
	for _, lift := range []float64{0.2, 5, math.NaN()} {
		if _, err := s.WithLargestLift(lift); err == nil {
			t.Errorf("largest lift of %g is taken", lift)
		}
	}
}

func TestFlap(t *testing.T) {
	for id, share := range map[string]float64{"5.29": 0.1, "5.31": 0.25, "5.32": 0.3, "5.33": 0.4} {
		e := Flap{Share: share, Deflection: 0.1}.Effect(0)
		held(t, figure{"glauert-1927.csv", id, 0, "effectiveness of a plain flap", "", "-"}, -e.ZeroLift.Radians()/0.1, 1e-5)
		held(t, figure{"glauert-1927.csv", id, 1, "moment of a plain flap", "", "1/rad"}, e.Moment/0.1, 1e-5)
	}
	// The ideal lift against quadrature of a bent plate.
	bent := thinAerofoil(func(x float64) (y, slope float64) {
		if x < 0.7 {
			return 0, 0
		}
		return 0, -0.1
	}, 0.7)
	e := Flap{Share: 0.3, Deflection: 0.1}.Effect(0)
	near(t, "ideal lift", e.IdealLift, bent.idealLift, 1e-6)
	near(t, "angle of no lift", e.ZeroLift.Radians(), bent.zeroLift, 1e-6)
	near(t, "moment", e.Moment, bent.moment, 1e-6)
	if e := (Flap{}).Effect(1); e != (FlapEffect{}) {
		t.Errorf("no flap does %+v", e)
	}
}

func TestFlapLoss(t *testing.T) {
	for degrees, left := range map[si.Angle]float64{5: 1, 10: 0.98, 20: 0.82, 30: 0.66, 40: 0.55} {
		f := Flap{Share: 0.3, Deflection: degrees * si.Degree}
		near(t, "share left", float64(f.Effective(1)/f.Deflection), left, 0.01)
		near(t, "without loss", float64(f.Effective(0)), float64(f.Deflection), 0)
		near(t, "the other way", float64(Flap{0.3, -f.Deflection}.Effective(1)), float64(-f.Effective(1)), 0)
	}
	previous := -1.0
	for a := -1.0; a < 1; a += 0.01 {
		e := float64(Flap{0.3, si.Angle(a)}.Effective(1))
		if e <= previous {
			t.Fatalf("effective angle falls at %g rad", a)
		}
		previous = e
	}
}

func BenchmarkDrag(b *testing.B) {
	s := mustParse(b, "naca 63-412")
	b.ReportAllocs()
	sum := 0.0
	for b.Loop() {
		sum += s.Drag(0.4, 3e6, 0.15)
	}
	_ = sum
}

func BenchmarkDragWithFlap(b *testing.B) {
	s := mustParse(b, "naca 63-412")
	flap := Flap{Share: 0.3, Deflection: 0.1}
	b.ReportAllocs()
	sum := 0.0
	for b.Loop() {
		sum += s.DragParts(0.4, 3e6, 0.15, flap, 1).Total()
	}
	_ = sum
}
