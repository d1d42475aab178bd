package trim

import (
	"fmt"
	"math"

	"foilwright/balance"
	"foilwright/boat"
	"foilwright/foil"
	"foilwright/frame"
	"foilwright/sail"
	"foilwright/si"
	"foilwright/solve"
)

// result polishes an attempt and tells it in full.
func (p *problem) result(a *attempt, w *Workspace) *Result {
	sp := p.solve()
	v := solve.Values{Equal: make([]float64, sp.Equalities), Inequal: make([]float64, sp.Inequalities)}
	x := a.outcome.X
	var c closing
	if p.hasSlopesNear(x) || p.values(x, &v) && p.slopesAfresh(sp, x, &v) {
		c = p.close(x)
		x = p.polish(x, c, &v)
	}
	res := p.describe(x, w)
	p.price(res, &a.outcome)
	res.answered = &answered{problem: p, x: x, outcome: a.outcome}
	res.Answer = Found
	if !math.IsInf(c.condition, 0) {
		res.Condition = c.condition
	}
	res.Closing = []string{}
	for _, i := range c.chosen {
		res.Closing = append(res.Closing, p.variables[i].name)
	}
	if c.stuck != "" {
		res.Warnings = append(res.Warnings, c.stuck+": the answer closes, but cannot be steered there")
	}
	if a.outcome.Status != solve.Converged {
		res.Warnings = append(res.Warnings, fmt.Sprintf("the search %s; a better trim may be near", a.outcome.Status))
	}
	res.onCorner(p.boat)
	return res
}

// atSurface is how near the surface a tip counts as being at it, m: there an answer lies on
// a corner, whatever a search leaves.
const atSurface = 1e-4

// onCorner warns where a best trim has a tip just at the surface: loads have a corner
// there, and so has what the best trim gains by anything.
func (res *Result) onCorner(b *boat.Boat) {
	for _, o := range foil.Outlines(b, res.State) {
		if o.FreeTip == foil.FreeTip && math.Abs(o.Depth()) < atSurface {
			res.Warnings = append(res.Warnings, fmt.Sprintf("the tip of the %s is just at the surface: prices, and what figures are worth, hold to one side of this trim",
				ByWind(b.Foils[o.Foil].Name, res.Conditions.WindFrom())))
		}
	}
}

// besideSlopes is how far from where slopes were taken, in usual changes of a variable, they
// choose the closing set and lead Newton's method to its end all the same.
const besideSlopes = 0.1

// hasSlopesNear tells whether the slopes that were taken last will do for closing the
// equations at x.
func (p *problem) hasSlopesNear(x []float64) bool {
	return len(p.slopesAt) == len(x) && p.within(besideSlopes, p.slopesAt, x)
}

// stateAlone tells an attempt's state and no more.
func (p *problem) stateAlone(a *attempt) *Result {
	s := boat.State{Settings: make([]float64, len(p.boat.Controls))}
	angle := p.state(a.outcome.X, &s)
	res := inState(p.boat, s, p.way.set, p.conditions(angle))
	res.Answer, res.Aim, res.Mode = Found, p.request.Aim.String(), p.way.mode.Name
	res.answered = &answered{problem: p, x: a.outcome.X, outcome: a.outcome}
	return res
}

// inState tells where a state has a boat, and in what wind, and nothing of its loads.
func inState(b *boat.Boat, s boat.State, set int, c balance.Conditions) *Result {
	return &Result{
		Boat: b.Name, State: s, SetIndex: set, Conditions: c,
		Set: setName(b, set), TrueWindSpeed: c.Wind.Speed, TrueWindAngle: si.Angle(math.Abs(c.Wind.Angle.Radians())),
		WindFrom: c.WindFrom().String(), Speed: s.Speed, VMG: si.Speed(s.Speed.MetresPerSecond() * c.Wind.Angle.Cos()),
		Leeway: s.Attitude.Leeway, Heel: s.Attitude.Heel, Pitch: s.Attitude.Pitch,
		RideHeight: b.RideHeight(s.Attitude), Height: s.Attitude.Height, Weight: b.Weight(),
	}
}

// slopesAfresh takes slopes at x, where values was asked last.
func (p *problem) slopesAfresh(sp *solve.Problem, x []float64, v *solve.Values) bool {
	s := slopesFor(sp, len(x))
	p.slopes(x, v, &s)
	return true
}

func slopesFor(sp *solve.Problem, n int) solve.Slopes {
	rows := func(count int) [][]float64 {
		r := make([][]float64, count)
		for i := range r {
			r[i] = make([]float64, n)
		}
		return r
	}
	return solve.Slopes{F: make([]float64, n), Equal: rows(sp.Equalities), Inequal: rows(sp.Inequalities)}
}

// describe tells the state at x in full.
func (p *problem) describe(x []float64, w *Workspace) *Result {
	s := boat.State{Settings: make([]float64, len(p.boat.Controls))}
	angle := p.state(x, &s)
	conditions := p.conditions(angle)
	res := Describe(p.boat, s, p.way.set, conditions, p.here)
	res.Aim, res.Mode = p.request.Aim.String(), p.way.mode.Name
	res.TellSea(p.request.Sea)
	v := p.blank()
	if p.values(x, &v) {
		for i := range p.rows {
			res.Limits = append(res.Limits, p.tell(&p.rows[i], p.at.rows[i]))
		}
	}
	p.tellBounds(x, res)
	res.Limits = merged(res.Limits)
	return res
}

// Describe tells one state of a boat in full, balanced or not: wind, balance
// sheet, budget, centres. Limits and the search's own figures stay empty.
func Describe(b *boat.Boat, s boat.State, set int, c balance.Conditions, w *balance.Workspace) *Result {
	res := inState(b, s, set, c)
	res.Controls, res.Foil = SettingsOf(b, s, c.WindFrom()), w.Foil.Options
	res.Loads, res.Centres, res.WettedArea = []Load{}, []balance.Centre{}, []WetPart{}
	res.Sails, res.Margins, res.Hinges = []sail.Report{}, []Margin{}, []Hinge{}
	res.Limits, res.Warnings = []LimitRow{}, []string{}
	loads, err := balance.At(b, s, set, c, w)
	if err != nil {
		res.Answer = NoAnswer
		res.Warnings = append(res.Warnings, err.Error())
		return res
	}
	loads = loads.Clone()
	strips := foil.Strips(b, s, c.Water, &w.Foil)
	foil.Cavitate(s, c.Water, c.Air.Pressure, &w.Foil, strips)
	piercings := foil.Piercings(b, s, &w.Foil)
	res.Margins, res.Hinges = MarginsOf(b, s, strips, piercings), HingesOf(b, s, c.Water, &w.Foil)
	for i := range loads.Items {
		it := &loads.Items[i]
		res.Loads = append(res.Loads, Load{Part: it.Part, Piece: it.Piece, Item: it.Cause.String(), Load: it.Load})
	}
	sheet := balance.SheetOf(s, loads, c)
	res.ApparentWindSpeed, res.ApparentWindAngle = sheet.ApparentWindSpeed, sheet.ApparentWindAngle
	res.AeroDragAngle, res.HydroDragAngle, res.Drag = sheet.AeroDragAngle, sheet.HydroDragAngle, sheet.Drag
	res.ResidualForce, res.ResidualMoment = loads.Sum.Force, loads.Sum.Moment
	res.Centres = balance.Centres(b, s, strips, loads.Items)
	res.Budget = balance.BudgetAbout(loads.Items, MomentPoint(res.Centres, s), c.WindFrom())
	res.RightingMoment, res.HeelingMoment = res.Budget.Righting, res.Budget.Heeling
	if set >= 0 {
		res.Sails = sail.Explain(b, set, s, c.Wind, c.Air, &w.Sail)
	}
	for _, o := range foil.Outlines(b, s) {
		if o.WetPlan > 0 {
			res.WettedArea = append(res.WettedArea, WetPart{Part: b.Foils[o.Foil].Name, Piece: b.Foils[o.Foil].Pieces[o.Piece].Name, Area: o.WetSurface, Plan: o.WetPlan})
		}
	}
	res.warn(b, strips)
	res.drawsAir(b, piercings)
	res.carrying(b, w)
	return res
}

// MomentPoint returns the point that moments are taken about unless the user
// names one: on the line of action of the foil that carries most, nearest to its
// load-weighted centre; the datum where no foil carries anything.
func MomentPoint(centres []balance.Centre, s boat.State) frame.Point[frame.Track] {
	most := -1
	for i := range centres {
		if centres[i].Line != nil && (most < 0 || centres[i].Force.Norm() > centres[most].Force.Norm()) {
			most = i
		}
	}
	if most < 0 {
		return s.Attitude.Pose().Origin
	}
	return centres[most].Line.Point
}

// SettingsOf lists every control's setting in a state, with the wind from a side.
func SettingsOf(b *boat.Boat, s boat.State, windFrom boat.Side) []Setting {
	all := make([]Setting, 0, len(b.Controls))
	for i := range b.Controls {
		c := &b.Controls[i]
		set := Setting{
			Name: c.Name, Called: ByWind(c.Name, windFrom), Value: s.Settings[i], Unit: unitOf(c.Kind),
			Lower: c.Lower, Upper: c.Upper, State: "free",
		}
		switch {
		case c.Law != nil:
			set.State = "under its law"
		case c.Fixed():
			set.State = "fixed"
		}
		all = append(all, set)
	}
	return all
}

func unitOf(k boat.ControlKind) string {
	return [...]string{"rad", "m", "1"}[k]
}

// nearBound is how near a bound, over its range, counts as on it.
const nearBound = 1e-6

// tellBounds says which variables stand on their bounds, in the controls and,
// for attitude, as limits.
func (p *problem) tellBounds(x []float64, res *Result) {
	for i := range p.variables {
		v := &p.variables[i]
		reach := nearBound * (v.upper - v.lower)
		low, high := x[i] <= v.lower+reach, x[i] >= v.upper-reach
		switch v.kind {
		case controlVariable:
			set := &res.Controls[v.control]
			set.Lower, set.Upper = v.lower, v.upper
			switch {
			case v.lower == v.upper:
				set.State = "fixed"
			case low:
				set.State = "at its lower end"
			case high:
				set.State = "at its upper end"
			}
		case leewayVariable, heelVariable, pitchVariable:
			lower, upper := v.lower, v.upper
			res.Limits = append(res.Limits, LimitRow{
				Name: v.name, Value: x[i], Lower: &lower, Upper: &upper, Unit: "rad",
				Margin: math.Min(x[i]-lower, upper-x[i]), Active: low || high,
			})
		}
	}
	for i := range p.boat.Controls {
		set := &res.Controls[i]
		switch {
		case set.State == "under its law":
		case p.way.lower[i] == p.way.upper[i]:
			set.State = "fixed"
		case !p.way.uses(p.boat, i) || p.way.idle(p.boat, i):
			set.State = "not in use"
		}
	}
}

// told is a constraint row's figure as a row of limits.
func (r *row) told(value float64) LimitRow {
	t := LimitRow{Name: r.limit, Value: value, Unit: r.unit, Margin: math.Inf(1)}
	if !math.IsInf(r.lower, -1) {
		lower := r.lower - r.slack
		t.Lower, t.Margin = &lower, value-lower
	}
	if !math.IsInf(r.upper, 1) {
		upper := r.upper
		t.Upper, t.Margin = &upper, math.Min(t.Margin, upper-value)
	}
	t.Active = t.Margin <= 1e-7*r.size
	return t
}

// merged joins the rows of one limit: the least margin to each bound.
func merged(rows []LimitRow) []LimitRow {
	out := []LimitRow{}
	for _, r := range rows {
		at := -1
		for i := range out {
			if out[i].Name == r.Name {
				at = i
			}
		}
		if at < 0 {
			out = append(out, r)
			continue
		}
		o := &out[at]
		if o.Lower == nil {
			o.Lower = r.Lower
		}
		if o.Upper == nil {
			o.Upper = r.Upper
		}
		if r.Margin < o.Margin {
			o.Margin, o.Value = r.Margin, r.Value
		}
		o.Active = o.Active || r.Active
	}
	return out
}

// warn notes what lies outside the models' range.
func (res *Result) warn(b *boat.Boat, strips []foil.Strip) {
	for i := range strips {
		st := &strips[i]
		if st.Lift > st.Largest {
			res.Warnings = append(res.Warnings, fmt.Sprintf("%s %s is past its largest usable lift (%.2f, largest %.2f): stall",
				b.Foils[st.Foil].Name, b.Foils[st.Foil].Pieces[st.Piece].Name, st.Lift, st.Largest))
			break
		}
	}
	for i := range strips {
		st := &strips[i]
		piece := &b.Foils[st.Foil].Pieces[st.Piece]
		reynolds := res.Conditions.Water.Reynolds(res.Speed, st.Chord)
		if table := piece.Section.DragTable(); table != nil && !table.Covers(st.Lift, reynolds, si.Angle(st.Flap)) {
			res.Warnings = append(res.Warnings, fmt.Sprintf("%s %s is outside its drag table (lift %.2f, Reynolds number %.2g, flap %.1f deg): %s",
				b.Foils[st.Foil].Name, piece.Name, st.Lift, reynolds, si.Angle(st.Flap).Degrees(), table))
			break
		}
	}
	worst := -1
	for i := range strips {
		if c := &strips[i].Cavitation; c.Known && c.Margin < -1e-6 && (worst < 0 || c.Margin < strips[worst].Cavitation.Margin) {
			worst = i
		}
	}
	if worst >= 0 {
		st := &strips[worst]
		res.Warnings = append(res.Warnings, fmt.Sprintf("%s %s cavitates: its pressure peak is %.2f, its cavitation number %.2f; the loads know nothing of that",
			b.Foils[st.Foil].Name, b.Foils[st.Foil].Pieces[st.Piece].Name, st.Cavitation.Peak, st.Cavitation.Number))
	}
	for i := range res.Sails {
		if beyond := res.Sails[i].Beyond; beyond != "" {
			res.Warnings = append(res.Warnings, res.Sails[i].Name+": "+beyond)
		}
		if res.Sails[i].Margin < -1e-6 {
			res.Warnings = append(res.Warnings, fmt.Sprintf("%s is past its largest lift", res.Sails[i].Name))
		}
	}
	res.warnOfDipped(b)
}

// warnOfDipped notes people who reach into the water, taken as squares of their area: what
// they drag there is not in the loads, and the wind that they meet is taken as if they were
// dry.
func (res *Result) warnOfDipped(b *boat.Boat) {
	pose := res.State.Attitude.Pose()
	for i := range b.Windages {
		d := &b.Windages[i]
		if d.Follows < 0 {
			continue
		}
		bottom, top := b.WindageEnds(d, res.State.Settings)
		if height := pose.Point(bottom.Toward(top, 0.5)).Z; height < math.Sqrt(d.Area)/2 {
			res.Warnings = append(res.Warnings, fmt.Sprintf("%s reaches into the water, the middle %.2f m above it; the loads know nothing of that", d.Name, height))
		}
	}
}

// drawsAir notes the piercing that is furthest past its boundary.
func (res *Result) drawsAir(b *boat.Boat, piercings []foil.Piercing) {
	var worst *foil.Piercing
	for i := range piercings {
		if at := &piercings[i]; at.Margin < -1e-6 && (worst == nil || at.Margin < worst.Margin) {
			worst = at
		}
	}
	if worst != nil {
		f := &b.Foils[worst.Foil]
		res.Warnings = append(res.Warnings, fmt.Sprintf("%s %s may draw air: %.1f deg above zero lift, the boundary is %.1f deg at that depth",
			f.Name, f.Pieces[worst.Piece].Name, worst.Incidence.Degrees(), worst.Boundary.Degrees()))
	}
}
