package trim

import (
	"math"

	"foilwright/balance"
	"foilwright/boat"
	"foilwright/foil"
	"foilwright/sail"
	"foilwright/solve"
	"foilwright/wave"
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
	hereLoads      balance.Loads
	shifted        solve.Values
	before         solve.Values // for two-sided differences
	refining       bool         // slopes are two-sided
	shiftedX       []float64
	learnt         *solve.Learnt // curvature at the end of the first search
	failure        error
	room           float64   // that the sea asks for at the speed and angle looked at, m
	margins        []float64 // of the strips of one piece
}

// newProblem sets up one way of sailing. The workspaces hold scratch memory.
func newProblem(b *boat.Boat, r *Request, w way, here, aside *balance.Workspace) (*problem, error) {
	here.Foil.Options, aside.Foil.Options = r.Foil, r.Foil
	if r.Foil.Waves == foil.WaveWash && here.Foil.Kernel == nil {
		here.Foil.Kernel = wave.NewKernel()
	}
	aside.Foil.Kernel = here.Foil.Kernel
	p := &problem{boat: b, request: r, way: w, here: here, aside: aside, settings: b.Starts()}
	for i := range p.settings {
		p.settings[i] = math.Min(math.Max(p.settings[i], w.lower[i]), w.upper[i])
	}
	var err error
	if p.variables, err = variables(b, r, w); err != nil {
		return nil, err
	}
	p.state0.Settings = make([]float64, len(b.Controls))
	p.state1.Settings = make([]float64, len(b.Controls))
	p.margins = make([]float64, p.strips())
	p.rows = constraints(p)
	for i := range p.rows {
		if p.rows[i].equality() {
			p.equalities++
		}
	}
	return p, nil
}

// strips returns how many strips a piece is cut into.
func (p *problem) strips() int {
	if p.request.Foil.Strips > 0 {
		return p.request.Foil.Strips
	}
	return foil.DefaultOptions().Strips
}

func (p *problem) solve() *solve.Problem {
	n := len(p.variables)
	sp := &solve.Problem{
		Lower: make([]float64, n), Upper: make([]float64, n), Scale: make([]float64, n),
		Equalities: 6 + p.equalities, Inequalities: len(p.rows) - p.equalities,
		Values: p.values, Slopes: p.slopes,
	}
	for i := range p.variables {
		v := &p.variables[i]
		sp.Lower[i], sp.Upper[i], sp.Scale[i] = v.lower, v.upper, v.scale
	}
	p.shiftedX = make([]float64, n)
	p.shifted = solve.Values{Equal: make([]float64, sp.Equalities), Inequal: make([]float64, sp.Inequalities)}
	p.before = solve.Values{Equal: make([]float64, sp.Equalities), Inequal: make([]float64, sp.Inequalities)}
	return sp
}

// values is the objective and the constraints at x.
func (p *problem) values(x []float64, v *solve.Values) bool {
	loads, ok := p.evaluate(x, &p.state0, p.here, v)
	p.hereLoads = loads
	return ok
}

func (p *problem) evaluate(x []float64, s *boat.State, w *balance.Workspace, v *solve.Values) (balance.Loads, bool) {
	angle := p.state(x, s)
	loads, err := balance.At(p.boat, *s, p.way.set, p.request.conditions(angle), w)
	if err != nil {
		p.failure = err
		return loads, false
	}
	v.F = -p.request.progress(s.Speed.MetresPerSecond(), angle.Radians()) / p.request.unit()
	balance.Residual(p.boat, loads, v.Equal[:6])
	p.room = p.request.room(s.Speed, angle)
	p.fillRows(s, loads, w, v)
	return loads, true
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
// have the second workspace, so that the first keeps its lattice.
func (p *problem) slopes(x []float64, v *solve.Values, s *solve.Slopes) {
	copy(p.shiftedX, x)
	for pass := keepsWater; pass <= changesGeometry; pass++ {
		w := p.here
		if pass == changesGeometry {
			w = p.aside
		}
		for i := range p.variables {
			if p.variables[i].moves == pass {
				p.slope(i, x, v, s, w)
			}
		}
	}
}

func (p *problem) slope(i int, x []float64, v *solve.Values, s *solve.Slopes, w *balance.Workspace) {
	vr := &p.variables[i]
	if vr.lower == vr.upper {
		p.fillSlope(i, 0, v, s)
		return
	}
	if p.refining {
		p.centralSlope(i, x, v, s, w)
		return
	}
	step := difference * vr.scale
	if x[i]+step > vr.upper {
		step = -step
	}
	p.shiftedX[i] = x[i] + step
	step = p.shiftedX[i] - x[i]
	if _, ok := p.evaluate(p.shiftedX, &p.state1, w, &p.shifted); ok {
		p.fillSlope(i, 1/step, v, s)
	} else {
		p.fillSlope(i, math.NaN(), v, s)
	}
	p.shiftedX[i] = x[i]
}

// centralDifference is the step of a two-sided difference over a variable's
// scale: its error is some 1e-8 of a natural unit.
const centralDifference = 1e-4

// centralSlope takes a two-sided difference, whatever the bounds: the functions
// have values a little beyond them.
func (p *problem) centralSlope(i int, x []float64, v *solve.Values, s *solve.Slopes, w *balance.Workspace) {
	step := centralDifference * p.variables[i].scale
	p.shiftedX[i] = x[i] - step
	_, ok := p.evaluate(p.shiftedX, &p.state1, w, &p.before)
	p.shiftedX[i] = x[i] + step
	if ok {
		_, ok = p.evaluate(p.shiftedX, &p.state1, w, &p.shifted)
	}
	p.shiftedX[i] = x[i]
	if ok {
		p.fillSlope(i, 1/(2*step), &p.before, s)
	} else {
		p.fillSlope(i, math.NaN(), v, s)
	}
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
	seaHull                   // m, of one point of the hulls over the room that the sea asks for
	seaTip                    // m, of one tip under it
)

// value returns a row's figure in a state.
func (p *problem) value(r *row, s *boat.State, loads balance.Loads, w *balance.Workspace) float64 {
	switch r.figure {
	case rideHeight:
		return p.boat.RideHeight(s.Attitude)
	case hullPoint:
		return s.Attitude.Height + p.heightOf(r.point, s)
	case seaHull:
		return s.Attitude.Height + p.heightOf(r.point, s) - p.room
	case seaTip:
		return -foil.TipHeight(p.boat, s, r.foil, r.piece) - p.room
	case tipDepth:
		return -foil.TipHeight(p.boat, s, r.foil, r.piece)
	case leastTip:
		least := math.Inf(1)
		for i := range p.rows {
			if t := &p.rows[i]; t.figure == tipDepth {
				least = math.Min(least, -foil.TipHeight(p.boat, s, t.foil, t.piece))
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
	case hingeMoment:
		return foil.HingeMoment(*s, p.request.Water, r.foil, &w.Foil)
	case ventilation:
		if r.strip == 0 {
			p.margins = p.margins[:p.strips()]
			foil.VentilationMargins(p.boat, *s, r.foil, r.piece, &w.Foil, p.margins)
		}
		return p.margins[r.strip]
	}
	return foil.RootBending(p.boat, *s, r.foil, loads.Items)
}

// fillRows writes the constraints besides the six equations. A row with two
// bounds counts by the nearer one's side that it can break first: each bound is
// a row of its own here.
func (p *problem) fillRows(s *boat.State, loads balance.Loads, w *balance.Workspace, v *solve.Values) {
	equal, inequal := 6, 0
	for i := range p.rows {
		r := &p.rows[i]
		value := p.value(r, s, loads, w)
		switch {
		case r.equality():
			v.Equal[equal] = (value - r.lower) / r.size
			equal++
		case math.IsInf(r.upper, 1):
			v.Inequal[inequal] = (value - r.lower) / r.size
			inequal++
		default:
			v.Inequal[inequal] = (r.upper - value) / r.size
			inequal++
		}
	}
}
