package section

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestFrictionLines(t *testing.T) {
	want := published(t, "closed-forms.csv")
	for id, re := range map[string]float64{"2.01": 1e6, "2.03": 5e6, "2.05": 1e8, "2.06": 1e9} {
		near(t, "ITTC-1957, row "+id, ITTC57(re), want[id][0], 5e-7)
		near(t, "Schoenherr, row "+id, Schoenherr(re), want[id][1], 2e-7)
	}
	for id, re := range map[string]float64{"2.07": 1e6, "2.09": 1e7, "2.10": 1e8} {
		near(t, "Prandtl–Schlichting, row "+id, PrandtlSchlichting(re), want[id][0], 2e-7)
		near(t, "less 1700/Re, row "+id, PrandtlSchlichting(re)-1700/re, want[id][1], 2e-7)
		// Schlichting's A = 1700 stands for transition at 5e5; the two lines
		// themselves differ there by 1614/Re.
		near(t, "with transition at 5e5, row "+id, Transition(re, 5e5/re), want[id][1], 95/re)
	}
	near(t, "Blasius at 1e6", Blasius(1e6), want["2.12"][0], 1e-6)
	near(t, "Blasius at 5e5", Blasius(5e5), want["2.12"][1], 1e-6)
	near(t, "fifth power at 1e6", FifthPower(1e6), want["2.13"][0], 1e-6)
	katsui := published(t, "katsui-2005.csv")["2.14"]
	near(t, "Katsui at 1e6", Katsui(1e6), katsui[0], 2e-5)
	near(t, "Katsui at 1e7", Katsui(1e7), katsui[1], 2e-5)
}

// Every line is finite and falls with Reynolds number, from rest up, and is the
// same at −Re; the laminar share runs from one line to the other.
func TestFrictionFallsAndStaysFinite(t *testing.T) {
	lines := map[string]func(float64) float64{
		"ITTC-1957": ITTC57, "Schoenherr": Schoenherr, "Prandtl–Schlichting": PrandtlSchlichting,
		"Blasius": Blasius, "fifth power": FifthPower, "Katsui": Katsui,
		"transition at half": func(re float64) float64 { return Transition(re, 0.5) },
	}
	for name, line := range lines {
		previous := line(0)
		if !(previous > 0 && previous < 0.1) {
			t.Errorf("%s at rest is %g", name, previous)
		}
		for l := 2.0; l < 10; l += 0.01 {
			re := math.Pow(10, l)
			if c := line(re); !(c > 0 && c <= previous) || line(-re) != c {
				t.Fatalf("%s at Reynolds number %.3g is %g after %g, %g at the negative", name, re, c, previous, line(-re))
			} else {
				previous = c
			}
		}
	}
	for l := 4.5; l < 9; l += 0.25 {
		re := math.Pow(10, l)
		near(t, "all laminar", Transition(re, 1), Blasius(re), 1e-12)
		near(t, "all turbulent", Transition(re, 0), PrandtlSchlichting(re), 0)
	}
}

func TestFormFactors(t *testing.T) {
	want := published(t, "hoerner-1965.csv")
	for id, thickness := range map[string]float64{"2.15": 0.09, "2.17": 0.15} {
		near(t, "turbulent section, row "+id, FormFactor(thickness, 0.3), want[id][0], 1e-5)
		near(t, "laminar section, row "+id, FormFactor(thickness, 0.45), want[id][1], 1e-5)
		near(t, "half way between, row "+id, FormFactor(thickness, 0.35), (want[id][0]+want[id][1])/2, 1e-5)
	}
	near(t, "body, row 2.18", BodyFormFactor(0.125), want["2.18"][0], 1e-5)
	near(t, "body, row 2.20", BodyFormFactor(0.25), want["2.20"][0], 1e-5)
	near(t, "spray drag, row 4.54", SprayDrag(0.5*1025*15*15, 0.036), want["4.54"][0], 0.01)
}

// Rows 2.21 to 2.23 are from memory: they hold the formula as remembered, not
// its truth. Both laws are smooth where they leave it and rise from nothing.
func TestJunctions(t *testing.T) {
	want := published(t, "hoerner-1965.csv")
	for id, thickness := range map[string]float64{"2.21": 0.09, "2.22": 0.12, "2.23": 0.15} {
		near(t, "wall junction, row "+id, WallJunctionDrag(thickness), want[id][0], 1e-4)
		near(t, "crossing struts, row "+id, CrossingDrag(thickness), want[id][1], 1e-4)
	}
	for _, c := range []struct {
		name string
		drag func(float64) float64
		join float64
	}{{"wall junction", WallJunctionDrag, 0.08}, {"crossing struts", CrossingDrag, 0.06}} {
		const h = 1e-7
		near(t, c.name+" slope", (c.drag(c.join)-c.drag(c.join-h))/h, (c.drag(c.join+h)-c.drag(c.join))/h, 1e-4)
		near(t, c.name+" of no thickness", c.drag(0), 0, 0)
		near(t, c.name+" of negative thickness", c.drag(-1), 0, 0)
		rapid.Check(t, func(t *rapid.T) {
			at := rapid.Float64Range(0, 0.3).Draw(t, "thickness")
			if c.drag(at+0.001) <= c.drag(at) && at > 0.03 {
				t.Errorf("%s falls at %g", c.name, at)
			}
		})
	}
}
