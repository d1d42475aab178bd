package lattice

import "math"

// Station is the section of a surface at one place along its span.
type Station struct {
	Quarter [3]float64 // quarter-chord point, m
	Aft     [3]float64 // unit vector along the chord towards the trailing edge
	Chord   float64    // chord, m
	Normal  [3]float64 // unit normal on the side that counts as positive lift
}

// Spacing says how nodes lie along a span. The zero value is CosineBoth, which
// serves joined ends as well as free ones: halves of a wing that meet give the
// same lift as the whole, and corners converge faster than with the nodes
// crowded at the free end only. Those suit nothing but an end that carries
// straight on into a mirrored span; at a corner, and where a neighbour's
// strips have another width, they are several times worse.
type Spacing int

const (
	// CosineBoth crowds nodes at both ends.
	CosineBoth Spacing = iota
	// CosineStart crowds nodes at the start only.
	CosineStart
	// CosineEnd crowds nodes at the end only.
	CosineEnd
)

// at returns the share of the span at the share t of the angle.
func (s Spacing) at(t float64) float64 {
	switch s {
	case CosineStart:
		return 1 - math.Cos(t*math.Pi/2)
	case CosineEnd:
		return math.Sin(t * math.Pi / 2)
	}
	// The square of the half angle's sine keeps digits near the start.
	h := math.Sin(t * math.Pi / 2)
	return h * h
}

// node returns the span coordinate at the share t of the angle, exactly s0 and
// s1 at the ends, where neighbours meet and the water surface cuts.
func (s Spacing) node(s0, s1, t float64) float64 {
	switch t {
	case 0:
		return s0
	case 1:
		return s1
	}
	return s0 + (s1-s0)*s.at(t)
}

// AppendSpan cuts the interval from s0 to s1 of a surface into strips with
// cosine-spaced nodes, and each strip into rows, and appends the panels, rows
// from the leading edge aft, each along the span, so that neighbours share their
// wake legs. Nodes are spaced by CosineBoth. Strips are numbered on from
// those that the set holds. core is the radius of the wake legs where they act
// on another surface, m. Nothing is appended where strips or rows is below 1.
//
// Rows lie at the angles of the Gauss–Jacobi rule for the flat plate's load:
// of m rows, bound vortex k at the share (1 − cos((2k−1)π/(2m+1)))/2 of the
// chord and control point k at (1 − cos(2kπ/(2m+1)))/2, k from 1 (Stark 1971,
// AIAA Journal 9, p. 1854; cited from memory, the rule is held by a test). One
// row is the quarter and three-quarter chord; in two dimensions lift and moment
// of a plate are exact for any number.
func AppendSpan(p *Panels, span func(s float64) Station, s0, s1 float64, strips, rows int, surface int, core float64) {
	AppendSpaced(p, span, s0, s1, strips, rows, CosineBoth, surface, core)
}

// AppendSpaced is AppendSpan with another spacing of the nodes.
func AppendSpaced(p *Panels, span func(s float64) Station, s0, s1 float64, strips, rows int, spacing Spacing, surface int, core float64) {
	if strips < 1 {
		return
	}
	stations := make([]Station, 2*strips+1)
	for k := range stations {
		stations[k] = span(spacing.node(s0, s1, float64(k)/float64(2*strips)))
	}
	AppendStations(p, stations, rows, surface, core)
}

// AppendShares appends the shares of a span, 0 to 1, at which strips begin, have
// their middles and end: two for each strip and one.
func (s Spacing) AppendShares(shares []float64, strips int) []float64 {
	for k := range 2*strips + 1 {
		shares = append(shares, s.node(0, 1, float64(k)/float64(2*strips)))
	}
	return shares
}

// AppendStations appends the panels of a surface whose stations are known, as
// AppendSpan does: those at which strips begin, have their middles and end, one
// after another along the span. Of the ends of strips the normals do not count.
func AppendStations(p *Panels, stations []Station, rows int, surface int, core float64) {
	first, strips := p.Strips(), len(stations)/2
	for row := 1; row <= rows; row++ {
		bound, control := oneRow[0], oneRow[1]
		if rows > 1 {
			bound, control = chordShare(2*row-1, rows), chordShare(2*row, rows)
		}
		left := stations[0].point(bound)
		at := p.grow(strips)
		for i := range strips {
			mid, right := &stations[2*i+1], stations[2*i+2].point(bound)
			p.A[at], p.B[at] = left, right
			if n := &mid.Normal; n[1]*(right[2]-left[2])-n[2]*(right[1]-left[1]) < 0 {
				p.A[at], p.B[at] = right, left
			}
			p.Mid[at], p.Control[at] = mid.point(bound), mid.point(control)
			p.Normal[at], p.Chord[at] = mid.Normal, mid.Chord
			p.Strip[at], p.Surface[at], p.Core[at] = first+i, surface, core
			left = right
			at++
		}
	}
}

// oneRow are the shares of the chord of one row's bound vortex and control point.
var oneRow = [2]float64{chordShare(1, 1), chordShare(2, 1)}

// chordShare returns the share of the chord at the angle kπ/(2·rows+1).
func chordShare(k, rows int) float64 {
	h := math.Sin(float64(k) * math.Pi / float64(2*(2*rows+1)))
	return h * h
}

// point returns the point at the share x of the chord, 0 the leading edge.
func (s *Station) point(x float64) [3]float64 {
	d := (x - 0.25) * s.Chord
	return [3]float64{s.Quarter[0] + d*s.Aft[0], s.Quarter[1] + d*s.Aft[1], s.Quarter[2] + d*s.Aft[2]}
}
