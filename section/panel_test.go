package section

import (
	"fmt"
	"math"
	"math/cmplx"
	"strings"
	"testing"

	"foilwright/accuracy"
	"foilwright/si"
)

func mustFlow(t testing.TB, s Section, flap Flap, panels int) Potential {
	t.Helper()
	f, err := s.Potential(flap, panels)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// conformal is a Kármán–Trefftz section: a circle about a centre through 1,
// mapped by z = κ[(ζ+1)^κ + (ζ−1)^κ]/[(ζ+1)^κ − (ζ−1)^κ], in a stream at an
// angle. With κ = 2 it is Joukowski's.
type conformal struct {
	centre complex128
	kappa  float64
}

func (c conformal) radius() float64 { return cmplx.Abs(1 - c.centre) }

func (c conformal) place(theta float64) complex128 {
	zeta := c.centre + cmplx.Rect(c.radius(), theta)
	k := complex(c.kappa, 0)
	a, b := cmplx.Pow(zeta+1, k), cmplx.Pow(zeta-1, k)
	return k * (a + b) / (a - b)
}

// pressure returns the pressure coefficient at a place of the circle.
func (c conformal) pressure(theta, alpha float64) float64 {
	zeta := c.centre + cmplx.Rect(c.radius(), theta)
	k := complex(c.kappa, 0)
	difference := cmplx.Pow(zeta+1, k) - cmplx.Pow(zeta-1, k)
	slope := 4 * k * k * cmplx.Pow((zeta-1)*(zeta+1), k-1) / (difference * difference)
	beta := math.Asin(imag(c.centre) / c.radius())
	speed := 2 * (math.Sin(theta-alpha) + math.Sin(alpha+beta)) / cmplx.Abs(slope)
	return 1 - speed*speed
}

// span returns the foremost x and the chord; the trailing edge is the image of 1.
func (c conformal) span() (nose, chord float64) {
	nose, tail := math.Inf(1), math.Inf(-1)
	for i := range 20000 {
		x := real(c.place(2 * math.Pi * (float64(i) + 0.5) / 20000))
		nose, tail = min(nose, x), max(tail, x)
	}
	return nose, max(tail, real(c.place(cmplx.Phase(1-c.centre)))) - nose
}

// section returns the mapped outline as a section, with its sharp trailing edge.
func (c conformal) section(t testing.TB) Section {
	t.Helper()
	start := cmplx.Phase(1 - c.centre)
	const n = 1600
	var points []Point
	for i := range n + 1 {
		u := float64(i) / n
		z := c.place(start + 2*math.Pi*u)
		if i == 0 || i == n {
			z = complex(c.kappa, 0)
		}
		points = append(points, Point{real(z), imag(z)})
	}
	s, err := fromOutline(points)
	if err != nil {
		t.Fatal(err)
	}
	thickness, _ := s.thickness()
	sec, err := build("conformal", s, nominal{thickness, s.meanLine()})
	if err != nil {
		t.Fatal(err)
	}
	return sec
}

func (c conformal) peak(alpha float64) float64 {
	least := 0.0
	for i := range 20000 {
		theta := 2 * math.Pi * (float64(i) + 0.5) / 20000
		if math.Abs(math.Remainder(theta-cmplx.Phase(1-c.centre), 2*math.Pi)) > 0.01 {
			least = min(least, c.pressure(theta, alpha))
		}
	}
	return least
}

func TestJoukowski(t *testing.T) {
	want := published(t, "karman-trefftz.csv")["5.34"]
	c := conformal{-0.1, 2}
	_, chord := c.span()
	row := func(part int, quantity, conditions string) figure {
		return figure{"karman-trefftz.csv", "5.34", part, quantity, conditions, "-"}
	}
	near(t, "chord", chord, want[0], 1e-5)
	s := c.section(t)
	held(t, row(1, "thickness of a Joukowski section", ""), s.Thickness, 1e-4)
	const alpha = 5 * si.Degree
	for panels, tolerance := range map[int]struct{ lift, peak float64 }{
		PanelCount: {0.0001, 0.01}, 400: {0.0001, 0.005}, 600: {1e-5, 1e-3 / -want[3]},
	} {
		f := mustFlow(t, s, Flap{}, panels)
		conditions := fmt.Sprintf("5°, %d panels", panels)
		held(t, row(2, "lift coefficient of a Joukowski section", conditions), f.Lift(alpha), tolerance.lift)
		held(t, row(3, "pressure peak of a Joukowski section", conditions), f.Peak(alpha), tolerance.peak*-want[3])
	}
}

// Row 5.38 gives its section as "same"; centre −0.08 + 0.08i, trailing-edge
// angle 10 deg, angle of attack 4 deg reproduce all eight of its figures.
func TestKarmanTrefftz(t *testing.T) {
	want := published(t, "karman-trefftz.csv")["5.38"]
	c := conformal{-0.08 + 0.08i, 2 - 10.0/180}
	const alpha = 4 * math.Pi / 180
	nose, chord := c.span()
	s := c.section(t)
	f := mustFlow(t, s, Flap{}, PanelCount)
	fine := mustFlow(t, s, Flap{}, 400)
	cp, points := f.Pressure(si.Angle(alpha)), f.Nodes()
	for i, degrees := range []float64{60, 90, 120, 270} {
		theta := degrees * math.Pi / 180
		z := c.place(theta)
		near(t, "place", (real(z)-nose)/chord, want[2*i], 1e-4)
		near(t, "exact pressure", c.pressure(theta, alpha), want[2*i+1], 1e-4)
		held(t, figure{"karman-trefftz.csv", "5.38", 2*i + 1, "pressure on a Kármán–Trefftz section", fmt.Sprintf("4°, at %g° of its circle, %d panels", degrees, PanelCount), "-"},
			pressureAt(points, cp, want[2*i], degrees < 180), 0.001)
		held(t, figure{"karman-trefftz.csv", "5.38", 2*i + 1, "pressure on a Kármán–Trefftz section", fmt.Sprintf("4°, at %g° of its circle, 400 panels", degrees), "-"},
			pressureAt(fine.Nodes(), fine.Pressure(si.Angle(alpha)), want[2*i], degrees < 180), 1e-4)
	}
	exact := 8 * math.Pi * c.radius() / chord * math.Sin(alpha+math.Asin(imag(c.centre)/c.radius()))
	exactly := func(quantity string, degrees, want, got, tolerance float64) {
		of := figure{"karman-trefftz.csv", "5.38", 0, quantity, fmt.Sprintf("%g°, %d panels; the map itself", degrees, PanelCount), "-"}
		accuracy.Check(t, of.row(want, got, tolerance))
	}
	exactly("lift coefficient of a Kármán–Trefftz section", 4, exact, f.Lift(si.Angle(alpha)), 0.003*exact)
	for _, degrees := range []float64{-4, 0, 4, 8} {
		a := degrees * math.Pi / 180
		exactly("pressure peak of a Kármán–Trefftz section", degrees, c.peak(a), f.Peak(si.Angle(a)), 0.01*-c.peak(a))
	}
}

// pressureAt interpolates along one side of the nodes.
func pressureAt(points []Point, cp []float64, x float64, upper bool) float64 {
	nose := 0
	for i, p := range points {
		if p.X < points[nose].X {
			nose = i
		}
	}
	for i := range len(points) - 1 {
		a, b := points[i], points[i+1]
		if (i < nose) == upper && (a.X-x)*(b.X-x) <= 0 {
			u := (x - a.X) / (b.X - a.X)
			return cp[i] + u*(cp[i+1]-cp[i])
		}
	}
	return math.NaN()
}

// Rows 5.08 to 5.11 by 300 panels: slope to 5e-4, peak to 1e-3, as they ask.
func TestFourDigitPotential(t *testing.T) {
	for id, name := range map[string]string{"5.08": "naca 0006", "5.10": "naca 0012", "5.11": "naca 0015"} {
		f := mustFlow(t, mustParse(t, name), Flap{}, 300)
		held(t, figure{"theodorsen-garrick.csv", id, 0, "ideal lift slope", name + ", 300 panels", "1/rad"}, f.LiftSlope(), 5e-4)
		held(t, figure{"theodorsen-garrick.csv", id, 1, "pressure peak without lift", name + ", 300 panels", "-"}, f.Peak(0), 1e-3)
	}
	f := mustFlow(t, mustParse(t, "naca 0012"), Flap{}, 300)
	points, cp := f.Nodes(), f.Pressure(0)
	for i, x := range []float64{0.025, 0.05, 0.1, 0.2, 0.3, 0.5, 0.7, 0.9} {
		row := figure{"abbott-1959.csv", "5.14", i, "speed squared on 0012 without lift", fmt.Sprintf("x = %g, 300 panels, upper side", x), "-"}
		held(t, row, 1-pressureAt(points, cp, x, true), 0.002)
		near(t, "and below", 1-pressureAt(points, cp, x, false), published(t, row.file)[row.id][i], 0.002)
	}
}

// Row 5.17: the flow past an ellipse is known; at no angle of attack it does not
// matter that its tail is round.
func TestEllipse(t *testing.T) {
	for i, thickness := range []float64{0.06, 0.12, 0.18} {
		var points []Point
		const n = 300
		for k := range n + 1 {
			s, c := math.Sincos(2 * math.Pi * float64(k) / n)
			points = append(points, Point{(1 + c) / 2, thickness * s / 2})
		}
		points[n] = points[0]
		f, err := solve(points)
		if err != nil {
			t.Fatal(err)
		}
		held(t, figure{"closed-forms.csv", "5.17", i, "pressure peak of an ellipse without lift", fmt.Sprintf("t/c=%g, 300 panels", thickness), ""}, f.Peak(0), 5e-4)
	}
}

// The boundary layer's share: measured lift slope and, from memory, a measured
// 6-series section against the ideal flow and the estimates.
func TestMeasuredLift(t *testing.T) {
	slope := published(t, "mccroskey-1988.csv")["5.05"][0] * 180 / math.Pi
	f := mustFlow(t, mustParse(t, "naca 0012"), Flap{}, PanelCount)
	near(t, "measured lift slope over the ideal one", slope/f.LiftSlope(), 0.9, 0.015)

	row := func(part int, quantity, unit string) figure {
		return figure{"abbott-1959.csv", "5.28", part, quantity, "", unit}
	}
	s := mustParse(t, "naca 63-412")
	g := mustFlow(t, s, Flap{}, PanelCount)
	held(t, row(0, "measured angle of no lift of 63-412; theory times 3/4", "deg"), 0.75*s.ZeroLift.Degrees(), 0.3)
	held(t, row(1, "measured moment of 63-412; theory times 3/4", "-"), 0.75*s.Moment, 0.005)
	held(t, row(2, "measured largest lift of 63-412", "-"), s.LargestLift, 0.1)
	held(t, row(3, "measured lift slope of 63-412; ideal flow", "1/deg"), g.LiftSlope()*math.Pi/180, 0.006)
}

// Measured pressures on 0012 without lift, row 5.06, and at lift against the
// ideal flow of the same lift, 1.07, where the peak is read off a photocopy.
func TestMeasuredPressure(t *testing.T) {
	row := func(part int, conditions string) figure {
		return figure{"gregory-1970.csv", "5.06", part, "measured pressure on 0012; ideal flow", conditions, "-"}
	}
	f := mustFlow(t, mustParse(t, "naca 0012"), Flap{}, PanelCount)
	points, cp := f.Nodes(), f.Pressure(0)
	held(t, row(0, "no lift, x = 0.0976"), pressureAt(points, cp, 0.0976, true), 0.03)
	held(t, row(1, "no lift, x = 0.2897"), pressureAt(points, cp, 0.2897, true), 0.03)
	accuracy.Check(t, row(2, "peak at 10°, lift 1.07").row(-5.24, f.Peak(f.AngleFor(1.07)), 0.08*5.24))
}

// The same flow seen with the section turned over; half the stream does not
// exist here, so that the other checks are lift against pressure, and no drag.
func TestPotentialHoldsTogether(t *testing.T) {
	s := mustParse(t, "naca 63-412")
	flap := Flap{Share: 0.3, Deflection: 8 * si.Degree}
	f := mustFlow(t, s, flap, 300)
	const alpha = 3 * si.Degree
	cp, points := f.Pressure(alpha), f.Nodes()
	var x, y float64
	for i := range len(points) - 1 {
		mean := (cp[i] + cp[i+1]) / 2
		x += mean * (points[i+1].Y - points[i].Y)
		y -= mean * (points[i+1].X - points[i].X)
	}
	lift := -y*alpha.Cos() + x*alpha.Sin()
	drag := -x*alpha.Cos() - y*alpha.Sin()
	near(t, "lift by pressure", math.Abs(lift), f.Lift(alpha), 0.02)
	near(t, "drag by pressure", drag, 0, 0.01)
	near(t, "angle of the lift", float64(f.AngleFor(f.Lift(alpha))), float64(alpha), 1e-12)
	near(t, "lift at the angle of no lift", f.Lift(f.ZeroLift()), 0, 1e-12)

	symmetric := mustParse(t, "naca 0010")
	a := mustFlow(t, symmetric, flap, 200)
	b := mustFlow(t, symmetric, Flap{0.3, -flap.Deflection}, 200)
	near(t, "lift of the mirror image", a.Lift(alpha), -b.Lift(-alpha), 1e-6)
	near(t, "peak of the mirror image", a.Peak(alpha), b.Peak(-alpha), 1e-6)
	near(t, "moment of the mirror image", a.Moment(alpha), -b.Moment(-alpha), 1e-6)
}

// Thin sections approach thin-aerofoil theory, flap and camber and moment.
func TestThinSectionsApproachTheory(t *testing.T) {
	s := mustParse(t, "naca 2412 at 2 %")
	f := mustFlow(t, s, Flap{}, 400)
	near(t, "lift slope over 2π", f.LiftSlope()/(2*math.Pi), 1, 0.02)
	// Theory on the line midway between the sides; that of the formula has
	// another nose, and with it an angle of no lift 0.04 deg smaller.
	line := s.shape.meanLine()
	near(t, "angle of no lift, deg", f.ZeroLift().Degrees(), line.zeroLift*180/math.Pi, 0.01)
	near(t, "moment without lift", f.Moment(f.ZeroLift()), line.moment, 0.0002)
	near(t, "angle of no lift by the formula, deg", line.zeroLift*180/math.Pi, s.ZeroLift.Degrees(), 0.04)

	flap := Flap{Share: 0.3, Deflection: 4 * si.Degree}
	e := flap.Effect(0)
	g := mustFlow(t, s, flap, 400)
	near(t, "angle of no lift by the flap, deg", (g.ZeroLift() - f.ZeroLift()).Degrees(), e.ZeroLift.Degrees(), 0.05)
	near(t, "moment without lift by the flap", g.Moment(g.ZeroLift())-f.Moment(f.ZeroLift()), e.Moment, 0.003)
}

// More panels change a flapped 6-series section's peaks by less than 1 %.
func TestPanelCountIsEnough(t *testing.T) {
	s := mustParse(t, "naca 64-209")
	for _, degrees := range []si.Angle{-10, -5, 0, 5, 10, 15} {
		flap := Flap{Share: 0.3, Deflection: degrees * si.Degree}
		coarse, fine := mustFlow(t, s, flap, PanelCount), mustFlow(t, s, flap, 700)
		for _, lift := range []float64{0, 0.3, 0.6} {
			want := fine.Peak(fine.AngleFor(lift))
			near(t, "peak", coarse.Peak(coarse.AngleFor(lift)), want, 0.012*-want)
		}
	}
}

func TestPotentialRefusesWhatItCannot(t *testing.T) {
	s := mustParse(t, "naca 0012")
	for says, err := range map[string]error{
		"no section":              second(Section{}.Potential(Flap{}, 100)),
		"5 panels, allowed is 20": second(s.Potential(Flap{}, 5)),
		"flap of 80 %":            second(s.Potential(Flap{0.8, 0.1}, 100)),
		"flap of NaN %":           second(s.Potential(Flap{math.NaN(), 0.1}, 100)),
		"flap angle 115 deg":      second(s.Potential(Flap{0.3, 2}, 100)),
	} {
		if err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("error is %v, want one that says %q", err, says)
		}
	}
}

func second(_ Potential, err error) error { return err }

func BenchmarkPotential(b *testing.B) {
	s := mustParse(b, "naca 64-209")
	for b.Loop() {
		if _, err := s.Potential(Flap{0.3, 0.1}, PanelCount); err != nil {
			b.Fatal(err)
		}
	}
}
