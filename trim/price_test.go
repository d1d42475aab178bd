package trim

import (
	"math"
	"testing"

	"foilwright/boat"
	"foilwright/si"
)

// The price of each active limit, and of each control at an end of its range,
// agrees with solving again with that bound moved a little either way.
func TestPricesAgreeWithSolvingAgain(t *testing.T) {
	b := monohull(t)
	tighten(b)
	r := usual(17)
	r.Starts = 1
	res := found(t, b, r)
	solved := func(change func(*boat.Boat)) float64 {
		moved := *b
		moved.Limits = append([]boat.Limit(nil), b.Limits...)
		moved.Controls = append([]boat.Control(nil), b.Controls...)
		change(&moved)
		return found(t, &moved, r).progressInItsAim()
	}
	checked := 0
	check := func(name string, price, step float64, move func(m *boat.Boat, by float64)) {
		t.Helper()
		checked++
		looser, tighter := solved(func(m *boat.Boat) { move(m, step) }), solved(func(m *boat.Boat) { move(m, -step) })
		got := (looser - tighter) / (2 * step)
		t.Logf("%s: price %.5g, by solving again %.5g m/s per unit", name, price, got)
		if math.Abs(got-price) > 0.02*math.Abs(got) {
			t.Errorf("%s: price %.5g, by solving again %.5g m/s per unit", name, price, got)
		}
	}
	for i, l := range res.Limits {
		if !l.Active {
			if l.Price != 0 {
				t.Errorf("%s is not active and has a price of %g", l.Name, l.Price)
			}
			continue
		}
		for k := range b.Limits {
			if b.Limits[k].Name() != l.Name {
				continue
			}
			low := res.Limits[i].Lower != nil && math.Abs(l.Value-*l.Lower) < 1e-6
			check(l.Name, l.Price, 0.004*math.Max(0.05, math.Abs(l.Value)), func(m *boat.Boat, by float64) {
				if low {
					m.Limits[k].Lower -= by
				} else {
					m.Limits[k].Upper += by
				}
			})
		}
	}
	for i, c := range res.Controls {
		switch c.State {
		case "at its lower end":
			check(c.Name, c.Price, 0.004*(c.Upper-c.Lower), func(m *boat.Boat, by float64) { m.Controls[i].Lower -= by })
		case "at its upper end":
			check(c.Name, c.Price, 0.004*(c.Upper-c.Lower), func(m *boat.Boat, by float64) { m.Controls[i].Upper += by })
		}
	}
	if checked < 3 {
		t.Errorf("%d limits are active: the test says little", checked)
	}
}

// tighten brings some limits in so that they hold the answer.
func tighten(b *boat.Boat) {
	for i := range b.Limits {
		if b.Limits[i].Kind == boat.LimitTipDepth {
			b.Limits[i].Lower = 0.45
		}
		if b.Limits[i].Kind == boat.LimitHeel {
			b.Limits[i].Lower = -4 * float64(si.Degree)
		}
	}
}

func (res *Result) progressInItsAim() float64 { return math.Abs(float64(res.VMG)) }
