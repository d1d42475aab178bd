package section

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestFrictionLines(t *testing.T) {
	line := func(id string, part int, name string) figure {
		return figure{"closed-forms.csv", id, part, "friction coefficient, " + name, "", ""}
	}
	for id, re := range map[string]float64{"2.01": 1e6, "2.03": 5e6, "2.05": 1e8, "2.06": 1e9} {
		held(t, line(id, 0, "ITTC-1957"), ITTC57(re), 2e-7)
		held(t, line(id, 1, "Schoenherr"), Schoenherr(re), 2e-7)
	}
	for id, re := range map[string]float64{"2.07": 1e6, "2.09": 1e7, "2.10": 1e8} {
		held(t, line(id, 0, "Prandtl–Schlichting"), PrandtlSchlichting(re), 2e-7)
		near(t, "less 1700/Re, row "+id, PrandtlSchlichting(re)-1700/re, published(t, "closed-forms.csv")[id][1], 2e-7)
		// Schlichting's A = 1700 stands for transition at 5e5; the two lines
		// themselves differ there by 1614/Re.
		held(t, line(id, 1, "transition at 5e5"), Transition(re, 5e5/re), 95/re)
	}
	held(t, figure{"closed-forms.csv", "2.12", 0, "friction coefficient, Blasius", "Re=1e6", ""}, Blasius(1e6), 1e-6)
	held(t, figure{"closed-forms.csv", "2.12", 1, "friction coefficient, Blasius", "Re=5e5", ""}, Blasius(5e5), 1e-6)
	held(t, line("2.13", 0, "fifth power"), FifthPower(1e6), 1e-6)
	held(t, figure{"katsui-2005.csv", "2.14", 0, "friction coefficient, Katsui", "Re=1e6", ""}, Katsui(1e6), 2e-5)
	held(t, figure{"katsui-2005.csv", "2.14", 1, "friction coefficient, Katsui", "Re=1e7", ""}, Katsui(1e7), 2e-5)
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
		held(t, figure{"hoerner-1965.csv", id, 0, "form factor, thickest at 0.3 of the chord", "", ""}, FormFactor(thickness, 0.3), 1e-5)
		held(t, figure{"hoerner-1965.csv", id, 1, "form factor, thickest at 0.45 of the chord", "", ""}, FormFactor(thickness, 0.45), 1e-5)
		near(t, "half way between, row "+id, FormFactor(thickness, 0.35), (want[id][0]+want[id][1])/2, 1e-5)
	}
	held(t, figure{"hoerner-1965.csv", "2.18", 0, "form factor of a body", "", ""}, BodyFormFactor(0.125), 1e-5)
	held(t, figure{"hoerner-1965.csv", "2.20", 0, "form factor of a body", "", ""}, BodyFormFactor(0.25), 1e-5)
	held(t, figure{"hoerner-1965.csv", "4.54", 0, "spray drag of a strut, the formula", "", ""}, SprayDrag(0.5*1025*15*15, 0.036), 0.01)
}

// Rows 2.21 to 2.23 are from memory: they hold the formula as remembered, not
// its truth. Both laws are smooth where they leave it and rise from nothing.
func TestJunctions(t *testing.T) {
	for id, thickness := range map[string]float64{"2.21": 0.09, "2.22": 0.12, "2.23": 0.15} {
		held(t, figure{"hoerner-1965.csv", id, 0, "drag of a junction with a wall, on c²", fmt.Sprintf("t/c=%g", thickness), ""}, WallJunctionDrag(thickness), 1e-4)
		held(t, figure{"hoerner-1965.csv", id, 1, "drag of crossing struts, on t²", fmt.Sprintf("t/c=%g", thickness), ""}, CrossingDrag(thickness), 1e-4)
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

// The slope of a plate's friction is that of differences.
func TestPlateSlope(t *testing.T) {
	for _, reynolds := range []float64{0, 300, 1e4, 2e5, 3e6, 1e8} {
		for _, share := range []float64{0, 0.3, 1} {
			h := 1e-4 * (reynolds + 100)
			above, below, got := PlateOf(reynolds+h, share), PlateOf(reynolds-h, share), PlateSlope(reynolds, share)
			scale := 1e-6 * above.Turbulent / (reynolds + 1e3)
			near(t, fmt.Sprintf("turbulent at %g", reynolds), got.Turbulent, (above.Turbulent-below.Turbulent)/(2*h), scale)
			near(t, fmt.Sprintf("%g of it laminar at %g", share, reynolds), got.Mixed, (above.Mixed-below.Mixed)/(2*h), scale)
		}
	}
}
