package trim

import (
	"math"
	"slices"

	"foilwright/balance"
	"foilwright/boat"
	"foilwright/si"
	"foilwright/solve"
)

// Ranges that starts are spread over, as shares of the true wind's speed and as
// true wind angles. Judgement: foiling yachts sail well inside them.
const (
	slowStart, fastStart = 1.1, 2.5
	closeStart, wideHaul = 40 * si.Degree, 55 * si.Degree
	closeRun, wideRun    = 120 * si.Degree, 150 * si.Degree
	leewayStart          = 0.5 * si.Degree
)

// starts returns the points from which one way of sailing is searched: the
// middle of the ranges, then points spread evenly over them; or, with a seed,
// random ones over everything that is free. An answer to start from comes before
// them. They depend on the request only.
func (p *problem) starts() [][]float64 {
	var all [][]float64
	p.judging = 1
	if from := p.request.from(p.boat); from != nil {
		all = append(all, p.vector(from.State, from.TrueWindAngle))
		if p.request.Starts == OnlyFrom {
			return all
		}
	}
	n := p.request.Starts
	if n <= 0 {
		n = DefaultStarts
	}
	for k := range n {
		if p.request.Scatter != 0 {
			all = append(all, p.scattered(k))
			continue
		}
		all = append(all, p.spread(k))
	}
	if p.request.Scatter == 0 {
		// In front of the others: by these a way of sailing is judged.
		lifted := p.lifted()
		all = slices.Insert(all, min(len(all), p.given()), lifted...)
		p.judging = max(p.judging, p.given()+len(lifted))
		p.postures = len(lifted)
	}
	return all
}

// isPosed tells whether a start is one that [problem.lifted] poses.
func (p *problem) isPosed(start int) bool {
	return start >= p.given() && start < p.given()+p.postures
}

// given returns how many starts come from an answer near by.
func (p *problem) given() int {
	if p.request.from(p.boat) != nil {
		return 1
	}
	return 0
}

// from returns the answer to start from, nil where there is none or where it is
// another boat's or another tack's.
func (r *Request) from(b *boat.Boat) *Result {
	f := r.From
	if f == nil || f.Boat != b.Name || len(f.State.Settings) != len(b.Controls) || f.Conditions.WindFrom() != r.windFrom() {
		return nil
	}
	return f
}

// learnt returns the curvature that the answer to start from has learnt, nil where
// there is none for this way of sailing.
func (r *Request) learnt(b *boat.Boat, way *way) *solve.Learnt {
	from := r.from(b)
	if from == nil || from.answered == nil || !from.answered.problem.way.is(way) {
		return nil
	}
	return from.answered.outcome.Learnt
}

// spread returns start k: ranges of the attitude and of the controls that move
// foils are sampled by an additive recurrence on powers of the generalised
// golden ratio (Roberts 2018), which fills a box evenly from the first few
// points; flaps, sheets and weights begin where their controls do.
func (p *problem) spread(k int) []float64 {
	ratio := goldenRatio(4)
	share := func(dimension int) float64 {
		_, f := math.Modf(0.5 + float64(k)/math.Pow(ratio, float64(dimension+1)))
		return f
	}
	s := p.middle()
	wind := p.request.WindSpeed.MetresPerSecond()
	slow, fast := p.request.startSpeeds()
	s.Speed = si.Speed(wind * (slow + (fast-slow)*share(0)))
	s.Attitude.Leeway = leewayStart * si.Angle(balance.Leeward(p.request.windFrom()))
	for i := range p.variables {
		v := &p.variables[i]
		switch {
		case v.kind == heelVariable:
			s.Attitude.Heel = si.Angle(v.lower + (v.upper-v.lower)*share(1))
		case v.kind == controlVariable && p.wide(v):
			s.Settings[v.control] = v.lower + (v.upper-v.lower)*share(2)
		case v.kind == controlVariable && v.moves == changesGeometry:
			s.Settings[v.control] = math.Min(math.Max(p.settings[v.control], v.lower), v.upper)
		}
	}
	low, high := rideRange(p.boat, p.way.limits)
	s.Attitude = p.boat.AtRideHeight(s.Attitude, low+(high-low)*(0.25+0.5*share(3)))
	return p.vector(s, p.startAngle(share(0)))
}

// widestFineTrim is the range up to which an angle that turns a foil is fine
// trim (a rake, a rudder) and beyond which it is a way of sailing (a cant), rad.
const widestFineTrim = 15 * float64(si.Degree)

// wide tells whether a control that moves a foil has a range that is a choice
// of how to sail (a cant, a board's drop) and not one of fine trim.
func (p *problem) wide(v *variable) bool {
	if v.moves != changesGeometry {
		return false
	}
	if p.boat.Controls[v.control].Kind != boat.AngleControl {
		return true
	}
	return v.upper-v.lower > widestFineTrim
}

func (p *problem) startAngle(share float64) si.Angle {
	between := func(a, b si.Angle) si.Angle { return a + (b-a)*si.Angle(share) }
	switch p.request.Aim {
	case Windward:
		return between(closeStart, wideHaul)
	case Leeward:
		return between(closeRun, wideRun)
	case LeastWind:
		if p.request.WindAngle == 0 {
			return between(closeReach, broadReach)
		}
	}
	return p.request.WindAngle
}

func goldenRatio(dimensions int) float64 {
	x := 2.0
	for range 50 {
		x = math.Pow(1+x, 1/float64(dimensions+1))
	}
	return x
}

// scattered returns random start k over the whole box of what is free.
func (p *problem) scattered(k int) []float64 {
	source := p.request.Scatter + uint64(k)*0x9e3779b97f4a7c15
	next := func() float64 {
		// splitmix64 (Steele, Lea and Flood 2014).
		source += 0x9e3779b97f4a7c15
		z := source
		z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9
		z = (z ^ (z >> 27)) * 0x94d049bb133111eb
		return float64((z^(z>>31))>>11) / (1 << 53)
	}
	s := p.middle()
	wind := p.request.WindSpeed.MetresPerSecond()
	s.Speed = si.Speed(wind * (slowStart + (fastStart-slowStart)*next()))
	for i := range p.variables {
		v := &p.variables[i]
		at := v.lower + (v.upper-v.lower)*next()
		switch v.kind {
		case leewayVariable:
			s.Attitude.Leeway = si.Angle(at / 4)
		case heelVariable:
			s.Attitude.Heel = si.Angle(at)
		case pitchVariable:
			s.Attitude.Pitch = si.Angle(at / 2)
		case controlVariable:
			s.Settings[v.control] = at
		}
	}
	low, high := rideRange(p.boat, p.way.limits)
	s.Attitude = p.boat.AtRideHeight(s.Attitude, low+(high-low)*next())
	return p.vector(s, p.startAngle(next()))
}

// slid returns points beside an optimum at which one foil that slides through a case
// stands at an end of its range where it does not stand, of boats whose hulls may be in
// the water: all out and all in are optima by themselves, with a hollow between them. A
// short piece of a foil drags and lifts next to nothing.
func (p *problem) slid(x []float64) [][]float64 {
	var all [][]float64
	if low, _ := rideRange(p.boat, p.way.limits); low >= 0 {
		return nil
	}
	for i := range p.variables {
		v := &p.variables[i]
		if v.kind != controlVariable || p.boat.Controls[v.control].Kind != boat.ShareControl || v.moves != changesGeometry {
			continue
		}
		for _, end := range [2]float64{v.lower, v.upper} {
			if math.Abs(x[i]-end) > nearBound*(v.upper-v.lower) {
				all = append(all, append([]float64(nil), x...))
				all[len(all)-1][i] = end
			}
		}
	}
	return all
}

// lowRide is where in the range of ride heights a boat is put that is heeled to an
// end of its range, so that its foils stay under.
const lowRide = 0.2

// asides returns points beside an optimum from where a better one may be found: the
// same sailing heeled to either end of the range, low over the water. Ride height counts
// from the hulls' lowest point; limits on it, and laws that follow it, leave several optima
// beside one another, by which point of the hulls that is. A search does not cross from one
// to the next. Where hulls may be in the water they are as deep as they are; pitched to the
// very ends too, with leeway halfway to either end, since foils to leeward and rudders share
// the side force in more than one good way, and level and half as much heeled with a keel that
// cants at either end.
func (p *problem) asides(x []float64) [][]float64 {
	var all [][]float64
	s := boat.State{Settings: make([]float64, len(p.boat.Controls))}
	p.state(x, &s)
	ride := p.boat.RideHeight(s.Attitude)
	low, high := rideRange(p.boat, p.way.limits)
	mayFloat := low < 0
	heeled := low + lowRide*(high-low)
	if mayFloat {
		heeled = ride
	}
	add := func(rideHeight float64, i int, to, lean float64) {
		moved := append([]float64(nil), x...)
		for j := range p.variables {
			switch p.variables[j].kind {
			case heelVariable:
				moved[j] *= lean
			case pitchVariable:
				if lean < 1 {
					moved[j] = math.Min(math.Max(0, p.variables[j].lower), p.variables[j].upper)
				}
			}
		}
		moved[i] = to
		angle := p.state(moved, &s)
		s.Attitude = p.boat.AtRideHeight(s.Attitude, rideHeight)
		all = append(all, p.vector(s, angle))
	}
	for i := range p.variables {
		v := &p.variables[i]
		for _, end := range [2]float64{v.lower, v.upper} {
			switch {
			case math.Abs(x[i]-end) <= nearBound*(v.upper-v.lower): // it is there, or held
			case v.kind == heelVariable:
				add(heeled, i, end, 1)
			case !mayFloat:
			case v.kind == pitchVariable:
				add(ride, i, end, 1)
			case v.kind == leewayVariable:
				add(ride, i, (x[i]+end)/2, 1)
			case v.kind == controlVariable && p.wide(v) && p.boat.Controls[v.control].Kind == boat.AngleControl:
				add(ride, i, end, 0.5)
			}
		}
	}
	return all
}
