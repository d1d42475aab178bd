package polar_test

import (
	"context"
	"math"
	"os"
	"testing"

	"foilwright/boat"
	"foilwright/boatfile"
	"foilwright/fluid"
	"foilwright/polar"
	"foilwright/si"
	"foilwright/trim"
)

func dinghy(t *testing.T) *boat.Boat {
	t.Helper()
	const name = "../examples/dinghy/sloe.yaml"
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	sheet, err := boatfile.Read(name, text, os.ReadFile)
	if err != nil {
		t.Fatal(err)
	}
	b, err := sheet.Boat(nil)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// A dinghy's take-off is bracketed from below and from above: between the two winds
// she has an answer afloat, slower than the hump, and one flying, faster; below the
// first none flying; above the second, afloat, she comes up until her hull is at the
// surface. On each branch speed rises with the wind, without steps.
func TestTakeOffOfADinghy(t *testing.T) {
	if testing.Short() {
		t.Skip("some twenty trims: left out in short runs")
	}
	b := dinghy(t)
	base := trim.Request{Profile: fluid.OpenSea(), Water: fluid.StandardSea(), Air: fluid.StandardAir(), Why: trim.Shortfalls}
	steps := 0
	off, err := polar.TakeOffOf(context.Background(), b, base, func(done int) { steps = done })
	if err != nil {
		t.Fatal(err)
	}
	if steps == 0 || steps > polar.TakeOffSteps {
		t.Errorf("%d steps of at most %d", steps, polar.TakeOffSteps)
	}
	from, to, both := off.Hysteresis()
	if off.Flying == nil || off.Hump == nil || off.Lifts == nil || off.MostDrag == nil || !both {
		t.Fatalf("flying %v, hump %v, lift %v, drag %v: a dinghy with a wing of this size has them all", off.Flying, off.Hump, off.Lifts, off.MostDrag)
	}
	if !(off.Flying.Wind <= from && from < to) {
		t.Errorf("flying from %.3f, both from %.3f to %.3f m/s", off.Flying.Wind, from, to)
	}
	at := func(wind si.Speed, branch trim.Branch) *trim.Result {
		r := base
		r.Aim, r.WindSpeed, r.WindAngle, r.Branch = trim.AtAngle, wind, off.Angle, branch
		res, err := trim.Best(context.Background(), b, r, nil)
		if err != nil {
			t.Fatal(err)
		}
		return res
	}
	if res := at(0.97*from, trim.AsLimited); res.Answer == trim.Found {
		t.Errorf("in %.2f m/s, less than the least, she flies at %.2f m/s", 0.97*from, res.Speed)
	}
	const n = 5
	var last [2]*trim.Result
	for k := 1; k < n; k++ {
		wind := from + (to-from)*si.Speed(k)/n
		for i, branch := range [2]trim.Branch{trim.Afloat, trim.AsLimited} {
			res := at(wind, branch)
			if res.Answer != trim.Found {
				t.Fatalf("%.2f m/s of wind, %v: no answer: %s", wind, branch, res.Reason.Words)
			}
			slower := res.Speed < off.Hump.Speed
			if slower != (branch == trim.Afloat) || (res.OnHulls > 0) != (branch == trim.Afloat) {
				t.Errorf("%.2f m/s of wind, %v: %.2f m/s with %.0f %% on hulls; the hump is at %.2f m/s", wind, branch, res.Speed, 100*res.OnHulls, off.Hump.Speed)
			}
			if before := last[i]; before != nil && (res.Speed < before.Speed || res.Speed > before.Speed*1.25) {
				t.Errorf("%v: %.3f m/s in %.2f m/s of wind, after %.3f: speed is not continuous", branch, res.Speed, wind, before.Speed)
			}
			last[i] = res
		}
	}
	if f := residual(off); f > 1e-12 {
		t.Errorf("rungs are out of order by %g", f)
	}
}

// residual is by how much speeds of the rungs do not rise.
func residual(off *polar.TakeOff) float64 {
	worst := 0.0
	for k := 1; k < len(off.Rungs); k++ {
		worst = math.Max(worst, float64(off.Rungs[k-1].Speed-off.Rungs[k].Speed))
	}
	return worst
}
