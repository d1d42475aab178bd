package polar

import (
	"slices"
	"strings"

	"foilwright/boat"
	"foilwright/si"
	"foilwright/trim"
)

// Column is one column of a table of figures or words.
type Column struct {
	Name string
	Unit string // SI of its figures: m/s, rad, m, or 1; empty where the column holds words
}

// Cell is one figure in SI, or words. Figure is nil where there is none.
type Cell struct {
	Figure *float64
	Words  string
}

// tableHead are the columns of the table before those of the controls.
func tableHead() []Column {
	return []Column{
		{"true wind speed", "m/s"}, {"true wind angle", "rad"}, {"row", ""}, {"answer", ""}, {"mode", ""}, {"set of sails", ""},
		{"speed", "m/s"}, {"progress to windward", "m/s"}, {"apparent wind speed", "m/s"}, {"apparent wind angle", "rad"},
		{"leeway + to leeward", "rad"}, {"heel + to leeward", "rad"}, {"pitch + bow down", "rad"}, {"ride height", "m"},
		{"limits that hold", ""}, {"note", ""},
	}
}

// Table returns the polar as one flat table: columns with their units, and rows
// wind by wind: the points asked, best angles and the ends of their bands,
// crossovers. Column row tells which. Controls have a column each, called by the
// wind.
func (r *Result) Table() (columns []Column, rows [][]Cell) {
	controls := r.tableControls()
	columns = tableHead()
	for _, s := range controls {
		columns = append(columns, Column{s.Called, s.Unit})
	}
	t := table{side: -1, controls: controls, width: len(columns), note: len(columns) - len(controls) - 1}
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
	return columns, t.rows
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
	width    int // columns
	note     int // the column of notes, the last before the controls
	rows     [][]Cell
}

func figure(v float64) Cell { return Cell{Figure: &v} }

func words(s string) Cell { return Cell{Words: s} }

// add fills up a row with empty cells, its note apart.
func (t *table) add(cells []Cell, note string) {
	row := make([]Cell, t.width)
	copy(row, cells)
	row[t.note] = words(note)
	t.rows = append(t.rows, row)
}

func (t *table) point(wind si.Speed, row string, p *Point, note string) {
	cells := []Cell{figure(float64(wind)), figure(float64(p.Angle)), words(row), words(string(p.Answer))}
	if p.Answer != trim.Found {
		if p.Reason != nil {
			note = p.Reason.Words
		}
		t.add(cells, note)
		return
	}
	active := make([]string, len(p.Active))
	for i, a := range p.Active {
		active[i] = a.Name + " (" + string(a.End) + ")"
	}
	cells = append(cells, words(p.Mode), words(p.Set), figure(float64(p.Speed)), figure(float64(p.VMG)),
		figure(float64(p.ApparentWindSpeed)), figure(float64(p.ApparentWindAngle)),
		figure(t.side*float64(p.Leeway)), figure(t.side*float64(p.Heel)), figure(float64(p.Pitch)), figure(p.RideHeight),
		words(strings.Join(active, "; ")), words(note))
	for _, c := range t.controls {
		cells = append(cells, settingOf(p, c.Called))
	}
	t.add(cells, note)
}

func settingOf(p *Point, called string) Cell {
	k := slices.IndexFunc(p.Controls, func(s trim.Setting) bool { return s.Called == called && s.State != notInUse })
	if k < 0 {
		return Cell{}
	}
	return figure(p.Controls[k].Value)
}

func (t *table) best(wind si.Speed, row string, b *Best) {
	t.point(wind, row, &b.Point, "")
	if b.Answer != trim.Found {
		t.rows[len(t.rows)-1][1] = Cell{} // the angle is where the attempt gave up
	}
	for _, end := range []*BandEnd{b.From, b.To} {
		if end != nil {
			p := end.point()
			t.point(wind, row+", end of band", &p, string(end.Why))
		}
	}
}

// point is an end of a band as a point: in full, where its trim is at hand.
func (e *BandEnd) point() Point {
	if e.Trim == nil {
		return Point{Angle: e.Angle, Answer: trim.Found, Way: e.Way, Speed: e.Speed, VMG: e.VMG}
	}
	return pointOf(e.Trim)
}

func (t *table) crossover(wind si.Speed, x *Crossover) {
	t.add([]Cell{
		figure(float64(wind)), figure(float64(x.Angle)), words("crossover"), words(string(trim.Found)),
		words(x.Above.Mode), words(x.Above.Set), figure(float64(x.Above.Speed)),
	}, "below it "+x.Below.Mode+", "+x.Below.Set)
}
