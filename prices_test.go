package foilwright_test

import (
	"math"
	"slices"
	"testing"

	"foilwright/boat"
	"foilwright/trim"
)

// Prices of limits, and of ends of controls' ranges, agree with solving again in boats
// of several kinds and winds, to windward and to leeward: within 2 %, or within 1e-5 of
// progress for a usual change of the control, which is as good as slopes are. Steps are
// small: two hundredths of a degree beyond her limit of pitch another place of Sorrel's hull
// becomes the lowest, from which ride height counts, and pitch is worth 1.6 times as much.
func TestPricesOfTheExamples(t *testing.T) {
	checked := 0
	for _, c := range []struct {
		optimumCase
		aim trim.Aim
	}{
		{optimumCase{"examples/dinghy/sloe.yaml", "", 12}, trim.Windward},
		{optimumCase{"examples/dinghy/sloe.yaml", "", 16}, trim.Leeward},
		{optimumCase{"examples/catamaran/bramble.yaml", "", 12}, trim.Leeward},
		{optimumCase{"examples/twenty-metre/hawthorn.yaml", "one foil", 10}, trim.Windward},
		{optimumCase{"examples/which-foil/sorrel.yaml", "one foil", 20}, trim.Windward},
		{optimumCase{"examples/keelboat/guelder.yaml", "", 20}, trim.Leeward},
	} {
		b := example(t, c.file)
		r := c.request(c.aim)
		r.Starts = 1
		res := best(t, b, r)
		if res.Answer != trim.Found {
			t.Errorf("%s in %g kn: no answer", b.Name, c.knots)
			continue
		}
		r.From, r.Starts = res, trim.OnlyFrom
		for _, p := range priced(b, res) {
			again := func(by float64) float64 {
				moved := best(t, p.moved(b, by), r)
				if moved.Answer != trim.Found {
					t.Fatalf("%s, %s moved by %g: no answer", b.Name, p.name, by)
				}
				return float64(moved.Progress())
			}
			looser, tighter := again(p.step), again(-p.step)
			got := (looser - tighter) / (2 * p.step)
			checked++
			t.Logf("%s in %g kn, %s: price %.5g, by solving again %.5g m/s per unit", b.Name, c.knots, p.name, p.price, got)
			if off := math.Abs(got - p.price); off > 0.02*math.Abs(got) && !(off*p.usual <= 1e-5*float64(res.Progress())) {
				t.Errorf("%s in %g kn, %s: price %.5g, by solving again %.5g m/s per unit", b.Name, c.knots, p.name, p.price, got)
			}
		}
	}
	if checked < 10 {
		t.Errorf("%d prices were checked, want more", checked)
	}
}

// bound is one end of a range that has a price.
type bound struct {
	name        string
	price, step float64
	usual       float64                                   // a usual change of a control; without end for a limit
	moved       func(b *boat.Boat, by float64) *boat.Boat // by: how much more room
}

// priced lists the boat's own limits, and ends of controls that no mode narrows, on
// which an answer stands. What slides through a case is all out or all in at its ends.
func priced(b *boat.Boat, res *trim.Result) []bound {
	var all []bound
	for _, l := range res.Limits {
		k := slices.IndexFunc(b.Limits, func(o boat.Limit) bool { return o.Name() == l.Name })
		if k < 0 || !l.Active || l.Price == 0 {
			continue
		}
		lower := l.Lower != nil && math.Abs(l.Value-*l.Lower) < 1e-6
		all = append(all, bound{l.Name, l.Price, 0.0003 * math.Max(0.15, math.Abs(l.Value)), math.Inf(1), func(b *boat.Boat, by float64) *boat.Boat {
			m := *b
			m.Limits = slices.Clone(b.Limits)
			if lower {
				m.Limits[k].Lower -= by
			} else {
				m.Limits[k].Upper += by
			}
			return &m
		}})
	}
	for i, s := range res.Controls {
		lower := s.State == "at its lower end"
		if b.Controls[i].Kind == boat.ShareControl || s.Price == 0 || !lower && s.State != "at its upper end" || s.Lower != b.Controls[i].Lower || s.Upper != b.Controls[i].Upper {
			continue
		}
		all = append(all, bound{s.Name, s.Price, 0.0005 * (s.Upper - s.Lower), b.Controls[i].Step, func(b *boat.Boat, by float64) *boat.Boat {
			m := *b
			m.Controls = slices.Clone(b.Controls)
			if lower {
				m.Controls[i].Lower -= by
			} else {
				m.Controls[i].Upper += by
			}
			return &m
		}})
	}
	return all
}
