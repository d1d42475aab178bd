package report

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"strings"

	"foilwright/polar"
	"foilwright/quantity"
	"foilwright/study"
)

// CSV returns a sweep or a polar as comma-separated values: a line of names with units, then
// a line for each state (a polar: each point, see its Table). Forces are in N, moments in N·m, lengths in m, angles in
// deg, speeds in kn; a figure that a state does not have is empty. The error
// tells that the result is neither.
func CSV(r *study.Result) ([]byte, error) {
	if p, ok := r.Results.(*polar.Result); ok {
		return polarCSV(p)
	}
	sweep, ok := r.Results.(*study.SweepResult)
	if !ok {
		return nil, errors.New("csv: only a sweep and a polar are written as CSV\nhint: add a sweep, such as \"cant 0 to 25 deg by 1\"")
	}
	var p page
	// The state is written as it was asked, what the water does with so many digits.
	all := append([]measure{variable(sweep)}, attitude(sweep)...)
	asked := len(all)
	for _, m := range p.measures(sweep) {
		switch m.as.dimension {
		case quantity.Force:
			m.as.unit = "N"
		case quantity.Moment:
			m.as.unit = "N·m"
		}
		all = append(all, m)
	}
	var head []string
	for i := range all {
		name := strings.ReplaceAll(all[i].name, ",", "")
		if all[i].as.unit != "" {
			name += " (" + all[i].as.unit + ")"
		}
		head = append(head, name)
	}
	head = append(head, "least lift in hand on", "least cavitation margin on", "least ventilation margin on", "notes")
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	lines := [][]string{head}
	for k := range sweep.Points {
		at := &sweep.Points[k]
		var line []string
		for i := range all {
			v, cell := all[i].read(at), ""
			switch {
			case v == nil:
			case i < asked:
				cell = all[i].written(*v)
			default:
				cell = quantity.Numeral(*v, all[i].as.dimension, all[i].as.unit, quantity.Significant(figuresInCSV))
			}
			line = append(line, cell)
		}
		notes := strings.ReplaceAll(strings.Join(at.Notes, "; "), "\n", "; ")
		lines = append(lines, append(line, at.LargestLiftAt, at.CavitationAt, at.VentilationAt, notes))
	}
	if err := w.WriteAll(lines); err != nil {
		return nil, fmt.Errorf("internal error: the sweep cannot be written: %w", err)
	}
	return out.Bytes(), nil
}

// figuresInCSV is how many digits a figure has in CSV.
const figuresInCSV = 6

// attitude is the state of a sweep besides its variable.
func attitude(r *study.SweepResult) []measure {
	t := tack(r.WindFrom)
	told := func(read func(*study.SweepPoint) float64) func(*study.SweepPoint) *float64 {
		return func(at *study.SweepPoint) *float64 {
			if at.Speed == 0 {
				return nil
			}
			v := read(at)
			return &v
		}
	}
	var all []measure
	for _, m := range []struct {
		name, words, unit string
		read              func(*study.SweepPoint) float64
	}{
		{"speed", "speed", "m/s", func(at *study.SweepPoint) float64 { return at.Speed.MetresPerSecond() }},
		{"heel", "heel, + to leeward", "rad", func(at *study.SweepPoint) float64 { return t * at.Heel.Radians() }},
		{"pitch", "pitch, + bow down", "rad", func(at *study.SweepPoint) float64 { return at.Pitch.Radians() }},
		{"leeway", "leeway, + to leeward", "rad", func(at *study.SweepPoint) float64 { return t * at.Leeway.Radians() }},
		{"ride height", "ride height", "m", func(at *study.SweepPoint) float64 { return at.RideHeight }},
	} {
		if m.name != r.Variable {
			all = append(all, measure{name: m.words, as: as(m.unit), read: told(m.read)})
		}
	}
	return all
}
