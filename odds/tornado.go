package odds

import (
	"context"
	"slices"

	"foilwright/batch"
)

// ends are the shares that a tornado moves an input to: its 80 % band.
var ends = [2]float64{0.10, 0.90}

// tornado moves every input alone to either end of its band.
func (p *Plan) tornado(ctx context.Context, run batch.Runner, likely []Outcome) ([]Bar, error) {
	values := func(row int) []float64 {
		if row >= 2*len(p.Unknowns) {
			return nil
		}
		v := likelyValues(p.Unknowns)
		v[row/2] = p.Unknowns[row/2].Quantity.At(ends[row%2])
		return v
	}
	var rows [][]Outcome
	width := len(p.Boats)
	err := p.rowsOf(ctx, run, 0, 2*len(p.Unknowns), width, values, func(row []Outcome) { rows = append(rows, row) })
	if err != nil {
		return nil, err
	}
	bars := []Bar{}
	add := func(of string, figure func([]Outcome) (float64, bool)) {
		base, ok := figure(likely)
		if !ok {
			return
		}
		from := len(bars)
		for i := range p.Unknowns {
			bar := Bar{Input: p.Unknowns[i].Name, Of: of}
			for k, to := range []**float64{&bar.Low, &bar.High} {
				if v, ok := figure(rows[2*i+k]); ok {
					change := v - base
					*to = &change
				}
			}
			bars = append(bars, bar)
		}
		slices.SortStableFunc(bars[from:], func(a, b Bar) int {
			switch swingA, swingB := a.swing(), b.swing(); {
			case swingA > swingB:
				return -1
			case swingA < swingB:
				return 1
			}
			return 0
		})
	}
	for a := range p.Boats {
		for b := a + 1; b < len(p.Boats); b++ {
			add(differenceName(p.Boats[a], p.Boats[b]), func(row []Outcome) (float64, bool) {
				return row[a].Progress - row[b].Progress, row[a].State == Sails && row[b].State == Sails
			})
		}
	}
	for a, name := range p.Boats {
		add(name, func(row []Outcome) (float64, bool) { return row[a].Progress, row[a].State == Sails })
	}
	return bars, nil
}

// swing is the largest change of a bar; one that stops a boat from sailing comes
// before all others.
func (b *Bar) swing() float64 {
	const stopped = 1e9
	most := 0.0
	for _, v := range []*float64{b.Low, b.High} {
		if v == nil {
			return stopped
		}
		most = max(most, *v, -*v)
	}
	return most
}
