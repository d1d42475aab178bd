package section

import (
	"fmt"
	"math"

	"foilwright/si"
)

// Range of flaps that the panel method takes.
const (
	leastFlapShare = 0.05
	mostFlapShare  = 0.60
	mostFlapAngle  = 45 * si.Degree
)

// piece is a smooth length of an outline: a point for each share u from 0 to 1.
type piece func(u float64) Point

// anchor is a place of an outline that needs short panels.
type anchor struct {
	piece int
	u     float64 // 0, 0.5 or 1
	size  float64 // panel length there, chords
}

// pieces returns the outline from the trailing edge over the upper side to the
// nose and back, in pieces that a mirrored section has mirrored, with the flap turned about the mean line at its hinge. On the
// side that opens, the hinge is an arc about that point, as of a flap with a
// round nose; on the side that closes, the corner is filled by a short curve.
func (s *shape) pieces(flap Flap) ([]piece, []anchor) {
	noseSlope := s.spline.slopeAt(0)
	nose := max(0.08*2*noseSlope*noseSlope, 3e-4) // a share of the nose radius
	const edge = 0.0005
	if flap.Share == 0 || flap.Deflection == 0 {
		return []piece{
			func(u float64) Point { return s.at(math.Pi * (1 - u)) },
			func(u float64) Point { return s.at(-math.Pi * u) },
		}, []anchor{{0, 0, edge}, {1, 0, nose}, {1, 1, edge}}
	}
	hinge, upper, lower := s.hinged(flap)
	turn := func(p Point) Point { return turned(p, hinge, -flap.Deflection.Radians()) }
	return []piece{
			func(u float64) Point { return turn(s.at(math.Pi + u*(upper.flap-math.Pi))) },
			func(u float64) Point { return upper.curve(1 - u) },
			func(u float64) Point { return s.at(upper.fixed * (1 - u)) },
			func(u float64) Point { return s.at(-lower.fixed * u) },
			lower.curve,
			func(u float64) Point { return turn(s.at(-lower.flap - u*(math.Pi-lower.flap))) },
		}, []anchor{
			{0, 0, edge}, {1, 0.5, 0.02 * upper.radius}, {3, 0, nose},
			{4, 0.5, 0.02 * lower.radius}, {5, 1, edge},
		}
}

// hinged returns where a flap's hinge is, midway between the sides, and how they
// pass it.
func (s *shape) hinged(flap Flap) (hinge Point, upper, lower joint) {
	theta := stationAngle(1 - flap.Share)
	up, down := s.at(theta), s.at(-theta)
	hinge = Point{up.X, (up.Y + down.Y) / 2}
	upper = s.joint(hinge, theta, 1, flap.Deflection.Radians())
	lower = s.joint(hinge, theta, -1, flap.Deflection.Radians())
	return hinge, upper, lower
}

// turned returns p turned about a centre by an angle, positive from x to y.
func turned(p, centre Point, angle float64) Point {
	sin, cos := math.Sincos(angle)
	dx, dy := p.X-centre.X, p.Y-centre.Y
	return Point{centre.X + cos*dx - sin*dy, centre.Y + sin*dx + cos*dy}
}

// joint is how one side passes the hinge: up to station angle fixed on the main
// part, by a curve from u = 0 there to 1, and on from station angle flap, both
// angles taken positive on either side.
type joint struct {
	fixed, flap float64
	radius      float64 // from the hinge to the side
	foot        Point   // of the perpendicular from the hinge, flap not turned
	curve       piece
}

func (s *shape) joint(hinge Point, theta, side, deflection float64) joint {
	// The foot of the perpendicular from the hinge to the side, by bisection.
	lo, hi := theta/2, (theta+math.Pi)/2
	for range 50 {
		mid := (lo + hi) / 2
		p, q := s.at(side*mid), s.at(side*(mid+1e-6))
		if (p.X-hinge.X)*(q.X-p.X)+(p.Y-hinge.Y)*(q.Y-p.Y) < 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	foot := (lo + hi) / 2
	at := s.at(side * foot)
	radius := math.Hypot(at.X-hinge.X, at.Y-hinge.Y)
	if side*deflection > 0 {
		arc := func(u float64) Point { return turned(at, hinge, -u*deflection) }
		return joint{foot, foot, radius, at, arc}
	}
	// Where straight sides would meet, and a curve that rounds the corner off.
	half := math.Abs(deflection) / 2
	cut := 1.5 * radius * math.Tan(half)
	fixed := stationAngle(max(at.X-cut, 0.1*at.X))
	flap := stationAngle(min(at.X+cut, at.X+0.5*(1-at.X)))
	corner := turned(at, hinge, -deflection/2)
	stretch := 1 / math.Cos(half)
	corner = Point{hinge.X + stretch*(corner.X-hinge.X), hinge.Y + stretch*(corner.Y-hinge.Y)}
	from, to := s.at(side*fixed), turned(s.at(side*flap), hinge, -deflection)
	return joint{fixed, flap, radius, at, func(u float64) Point {
		a, b, c := (1-u)*(1-u), 2*u*(1-u), u*u
		return Point{a*from.X + b*corner.X + c*to.X, a*from.Y + b*corner.Y + c*to.Y}
	}}
}

// panelGrowth is how much longer panels get a chord away from an anchor, and
// longestPanel where they stop, in chords; a count then scales all of them.
const (
	panelGrowth  = 0.15
	longestPanel = 0.025
)

// nodes lays count+1 nodes along an outline, close together at its anchors.
func nodes(pieces []piece, anchors []anchor, count int) ([]Point, error) {
	const fine = 400
	type sample struct {
		piece     int
		u         float64
		arc, rank float64 // length and number of panels from the start
	}
	var samples []sample
	places := make([]float64, len(anchors))
	arc := 0.0
	for i, at := range pieces {
		before := at(0)
		for j := range fine + 1 {
			u := float64(j) / fine
			p := at(u)
			arc += math.Hypot(p.X-before.X, p.Y-before.Y)
			before = p
			samples = append(samples, sample{piece: i, u: u, arc: arc})
			for k, a := range anchors {
				if a.piece == i && u == a.u {
					places[k] = arc
				}
			}
		}
	}
	size := func(arc float64) float64 {
		h := longestPanel
		for k, a := range anchors {
			h = min(h, a.size+panelGrowth*math.Abs(arc-places[k]))
		}
		return h
	}
	for i := 1; i < len(samples); i++ {
		a, b := &samples[i-1], &samples[i]
		b.rank = a.rank + (b.arc-a.arc)/size((a.arc+b.arc)/2)
	}
	total := samples[len(samples)-1].rank
	if !(total > 0) || !finite(total) {
		return nil, fmt.Errorf("the outline has no length")
	}
	points := []Point{pieces[0](0)}
	next := 1
	for i := 1; i < count; i++ {
		rank := total * float64(i) / float64(count)
		for samples[next].rank < rank {
			next++
		}
		a, b := samples[next-1], samples[next]
		u := b.u
		if a.piece == b.piece {
			u = a.u + (b.u-a.u)*(rank-a.rank)/(b.rank-a.rank)
		}
		points = append(points, pieces[b.piece](u))
	}
	return append(points, pieces[len(pieces)-1](1)), nil
}
