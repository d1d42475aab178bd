package hull

import (
	"math"

	"foilwright/boat"
	"foilwright/fluid"
)

// Rest is a hull as it floats level and upright with the boat's whole weight on
// her hulls, in standard sea water: what residuary resistance and wetted length
// are measured by.
type Rest struct {
	Volume  float64 `json:"volume_m3"`
	Length  float64 `json:"waterline_length_m"`
	Beam    float64 `json:"waterline_beam_m"`
	Draught float64 `json:"draught_m"`
	Surface float64 `json:"wetted_area_m2"`
	Form

	spread float64 // standard deviation of the volume along x, m
}

// mostFilled is the share of all that her hulls hold at which a boat that is too
// heavy for them is measured.
const mostFilled = 0.95

// Holds returns the volume that a boat's hulls enclose, deck and all, m³.
func Holds(b *boat.Boat, w *Workspace) float64 {
	w.lay(b)
	v := 0.0
	for _, m := range w.level(-deep) {
		v += m.Volume
	}
	return v
}

// deep is a depth at which any boat is under water, m.
const deep = 1e4

// RestOf returns the hulls of a boat at rest, and the datum's height there, m.
// Hulls without sections are zero.
func RestOf(b *boat.Boat, w *Workspace) ([]Rest, float64) {
	w.lay(b)
	w.settle()
	all := make([]Rest, len(w.hulls))
	for i := range w.hulls {
		all[i] = w.hulls[i].rest
	}
	return all, w.height
}

// level returns the hulls as they lie level and upright with the datum at a
// height, m.
func (w *Workspace) level(height float64) []Immersed {
	pose := boat.Attitude{Height: height}.Pose()
	out := w.resting[:0]
	for i := range w.hulls {
		out = append(out, w.immerse(w.hulls[i].mesh, pose))
	}
	w.resting = out
	return out
}

// settle finds the boat's hulls at rest, once.
func (w *Workspace) settle() {
	if w.settled {
		return
	}
	w.settled = true
	all := Holds(w.boat, w)
	if all == 0 {
		return
	}
	want := math.Min(w.boat.Mass()/fluid.StandardSea().Density, mostFilled*all)
	w.height = w.levelHeight(want)
	at := w.level(w.height)
	for i := range w.hulls {
		h := &w.hulls[i]
		if h.mesh != nil && at[i].Volume > 0 {
			h.rest = h.mesh.measure(at[i], w.height)
		}
		h.drag = newResistance(&w.boat.Hulls[i], h.rest)
	}
}

// levelHeight returns the datum's height at which the hulls, level, displace a
// volume: Newton's method on the waterplane, kept between bounds.
func (w *Workspace) levelHeight(volume float64) float64 {
	low, high := math.Inf(1), math.Inf(-1) // of the hulls, over the datum
	for i := range w.hulls {
		if m := w.hulls[i].mesh; m != nil {
			for _, p := range m.points {
				low, high = math.Min(low, p[2]), math.Max(high, p[2])
			}
		}
	}
	deepest, highest := -high, -low
	at := (deepest + highest) / 2
	for range 100 {
		v, plane := 0.0, 0.0
		for _, m := range w.level(at) {
			v += m.Volume
			plane += m.Waterplane
		}
		if math.Abs(v-volume) <= 1e-13*volume {
			break
		}
		if v > volume {
			deepest = at
		} else {
			highest = at
		}
		next := at + (v-volume)/plane
		if !(next > deepest && next < highest) {
			next = (deepest + highest) / 2
		}
		if next == at {
			break
		}
		at = next
	}
	return at
}

// measure returns a hull's dimensions as it lies level.
func (m *mesh) measure(at Immersed, height float64) Rest {
	least, most := [3]float64{math.Inf(1), math.Inf(1), math.Inf(1)}, [3]float64{math.Inf(-1), math.Inf(-1), math.Inf(-1)}
	reach := func(p [3]float64) {
		for k, v := range p {
			least[k], most[k] = math.Min(least[k], v), math.Max(most[k], v)
		}
	}
	raised := func(i int32) [3]float64 {
		p := m.points[i]
		p[2] += height
		return p
	}
	for _, t := range m.triangles {
		for k := range 3 {
			p, q := raised(t[k]), raised(t[(k+1)%3])
			if p[2] <= 0 {
				reach(p)
			}
			if p[2] < 0 != (q[2] < 0) {
				reach(crossing(p, q))
			}
		}
	}
	r := Rest{
		Volume: at.Volume, Length: most[0] - least[0], Beam: most[1] - least[1], Draught: -least[2],
		Surface: at.Surface, spread: at.spread,
	}
	r.Form = Form{
		Centre:      (at.Centre.X - (most[0]+least[0])/2) / r.Length,
		Prismatic:   r.Volume / (r.Length * m.largestSection(height)),
		Slenderness: r.Length / math.Cbrt(r.Volume),
		BeamDraught: r.Beam / r.Draught,
		LengthBeam:  r.Length / r.Beam,
	}
	return r
}

// largestSection returns the largest area under water of any section as the hull
// lies level, m².
func (m *mesh) largestSection(height float64) float64 {
	largest := 0.0
	for i := range m.stations {
		s := &m.stations[i]
		area := 0.0
		for j := 1; j < len(s.y); j++ {
			y0, z0 := s.y[j-1], s.z[j-1]+m.lift+height
			y1, z1 := s.y[j], s.z[j]+m.lift+height
			if z0 >= 0 {
				break
			}
			if z1 > 0 {
				y1, z1 = y0+(y1-y0)*z0/(z0-z1), 0
			}
			area += (y0 + y1) * (z1 - z0)
		}
		largest = math.Max(largest, area)
	}
	return largest
}
