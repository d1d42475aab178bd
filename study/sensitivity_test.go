package study

import (
	"math"
	"testing"

	"foilwright/quantity"
	"foilwright/si"
)

// Each factor does what its definition says: friction times the friction drag,
// spray times the spray; a rudder in a wake feels the wake's core; and a boat
// whose factor stands at an end by its file has the loads that are told for it.
func TestSensitivity(t *testing.T) {
	tow := Tow{Speed: 9, Conditions: Standard(), Stance: Stance{Heel: -8 * si.Degree, Leeway: 2 * si.Degree}}
	r := ask(t, &Sensitivity{tow}, sloe).Results.(*SensitivityResult)
	base := ask(t, &tow, sloe).Results.(*TowResult)
	if r.Drag != base.Drag.Water() || r.Up != base.Total.Water.Force.Z {
		t.Errorf("likely loads %v and %v N, towed %v and %v", r.Up, r.Drag, base.Total.Water.Force.Z, base.Drag.Water())
	}
	find := func(name string) *FactorEffect {
		for i := range r.Factors {
			if r.Factors[i].Name == name {
				return &r.Factors[i]
			}
		}
		t.Fatalf("no factor %q", name)
		return nil
	}
	near := func(what string, got, want, within float64) {
		if math.Abs(got-want) > within {
			t.Errorf("%s: %v, want %v", what, got, want)
		}
	}
	spray := find("spray")
	for _, e := range []FactorEnd{spray.Low, spray.High} {
		for i := range base.Loads {
			if base.Loads[i].Item == "spray" {
				e.Drag += (e.Value - 1) * base.Loads[i].Force.X
			}
		}
		near("spray's drag besides spray", e.Drag, 0, 1e-9*r.Drag)
	}
	friction := find("friction")
	near("friction's ends", friction.High.Value, 1.04, 1e-12)
	near("friction is linear", friction.High.Drag, -friction.Low.Drag, 1e-6*r.Drag)
	core := find("wake core")
	if core.Low.Value != 0.1 || core.High.Value != 0.6 || core.High.Up*core.Low.Up >= 0 || core.High.Drag == 0 {
		t.Errorf("wake core: %+v to %+v", core.Low, core.High)
	}
	if v := find("ventilation"); !(v.Low.Ventilation.Radians() < 0 && v.High.Ventilation.Radians() > 0) || v.High.Drag != 0 {
		t.Errorf("ventilation: %+v to %+v", v.Low, v.High)
	}
	if g := find("gap"); g.High.Up != 0 || g.High.Drag != 0 {
		t.Errorf("the gap under a sail moves the water's loads: %+v", g.High)
	}
	refused(t, "nothing of it is in the water", &Sensitivity{Tow{Speed: 9, Conditions: Standard(), Stance: Stance{Ride: &[]float64{9}[0]}}}, sloe)
}

func TestEnds(t *testing.T) {
	for text, want := range map[string][2]float64{
		"1 ± 0.25": {0.75, 1.25}, "0.1 / 0.25 / 0.6": {0.1, 0.6}, "0.9 to 1.2": {0.9, 1.2}, "1": {1, 1},
	} {
		q, err := quantity.Parse(text, quantity.Number)
		if err != nil {
			t.Fatal(err)
		}
		low, high := ends(q)
		if math.Abs(low-want[0]) > 1e-9 || math.Abs(high-want[1]) > 1e-9 {
			t.Errorf("%s: %v to %v", text, low, high)
		}
	}
}
