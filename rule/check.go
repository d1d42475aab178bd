package rule

import (
	"fmt"
	"math"
	"strings"

	"foilwright/boat"
	"foilwright/boatfile"
	"foilwright/quantity"
)

// Result is one boat held against a rule.
type Result struct {
	Rule     string `json:"rule"`
	File     string `json:"file"`    // of the rule
	Figures  string `json:"figures"` // of the rule: invented, or as stated by the file
	Boat     string `json:"boat"`
	BoatFile string `json:"boat_file"`
	Limits   []Row  `json:"limits"`
	Broken   int    `json:"broken"` // how many of them
}

// Verdict tells whether a limit is kept.
type Verdict string

// The verdicts.
const (
	Kept   Verdict = "kept"
	Broken Verdict = "broken"
)

// Row is one limit with a boat's figure.
type Row struct {
	Limit   string   `json:"limit"`
	Measure string   `json:"measure"`        // mass, span, box, …
	Axis    string   `json:"axis,omitempty"` // of a box: x, y (outboard) or z
	Part    string   `json:"part"`           // of the boat; of a pair the side with less margin
	At      string   `json:"at,omitempty"`   // the settings at which it holds
	Value   float64  `json:"value"`          // of a box: the end with less margin
	Lower   *float64 `json:"lower"`          // nil where that side is open
	Upper   *float64 `json:"upper"`
	Unit    string   `json:"unit"`   // kg, m, m² or 1
	Margin  float64  `json:"margin"` // to the nearer bound, negative where it is broken
	Verdict Verdict  `json:"verdict"`
	Where   string   `json:"where"`      // of the limit, file:line:column
	BoatAt  string   `json:"boat_where"` // of the part in the boat file
}

// slack is by how much a figure may be past a bound that it was written to meet,
// SI: what is lost where numbers are read and turned.
const slack = 1e-9

// Check holds a boat, made from a sheet, against the rule. A limit of parts by stars
// of which the boat has none is left out. The error is boatfile.Faults: the rule
// names a part or a move that the boat does not have.
func (r *Rule) Check(s *boatfile.Sheet, b *boat.Boat) (*Result, error) {
	res := &Result{Rule: r.name, File: r.file, Figures: "as stated by the file", Boat: b.Name, BoatFile: s.File(), Limits: []Row{}}
	if r.invented {
		res.Figures = "invented"
	}
	var faults boatfile.Faults
	for i := range r.limits {
		l := &r.limits[i]
		if bad := l.missing(b); bad != nil {
			faults = append(faults, *bad)
			continue
		}
		var rows []Row
		for _, f := range l.of(b) {
			row := l.row(f)
			row.BoatAt = s.Where(f.path).String()
			// The two sides of a pair stand in one place of the file: the worse one is told.
			if n := len(rows); n > 0 && rows[n-1].BoatAt == row.BoatAt && f.path != "" {
				if row.Margin < rows[n-1].Margin-slack {
					rows[n-1] = row
				}
				continue
			}
			rows = append(rows, row)
		}
		for _, row := range rows {
			if row.Verdict == Broken {
				res.Broken++
			}
		}
		res.Limits = append(res.Limits, rows...)
	}
	return res, faults.Err()
}

// row holds a figure against a limit.
func (l *limit) row(f figure) Row {
	row := Row{Limit: l.called, Measure: l.measure.name, Axis: l.axes, Part: f.part, At: l.atWords, Unit: unitOf(l), Where: l.place.String(), Verdict: Kept}
	below, above := f.low-l.bounds.Low, l.bounds.High-f.high
	row.Value, row.Margin = f.high, above
	if below < above {
		row.Value, row.Margin = f.low, below
	}
	if !math.IsInf(l.bounds.Low, -1) {
		row.Lower = &l.bounds.Low
	}
	if !math.IsInf(l.bounds.High, 1) {
		row.Upper = &l.bounds.High
	}
	if row.Margin < -slack {
		row.Verdict = Broken
	}
	return row
}

func unitOf(l *limit) string {
	switch l.measure.name {
	case "mass":
		return "kg"
	case "area", "wing area":
		return "m²"
	case "movable parts":
		return "1"
	}
	return "m"
}

// missing returns a fault where a boat lacks what a limit names.
func (l *limit) missing(b *boat.Boat) *boatfile.Fault {
	if !strings.Contains(l.name, "*") && len(l.of(b)) == 0 {
		return l.ofPlace.Fault(fmt.Sprintf("%s has no %s.%s", b.Name, l.head, l.name), boatfile.Nearest(l.head+"."+l.name, partNames(b, l.head)))
	}
	for _, s := range l.at {
		var moves []string
		known, kind := false, boat.Turn
		for i := range b.Foils {
			f := &b.Foils[i]
			if !boatfile.Starred(l.name, f.Kind) && !boatfile.Starred(l.name, f.Name) {
				continue
			}
			for _, m := range f.Moves {
				moves = append(moves, m.Name)
				if m.Name == s.move {
					known, kind = true, m.Kind
				}
			}
		}
		switch share := s.rng.Dimension == quantity.Share; {
		case !known && len(moves) > 0:
			return s.from.Fault(fmt.Sprintf("%s of %s has no move %s", l.head+"."+l.name, b.Name, s.move), boatfile.Nearest(s.move, moves))
		case known && share != (kind == boat.Slide):
			return s.from.Fault(fmt.Sprintf("%s of %s is not set so", s.move, b.Name), "a turn is set in deg, a slide in %")
		}
	}
	return nil
}

// partNames are the names of a boat's parts of one kind, as a rule names them.
func partNames(b *boat.Boat, head string) []string {
	var names []string
	add := func(name string) {
		for _, n := range names {
			if n == head+"."+name {
				return
			}
		}
		names = append(names, head+"."+name)
	}
	switch head {
	case "foils":
		for i := range b.Foils {
			add(b.Foils[i].Kind)
		}
	case "sails":
		for i := range b.Sails {
			add(b.Sails[i].Name)
		}
	case "sets":
		for i := range b.Sets {
			add(b.Sets[i].Name)
		}
	case "weights":
		for i := range b.Weights {
			add(b.Weights[i].Name)
		}
	case "bodies":
		for i := range b.Bodies {
			add(b.Bodies[i].Name)
		}
	}
	return names
}
