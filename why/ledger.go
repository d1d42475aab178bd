package why

import (
	"context"
	"fmt"

	"foilwright/balance"
	"foilwright/boat"
	"foilwright/foil"
	"foilwright/trim"
)

// Ledger is what each cause does in one fixed state: the best trim of the first
// boat, held by all. Nothing is trimmed anew, so that a boat with other foils is
// not in balance there: what her six equations lack is told as well. Parts are
// Shapley's values over the same boats as those of the figure.
type Ledger struct {
	State   string   `json:"state"` // in words
	Rows    []Row    `json:"rows"`
	Missing []string `json:"missing"` // rows that there are not, with the reason
}

// Row is one figure of both boats, split over the causes.
type Row struct {
	Figure     string    `json:"figure"`
	Unit       string    `json:"unit"` // m/s, rad, m, m², N, N·m or 1
	First      float64   `json:"first"`
	Second     float64   `json:"second"`
	Difference float64   `json:"difference"` // second less first
	Parts      []float64 `json:"parts"`      // of the causes, in their order
	Errors     []float64 `json:"part_errors"`
}

// entry is one figure of a boat in the fixed state.
type entry struct {
	figure, unit string
	value        float64
	missing      string // why there is none
}

// ledger fills in the ledger of a fleet in a state.
func (f *fleet) ledger(ctx context.Context, state *trim.Result, carriedAt float64, workers int) (*Ledger, error) {
	all := make([][]entry, len(f.needed))
	err := trim.Steps(ctx, len(f.needed), workers, func(ctx context.Context, i int, w *trim.Workspace) error {
		all[i] = entries(f.boats[f.needed[i]], state, carriedAt, w)
		return ctx.Err()
	}, nil)
	if err != nil {
		return nil, err
	}
	at := make(map[Coalition][]entry, len(all))
	for i, c := range f.needed {
		at[c] = all[i]
	}
	held := "best trim of " + state.Boat
	if state.Aim == trim.LeastWind.String() {
		held += " in her least wind"
	}
	l := &Ledger{State: held + ", held by all", Rows: []Row{}, Missing: []string{}}
	last := All(len(f.causes))
	for k, e := range at[0] {
		why, anything := "", false
		for _, c := range f.needed {
			if m := at[c][k].missing; m != "" && why == "" {
				why = m
			}
			anything = anything || at[c][k].value != 0
		}
		if why != "" {
			l.Missing = append(l.Missing, e.figure+": "+why)
			continue
		}
		if !anything {
			continue
		}
		row := Row{Figure: e.figure, Unit: e.unit, First: e.value, Second: at[last][k].value}
		row.Difference = row.Second - row.First
		row.Parts, row.Errors = f.split(func(c Coalition) float64 { return at[c][k].value })
		l.Rows = append(l.Rows, row)
	}
	return l, nil
}

// entries reads a boat's figures in an answer's state.
func entries(b *boat.Boat, answer *trim.Result, carriedAt float64, w *trim.Workspace) []entry {
	s := stateOf(answer, b)
	windFrom := answer.Conditions.WindFrom()
	outlines := foil.Outlines(b, s)
	levers := balance.LeversOf(b, s, outlines, windFrom)
	wetted := 0.0
	for i := range outlines {
		wetted += outlines[i].WetSurface
	}
	list := []entry{
		{figure: "weight", unit: "N", value: b.Weight()},
		{figure: "lever", unit: "m", value: levers.Lever},
		{figure: "righting moment on paper", unit: "N·m", value: levers.RightingMoment},
		{figure: "wetted area", unit: "m²", value: wetted},
	}
	if levers.Centre == nil {
		list[1].missing, list[2].missing = "no foil is wet", "no foil is wet"
	}
	list = append(list, carried(b, answer, s, carriedAt, w))
	return append(list, loads(b, answer, s)...)
}

// carried is the side force carried, its state but for leeway, flaps and rudders
// the answer's: see trim.CarriedForce.
func carried(b *boat.Boat, answer *trim.Result, s boat.State, height float64, w *trim.Workspace) entry {
	e := entry{figure: "side force carried", unit: "N"}
	held := *answer
	held.Boat, held.State = b.Name, s
	held.Controls = trim.SettingsOf(b, s, answer.Conditions.WindFrom())
	for i := range held.Controls {
		for _, k := range answer.Controls {
			if k.Name == held.Controls[i].Name {
				held.Controls[i].State = k.State
			}
		}
	}
	c, err := trim.CarriedForce(b, &held, height, w)
	if err != nil {
		e.missing = err.Error()
		return e
	}
	e.value = c.Force
	return e
}

// loads are drag by cause and what the three equations of force lack.
func loads(b *boat.Boat, answer *trim.Result, s boat.State) []entry {
	w := balance.Workspace{Foil: foil.Workspace{Options: answer.Foil}}
	set, missing := setOf(b, answer)
	var sheet balance.Sheet
	var sum [3]float64
	if missing == "" {
		l, err := balance.At(b, s, set, answer.Conditions, &w)
		if err != nil {
			missing = err.Error()
		} else {
			sheet = balance.SheetOf(s, l, answer.Conditions)
			// To windward is to port with the wind from port, where positive heel is to leeward.
			f := l.Sum.Force
			sum = [3]float64{f.X, balance.Leeward(answer.Conditions.WindFrom()) * f.Y, f.Z}
		}
	}
	list := []entry{
		{figure: "drag in the water", unit: "N", value: sheet.Drag.Water(), missing: missing},
		{figure: "drag in the air", unit: "N", value: sheet.Drag.Air(), missing: missing},
	}
	for c := range boat.Cause(boat.Causes) {
		if c.Medium() != boat.Static {
			list = append(list, entry{figure: "drag: " + c.String(), unit: "N", value: sheet.Drag[c], missing: missing})
		}
	}
	for i, name := range [3]string{"drive", "side force to windward", "vertical force"} {
		list = append(list, entry{figure: "left over: " + name, unit: "N", value: sum[i], missing: missing})
	}
	return list
}

// setOf returns the index of an answer's set of sails in a boat.
func setOf(b *boat.Boat, answer *trim.Result) (set int, missing string) {
	if answer.SetIndex < 0 {
		return -1, ""
	}
	for i := range b.Sets {
		if b.Sets[i].Name == answer.Set {
			return i, ""
		}
	}
	return -1, fmt.Sprintf("not every boat between the two has a set of sails %q", answer.Set)
}
