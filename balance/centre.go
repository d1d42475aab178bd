package balance

import (
	"math"

	"foilwright/boat"
	"foilwright/foil"
	"foilwright/frame"
)

// Centre is where one foil's lift acts, told three ways. Points are in the
// track frame. The transverse plane is that of y and z: where along x the loads
// act does not enter.
type Centre struct {
	Foil string `json:"foil"`
	// Rule is the rule of the trade (common practice): the midpoint between the
	// wings' area centroids, wet parts only. Nil where no wing is wet.
	Rule *frame.Point[frame.Track] `json:"rule_of_thumb_m"`
	// Loaded is the centre weighted with the strips' vertical force. Nil where
	// the net vertical force is below 5 % of the gross, where it would run away.
	Loaded *frame.Point[frame.Track] `json:"load_weighted_m"`
	// Line is the line of action of the foil's water loads in the transverse
	// plane. Nil where the foil carries nothing.
	Line *Line `json:"line_of_action"`
	// Couple is the foil's moment about the load-weighted centre, N·m, positive
	// starboard down. It is nothing about any point of the line.
	Couple float64 `json:"couple_Nm"`
	// Distance is how far the load-weighted centre lies from the line, m.
	Distance float64 `json:"distance_from_line_m"`
	// Force is the foil's whole water force across the track, N (x is 0).
	Force frame.Vec[frame.Track] `json:"force_N"`
}

// Line is a line in the transverse plane: a point of it and a unit direction,
// upward.
type Line struct {
	Point     frame.Point[frame.Track] `json:"point_m"`
	Direction frame.Vec[frame.Track]   `json:"direction"`
}

// Nearest returns the point of the line nearest to p, in p's own transverse plane.
func (l *Line) Nearest(p frame.Point[frame.Track]) frame.Point[frame.Track] {
	off := p.From(l.Point)
	along := off.Y*l.Direction.Y + off.Z*l.Direction.Z
	return frame.Point[frame.Track]{X: p.X, Y: l.Point.Y + along*l.Direction.Y, Z: l.Point.Z + along*l.Direction.Z}
}

// DistanceTo returns how far p lies from the line, m.
func (l *Line) DistanceTo(p frame.Point[frame.Track]) float64 {
	n := l.Nearest(p)
	return math.Hypot(n.Y-p.Y, n.Z-p.Z)
}

// netToGross is the share of the gross vertical force below which the net one
// is too small to place a centre.
const netToGross = 0.05

// Centres returns the centres of every foil that is down, from the strips and
// items of one state.
func Centres(b *boat.Boat, s boat.State, strips []foil.Strip, items []boat.Item) []Centre {
	outlines := foil.Outlines(b, s)
	var all []Centre
	for _, i := range foil.Down(b, s) {
		c := Centre{Foil: b.Foils[i].Name}
		if p, ok := foil.RuleCentre(outlines, i); ok {
			c.Rule = &p
		}
		c.Loaded = loaded(strips, i)
		total := waterLoad(b.Foils[i].Name, items)
		c.Force = frame.Vec[frame.Track]{Y: total.Force.Y, Z: total.Force.Z}
		c.Line = lineOf(total, c.Loaded, c.Rule)
		if c.Line != nil && c.Loaded != nil {
			c.Couple = total.MovedTo(*c.Loaded).Moment.X
			c.Distance = c.Line.DistanceTo(*c.Loaded)
		}
		all = append(all, c)
	}
	return all
}

// loaded returns the centre of a foil's strips weighted with vertical force.
func loaded(strips []foil.Strip, index int) *frame.Point[frame.Track] {
	var moment frame.Vec[frame.Track]
	net, gross := 0.0, 0.0
	for i := range strips {
		st := &strips[i]
		if st.Foil != index {
			continue
		}
		net += st.Force.Z
		gross += math.Abs(st.Force.Z)
		moment = moment.Plus(frame.Vec[frame.Track](st.Place).Times(st.Force.Z))
	}
	if gross == 0 || math.Abs(net) < netToGross*gross {
		return nil
	}
	p := frame.Point[frame.Track](moment.Times(1 / net))
	return &p
}

// waterLoad sums the water's loads on a part, buoyancy left out.
func waterLoad(part string, items []boat.Item) frame.Load[frame.Track] {
	var total frame.Load[frame.Track]
	for i := range items {
		if items[i].Part == part && items[i].Cause.Medium() == boat.Water {
			total = total.Plus(items[i].Load)
		}
	}
	return total
}

// lineOf returns the line along which a load acts in the transverse plane: the
// points (y, z) with y·Fz − z·Fy = Mx. Its point is the one nearest to the
// load-weighted centre, else to the rule of thumb's, else to the load's own.
func lineOf(l frame.Load[frame.Track], near ...*frame.Point[frame.Track]) *Line {
	across := frame.Vec[frame.Track]{Y: l.Force.Y, Z: l.Force.Z}
	square := across.Dot(across)
	if square == 0 {
		return nil
	}
	// Perpendicular foot from About: r with r × F = Mx along x.
	foot := frame.Vec[frame.Track]{Y: across.Z, Z: -across.Y}.Times(l.Moment.X / square)
	direction := across.Unit()
	if direction.Z < 0 {
		direction = direction.Times(-1)
	}
	line := &Line{Point: l.About.Add(foot), Direction: direction}
	for _, p := range near {
		if p != nil {
			line.Point = line.Nearest(*p)
			break
		}
	}
	return line
}
