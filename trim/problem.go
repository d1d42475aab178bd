package trim

import (
	"math"

	"foilwright/balance"
	"foilwright/boat"
	"foilwright/foil"
	"foilwright/frame"
	"foilwright/sail"
	"foilwright/si"
	"foilwright/solve"
)

// problem is one way of sailing one boat, as solve.Minimise wants it.
type problem struct {
	boat       *boat.Boat
	request    *Request
	way        way
	variables  []variable
	settings   []float64 // of controls that are no variables
	rows       []row     // equalities beyond the six, then inequalities
	equalities int       // of rows

	state0, state1 boat.State
	here, aside    *balance.Workspace
	at, beside     figures // where values was last asked, and at a shifted point
	shifted        solve.Values
	shiftedX       []float64
	judging        int             // how many of its first starts the way is judged by
	postures       int             // how many starts are posed
	learnt         *solve.Learnt   // curvature at the end of the first search
	ends           []solve.Outcome // of the searches so far
	slopesAt       []float64       // where slopes was last asked
	sumSlopes      [6][]float64    // of the six sums there, per unit of each variable
	failure        error
	turn           frame.Rotation[frame.Track, frame.Boat] // of the boat, at the point looked at
	wind           si.Speed                                // true, at the point looked at
	room           float64                                 // that the sea asks for at the speed and angle looked at, m
	margins        []float64                               // of the strips, or the piercings, of one piece
	sketch         *sketch                                 // tells the curvature; nil until it is asked for
	worth          float64                                 // what the objective has to come to; zero: anything
	kin            *sketch                                 // of the same mode with other sails
	drawn          *level                                  // of the sketch; nil where nobody asks
	loose          tolerances
}

// figures are what an objective and constraints are put together from: the sums of
// the groups of loads about the datum, and the rows' figures.
type figures struct {
	sums [balance.GroupCount]frame.Load[frame.Track]
	rows []float64
}

// newProblem sets up one way of sailing. The workspaces hold scratch memory.
func newProblem(b *boat.Boat, r *Request, w way, l *level) (*problem, error) {
	l.cut(r.Foil)
	p := &problem{boat: b, request: r, way: w, here: &l.here, aside: &l.aside, settings: b.Starts(), loose: tight()}
	for i := range p.settings {
		p.settings[i] = math.Min(math.Max(p.settings[i], w.lower[i]), w.upper[i])
	}
	var err error
	if p.variables, err = variables(b, r, w); err != nil {
		return nil, err
	}
	p.state0.Settings = make([]float64, len(b.Controls))
	p.state1.Settings = make([]float64, len(b.Controls))
	p.margins = make([]float64, max(p.strips(), foil.MostPiercings))
	p.rows = constraints(p)
	p.at.rows, p.beside.rows = make([]float64, len(p.rows)), make([]float64, len(p.rows))
	for i := range p.rows {
		if p.rows[i].equality() {
			p.equalities++
		}
	}
	return p, nil
}

// letGo leaves the scratch memory to who lent it: nothing is evaluated after that.
func (p *problem) letGo() {
	p.here, p.aside, p.drawn, p.sketch, p.kin = nil, nil, nil, nil, nil
}

func (p *problem) solve() *solve.Problem {
	n := len(p.variables)
	sp := &solve.Problem{
		Lower: make([]float64, n), Upper: make([]float64, n), Scale: make([]float64, n),
		Equalities: 6 + p.equalities, Inequalities: len(p.rows) - p.equalities,
		Values: p.values, Slopes: p.slopes,
	}
	if p.drawn != nil {
		sp.Curvature = p.curvature
	}
	for i := range p.variables {
		v := &p.variables[i]
		sp.Lower[i], sp.Upper[i], sp.Scale[i] = v.lower, v.upper, v.scale
	}
	p.shiftedX = make([]float64, n)
	p.shifted = solve.Values{Equal: make([]float64, sp.Equalities), Inequal: make([]float64, sp.Inequalities)}
	return sp
}

// values is the objective and the constraints at x.
func (p *problem) values(x []float64, v *solve.Values) bool {
	return p.evaluate(x, balance.AllGroups(), &p.state0, p.here, &p.at, v)
}

// evaluate fills v at x, and f with what v is put together from. Groups of loads
// that are not touched, and the rows that follow from them, are those of the last
// call of values.
func (p *problem) evaluate(x []float64, touched balance.Groups, s *boat.State, w *balance.Workspace, f *figures, v *solve.Values) bool {
	angle := p.state(x, s)
	conditions := p.conditions(angle)
	pose := s.Attitude.Pose()
	p.turn = pose.Turn
	total := balance.Loads{Sum: frame.Load[frame.Track]{About: pose.Origin}}
	var wet []boat.Item
	for g := range balance.GroupCount {
		if !touched[g] {
			f.sums[g] = p.at.sums[g]
		} else {
			items, err := balance.Append(g, p.boat, *s, p.way.set, conditions, w, w.Spare(g))
			if err != nil {
				p.failure = err
				return false
			}
			w.Keep(g, items)
			if g == balance.Wet {
				wet = items
			}
			f.sums[g] = balance.SumOf(*s, items)
		}
		total.Sum = total.Sum.Plus(f.sums[g])
	}
	if !total.Finite() {
		return false
	}
	v.F = p.objective(s.Speed, angle)
	balance.Residual(p.boat, total, v.Equal[:6])
	p.room = p.request.room(s.Speed, angle)
	for i := range p.rows {
		if r := &p.rows[i]; r.figure.touched(touched) {
			f.rows[i] = p.value(r, s, wet, w)
		} else {
			f.rows[i] = p.at.rows[i]
		}
	}
	p.fillRows(f.rows, v)
	return true
}

// unit is the speed that the objective is counted in: the true wind's, so that
// it is near one.
func (r *Request) unit() float64 { return math.Max(1, r.WindSpeed.MetresPerSecond()) }

// difference is the step of a one-sided difference over a variable's scale: the
// functions carry some 1e-13 of rounding, so that slopes hold to about 1e-6.
const difference = 1e-6

// slopes takes one-sided differences. Variables that the water does not see come
// first, on the water's loads that values has found at x; then those that leave
// the foils where they are, on the lattice that values has factorised; the others
// have the second workspace, so that the first keeps its lattice, which the second
// leans on.
//
// The slopes of the six sums are kept, with the point that they are of.
func (p *problem) slopes(x []float64, v *solve.Values, s *solve.Slopes) {
	copy(p.shiftedX, x)
	if err := p.here.Hold(); err != nil {
		p.failure = err
	}
	defer p.here.Release()
	for pass := keepsWater; pass <= changesGeometry; pass++ {
		w := p.here
		if pass == changesGeometry {
			w = p.aside
		}
		// Controls first: in another wind and at another speed sails are placed anew.
		for i := len(p.variables) - 1; i >= 0; i-- {
			if p.variables[i].moves == pass {
				p.slope(i, x, v, s, w)
			}
		}
	}
	p.keep(x, s)
}

// keep keeps the slopes of the six sums at x.
func (p *problem) keep(x []float64, s *solve.Slopes) {
	p.slopesAt = append(p.slopesAt[:0], x...)
	for j := range p.sumSlopes {
		p.sumSlopes[j] = append(p.sumSlopes[j][:0], s.Equal[j]...)
	}
}

func (p *problem) slope(i int, x []float64, v *solve.Values, s *solve.Slopes, w *balance.Workspace) {
	vr := &p.variables[i]
	if vr.lower == vr.upper {
		p.fillSlope(i, 0, v, s)
		return
	}
	step := difference * vr.scale
	if x[i]+step > vr.upper {
		step = -step
	}
	p.shiftedX[i] = x[i] + step
	step = p.shiftedX[i] - x[i]
	if p.evaluate(p.shiftedX, vr.touches, &p.state1, w, &p.beside, &p.shifted) {
		p.fillSlope(i, 1/step, v, s)
	} else {
		p.fillSlope(i, math.NaN(), v, s)
	}
	p.shiftedX[i] = x[i]
}

func (p *problem) fillSlope(i int, overStep float64, v *solve.Values, s *solve.Slopes) {
	if overStep == 0 {
		s.F[i] = 0
		for j := range s.Equal {
			s.Equal[j][i] = 0
		}
		for j := range s.Inequal {
			s.Inequal[j][i] = 0
		}
		return
	}
	s.F[i] = (p.shifted.F - v.F) * overStep
	for j := range s.Equal {
		s.Equal[j][i] = (p.shifted.Equal[j] - v.Equal[j]) * overStep
	}
	for j := range s.Inequal {
		s.Inequal[j][i] = (p.shifted.Inequal[j] - v.Inequal[j]) * overStep
	}
}

// row is one constraint besides the six equations: a figure between bounds.
type row struct {
	limit        string // the limit's name, for people
	unit         string
	figure       figure
	foil, piece  int // tipDepth, rootBending, cavitation
	strip        int // cavitation, loading
	point        [3]float64
	sail         int // position in the set
	lower, upper float64
	size         float64 // what counts as one of it
	slack        float64 // by how much the lower bound as the boat states it lies below the search's own
}

func (r *row) equality() bool { return r.lower == r.upper }

// figure is what a row is about.
type figure int

const (
	rideHeight  figure = iota // m, of the hulls' lowest point
	hullPoint                 // m, of one point of the hulls
	tipDepth                  // m, of one tip
	leastTip                  // m, of the shallowest tip of the boat
	largestLift               // lift coefficient in hand of one strip of a sail
	loading                   // lift coefficient of one strip of a sail
	sheetLoad                 // N, of one sail
	rootBending               // N·m, of one foil
	cavitation                // margin of one strip
	ventilation               // margin of one strip, rad
	hingeMoment               // N·m, of one foil's flaps, either way
	hullShare                 // of the weight, that hulls carry
	seaHull                   // m, of one point of the hulls over the room that the sea asks for
	seaTip                    // m, of one tip under it
)

// group returns the loads with which a figure changes: what follows from places
// alone changes with the weights'.
func (f figure) group() balance.Group {
	switch f {
	case rideHeight, hullPoint, tipDepth, leastTip, seaHull, seaTip:
		return balance.Weights
	case largestLift, loading, sheetLoad:
		return balance.Aloft
	}
	return balance.Wet
}

// touched tells whether a figure may change when groups of loads do. What a sea
// asks for follows from speed and wind angle too, as the wind on dry foils does.
func (f figure) touched(groups balance.Groups) bool {
	return groups[f.group()] || (f == seaHull || f == seaTip) && groups[balance.Dry]
}

// value returns a row's figure in a state whose loads in the water are wet, and
// which w has seen last.
func (p *problem) value(r *row, s *boat.State, wet []boat.Item, w *balance.Workspace) float64 {
	switch r.figure {
	case rideHeight:
		return p.boat.RideHeight(s.Attitude)
	case hullPoint:
		return s.Attitude.Height + p.heightOf(r.point)
	case seaHull:
		return s.Attitude.Height + p.heightOf(r.point) - p.room
	case seaTip:
		return -foil.TipHeight(p.boat, s, r.foil, r.piece, &w.Foil) - p.room
	case tipDepth:
		return -foil.TipHeight(p.boat, s, r.foil, r.piece, &w.Foil)
	case leastTip:
		least := math.Inf(1)
		for i := range p.rows {
			if t := &p.rows[i]; t.figure == tipDepth {
				least = math.Min(least, -foil.TipHeight(p.boat, s, t.foil, t.piece, &w.Foil))
			}
		}
		return least
	case largestLift:
		return sail.InHand(&w.Sail, r.sail, r.strip)
	case loading:
		return sail.Lift(&w.Sail, r.sail, r.strip)
	case sheetLoad:
		return sail.Margins(&w.Sail)[r.sail].SheetLoad
	case cavitation:
		if r.strip == 0 { // the rows of a piece follow one another
			p.margins = p.margins[:p.strips()]
			foil.CavitationMargins(p.boat, *s, p.request.Water, p.request.Air.Pressure, r.foil, r.piece, &w.Foil, p.margins)
		}
		return p.margins[r.strip]
	case hullShare:
		return p.onHulls(s, w)
	case hingeMoment:
		return foil.HingeMoment(*s, p.request.Water, r.foil, &w.Foil)
	case ventilation:
		if r.strip == 0 {
			p.margins = p.margins[:foil.MostPiercings]
			foil.VentilationMargins(p.boat, *s, r.foil, r.piece, &w.Foil, p.margins)
		}
		return p.margins[r.strip]
	}
	return foil.RootBending(p.boat, *s, r.foil, wet)
}

// fillRows writes the constraints besides the six equations. A row with two
// bounds counts by the nearer one's side that it can break first: each bound is
// a row of its own here.
func (p *problem) fillRows(values []float64, v *solve.Values) {
	equal, inequal := 6, 0
	for i := range p.rows {
		r := &p.rows[i]
		if r.equality() {
			v.Equal[equal] = r.over(values[i])
			equal++
		} else {
			v.Inequal[inequal] = r.over(values[i])
			inequal++
		}
	}
}

// over returns by how much a figure clears its row's bound, in its natural size.
func (r *row) over(value float64) float64 {
	if r.equality() || math.IsInf(r.upper, 1) {
		return (value - r.lower) / r.size
	}
	return (r.upper - value) / r.size
}

// strips returns how many strips a piece is cut into.
func (p *problem) strips() int { return p.request.strips() }
