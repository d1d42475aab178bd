package hull

import (
	"math"
	"sort"

	"foilwright/boat"
	"foilwright/solve"
)

// mesh is a closed surface of triangles in the boat frame, outward normals by the
// right-hand rule.
type mesh struct {
	points    [][3]float64
	triangles [][3]int32
	skin      int        // how many triangles, the first, are bottom and sides
	stations  []station  // what it was laid through, without the hull's offset
	lift      float64    // that offset's height, m
	low, high [3]float64 // corners of the box that holds the points, m
}

// How finely a hull is laid out: the steps along the length between the ends, and
// the steps over a section's girth from keel to sheer. Sections and corners of
// sections are always kept. A surface cut finer again has the same volume and skin
// to 0.1 % (held by a test).
const (
	lengthSteps = 32
	girthSteps  = 12
	sameShare   = 1e-3 // corners closer than this share of the girth are one
)

// meshOf lays a surface through a hull's sections: straight between the points
// that are given of each section, monotone cubics (Fritsch and Butland 1984)
// between points at equal shares of the girth from section to section, so that
// nothing between two sections is lower or wider than the one of them that is.
// It is nil where there are fewer than two sections of two points.
func meshOf(h *boat.Hull) *mesh {
	if len(h.Sections) < 2 {
		return nil
	}
	for i := range h.Sections {
		if len(h.Sections[i].Points) < 2 {
			return nil
		}
	}
	shares := girthShares(h)
	stations := stationsOf(h, shares)
	if stations == nil {
		return nil
	}
	m := &mesh{}
	m.layTriangles(m.layPoints(h, stations))
	m.stations, m.lift = stations, h.Offset.Z
	m.low, m.high = m.points[0], m.points[0]
	for _, p := range m.points {
		for k := range 3 {
			m.low[k], m.high[k] = math.Min(m.low[k], p[k]), math.Max(m.high[k], p[k])
		}
	}
	return m
}

// clear tells whether the box around a hull is out of the water, given the row of
// the rotation that makes heights and the height of the datum, m: a boat in flight
// is done with then.
func (m *mesh) clear(turn [3]float64, height float64) bool {
	for k := range 3 {
		height += math.Min(turn[k]*m.low[k], turn[k]*m.high[k])
	}
	return height > 0
}

// station is one section of the surface: half-breadths and heights at the shares
// of the girth, from the keel up.
type station struct {
	x    float64
	y, z []float64
}

// girths returns the share of the girth of each point of a section.
func girths(points [][2]float64) []float64 {
	s := make([]float64, len(points))
	for i := 1; i < len(points); i++ {
		s[i] = s[i-1] + math.Hypot(points[i][0]-points[i-1][0], points[i][1]-points[i-1][1])
	}
	for i := range s {
		s[i] /= s[len(s)-1]
	}
	return s
}

// girthShares returns the shares of the girth at which every section is cut: the
// corners of all, and points between them where they lie far apart.
func girthShares(h *boat.Hull) []float64 {
	var corners []float64
	for i := range h.Sections {
		corners = append(corners, girths(h.Sections[i].Points)...)
	}
	sort.Float64s(corners)
	shares := []float64{0}
	for _, c := range corners {
		last := shares[len(shares)-1]
		if c-last < sameShare {
			continue
		}
		n := int(math.Ceil((c - last) * girthSteps))
		for k := 1; k <= n; k++ {
			shares = append(shares, last+(c-last)*float64(k)/float64(n))
		}
	}
	shares[len(shares)-1] = 1
	return shares
}

// stationsOf returns the sections at the shares, bow to stern, with others in
// between.
func stationsOf(h *boat.Hull, shares []float64) []station {
	n := len(h.Sections)
	back := make([]float64, n) // x falls from bow to stern, curves want rising
	y, z := make([][]float64, len(shares)), make([][]float64, len(shares))
	for i := range h.Sections {
		s := &h.Sections[n-1-i]
		back[i] = s.X
		girth := girths(s.Points)
		at := 0
		for j, share := range shares {
			for at < len(girth)-2 && share > girth[at+1] {
				at++
			}
			t := 0.0
			if d := girth[at+1] - girth[at]; d > 0 {
				t = math.Min(1, math.Max(0, (share-girth[at])/d))
			}
			p, q := s.Points[at], s.Points[at+1]
			y[j] = append(y[j], p[0]+(q[0]-p[0])*t)
			z[j] = append(z[j], p[1]+(q[1]-p[1])*t)
		}
	}
	all := []station{}
	for _, x := range cuts(back) {
		all = append(all, station{x: x, y: make([]float64, len(shares)), z: make([]float64, len(shares))})
	}
	for j := range shares {
		breadth, err := solve.NewCurve(back, y[j])
		if err != nil {
			return nil
		}
		height, err := solve.NewCurve(back, z[j])
		if err != nil {
			return nil
		}
		for k := range all {
			all[k].y[j], _ = breadth.At(all[k].x)
			all[k].z[j], _ = height.At(all[k].x)
		}
	}
	return all
}

// cuts returns where along the length the surface is cut, bow to stern: at every
// section, and between them.
func cuts(back []float64) []float64 {
	n := len(back)
	length := back[n-1] - back[0]
	all := []float64{back[n-1]}
	for i := n - 1; i > 0; i-- {
		steps := int(math.Ceil((back[i] - back[i-1]) / length * lengthSteps))
		for k := 1; k < steps; k++ {
			all = append(all, back[i]+(back[i-1]-back[i])*float64(k)/float64(steps))
		}
		all = append(all, back[i-1])
	}
	return all
}

// ring is where a station's points are: port from the keel up, then the starboard
// mirror images. A point on the midplane is one point.
type ring struct{ port, starboard []int32 }

// layPoints fills in the points: port, starboard, and the midplane at the lower
// and upper end of each section.
func (m *mesh) layPoints(h *boat.Hull, stations []station) []ring {
	rings := make([]ring, len(stations))
	add := func(x, y, z float64) int32 {
		m.points = append(m.points, [3]float64{x + h.Offset.X, y + h.Offset.Y, z + h.Offset.Z})
		return int32(len(m.points) - 1)
	}
	for i := range stations {
		s := &stations[i]
		n := len(s.y)
		r := &rings[i]
		both := func(y, z float64) {
			p := add(s.x, y, z)
			q := p
			if y != 0 {
				q = add(s.x, -y, z)
			}
			r.port, r.starboard = append(r.port, p), append(r.starboard, q)
		}
		both(0, s.z[0]) // a flat bottom, or none
		for j := range n {
			both(s.y[j], s.z[j])
		}
		both(0, s.z[n-1]) // the deck
	}
	return rings
}

// layTriangles closes the surface: first the skin between stations, bottom and
// sides, then the deck and both ends.
func (m *mesh) layTriangles(rings []ring) {
	deck := len(rings[0].port) - 1
	between := func(from, to int) {
		for i := 1; i < len(rings); i++ {
			fore, aft := &rings[i-1], &rings[i]
			for j := from; j < to; j++ {
				m.quad(fore.port[j-1], aft.port[j-1], aft.port[j], fore.port[j])
				m.quad(fore.starboard[j-1], fore.starboard[j], aft.starboard[j], aft.starboard[j-1]) // split along the same diagonal as to port
			}
		}
	}
	between(1, deck)
	m.skin = len(m.triangles)
	between(deck, deck+1)
	first, last := &rings[0], &rings[len(rings)-1]
	for j := 1; j < len(first.port); j++ {
		m.quad(first.port[j-1], first.port[j], first.starboard[j], first.starboard[j-1])
		m.quad(last.starboard[j-1], last.starboard[j], last.port[j], last.port[j-1])
	}
}

// quad adds a four-sided face as two triangles, leaving out those without area.
func (m *mesh) quad(a, b, c, d int32) {
	m.triangle(a, b, c)
	m.triangle(a, c, d)
}

func (m *mesh) triangle(a, b, c int32) {
	p, q, r := m.points[a], m.points[b], m.points[c]
	if p == q || q == r || r == p {
		return
	}
	m.triangles = append(m.triangles, [3]int32{a, b, c})
}
