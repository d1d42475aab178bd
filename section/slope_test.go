package section

import (
	"math"
	"testing"
)

func TestLiftSlope(t *testing.T) {
	slope, source := mustParse(t, "NACA 0012").LiftSlope(6e6)
	held(t, figure{"mccroskey-1988.csv", "5.05", 0, "measured lift slope of 0012", "Re 6e6, at the Mach number of 0.15", ""},
		slope*math.Pi/180/math.Sqrt(1-0.15*0.15), 1e-5)
	near(t, "slope over 2π", slope/(2*math.Pi), 0.97, 0.002)
	if source != "measured (McCroskey 1988, AGARD CP-429)" {
		t.Errorf("source is %q", source)
	}
	ideal := mustFlow(t, mustParse(t, "naca 0012"), Flap{}, PanelCount).LiftSlope()
	near(t, "ideal slope over 2π", ideal/(2*math.Pi), 1+0.8*0.12, 0.01)

	slope, source = mustParse(t, "naca 64-209").LiftSlope(6e6)
	near(t, "slope of another section", slope, 2*math.Pi, 0)
	if source != "thin-aerofoil theory (Glauert 1926)" {
		t.Errorf("source is %q", source)
	}
	for _, reynolds := range []float64{0, math.Inf(1), -1e7, 1e300} {
		if s := LiftSlope0012(reynolds); !(s > 5.8 && s < 6.5) {
			t.Errorf("slope at Reynolds number %g is %g", reynolds, s)
		}
	}
}
