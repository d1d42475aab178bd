package wave

import "math"

// nodes are the strips' traces in a plane across the stream far behind, each
// once where neighbours share it, with the circulation of the leg.
type nodes struct {
	y, z    []float64
	core4   []float64 // core radius to the fourth power, m⁴
	surface []int
	leg     []float64 // circulation that leaves the node, m²/s
}

// add puts a leg of the given circulation at p, into the last node where it is
// the same.
func (m *nodes) add(p [3]float64, surface int, core4, leg float64) {
	for k := max(0, len(m.y)-2); k < len(m.y); k++ {
		if m.y[k] == p[1] && m.z[k] == p[2] && m.surface[k] == surface && m.core4[k] == core4 {
			m.leg[k] += leg
			return
		}
	}
	m.y, m.z = append(m.y, p[1]), append(m.z, p[2])
	m.core4, m.surface, m.leg = append(m.core4, core4), append(m.surface, surface), append(m.leg, leg)
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
	m := &w.nodes
	m.y, m.z, m.core4, m.surface, m.leg = m.y[:0], m.z[:0], m.core4[:0], m.surface[:0], m.leg[:0]
	for i, g := range s.Circulation {
		core4 := s.Core[i] * s.Core[i] * s.Core[i] * s.Core[i]
		m.add(s.A[i], s.Surface[i], core4, -g)
		m.add(s.B[i], s.Surface[i], core4, g)
	}
	total := 0.0
	for i, g := range s.Circulation {
		a, b, p := s.A[i], s.B[i], s.Mid[i]
		up, across := m.wash(p[1], p[2], s.Surface[i])
		share := factor * g * (across*(b[2]-a[2]) - up*(b[1]-a[1])) / (4 * math.Pi)
		total += share
		if perStrip != nil {
			perStrip[i] += share
		}
	}
	return total
}

// wash returns 2π times the velocity up and across, to port, at (y, z) from the
// image of the legs, smoothed by the core where they act on another surface
// (Vatistas, Kozel and Mih 1991, Experiments in Fluids 11, exponent 2).
func (m *nodes) wash(y, z float64, own int) (up, across float64) {
	n := len(m.y)
	ny, nz, core4, surface, leg := m.y[:n], m.z[:n], m.core4[:n], m.surface[:n], m.leg[:n]
	for j := range n {
		dy, down := y-ny[j], -z-nz[j]
		q := dy*dy + down*down
		if surface[j] != own {
			q = math.Sqrt(q*q + core4[j])
		}
		if q <= axis {
			continue
		}
		f := leg[j] / q
		up += f * dy
		across += f * down
	}
	return up, across
}
