package hull

import (
	"fmt"
	"math"

	"foilwright/boat"
	"foilwright/si"
)

// Lines are a hull told by its main dimensions and coefficients, as it floats level
// at its design draught.
type Lines struct {
	Length    float64 // of the waterline, m
	Beam      float64 // of the waterline, m
	Draught   float64 // of the hull itself, m
	Block     float64 // displacement over length times beam times draught
	Prismatic float64 // displacement over length times the largest section's wet area
	Transom   float64 // area of the aft end's wet section over the largest, 0 to below 1
	Freeboard float64 // from the waterline to the sheer, m
	Middle    float64 // x of the middle of the waterline, m
}

// What the parent form spans: sections from a deep V to a box with rounded corners,
// and area curves from hollow to full. Judgement: yachts' lie well inside.
const (
	leastMidship, mostMidship = 0.50, 0.95
	leastFullness             = 0.45 // prismatic coefficient of a half without a transom
	mostFullness              = 0.75
)

// topsidesFlare is how far the topsides lean outward. Judgement.
const topsidesFlare = 8 * si.Degree

// Sections returns the sections of a parent form with these dimensions and
// coefficients, bow to stern, keel line's lowest point at height 0.
//
// The parent is invented for this purpose, in the manner of mathematical hulls
// (Wigley 1934 has parabolas): with ξ from −1 aft to 1 forward over the waterline,
// sectional areas are (1 − ξ²)^m forward, and aft the same upon a transom's share τ,
// τ + (1 − τ)(1 − ξ²)^m; half-breadth and draught of each section are its root each, so
// that all sections are alike; from the keel up a section's half-breadth grows as
// the nth power of height, and topsides flare by 8° above the waterline. The
// prismatic coefficient gives m, block over prismatic n: the area under the points
// that are returned is exactly that of the largest section; the volume of the
// surface laid through them is within 0.8 % of what is asked over the range, 0.55 %
// for prismatic coefficients of 0.52 to 0.70 (held by a test). Left out: flat runs, chines, rocker that is not that of the areas, a bow that is finer
// than the stern.
//
// Errors tell which coefficient no hull of this form can have.
func (l Lines) Sections() ([]boat.HullSection, error) {
	if !(l.Length > 0 && l.Beam > 0 && l.Draught > 0 && l.Freeboard > 0) {
		return nil, fmt.Errorf("length, beam, draught and freeboard must be above 0\nhint: write them with their units, as in draught: 0.45 m")
	}
	if !(l.Transom >= 0 && l.Transom < 1) {
		return nil, fmt.Errorf("transom %.3g is no share of the largest section, 0 to below 1 is wanted\nhint: leave it out for a pointed stern", l.Transom)
	}
	midship := l.Block / l.Prismatic
	if !(midship >= leastMidship && midship <= mostMidship) {
		return nil, fmt.Errorf("block %.3g over prismatic %.3g makes a largest section that fills %.3g of its rectangle, %g to %g is wanted\nhint: both count the hull without its fins",
			l.Block, l.Prismatic, midship, leastMidship, mostMidship)
	}
	fullness := (l.Prismatic - l.Transom/2) / (1 - l.Transom/2)
	if !(fullness >= leastFullness && fullness <= mostFullness) {
		return nil, fmt.Errorf("prismatic coefficient %.3g with a transom of %.3g leaves %.3g to the ends, %g to %g is wanted\nhint: usual are 0.52 to 0.60, more with a wide transom",
			l.Prismatic, l.Transom, fullness, leastFullness, mostFullness)
	}
	m := root(0.05, 8, func(m float64) float64 { return fullness - endFullness(m) })
	n := root(0.02, 2, func(n float64) float64 { return midship - filled(n) })
	var out []boat.HullSection
	for _, xi := range [...]float64{1, 0.95, 0.8, 0.55, 0.28, 0, -0.28, -0.55, -0.8, -0.95, -1} {
		area := math.Pow(1-xi*xi, m)
		if xi < 0 {
			area = l.Transom + (1-l.Transom)*area
		}
		out = append(out, l.section(xi, math.Sqrt(area), n))
	}
	return out, nil
}

// heights are where a section's points lie between keel and waterline.
func heights() [5]float64 { return [...]float64{0, 0.05, 0.2, 0.5, 1} }

// section returns the section at ξ, of a scale over the largest one's.
func (l Lines) section(xi, scale, n float64) boat.HullSection {
	s := boat.HullSection{X: l.Middle + xi*l.Length/2}
	half := scale * l.Beam / 2
	if scale > 0 {
		for _, h := range heights() {
			s.Points = append(s.Points, [2]float64{half * math.Pow(h, n), l.Draught * (1 - scale*(1-h))})
		}
	} else {
		s.Points = append(s.Points, [2]float64{0, l.Draught})
	}
	s.Points = append(s.Points, [2]float64{half + l.Freeboard*math.Tan(topsidesFlare.Radians()), l.Draught + l.Freeboard})
	return s
}

// filled is how much of its rectangle a section fills, straight between its points.
func filled(n float64) float64 {
	sum := 0.0
	h := heights()
	for i := 1; i < len(h); i++ {
		sum += (math.Pow(h[i-1], n) + math.Pow(h[i], n)) / 2 * (h[i] - h[i-1])
	}
	return sum
}

// endFullness is the mean of (1 − ξ²)^m over ξ from 0 to 1: √π Γ(m+1) / (2 Γ(m+3/2)).
func endFullness(m float64) float64 {
	above, _ := math.Lgamma(m + 1)
	below, _ := math.Lgamma(m + 1.5)
	return math.SqrtPi / 2 * math.Exp(above-below)
}

// root returns where a rising function crosses 0 between bounds, by halving.
func root(low, high float64, f func(float64) float64) float64 {
	for range 60 {
		if mid := (low + high) / 2; f(mid) < 0 {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2
}
