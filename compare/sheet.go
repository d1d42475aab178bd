package compare

import (
	"math"
	"sort"

	"foilwright/trim"
)

// sheet lines up the balance sheets by part and cause, pieces added up, in the
// order of size of the largest change in any direction.
func sheet(r *Result) []SheetDifference {
	var rows []SheetDifference
	for i, a := range r.Boats {
		if a.Answer != trim.Found {
			continue
		}
		tack := leeward(a)
		for k := range a.Loads {
			l := &a.Loads[k]
			row := rowOf(&rows, trim.ByWind(l.Part, a.Conditions.WindFrom()), l.Item, len(r.Boats))
			if row.Forces[i] == nil {
				row.Forces[i] = &Resolved{}
			}
			f := row.Forces[i]
			f.Forward += l.Force.X
			f.Leeward -= tack * l.Force.Y
			f.Up += l.Force.Z
		}
	}
	for k := range rows {
		rows[k].fill(r)
	}
	sort.SliceStable(rows, func(i, j int) bool { return rows[i].largest() > rows[j].largest() })
	return rows
}

func rowOf(rows *[]SheetDifference, part, cause string, boats int) *SheetDifference {
	for i := range *rows {
		if row := &(*rows)[i]; row.Part == part && row.Cause == cause {
			return row
		}
	}
	*rows = append(*rows, SheetDifference{Part: part, Cause: cause, Forces: make([]*Resolved, boats), Changes: make([]*Resolved, boats)})
	return &(*rows)[len(*rows)-1]
}

// fill takes the changes from the base. An item that a boat which has an answer
// does not have is none: nothing, not unknown.
func (d *SheetDifference) fill(r *Result) {
	for i, a := range r.Boats {
		if a.Answer == trim.Found && d.Forces[i] == nil {
			d.Forces[i] = &Resolved{}
		}
	}
	base := d.Forces[r.BaseIndex]
	for i, f := range d.Forces {
		if base != nil && f != nil {
			d.Changes[i] = &Resolved{Forward: f.Forward - base.Forward, Leeward: f.Leeward - base.Leeward, Up: f.Up - base.Up}
		}
	}
}

func (d *SheetDifference) largest() float64 {
	most := 0.0
	for _, c := range d.Changes {
		if c != nil {
			most = math.Max(most, math.Max(math.Abs(c.Forward), math.Max(math.Abs(c.Leeward), math.Abs(c.Up))))
		}
	}
	return most
}
