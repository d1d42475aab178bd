package polar

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"foilwright/boat"
	"foilwright/si"
	"foilwright/trim"
)

// tableHead are the columns of the table before those of the controls. The unit
// ends each name, as in JSON; angles are positive to leeward here.
var tableHead = []string{
	"true_wind_speed_mps", "true_wind_angle_rad", "row", "answer", "mode", "set",
	"speed_mps", "vmg_mps", "apparent_wind_speed_mps", "apparent_wind_angle_rad",
	"leeway_rad", "heel_to_leeward_rad", "pitch_bow_down_rad", "ride_height_m",
	"active_limits", "note",
}

// Table returns the polar as one flat table: a header that names every unit, and
// rows of text in full precision, wind by wind: the points asked, best angles
// and the ends of their bands, crossovers. Column row tells which. Controls have
// a column each, called by the wind. Cells are empty where there is no figure.
// Leeway is positive with the bow to windward, heel positive to leeward.
func (r *Result) Table() (header []string, rows [][]string) {
	controls := r.tableControls()
	header = slices.Clone(tableHead)
	for _, s := range controls {
		name := strings.ReplaceAll(s.Called, " ", "_")
		if s.Unit != "1" {
			name += "_" + s.Unit
		}
		header = append(header, name)
	}
	t := table{side: -1, controls: controls}
	if r.WindFrom == boat.Port.String() {
		t.side = 1
	}
	for i := range r.Winds {
		w := &r.Winds[i]
		for k := range w.Points {
			t.point(w.Speed, "asked", &w.Points[k], "")
		}
		t.best(w.Speed, "best to windward", &w.Windward)
		t.best(w.Speed, "best to leeward", &w.Leeward)
		for k := range w.Crossovers {
			t.crossover(w.Speed, &w.Crossovers[k])
		}
	}
	return header, t.rows
}

// tableControls returns every control once that any point uses.
func (r *Result) tableControls() []trim.Setting {
	var all []trim.Setting
	note := func(p *Point) {
		for _, s := range p.Controls {
			known := slices.ContainsFunc(all, func(k trim.Setting) bool { return k.Called == s.Called })
			if !known && p.Answer == trim.Found && s.State != notInUse {
				all = append(all, s)
			}
		}
	}
	for i := range r.Winds {
		for k := range r.Winds[i].Points {
			note(&r.Winds[i].Points[k])
		}
		note(&r.Winds[i].Windward.Point)
		note(&r.Winds[i].Leeward.Point)
	}
	return all
}

// notInUse is the state of a control that the way of sailing leaves alone.
const notInUse = "not in use"

type table struct {
	side     float64 // +1 with the wind from port
	controls []trim.Setting
	rows     [][]string
}

func (t *table) point(wind si.Speed, row string, p *Point, note string) {
	cells := []string{number(float64(wind)), number(float64(p.Angle)), row, string(p.Answer)}
	if p.Answer != trim.Found {
		cells = append(cells, make([]string, len(tableHead)-len(cells))...)
		if p.Reason != nil {
			cells[len(tableHead)-1] = p.Reason.Words
		}
		t.rows = append(t.rows, append(cells, make([]string, len(t.controls))...))
		return
	}
	active := make([]string, len(p.Active))
	for i, a := range p.Active {
		active[i] = a.Name + " (" + string(a.End) + ")"
	}
	cells = append(cells, p.Mode, p.Set, number(float64(p.Speed)), number(float64(p.VMG)),
		number(float64(p.ApparentWindSpeed)), number(float64(p.ApparentWindAngle)),
		number(t.side*float64(p.Leeway)), number(t.side*float64(p.Heel)), number(float64(p.Pitch)), number(p.RideHeight),
		strings.Join(active, "; "), note)
	for _, c := range t.controls {
		cells = append(cells, settingOf(p, c.Called))
	}
	t.rows = append(t.rows, cells)
}

func settingOf(p *Point, called string) string {
	for i := range p.Controls {
		if s := &p.Controls[i]; s.Called == called && s.State != notInUse {
			return number(s.Value)
		}
	}
	return ""
}

func (t *table) best(wind si.Speed, row string, b *Best) {
	t.point(wind, row, &b.Point, "")
	for _, end := range []*BandEnd{b.From, b.To} {
		if end != nil {
			p := pointOf(end.Trim)
			t.point(wind, row+", end of band", &p, string(end.Why))
		}
	}
}

func (t *table) crossover(wind si.Speed, x *Crossover) {
	cells := make([]string, len(tableHead)+len(t.controls))
	copy(cells, []string{number(float64(wind)), number(float64(x.Angle)), "crossover", string(trim.Found), x.Above.Mode, x.Above.Set, number(float64(x.Above.Speed))})
	cells[len(tableHead)-1] = "below it " + x.Below.Mode + ", " + x.Below.Set
	t.rows = append(t.rows, cells)
}

// number writes a figure so that it reads back to the same bits.
func number(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return ""
	}
	return strconv.FormatFloat(v, 'g', -1, 64)
}
