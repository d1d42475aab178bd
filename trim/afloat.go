package trim

import (
	"context"
	"math"

	"foilwright/balance"
	"foilwright/boat"
	"foilwright/foil"
	"foilwright/hull"
	"foilwright/si"
	"foilwright/solve"
)

// Branch is which of the ways of carrying the weight is sailed: there may be an
// answer on each in the same wind.
type Branch int

// The branches.
const (
	AsLimited Branch = iota // at the ride heights that the boat's limits allow
	Afloat                  // with the hulls' lowest point in the water, whatever the limits say of ride height
	AnyHeight               // afloat, flying or between: the upper limit holds, the lower does not
)

// String returns the branch in words.
func (b Branch) String() string {
	return [...]string{"as limited", "afloat", "at any height"}[b]
}

// How deep the hulls' lowest point is looked for where a boat sails afloat, in
// draughts at rest; heel and a bow that is pressed down take it below them.
// Judgement.
const deepestAfloat = 3.0

// slowestAfloat is the least speed that is searched afloat, m/s.
const slowestAfloat = 0.5

// onBranch returns limits with those of ride height and tip depth that a branch
// puts in their stead.
func (r *Request) onBranch(b *boat.Boat, limits []boat.Limit) []boat.Limit {
	if r.Branch == AsLimited {
		return limits
	}
	upper := b.Length / 20
	var out []boat.Limit
	for _, l := range limits {
		if l.Kind == boat.LimitRideHeight {
			upper = l.Upper
			continue
		}
		out = append(out, l)
	}
	if r.Branch == Afloat {
		upper = math.Min(upper, 0)
	}
	return append(out, boat.Limit{Kind: boat.LimitRideHeight, Lower: -deepestAfloat * restDraught(b), Upper: upper})
}

// restDraught returns how deep the hulls' lowest point is as the boat lies level
// with her whole weight on her hulls, m; a hundredth of her length where she has no
// hull that floats.
func restDraught(b *boat.Boat) float64 {
	var w hull.Workspace
	rests, height := hull.RestOf(b, &w)
	for i := range rests {
		if rests[i].Length > 0 {
			return math.Max(-b.RideHeight(boat.Attitude{Height: height}), b.Length/100)
		}
	}
	return b.Length / 100
}

// leastAfloat is the share of the weight that hulls carry at least on the branch
// afloat. Past the hump of a take-off the same wind holds a boat at any share down
// to nothing; before it hulls carry more than this (a quarter to a half, measured on
// the examples).
const leastAfloat = 0.1

// onHullsName is what the limit that keeps a boat on that branch is called.
const onHullsName = "weight on hulls"

// afloatRows keeps weight on the hulls where the branch afloat is asked for.
func (p *problem) afloatRows(rows []row) []row {
	if p.request.Branch != Afloat || p.request.relaxed(onHullsName) {
		return rows
	}
	return append(rows, row{limit: onHullsName, unit: "1", figure: hullShare, lower: leastAfloat, upper: math.Inf(1), size: 1})
}

// onHulls returns the share of the weight that hulls carry in a state.
func (p *problem) onHulls(s *boat.State, w *balance.Workspace) float64 {
	volume := 0.0
	for _, m := range hull.Wet(p.boat, s.Attitude, &w.Hull) {
		volume += m.Volume
	}
	return volume * p.request.Water.Density * si.Gravity / p.boat.Weight()
}

// slowest returns the least speed that is searched, m/s.
func (r *Request) slowest() float64 {
	if r.Branch == AsLimited {
		return slowest
	}
	return slowestAfloat
}

// startSpeeds returns the range that starts are spread over, as shares of the true
// wind's speed.
func (r *Request) startSpeeds() (slow, fast float64) {
	if r.Branch == Afloat {
		return slowAfloat, fastAfloat
	}
	return slowStart, fastStart
}

// Ranges of starts afloat, and of true wind angles in search of the least wind.
// Judgement.
const (
	slowAfloat, fastAfloat = 0.4, 1.1
	closeReach, broadReach = 75 * si.Degree, 125 * si.Degree
)

// lifted returns more starts for boats that may carry weight on their hulls:
// between a hull that floats and one that is all but lifted out lies a hump of
// drag, and a search from one side does not cross it. Four are near the top of the
// ride heights and fast, with foils set to lift: bow up as the boat's file has her, with
// her keel upright, and, faster, with sails that drive at their most, bow up and level.
// The fifth lies at rest and is slow. Measured on a keelboat, each finds optima that the
// others miss.
func (p *problem) lifted() [][]float64 {
	low, high := rideRange(p.boat, p.way.limits)
	if low >= 0 {
		return nil
	}
	wind := p.request.WindSpeed.MetresPerSecond()
	rest := posture{speed: 0.8 * wind, ride: -restDraught(p.boat)}
	if p.request.Branch == Afloat {
		rest.speed = 0.6 * wind
		return [][]float64{p.posed(rest)}
	}
	up := posture{speed: 1.2 * wind, ride: high, bowUp: 0.95}
	upright, driven := up, up
	upright.keel = keelUpright
	driven.speed, driven.sheets = 1.7*wind, 0.8
	level := driven
	level.bowUp = 0.05
	return [][]float64{p.posed(up), p.posed(driven), p.posed(level), p.posed(upright), p.posed(rest)}
}

// settle brings a boat in a posture to balance as far as it goes with the attitude held. Let
// go at once, out of balance, the first steps of a search may throw her over the hump that
// the posture is beyond.
func (p *problem) settle(ctx context.Context, posed []float64, w *Workspace) []float64 {
	held := p.solve()
	held.Curvature = nil
	x := append([]float64(nil), posed...)
	for i := range p.variables {
		switch p.variables[i].kind {
		case heelVariable, pitchVariable, heightVariable:
			x[i] = math.Min(math.Max(x[i], held.Lower[i]), held.Upper[i])
			held.Lower[i], held.Upper[i] = x[i], x[i]
		}
	}
	out := solve.Minimise(ctx, held, x, solve.Options{Iterations: settling, Feasibility: 1e-3, Stationarity: 1e-2, Noise: 1e-12}, &w.solve)
	return out.X
}

// settling is how many steps a boat may take to settle. Judgement: most of the balance is
// found by then.
const settling = 8

// posture is how a start has a boat lie.
type posture struct {
	speed  float64 // m/s
	ride   float64 // height, m
	bowUp  float64 // share of the range of pitch; where above 0 foils are set to lift
	sheets float64 // share of their ranges; 0 leaves them where they start
	keel   swung
}

// posed returns the start in a posture, heeled to the middle of the range.
func (p *problem) posed(as posture) []float64 {
	low, high := rideRange(p.boat, p.way.limits)
	s := p.middle()
	s.Speed = si.Speed(as.speed)
	s.Attitude.Leeway = leewayStart * si.Angle(balance.Leeward(p.request.windFrom()))
	for i := range p.variables {
		switch v := &p.variables[i]; {
		case v.kind == heelVariable:
			s.Attitude.Heel = si.Angle((v.lower + v.upper) / 2)
		case v.kind == pitchVariable:
			s.Attitude.Pitch = si.Angle(as.bowUp * math.Min(0, v.lower))
		case v.kind == controlVariable && v.moves == changesGeometry:
			s.Settings[v.control] = math.Min(math.Max(p.settings[v.control], v.lower), v.upper)
		case v.kind == controlVariable && as.sheets > 0 && p.boat.Controls[v.control].Label == "sheet":
			s.Settings[v.control] = v.lower + as.sheets*(v.upper-v.lower)
		}
	}
	s.Attitude = p.boat.AtRideHeight(s.Attitude, math.Max(low, math.Min(high, as.ride)))
	if as.bowUp > 0 {
		p.setToLift(&s, as.keel)
	}
	return p.vector(s, p.startAngle(0.5))
}

// swung tells where a start has the foils that swing about: a canting keel.
type swung int

const (
	asTheyStart swung = iota // as the boat's file has it
	keelUpright              // in the middle of their range
)

// setToLift puts each control that moves foils to the end of its range at which they
// lift more, one after the other: where a foil that is drawn in carries nothing, no
// slope tells a search to let it out. Those that swing a foil about stand as told.
func (p *problem) setToLift(s *boat.State, keel swung) {
	w := foil.Workspace{Options: foil.Options{Strips: surveyStrips, Rows: 1, Boundary: p.request.cut().Boundary, Waves: foil.NoWaves}}
	lift := func() float64 {
		items, err := foil.Loads(p.boat, *s, p.request.Water, &w, nil)
		if err != nil {
			return math.Inf(-1)
		}
		sum := 0.0
		for i := range items {
			sum += items[i].Load.Force.Z
		}
		return sum
	}
	for i := range p.variables {
		v := &p.variables[i]
		if v.kind != controlVariable || v.moves != changesGeometry {
			continue
		}
		at := &s.Settings[v.control]
		if p.boat.Controls[v.control].Kind == boat.AngleControl && v.upper-v.lower > widestTrim {
			if keel == keelUpright {
				*at = (v.lower + v.upper) / 2
			}
			continue
		}
		*at = v.lower
		least := lift()
		if *at = v.upper; lift() < least {
			*at = v.lower
		}
	}
}

// What true wind is searched for the least, m/s.
const (
	lightest  = 0.5
	strongest = 40.0
)

// appendWind adds the true wind as a variable, and lets its angle go free unless it
// is asked for.
func (r *Request) appendWind(all []variable) []variable {
	for i := range all {
		if v := &all[i]; v.kind == angleVariable && r.WindAngle == 0 {
			v.lower, v.upper = (20 * si.Degree).Radians(), (178 * si.Degree).Radians()
		}
	}
	return append(all, variable{kind: windVariable, name: "true wind speed", lower: lightest, upper: strongest, scale: 0.5, touches: balance.InTheWind()})
}

// conditions returns the conditions at the point looked at.
func (p *problem) conditions(angle si.Angle) balance.Conditions {
	c := p.request.conditions(angle)
	c.Wind.Speed = p.wind
	return c
}

// objective returns what is made least: progress with its sign turned, or the wind,
// over the unit.
func (p *problem) objective(speed si.Speed, angle si.Angle) float64 {
	if p.request.Aim == LeastWind {
		return p.wind.MetresPerSecond() / p.request.unit()
	}
	return -p.request.progress(speed.MetresPerSecond(), angle.Radians()) / p.request.unit()
}

// The ways of carrying the weight, by how much of it hulls carry.
const (
	flying       = "flying"        // nothing
	partlyLifted = "partly lifted" // less than half
	afloat       = "afloat"
)

// touching is the share of the weight up to which a hull in the water only touches.
const touching = 1e-3

// carrying tells what the hulls carry, and warns where that is not known well, or
// where a hull touches at a ride height that counts as flight.
func (res *Result) carrying(b *boat.Boat, w *balance.Workspace) {
	hulls, warnings := hull.ReportOf(b, res.State, res.Conditions.Water, &w.Hull)
	res.Hulls, res.Carrying = hulls, flying
	res.Warnings = append(res.Warnings, warnings...)
	for i := range hulls {
		res.OnHulls += hulls[i].Carried / res.Weight
	}
	switch {
	case res.OnHulls >= 0.5:
		res.Carrying = afloat
	case res.OnHulls > touching:
		res.Carrying = partlyLifted
	case res.OnHulls > 0:
		res.Warnings = append(res.Warnings, "a hull touches the water")
	}
}
