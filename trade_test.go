package foilwright_test

import (
	"testing"

	"foilwright/balance"
	"foilwright/boat"
	"foilwright/foil"
	"foilwright/si"
)

// lever returns how far the rule of thumb's centre of the leeward foil lies to
// leeward of the centre of gravity, m, upright on port tack, with the foil at a
// cant; and how high its outer tip is above the water.
func lever(t *testing.T, b *boat.Boat, cant si.Angle, rideHeight float64) (arm, tipHeight float64) {
	t.Helper()
	s := boat.State{Settings: b.Starts()}
	leeward := -1
	for i := range b.Foils {
		if b.Foils[i].Kind == "main" && b.Foils[i].Side == boat.Starboard {
			leeward = i
		}
	}
	control, err := b.Control("starboard main cant")
	if err != nil {
		t.Fatal(err)
	}
	s.Settings[control] = cant.Radians()
	up, err := b.Control("port main cant")
	if err != nil {
		t.Fatal(err)
	}
	s.Settings[up] = b.Controls[up].Upper
	s.Attitude = b.AtRideHeight(s.Attitude, rideHeight)
	outlines := foil.Outlines(b, s)
	levers := balance.LeversOf(b, s, outlines, boat.Port)
	if levers.Foil != b.Foils[leeward].Name {
		t.Fatalf("the lever is taken to %q", levers.Foil)
	}
	tip := -1e9
	for i := range outlines {
		if o := &outlines[i]; o.Foil == leeward && o.FreeTip == foil.FreeTip {
			tip = max(tip, -o.Depth())
		}
	}
	return levers.Lever, tip
}

// Common practice: extra cant still gains lever after the outer tip has left the
// water, since the arm's outward travel beats the loss of outboard area; 3° more
// brought some 2.3 % of righting moment on a boat of this kind. The 20 m boat
// must gain on both sides of the surface, by a few per cent for 3°.
func TestExtraCantGainsLever(t *testing.T) {
	b := example(t, "examples/twenty-metre/hawthorn.yaml")
	const ride = 0.9
	last, tipOut := 0.0, 0
	for cant := 16.0; cant <= 40; cant++ {
		arm, tip := lever(t, b, si.Angle(cant)*si.Degree, ride)
		if tip > 0 {
			tipOut++
		}
		if last > 0 && arm <= last && tipOut <= 6 {
			t.Errorf("%.0f deg of cant: lever %.4f m after %.4f, outer tip at %+.2f m", cant, arm, last, tip)
		}
		last = arm
	}
	if tipOut < 6 {
		t.Fatalf("the tip is out at %d of the cants: the test says nothing", tipOut)
	}
	first, _ := lever(t, b, 24*si.Degree, ride)
	more, tip := lever(t, b, 27*si.Degree, ride)
	gain := 100 * (more/first - 1)
	t.Logf("lever %.3f m at 24 deg, %.3f m at 27 deg with the outer tip at %+.2f m: %+.1f %%", first, more, tip, gain)
	if gain < 1 || gain > 5 {
		t.Errorf("3 deg more cant brings %.1f %% of righting moment; common practice knows a few per cent", gain)
	}
}
