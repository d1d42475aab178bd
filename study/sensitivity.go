package study

import (
	"context"
	"math"
	"strings"

	"foilwright/balance"
	"foilwright/boatfile"
	"foilwright/foil"
	"foilwright/quantity"
	"foilwright/si"
	"foilwright/trim"
)

// Sensitivity asks how far the loads of a towed boat rest on the model's own
// factors: the state is held, and one factor after the other is put to the low
// and the high end of its spread.
type Sensitivity struct{ Tow }

// Verb names the question.
func (*Sensitivity) Verb() string { return "sensitivity" }

// SensitivityResult is what each of the model's factors does to the loads of one
// state.
type SensitivityResult struct {
	Standing
	Speed       si.Speed       `json:"speed_mps"`
	Only        string         `json:"only,omitempty"`
	Weight      float64        `json:"weight_N"`
	Up          float64        `json:"up_N"` // as the next three: with every factor at its likely value, buoyancy left out
	Windward    float64        `json:"windward_N"`
	Drag        float64        `json:"drag_in_water_N"`
	Ventilation *si.Angle      `json:"ventilation_margin_rad"` // the least; nil where nothing pierces the surface
	Factors     []FactorEffect `json:"factors"`
}

// FactorEffect is what one factor does.
type FactorEffect struct {
	Name   string    `json:"name"`
	Spread string    `json:"spread"` // the factor as it stands, with its unit
	Basis  string    `json:"basis"`
	Low    FactorEnd `json:"low"`
	High   FactorEnd `json:"high"`
}

// FactorEnd is one end of a factor's spread, and what it changes.
type FactorEnd struct {
	Value       float64   `json:"value"` // a factor or share
	Up          float64   `json:"up_change_N"`
	Windward    float64   `json:"windward_change_N"`
	Drag        float64   `json:"drag_change_N"`
	Ventilation *si.Angle `json:"ventilation_margin_change_rad"` // of the least margin
}

// ends returns the ends of a spread: one standard deviation either way of a
// normal, or where its tails are cut if that is nearer; the range of any other.
func ends(q quantity.Quantity) (low, high float64) {
	low, high = q.Support()
	if q.Spread == quantity.Normal {
		return math.Max(low, q.Likely-q.Deviation), math.Min(high, q.Likely+q.Deviation)
	}
	return low, high
}

// ofModel tells whether an unknown is one of the model's own factors, and which:
// the default's or the boat file's own.
func ofModel(u *boatfile.Unknown) (name string, ok bool) {
	if u.File == "model" {
		return u.Name, true
	}
	return strings.CutPrefix(u.Name, "model.")
}

func (q *Sensitivity) ask(ctx context.Context, d *desk) (any, Verdict, error) {
	t, err := q.tank(d)
	if err != nil {
		return nil, "", err
	}
	base, err := t.tow(&q.Tow, t.workspace())
	if err != nil {
		return nil, "", err
	}
	if len(base.Loads) == 0 {
		return nil, "", t.dry()
	}
	r := &SensitivityResult{Standing: base.Standing, Speed: base.Speed, Only: base.Only, Weight: base.Weight, Factors: []FactorEffect{}}
	r.Up, r.Windward, r.Drag, r.Ventilation = sums(base)
	sheet := d.sheets[0]
	var ids []boatfile.Identity
	for _, u := range sheet.Unknowns() {
		if name, ok := ofModel(&u); ok {
			e := FactorEffect{Name: name, Spread: u.Quantity.String(), Basis: u.Basis}
			e.Low.Value, e.High.Value = ends(u.Quantity)
			ids, r.Factors = append(ids, u.Identity), append(r.Factors, e)
		}
	}
	err = t.each(ctx, 2*len(ids), d, func(i int, w *foil.Workspace) error {
		end := &r.Factors[i/2].Low
		if i%2 == 1 {
			end = &r.Factors[i/2].High
		}
		b, err := sheet.Boat(boatfile.Draw{ids[i/2]: end.Value})
		if err != nil {
			return err
		}
		moved, question := *t, q.Tow
		moved.boat = b
		at, err := moved.tow(&question, w)
		if err != nil {
			return err
		}
		end.change(r, at)
		return nil
	})
	return r, Answered, err
}

// sums are the figures that a factor may change.
func sums(r *TowResult) (up, windward, drag float64, ventilation *si.Angle) {
	if m := trim.LeastVentilation(r.Margins); m != nil {
		ventilation = &m.Ventilation.Margin
	}
	f := r.Total.Water.Force
	return f.Z, balance.Leeward(r.side) * f.Y, r.Drag.Water(), ventilation
}

// change notes by how much a state differs from the likely one.
func (e *FactorEnd) change(likely *SensitivityResult, at *TowResult) {
	up, windward, drag, ventilation := sums(at)
	e.Up, e.Windward, e.Drag = up-likely.Up, windward-likely.Windward, drag-likely.Drag
	if ventilation != nil && likely.Ventilation != nil {
		change := *ventilation - *likely.Ventilation
		e.Ventilation = &change
	}
}
