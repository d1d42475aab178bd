package trim

import (
	"fmt"
	"math"

	"foilwright/balance"
	"foilwright/boat"
	"foilwright/foil"
	"foilwright/si"
)

// kind is what a variable of the search stands for.
type kind int

const (
	speedVariable kind = iota
	leewayVariable
	heelVariable
	pitchVariable
	heightVariable // of the datum
	angleVariable  // true wind, positive
	windVariable   // true wind speed
	controlVariable
)

// variable is one entry of the search's vector.
type variable struct {
	kind         kind
	control      int // of the boat, for controlVariable
	name         string
	lower, upper float64
	scale        float64 // a usual change of it
	moves        geometry
	touches      balance.Groups
}

// geometry tells whether a variable changes where the foils stand in the water,
// and with it the lattice.
type geometry int

const (
	keepsWater      geometry = iota // nothing in the water sees it: a sheet, crew
	keepsGeometry                   // loads in the water change, the lattice does not: speed, a flap
	changesGeometry                 // where foils stand changes, and with it the lattice
)

// What attitudes and speeds are searched where the boat's limits are silent.
// Judgement: wide of anything that sails on foils.
const (
	widestHeel   = 35 * si.Degree
	widestLeeway = 8 * si.Degree
	widestPitch  = 6 * si.Degree
	slowest      = 2.0  // m/s
	fastest      = 40.0 // m/s
)

// variables returns the search's variables for one way of sailing.
func variables(b *boat.Boat, r *Request, w way) ([]variable, error) {
	tack := balance.Leeward(r.windFrom())
	angle := func(k kind, name string, widest si.Angle, limit boat.LimitKind, scale float64, turn float64) variable {
		v := variable{kind: k, name: name, lower: -widest.Radians(), upper: widest.Radians(), scale: scale, moves: changesGeometry, touches: balance.AllGroups()}
		for _, l := range w.limits {
			if l.Kind == limit && !r.relaxed(l.Name()) {
				v.lower, v.upper = math.Max(v.lower, l.Lower), math.Min(v.upper, l.Upper)
			}
		}
		if turn < 0 {
			v.lower, v.upper = -v.upper, -v.lower
		}
		return v
	}
	speed := variable{kind: speedVariable, name: "speed", lower: r.slowest(), upper: fastest, scale: 1, moves: keepsGeometry, touches: balance.WithSpeed()}
	if r.Foil.Waves == foil.WaveWash {
		speed.moves = changesGeometry // waves are part of the lattice then
	}
	for _, l := range w.limits {
		if l.Kind == boat.LimitSpeed && !r.relaxed(l.Name()) {
			speed.lower, speed.upper = math.Max(speed.lower, l.Lower), math.Min(speed.upper, l.Upper)
		}
	}
	all := []variable{
		speed,
		// Positive leeway has the bow to port: to windward of the track with the
		// wind from port, which is leeway as sailors count it.
		angle(leewayVariable, "leeway", widestLeeway, boat.LimitLeeway, 0.01, tack),
		angle(heelVariable, "heel", widestHeel, boat.LimitHeel, 0.03, tack),
		angle(pitchVariable, "pitch", widestPitch, boat.LimitPitch, 0.01, 1),
		{kind: heightVariable, name: "height", lower: -b.Length, upper: b.Length, scale: 0.1, moves: changesGeometry, touches: balance.AllGroups()},
	}
	wind := variable{kind: angleVariable, name: "true wind angle", scale: 0.05, touches: balance.InTheWind()}
	switch r.Aim {
	case Windward:
		wind.lower, wind.upper = (20 * si.Degree).Radians(), (89 * si.Degree).Radians()
	case Leeward:
		wind.lower, wind.upper = (91 * si.Degree).Radians(), (178 * si.Degree).Radians()
	default:
		wind.lower, wind.upper = r.WindAngle.Radians(), r.WindAngle.Radians()
	}
	all = append(all, wind)
	if r.Aim == LeastWind {
		all = r.appendWind(all)
	}
	all = appendControls(b, r, w, all)
	return all, hold(b, r, all)
}

// appendControls adds every control that the way of sailing uses.
func appendControls(b *boat.Boat, r *Request, w way, all []variable) []variable {
	for i := range b.Controls {
		c := &b.Controls[i]
		if !w.uses(b, i) || w.idle(b, i) {
			continue
		}
		v := variable{kind: controlVariable, control: i, name: c.Name, lower: w.lower[i], upper: w.upper[i], scale: c.Step, moves: movesFoil(b, i), touches: balance.Touched(b, i)}
		if c.Law != nil {
			continue // it follows the ride height; State sets it
		}
		if r.relaxed(c.Name) && !c.Fixed() {
			reach := c.Upper - c.Lower
			v.lower, v.upper = v.lower-reach, v.upper+reach
		}
		all = append(all, v)
	}
	return all
}

// hold pins what the request holds. Ride height is held by a constraint.
func hold(b *boat.Boat, r *Request, all []variable) error {
	tack := balance.Leeward(r.windFrom())
	for _, h := range r.Holds {
		if h.Name == rideHeightName {
			continue
		}
		found := false
		for i := range all {
			v := &all[i]
			if v.name != h.Name {
				continue
			}
			value := h.Value
			if v.kind == leewayVariable || v.kind == heelVariable {
				value *= tack
			}
			v.lower, v.upper, found = value, value, true
		}
		if !found {
			return fmt.Errorf("%s: nothing called %q can be held", b.Name, h.Name)
		}
	}
	return nil
}

const rideHeightName = "ride height"

// movesFoil tells what a control changes of the foils.
func movesFoil(b *boat.Boat, control int) geometry {
	changed := keepsWater
	for i := range b.Foils {
		for _, m := range b.Foils[i].Moves {
			if m.Control == control {
				return changesGeometry
			}
		}
		for j := range b.Foils[i].Pieces {
			if f := &b.Foils[i].Pieces[j].Flap; f.Share > 0 && f.Control == control {
				changed = keepsGeometry
			}
		}
	}
	return changed
}

// state writes the vector into a state and returns the true wind angle.
func (p *problem) state(x []float64, s *boat.State) si.Angle {
	copy(s.Settings, p.settings)
	var angle si.Angle
	p.wind = p.request.WindSpeed
	for i := range p.variables {
		v := &p.variables[i]
		switch v.kind {
		case speedVariable:
			s.Speed = si.Speed(x[i])
		case leewayVariable:
			s.Attitude.Leeway = si.Angle(x[i])
		case heelVariable:
			s.Attitude.Heel = si.Angle(x[i])
		case pitchVariable:
			s.Attitude.Pitch = si.Angle(x[i])
		case heightVariable:
			s.Attitude.Height = x[i]
		case angleVariable:
			angle = si.Angle(x[i])
		case windVariable:
			p.wind = si.Speed(x[i])
		case controlVariable:
			s.Settings[v.control] = x[i]
		}
	}
	p.boat.ObeyLaws(s)
	return angle
}

// vector is the inverse of state.
func (p *problem) vector(s boat.State, angle si.Angle) []float64 {
	x := make([]float64, len(p.variables))
	for i := range p.variables {
		v := &p.variables[i]
		switch v.kind {
		case speedVariable:
			x[i] = s.Speed.MetresPerSecond()
		case leewayVariable:
			x[i] = s.Attitude.Leeway.Radians()
		case heelVariable:
			x[i] = s.Attitude.Heel.Radians()
		case pitchVariable:
			x[i] = s.Attitude.Pitch.Radians()
		case heightVariable:
			x[i] = s.Attitude.Height
		case angleVariable:
			x[i] = angle.Radians()
		case windVariable:
			x[i] = p.request.WindSpeed.MetresPerSecond()
		case controlVariable:
			x[i] = s.Settings[v.control]
		}
		x[i] = math.Min(math.Max(x[i], v.lower), v.upper)
	}
	return x
}
