package trim

import (
	"math"
	"strings"
	"testing"

	"foilwright/boat"
)

// limitRow returns an answer's row of a limit.
func limitRow(t *testing.T, res *Result, name string) LimitRow {
	t.Helper()
	for _, l := range res.Limits {
		if l.Name == name {
			return l
		}
	}
	t.Fatalf("no limit %q among %+v", name, res.Limits)
	return LimitRow{}
}

// limited returns the boat with further limits.
func limited(b *boat.Boat, more ...boat.Limit) *boat.Boat {
	c := *b
	c.Limits = append(append([]boat.Limit(nil), b.Limits...), more...)
	return &c
}

// A largest sheet load holds the answer, with its margin, and its price is what
// solving again gives; relaxed by the sail's own name it is gone. A sail's own
// limit leaves the other sail alone.
func TestSheetLoadIsALimit(t *testing.T) {
	b := monohull(t)
	r := usual(17)
	r.Starts = 1
	free := found(t, b, r)
	most := 0.9 * free.Sails[0].SheetLoad
	limit := func(upper float64) boat.Limit {
		return boat.Limit{Kind: boat.LimitSheetLoad, Part: "mainsail", Lower: math.Inf(-1), Upper: upper}
	}
	res := found(t, limited(b, limit(most)), r)
	row := limitRow(t, res, "mainsail sheet load")
	if !row.Active || math.Abs(row.Value-most) > 1e-3 || math.Abs(res.Sails[0].SheetLoad-most) > 1e-3 || row.Unit != "N" {
		t.Errorf("at most %.1f N: %+v, told %.1f N", most, row, res.Sails[0].SheetLoad)
	}
	if math.Abs(row.Margin) > 1e-3 || res.progressInItsAim() >= free.progressInItsAim() {
		t.Errorf("margin %g, progress %g after %g", row.Margin, res.progressInItsAim(), free.progressInItsAim())
	}
	step := 0.002 * most
	looser, tighter := found(t, limited(b, limit(most+step)), r), found(t, limited(b, limit(most-step)), r)
	again := (looser.progressInItsAim() - tighter.progressInItsAim()) / (2 * step)
	t.Logf("price %.5g m/s per kN, by solving again %.5g", 1000*row.Price, 1000*again)
	if math.Abs(again-row.Price) > 0.02*again {
		t.Errorf("price %.5g m/s per kN, by solving again %.5g", 1000*row.Price, 1000*again)
	}
	all := limit(most)
	all.Part = ""
	r.Relaxed = []string{"mainsail sheet load"}
	relaxed := found(t, limited(b, all), r)
	if math.Abs(relaxed.progressInItsAim()/free.progressInItsAim()-1) > 1e-6 {
		t.Errorf("with the mainsail's sheet load relaxed progress is %.6f, want %.6f", relaxed.progressInItsAim(), free.progressInItsAim())
	}
	limitRow(t, relaxed, "jib sheet load")
}

// No strip of a sail pulls to windward unless the boat allows it: the limit
// holds in strong wind, has its price, and what the boat allows is used.
func TestLoadToLeewardIsALimit(t *testing.T) {
	b := monohull(t)
	r := usual(24)
	r.Starts = 1
	res := found(t, b, r)
	row := limitRow(t, res, "mainsail load to leeward")
	if !row.Active || row.Price <= 0 || math.Abs(row.Value) > 1e-6 || row.Lower == nil || *row.Lower != 0 {
		t.Fatalf("in 24 kn the limit is %+v", row)
	}
	for _, s := range res.Sails {
		for _, strip := range s.Strips {
			if strip.LiftCoefficient < -1e-6 {
				t.Errorf("%s pulls to windward at %.2f of its luff: %.2g", s.Name, strip.Share, strip.LiftCoefficient)
			}
		}
	}
	allow := func(least float64) boat.Limit {
		return boat.Limit{Kind: boat.LimitSailLoad, Part: "mainsail", Lower: least, Upper: math.Inf(1)}
	}
	const step = 0.002
	looser, tighter := found(t, limited(b, allow(-step)), r), found(t, limited(b, allow(step)), r)
	again := (looser.progressInItsAim() - tighter.progressInItsAim()) / (2 * step)
	t.Logf("price %.5g m/s per unit, by solving again %.5g", row.Price, again)
	if math.Abs(again-row.Price) > 0.02*again {
		t.Errorf("price %.5g m/s per unit, by solving again %.5g", row.Price, again)
	}
	// The sail's own limit stands before the one for all.
	all := allow(0.02)
	all.Part = ""
	allowed := found(t, limited(b, allow(-0.3), all), r)
	own := limitRow(t, allowed, "mainsail load to leeward")
	if own.Value >= -1e-3 || *own.Lower != -0.3 || *limitRow(t, allowed, "jib load to leeward").Lower != 0.02 {
		t.Errorf("allowed to pull to windward: %+v", own)
	}
	if allowed.progressInItsAim() <= res.progressInItsAim() {
		t.Errorf("with its head allowed to windward: progress %.4f after %.4f", allowed.progressInItsAim(), res.progressInItsAim())
	}
}

// Flatten settles between its ends where less than full lift is wanted, does no
// harm, and stays out of the search of a set without the sail.
func TestFlattenIsTrimmed(t *testing.T) {
	b := monohull(t)
	r := usual(20)
	r.Starts = 1
	full := found(t, b, r)
	c := *b
	c.Sails = append([]boat.Sail(nil), b.Sails...)
	c.Controls = append(append([]boat.Control(nil), b.Controls...), boat.Control{
		Name: "mainsail flatten", Part: "mainsail", Label: "flatten", Kind: boat.ShareControl, Upper: 0.8, Step: 0.02,
	})
	c.Sails[0].Flatten = len(b.Controls)
	c.Sets = append(append([]boat.Set(nil), b.Sets...), boat.Set{Name: "jib alone", Sails: []int{1}})
	r.Set = "working"
	flat := found(t, &c, r)
	set := flat.Controls[len(b.Controls)]
	t.Logf("flattened by %.3f: progress %.5f after %.5f m/s", set.Value, flat.progressInItsAim(), full.progressInItsAim())
	if set.State != "free" || set.Value < 0.05 || set.Value > 0.75 || set.Value != flat.Sails[0].Flatten {
		t.Errorf("the control is %+v, the sail's %g", set, flat.Sails[0].Flatten)
	}
	if flat.progressInItsAim() <= full.progressInItsAim() {
		t.Errorf("progress is %.5f with flatten, %.5f without", flat.progressInItsAim(), full.progressInItsAim())
	}
	w := way{set: 1}
	if w.uses(&c, c.Sails[0].Flatten) || !w.uses(&c, c.Sails[1].Sheet) {
		t.Error("a set without the mainsail uses its flattener")
	}
}

// Where a sail's own table does not reach the answer warns, by the sail's name.
func TestOwnTableWarns(t *testing.T) {
	b := monohull(t)
	c := *b
	c.Sails = append([]boat.Sail(nil), b.Sails...)
	own := c.Sails[0].Coefficients
	own.Name, own.Angle, own.Lift, own.Drag = boat.OwnTable, own.Angle[1:], own.Lift[1:], own.Drag[1:]
	c.Sails[0].Coefficients = own
	r := usual(17)
	r.Starts = 1
	res := found(t, &c, r)
	for _, w := range res.Warnings {
		if strings.HasPrefix(w, "mainsail: apparent wind angle ") && strings.Contains(w, "its table has 50 to 180 deg") {
			return
		}
	}
	t.Errorf("warnings are %q", res.Warnings)
}

// People who reach into the water are told of, and those who do not are not.
func TestDippedCrewWarns(t *testing.T) {
	b := *monohull(t)
	b.Windages = append([]boat.Windage(nil), b.Windages...)
	crew := b.Weights[2].At
	b.Windages = append(b.Windages, boat.Windage{Name: "crew", Area: 1, Coefficient: 0.6, Bottom: crew, Top: crew, Follows: 2})
	s := boat.State{Settings: b.Starts()}
	for _, c := range []struct {
		height float64 // of the crew's middle above the water
		warned bool
	}{{0.6, false}, {0.4, true}, {-0.2, true}} {
		s.Attitude.Height = c.height - crew.Z
		res := &Result{State: s}
		res.warnOfDipped(&b)
		if warned := len(res.Warnings) == 1 && strings.HasPrefix(res.Warnings[0], "crew reaches into the water, the middle "); warned != c.warned {
			t.Errorf("%.1f m above the water: %q", c.height, res.Warnings)
		}
	}
}
