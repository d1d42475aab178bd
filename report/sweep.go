package report

import (
	"fmt"
	"slices"
	"strings"

	"foilwright/boat"
	"foilwright/quantity"
	"foilwright/study"
	"foilwright/trim"
)

// measure is one figure of every state of a sweep.
type measure struct {
	name  string // what it is called in CSV and on plots
	head  string // of its column in a table, with the unit on its second line; empty where no table has it
	group int    // of the tables; see the groups
	as    shown
	read  func(*study.SweepPoint) *float64
}

// The tables of a sweep. What is in no group is in CSV alone.
const (
	inNoTable = iota
	inForces
	inPlaces
)

// measures returns the figures that a sweep has, in order. Causes of drag that
// make none anywhere are left out.
func (p *page) measures(r *study.SweepResult) []measure {
	force := p.as("N")
	of := func(read func(*study.SweepForces) float64) func(*study.SweepPoint) *float64 {
		return func(at *study.SweepPoint) *float64 {
			if at.Forces == nil {
				return nil
			}
			v := read(at.Forces)
			return &v
		}
	}
	across := force
	across.decimals--
	all := []measure{
		{"lift", "up\n" + force.unit, inForces, across, of(func(f *study.SweepForces) float64 { return f.Up })},
		{"side force to windward", "windward\n" + force.unit, inForces, across, of(func(f *study.SweepForces) float64 { return f.Windward })},
		{"drag", "drag\n" + force.unit, inForces, force, of(func(f *study.SweepForces) float64 { return f.Drag })},
	}
	for c := range boat.Cause(boat.Causes) {
		made := false
		for i := range r.Points {
			made = made || r.Points[i].Forces != nil && r.Points[i].Forces.ByCause[c] != 0
		}
		if c.Medium() == boat.Water && made {
			name := c.String()
			if !strings.HasSuffix(name, "drag") {
				name += " drag"
			}
			all = append(all, measure{name, strings.TrimSuffix(name, " drag") + "\n" + force.unit, inForces, force,
				of(func(f *study.SweepForces) float64 { return f.ByCause[c] })})
		}
	}
	all = append(all, measure{"buoyancy", "", inNoTable, force, of(func(f *study.SweepForces) float64 { return f.Buoyancy })})
	return append(all, p.places(r)...)
}

// places are the measures of where a sweep's forces act, and its margins.
func (p *page) places(r *study.SweepResult) []measure {
	t := tack(r.WindFrom)
	m, rad, ratio := as("m"), as("rad"), shown{quantity.Number, "", 2}
	all := []measure{
		{"centre to leeward", "centre to\nleeward m", inPlaces, m, func(at *study.SweepPoint) *float64 {
			if at.Centre == nil {
				return nil
			}
			v := -t * at.Centre.Y
			return &v
		}},
		{"centre depth", "its\ndepth m", inPlaces, m, func(at *study.SweepPoint) *float64 {
			if at.Centre == nil {
				return nil
			}
			v := -at.Centre.Z
			return &v
		}},
		{"line of action to leeward", "line to\nleeward m", inPlaces, m, func(at *study.SweepPoint) *float64 { return at.LineLeeward }},
		{"wetted area", "wetted\nm²", inPlaces, as("m²"), func(at *study.SweepPoint) *float64 { return &at.WettedArea }},
		{"lift coefficient in hand", "lift in\nhand", inPlaces, ratio, func(at *study.SweepPoint) *float64 { return at.LargestLift }},
		{"cavitation margin", "cavitation\nmargin", inPlaces, ratio, func(at *study.SweepPoint) *float64 { return at.Cavitation }},
		{"ventilation margin", "ventilation\nmargin deg", inPlaces, rad, func(at *study.SweepPoint) *float64 {
			if at.Ventilation == nil {
				return nil
			}
			v := at.Ventilation.Radians()
			return &v
		}},
	}
	for _, foil := range hinged(r) {
		group := inNoTable
		if foil == r.Foil {
			group = inPlaces
		}
		all = append(all, measure{"hinge moment of " + trim.ByWind(foil, sideOf(r.WindFrom)), "hinge\nN·m", group,
			shown{quantity.Moment, "N·m", 0}, func(at *study.SweepPoint) *float64 {
				for i := range at.Hinges {
					if at.Hinges[i].Part == foil {
						return &at.Hinges[i].Moment
					}
				}
				return nil
			}})
	}
	return all
}

// hinged are the foils of which some state has a hinge moment.
func hinged(r *study.SweepResult) []string {
	var all []string
	for i := range r.Points {
		for _, h := range r.Points[i].Hinges {
			known := false
			for _, name := range all {
				known = known || name == h.Part
			}
			if !known {
				all = append(all, h.Part)
			}
		}
	}
	return all
}

// variable is the sweep's variable as a measure: which way is + is in its name.
func variable(r *study.SweepResult) measure {
	v := measure{name: r.Variable, as: as(r.Unit), read: func(at *study.SweepPoint) *float64 { return &at.Value }}
	if r.Unit == "1" {
		v.as = shown{quantity.Share, "%", 0}
	}
	switch r.Variable {
	case "heel", "leeway":
		v.name += ", + to leeward"
	case "pitch":
		v.name += ", + bow down"
	}
	head := r.Variable
	if i := strings.LastIndexByte(head, ' '); i >= 0 && len(head) > 11 {
		head = head[i+1:]
	}
	switch {
	case r.Variable == "ride height":
		head = "ride"
	case strings.Contains(v.name, "+"):
		_, way, _ := strings.Cut(v.name, ", ")
		v.head = head + " " + v.as.unit + "\n" + way
		return v
	}
	v.head = head + "\n" + v.as.unit
	return v
}

// numeral of a swept value: as it was written.
func (m *measure) written(v float64) string {
	return quantity.Numeral(v, m.as.dimension, m.as.unit, quantity.Shortest)
}

// sweep tells a sweep in two tables.
func (p *page) sweep(r *study.SweepResult) {
	p.weight = r.Weight
	p.say(p.sweepTitle(r))
	all := p.measures(r)
	p.sweepTable(r, all, inForces, "Forces of the water without buoyancy; the drag, then its causes")
	title := "Where they act, and the least margin of all strips"
	if r.Foil != "" {
		title = fmt.Sprintf("Load-weighted centre of the %s, its line of action %s; wetted area; the least margins of all strips",
			trim.ByWind(r.Foil, sideOf(r.WindFrom)), lineAt(r))
	}
	p.sweepTable(r, all, inPlaces, title)
	p.list("Notes", sweepNotes(r))
}

// lineAt says at what height a sweep's line of action is told.
func lineAt(r *study.SweepResult) string {
	if r.LineHeight < 0 {
		return "at a depth of " + metres(-r.LineHeight)
	}
	return metres(r.LineHeight) + " above the water"
}

// sweepTitle says what was towed over what.
func (p *page) sweepTitle(r *study.SweepResult) string {
	what := r.Boat
	if r.Only != "" {
		what = fmt.Sprintf("%s's %s alone", r.Boat, trim.ByWind(r.Only, sideOf(r.WindFrom)))
	}
	first, last := r.Points[0], r.Points[len(r.Points)-1]
	title := fmt.Sprintf("%s towed over %s from %s to %s; mode %s, windward is %s", what, r.Variable, said(r, first.Value), said(r, last.Value), r.Mode, r.WindFrom)
	t, rad := tack(r.WindFrom), as("rad")
	for _, held := range []struct{ name, value string }{
		{"speed", knots(first.Speed)}, {"heel", sideways(float64(first.Heel), rad, t)}, {"pitch", bow(float64(first.Pitch))},
		{"leeway", sideways(float64(first.Leeway), rad, t)}, {"ride height", metres(first.RideHeight)},
	} {
		if held.name != r.Variable && first.Speed > 0 {
			title += ", " + held.name + " " + held.value
		}
	}
	return title + "."
}

// said is a value of the variable in words: which way it points and its unit.
func said(r *study.SweepResult, value float64) string {
	v := variable(r)
	with := func(value float64) string {
		return quantity.Format(value, v.as.dimension, v.as.unit, quantity.Shortest)
	}
	plus, minus := "", ""
	switch r.Variable {
	case "heel", "leeway":
		plus, minus = " to leeward", " to windward"
	case "pitch":
		plus, minus = " bow down", " bow up"
	}
	switch {
	case value > 0:
		return with(value) + plus
	case value < 0 && minus != "":
		return with(-value) + minus
	}
	return with(value)
}

// sweepTable tells the measures of one group, a line for each state.
func (p *page) sweepTable(r *study.SweepResult, all []measure, group int, title string) {
	v := variable(r)
	columns := []column{figures(v.head)}
	for i := range all {
		if all[i].group == group {
			columns = append(columns, figures(all[i].head))
		}
	}
	var rows []row
	for k := range r.Points {
		at := &r.Points[k]
		cells := row{v.written(at.Value)}
		for i := range all {
			if all[i].group != group {
				continue
			}
			if f := all[i].read(at); f != nil && at.Forces != nil {
				cells = append(cells, all[i].as.numeral(*f))
			} else {
				cells = append(cells, "none")
			}
		}
		rows = append(rows, cells)
	}
	p.table(title, columns, rows)
}

// sweepNotes gathers the notes of all states: each with the values where it holds.
func sweepNotes(r *study.SweepResult) []string {
	v := variable(r)
	var notes []string
	var at [][]int
	for i := range r.Points {
		for _, n := range r.Points[i].Notes {
			k := slices.Index(notes, n)
			if k < 0 {
				k = len(notes)
				notes, at = append(notes, n), append(at, nil)
			}
			at[k] = append(at[k], i)
		}
	}
	for k := range notes {
		where := ""
		for i := 0; i < len(at[k]); {
			first := i
			for i++; i < len(at[k]) && at[k][i] == at[k][i-1]+1; i++ {
			}
			if where != "" {
				where += ", "
			}
			where += v.written(r.Points[at[k][first]].Value)
			if i-first > 1 {
				where += " to " + v.written(r.Points[at[k][i-1]].Value)
			}
		}
		notes[k] = fmt.Sprintf("%s: at %s %s", strings.ReplaceAll(notes[k], "\n", "; "), where, v.as.unit)
	}
	return notes
}
