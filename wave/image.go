package wave

import "math"

// leg is a trailing leg's trace in a plane across the stream far behind.
type leg struct {
	y, z        float64
	core4       float64 // core radius to the fourth power, m⁴
	circulation float64 // that leaves the node, m²/s
	surface     int
}

// images are the legs, each once where neighbours share it, and what the force
// points see of their images.
type images struct {
	legs       []leg
	legRuns    []run
	y, z       []float64 // of the force points, mirrored
	core4      []float64 // of their own strips' legs, m⁴
	up, across []float64
	runs       []run
}

// add puts a leg of the given circulation at p, into one of the last two where it
// is the same.
func (m *images) add(p [3]float64, surface int, core4, circulation float64) {
	for k := max(0, len(m.legs)-2); k < len(m.legs); k++ {
		if l := &m.legs[k]; l.y == p[1] && l.z == p[2] && l.surface == surface && l.core4 == core4 {
			l.circulation += circulation
			return
		}
	}
	m.legs = append(m.legs, leg{p[1], p[2], core4, circulation, surface})
	m.legRuns = grow(m.legRuns, surface)
}

// axis is the squared distance, m², below which a target is on a leg's own line
// and feels nothing of it.
const axis = 1e-24

// image returns factor times what the image of the same circulation adds to the
// induced drag over density, m⁴/s², and adds the strips' shares: half of what
// the bound vortices would suffer in the image's wash far behind (Prandtl 1918;
// Munk 1921, NACA Report 121), at the force points, from the legs at the ends.
// A lattice forms its far-wake drag in the same way, so that what is taken off
// here is what was put on there, to the last digits.
func (w *Workspace) image(s *Strips, factor float64, perStrip []float64) float64 {
	if s.Image == nil {
		return w.findImage(s, factor, perStrip)
	}
	total := 0.0
	for i, drag := range s.Image {
		total += factor * drag
		if perStrip != nil {
			perStrip[i] += factor * drag
		}
	}
	return total
}

// findImage is image where it is to be found.
func (w *Workspace) findImage(s *Strips, factor float64, perStrip []float64) float64 {
	m, n := &w.images, s.Len()
	m.legs, m.legRuns, m.runs = m.legs[:0], m.legRuns[:0], m.runs[:0]
	m.y, m.z, m.up, m.across, m.core4 = sized(m.y, n), sized(m.z, n), sized(m.up, n), sized(m.across, n), sized(m.core4, n)
	clear(m.up)
	clear(m.across)
	for i, g := range s.Circulation {
		core4 := s.Core[i] * s.Core[i] * s.Core[i] * s.Core[i]
		m.add(s.A[i], s.Surface[i], core4, -g)
		m.add(s.B[i], s.Surface[i], core4, g)
		m.y[i], m.z[i], m.core4[i] = s.Mid[i][1], -s.Mid[i][2], core4
		m.runs = grow(m.runs, s.Surface[i])
	}
	for _, at := range m.runs {
		for _, of := range m.legRuns {
			image(m.legs[of.from:of.to], m, at.from, at.to, at.surface == of.surface)
		}
	}
	total := 0.0
	for i, g := range s.Circulation {
		a, b := &s.A[i], &s.B[i]
		share := factor * g * (m.across[i]*(b[2]-a[2]) - m.up[i]*(b[1]-a[1])) / (4 * math.Pi)
		total += share
		if perStrip != nil {
			perStrip[i] += share
		}
	}
	return total
}
