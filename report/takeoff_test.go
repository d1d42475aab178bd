package report

import (
	"strings"
	"testing"

	"foilwright/polar"
	"foilwright/trim"
)

// A take-off says which branches there are, and why a speed has no answer.
func TestTakeOffSaysItsBranches(t *testing.T) {
	rung := polar.Rung{Speed: 5, Answer: trim.Found, Wind: 4, RideHeight: -0.4, OnHulls: 0.9, Carrying: "afloat", Drag: 900, OfHulls: 600}
	without := polar.Rung{Speed: 9, Answer: trim.NoAnswer, Reason: "no steady sailing at true wind 17.5 kn: drive is 0.101 kN short"}
	flying := polar.Rung{Speed: 8, Answer: trim.Found, Wind: 3, RideHeight: 0.5, Carrying: "flying", Drag: 700}
	for _, c := range []struct {
		off  polar.TakeOff
		says []string
	}{
		{polar.TakeOff{Boat: "Guelder", KeptIn: true, Rungs: []polar.Rung{rung, without}}, []string{
			"Guelder does not fly clear of the water: her limits of ride height keep a hull in it.",
			"there is one branch, in a rising wind as in a falling one",
			"Speeds that no wind was found to hold\n- 17.49 kn: no steady sailing at true wind 17.5 kn: drive is 0.101 kN short",
		}},
		{polar.TakeOff{Boat: "Lead", Rungs: []polar.Rung{rung}}, []string{"Lead does not fly clear of the water: no wind was found that lifts her out."}},
		{polar.TakeOff{Boat: "Sloe", Flying: &flying, Hump: &rung, After: &flying, Rungs: []polar.Rung{rung, flying}}, []string{
			"Sloe flies from 5.8 kn of wind, at 15.55 kn",
			"Between 5.8 kn and 7.8 kn of wind she can do both",
		}},
	} {
		p := &page{}
		p.takeOff(&c.off)
		plain := strings.Join(strings.Fields(p.String()), " ")
		for _, want := range c.says {
			if !strings.Contains(plain, strings.Join(strings.Fields(want), " ")) {
				t.Errorf("%s: %q is not in\n%s", c.off.Boat, want, p)
			}
		}
	}
}
