package boat

import (
	"fmt"
	"math"

	"foilwright/frame"
)

// Path is a line through space made of straight lengths and circular bends: a
// piece's quarter-chord line. It is measured by the share of its length, 0 to 1.
type Path struct {
	lengths []stretch
	ends    []float64 // length at the end of each stretch, m
}

// stretch is a straight length (radius 0) or an arc.
type stretch struct {
	from   frame.Point[Local]
	along  frame.Vec[Local] // unit tangent at from
	inward frame.Vec[Local] // arc: unit vector from `from` to the centre
	radius float64          // m, 0 for a straight length
	length float64          // m
}

// NewPath returns the path through points with its corners rounded to a radius,
// m (0 leaves them sharp). It fails where fewer than two points are given, two
// in a row coincide, or the lengths beside a corner are too short for the bend.
func NewPath(points []frame.Point[Local], radius float64) (Path, error) {
	if len(points) < 2 {
		return Path{}, fmt.Errorf("a path needs two points or more, and has %d", len(points))
	}
	var p Path
	start := points[0]
	for i := 1; i < len(points); i++ {
		leg := points[i].From(points[i-1])
		if leg.Norm() < 1e-9 {
			return Path{}, fmt.Errorf("points %d and %d of the path coincide", i, i+1)
		}
		end := points[i]
		var bend *stretch
		if radius > 0 && i < len(points)-1 {
			b, cut, err := corner(points[i-1], points[i], points[i+1], radius)
			if err != nil {
				return Path{}, fmt.Errorf("corner at point %d: %w", i+1, err)
			}
			end, bend = points[i].Add(leg.Unit().Times(-cut)), b
		}
		if straight := end.From(start); straight.Dot(leg) > 1e-12*leg.Norm() {
			p.add(stretch{from: start, along: leg.Unit(), length: straight.Norm()})
		} else if straight.Norm() > 1e-9 {
			return Path{}, fmt.Errorf("bends of radius %g m at points %d and %d overlap", radius, i, i+1)
		}
		start = end
		if bend != nil && bend.length > 0 {
			p.add(*bend)
			start = bend.at(bend.length)
		}
	}
	return p, nil
}

// corner returns the arc that rounds the corner at b, and how far from b it begins.
func corner(a, b, c frame.Point[Local], radius float64) (*stretch, float64, error) {
	in, out := b.From(a).Unit(), c.From(b).Unit()
	turn := math.Acos(math.Max(-1, math.Min(1, in.Dot(out))))
	if turn < 1e-6 {
		return nil, 0, nil
	}
	if turn > math.Pi-1e-3 {
		return nil, 0, fmt.Errorf("the path doubles back on itself")
	}
	cut := radius * math.Tan(turn/2)
	if shortest := math.Min(b.From(a).Norm(), c.From(b).Norm()); cut > shortest {
		return nil, 0, fmt.Errorf("a bend of radius %g m needs %.3g m on either side, and %.3g m is there", radius, cut, shortest)
	}
	return &stretch{
		from:   b.Add(in.Times(-cut)),
		along:  in,
		inward: out.Minus(in.Times(in.Dot(out))).Unit(),
		radius: radius,
		length: radius * turn,
	}, cut, nil
}

func (p *Path) add(s stretch) {
	last := 0.0
	if n := len(p.ends); n > 0 {
		last = p.ends[n-1]
	}
	p.lengths = append(p.lengths, s)
	p.ends = append(p.ends, last+s.length)
}

func (s *stretch) at(d float64) frame.Point[Local] {
	if s.radius == 0 {
		return s.from.Add(s.along.Times(d))
	}
	sin, cos := math.Sincos(d / s.radius)
	return s.from.Add(s.along.Times(s.radius * sin)).Add(s.inward.Times(s.radius * (1 - cos)))
}

func (s *stretch) tangent(d float64) frame.Vec[Local] {
	if s.radius == 0 {
		return s.along
	}
	sin, cos := math.Sincos(d / s.radius)
	return s.along.Times(cos).Plus(s.inward.Times(sin))
}

// Length returns the path's length, m.
func (p Path) Length() float64 {
	if len(p.ends) == 0 {
		return 0
	}
	return p.ends[len(p.ends)-1]
}

// At returns the point at a share of the path and the unit tangent there,
// outward. Shares beyond 0 and 1 run straight on.
func (p Path) At(share float64) (frame.Point[Local], frame.Vec[Local]) {
	d, i := share*p.Length(), 0
	for i < len(p.ends)-1 && p.ends[i] < d {
		i++
	}
	s := &p.lengths[i]
	d -= p.ends[i] - s.length
	if d < 0 || d > s.length {
		edge := math.Max(0, math.Min(s.length, d))
		t := s.tangent(edge)
		return s.at(edge).Add(t.Times(d - edge)), t
	}
	if s.radius == 0 {
		return s.from.Add(s.along.Times(d)), s.along
	}
	return s.at(d), s.tangent(d)
}

// Start returns the path's first point, End its last.
func (p Path) Start() frame.Point[Local] { q, _ := p.At(0); return q }

// End returns the path's last point.
func (p Path) End() frame.Point[Local] { q, _ := p.At(1); return q }

// AppendBreaks appends the shares at which one stretch ends and the next begins.
func (p Path) AppendBreaks(into []float64) []float64 {
	for _, e := range p.ends[:max(0, len(p.ends)-1)] {
		into = append(into, e/p.Length())
	}
	return into
}

// AppendSteps appends rising shares, without the start, at which each straight length ends
// and bends are cut into so many parts.
func (p Path) AppendSteps(parts int, into []float64) []float64 {
	begin := 0.0
	for i := range p.lengths {
		end := 1.0
		if i < len(p.lengths)-1 {
			end = p.ends[i] / p.Length()
		}
		if p.lengths[i].radius > 0 {
			for k := 1; k < parts; k++ {
				into = append(into, begin+(end-begin)*float64(k)/float64(parts))
			}
		}
		into, begin = append(into, end), end
	}
	return into
}

// AppendTurns appends the shares within bends at which the path is farthest along a
// direction, or least far: where it runs square to it. A bend of up to 180° has one at
// most.
func (p Path) AppendTurns(direction frame.Vec[Local], into []float64) []float64 {
	for i := range p.lengths {
		s := &p.lengths[i]
		if s.radius == 0 {
			continue
		}
		along, inward := s.along.Dot(direction), s.inward.Dot(direction)
		angle := math.Atan2(-along, inward)
		if angle < 0 {
			angle += math.Pi
		}
		if d := angle * s.radius; d > 0 && d < s.length {
			into = append(into, (p.ends[i]-s.length+d)/p.Length())
		}
	}
	return into
}

// Straight tells whether the path is one straight length.
func (p Path) Straight() bool { return len(p.lengths) == 1 && p.lengths[0].radius == 0 }

// Moved returns the path displaced by v.
func (p Path) Moved(v frame.Vec[Local]) Path {
	q := Path{ends: p.ends}
	for _, s := range p.lengths {
		s.from = s.from.Add(v)
		q.lengths = append(q.lengths, s)
	}
	return q
}

// Mirrored returns the path's mirror image in the plane y = at.
func (p Path) Mirrored(at float64) Path {
	q := Path{ends: p.ends}
	for _, s := range p.lengths {
		s.from.Y = 2*at - s.from.Y
		s.along.Y, s.inward.Y = -s.along.Y, -s.inward.Y
		q.lengths = append(q.lengths, s)
	}
	return q
}
