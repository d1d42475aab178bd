package trim

import (
	"math"
	"slices"

	"foilwright/boat"
	"foilwright/foil"
	"foilwright/frame"
)

// Limits that hold where a boat's own are silent.
const (
	// The hull stays dry: what it does in the water is not part of this search.
	leastRideHeight = 0.0
	// A sail is not sheeted past the largest lift of its table.
	leastLiftInHand = 0.0
	// No strip of a sail pulls to windward, unless the boat's limits allow it.
	leastLoading = 0.0
)

// constraints returns the rows of one way of sailing.
func constraints(p *problem) []row {
	var rows []row
	rideLimited := false
	inUse := p.way.down
	for _, l := range p.way.limits {
		if p.request.relaxed(l.Name()) {
			rideLimited = rideLimited || l.Kind == boat.LimitRideHeight
			continue
		}
		switch l.Kind {
		case boat.LimitRideHeight:
			rows = p.rideRows(rows, l.Lower, l.Upper)
			rideLimited = true
		case boat.LimitTipDepth:
			rows = p.tipRows(rows, l)
		case boat.LimitSheetLoad:
			rows = p.sheetRows(rows, l)
		case boat.LimitCavitation:
			rows = p.marginRows(rows, l, row{figure: cavitation, unit: "1", size: 1})
		case boat.LimitVentilation:
			rows = p.marginRows(rows, l, row{figure: ventilation, unit: "rad", size: 0.1})
		case boat.LimitHingeMoment:
			for i := range p.boat.Foils {
				if f := &p.boat.Foils[i]; p.about(l, f) && inUse[i] && f.HasFlap() {
					// Either way: a flap is held against both.
					rows = between(rows, row{limit: l.Name(), unit: "N·m", figure: hingeMoment, foil: i, size: p.boat.Weight() / 100}, math.Max(l.Lower, -l.Upper), l.Upper)
				}
			}
		case boat.LimitRootBending:
			for i := range p.boat.Foils {
				if f := &p.boat.Foils[i]; p.about(l, f) && inUse[i] {
					rows = between(rows, row{limit: l.Name(), unit: "N·m", figure: rootBending, foil: i, size: p.boat.Weight()}, l.Lower, l.Upper)
				}
			}
		}
	}
	if !rideLimited {
		rows = p.rideRows(rows, leastRideHeight, math.Inf(1))
	}
	for _, h := range p.request.Holds {
		if h.Name == rideHeightName {
			rows = append(rows, row{limit: "held ride height", unit: "m", figure: rideHeight, lower: h.Value, upper: h.Value, size: 1})
		}
	}
	if p.way.set >= 0 {
		for i := range p.boat.Sets[p.way.set].Sails {
			name := p.boat.Sails[p.boat.Sets[p.way.set].Sails[i]].Name
			if !p.request.relaxed(name + " largest lift") {
				rows = p.largestLiftRows(rows, i, name+" largest lift")
			}
			rows = p.leewardRows(rows, i, name)
		}
	}
	return ordered(p.afloatRows(p.seaRows(rows)))
}

// ordered puts equalities first, as solve.Problem counts them.
func ordered(rows []row) []row {
	var equal, other []row
	for _, r := range rows {
		if r.equality() {
			equal = append(equal, r)
		} else {
			other = append(other, r)
		}
	}
	return append(equal, other...)
}

// between appends a row for each bound that is not open; one row where both are
// the same.
func between(rows []row, r row, lower, upper float64) []row {
	if lower == upper {
		r.lower, r.upper = lower, upper
		return append(rows, r)
	}
	if !math.IsInf(lower, -1) {
		r.lower, r.upper = lower, math.Inf(1)
		rows = append(rows, r)
	}
	if !math.IsInf(upper, 1) {
		r.lower, r.upper = math.Inf(-1), upper
		rows = append(rows, r)
	}
	return rows
}

// nearKeel is how far above the hulls' lowest point a point may lie, upright,
// and still be the lowest in some attitude that is searched, over the length.
const nearKeel = 0.2

// rideRows keeps every point of the hulls that may be the lowest above the lower
// bound (the lowest itself has kinks where it changes), and the lowest below the
// upper.
func (p *problem) rideRows(rows []row, lower, upper float64) []row {
	if lower == upper {
		return append(rows, row{limit: rideHeightName, unit: "m", figure: rideHeight, lower: lower, upper: upper, size: 1})
	}
	base := row{limit: rideHeightName, unit: "m", size: 1}
	if !math.IsInf(upper, 1) {
		base.figure = rideHeight
		rows = between(rows, base, math.Inf(-1), upper)
	}
	if math.IsInf(lower, -1) {
		return rows
	}
	base.figure = hullPoint
	base.lower, base.upper = lower, math.Inf(1)
	return p.hullRows(rows, base)
}

// hullRows adds a row like base for every point of the hulls that may be the
// lowest.
func (p *problem) hullRows(rows []row, base row) []row {
	lowest := p.boat.LowestHull(boat.Attitude{})
	none := true
	for i := range p.boat.Hulls {
		h := &p.boat.Hulls[i]
		for _, s := range h.Sections {
			for _, q := range s.Points {
				if q[1]+h.Offset.Z > lowest+nearKeel*p.boat.Length {
					continue
				}
				for _, y := range [2]float64{q[0], -q[0]} {
					base.point = [3]float64{s.X + h.Offset.X, y + h.Offset.Y, q[1] + h.Offset.Z}
					rows = append(rows, base)
					none = false
					if q[0] == 0 {
						break
					}
				}
			}
		}
	}
	if none {
		rows = append(rows, base) // the datum stands for a boat without hull sections
	}
	return rows
}

// heightOf returns the height above the datum's of a point of the boat, m, at the
// point looked at.
func (p *problem) heightOf(point [3]float64) float64 {
	return p.turn.Z(frame.VecOf[frame.Boat](point))
}

// showing is by how much the shallowest tip is out where tips are searched over
// the surface, m: so that no difference that a slope is taken from reaches over
// the kink.
const showing = 1e-3

// tipRows keeps free tips of the foils in use between bounds, each for itself.
func (p *problem) tipRows(rows []row, l boat.Limit) []row {
	base := row{limit: l.Name(), unit: "m", size: 1}
	lower := l.Lower
	if p.way.tips == tipsUnder {
		lower, base.slack = 0, -l.Lower
	}
	base.figure = tipDepth
	before := len(rows)
	rows = p.tipsOf(rows, l, base, lower, l.Upper)
	if p.way.tips == tipsMayShow && len(rows) > before {
		base.figure, base.slack = leastTip, 0
		rows = between(rows, base, math.Inf(-1), -showing)
	}
	return rows
}

// tipsOf adds rows like base for each free tip that a limit is about.
func (p *problem) tipsOf(rows []row, l boat.Limit, base row, lower, upper float64) []row {
	for i := range p.boat.Foils {
		f := &p.boat.Foils[i]
		if !p.way.down[i] || !p.about(l, f) {
			continue
		}
		for _, piece := range foil.FreeTips(f) {
			base.foil, base.piece = i, piece
			rows = between(rows, base, lower, upper)
		}
	}
	return rows
}

// about tells whether a limit is about a foil: by the foil's name, by its kind, or for
// all of them; one that names it more closely stands in for the others.
func (p *problem) about(l boat.Limit, f *boat.Foil) bool {
	near := l.Names(f)
	return near > 0 && !slices.ContainsFunc(p.way.limits, func(o boat.Limit) bool { return o.Kind == l.Kind && o.Names(f) > near })
}

// marginRows keeps every strip, or every piercing, of the foils in use above the
// least margin: a row each, since the least of all has kinks where it changes
// place. Strips whose sections' pressure peaks are not known have no margin against
// cavitation.
func (p *problem) marginRows(rows []row, l boat.Limit, r row) []row {
	r.limit = l.Name()
	places := p.strips()
	if r.figure == ventilation {
		places = foil.MostPiercings
	}
	for i := range p.boat.Foils {
		f := &p.boat.Foils[i]
		if !p.way.down[i] || !p.about(l, f) {
			continue
		}
		for j := range f.Pieces {
			if r.figure == cavitation && f.Pieces[j].Peaks == nil {
				continue
			}
			for k := range places {
				r.foil, r.piece, r.strip = i, j, k
				rows = between(rows, r, l.Lower, math.Inf(1))
			}
		}
	}
	return rows
}

// middle is the state in the middle of the variables' ranges, upright, at the
// middle of the ride heights that are allowed.
func (p *problem) middle() boat.State {
	s := boat.State{Settings: append([]float64(nil), p.settings...)}
	for i := range p.variables {
		v := &p.variables[i]
		if v.kind == controlVariable {
			s.Settings[v.control] = math.Min(math.Max(p.settings[v.control], v.lower), v.upper)
			if v.moves == changesGeometry {
				s.Settings[v.control] = (v.lower + v.upper) / 2
			}
		}
	}
	low, high := rideRange(p.boat, p.way.limits)
	s.Attitude = p.boat.AtRideHeight(s.Attitude, (low+high)/2)
	p.boat.ObeyLaws(&s)
	return s
}
