package lattice

import "math"

// nodes are the ends of the bound vortices, each once where neighbours share
// it, with room for what one target sees of them. A leg leaves every node.
type nodes struct {
	x, y, z []float64
	core4   []float64 // core radius to the fourth power, m⁴
	surface []int

	dx, dy, dz []float64 // target minus node
	r          []float64 // distance
	legV, legW []float64 // 4π times the velocity of the leg of unit circulation
}

func (m *nodes) reset() {
	m.x, m.y, m.z, m.core4, m.surface = m.x[:0], m.y[:0], m.z[:0], m.core4[:0], m.surface[:0]
}

// add returns the index of the node at p, which is one of the last two or new.
func (m *nodes) add(p [3]float64, surface int, core4 float64, last [2]int) int {
	for _, k := range last {
		if k >= 0 && m.x[k] == p[0] && m.y[k] == p[1] && m.z[k] == p[2] && m.surface[k] == surface && m.core4[k] == core4 {
			return k
		}
	}
	m.x, m.y, m.z = append(m.x, p[0]), append(m.y, p[1]), append(m.z, p[2])
	m.core4 = append(m.core4, core4)
	m.surface = append(m.surface, surface)
	return len(m.x) - 1
}

// ready makes room for one target's view.
func (m *nodes) ready() {
	n := len(m.x)
	m.dx, m.dy, m.dz = sized(m.dx, n), sized(m.dy, n), sized(m.dz, n)
	m.r, m.legV, m.legW = sized(m.r, n), sized(m.legV, n), sized(m.legW, n)
}

// sized returns s at length n, with new memory only where it must grow.
func sized[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n, n+n/2)
	}
	return s[:n]
}

// axis is the squared distance, m², below which a target is on a vortex's own
// line and feels nothing of it.
const axis = 1e-24

// see fills distances and legs for the target (x, y, z) on surface own.
//
// A leg of unit circulation from the origin to x = −∞ induces
// (0, Z, −Y) (R − X) / (4π R q) at (X, Y, Z), with q = Y² + Z² and R² = X² + q
// (Biot and Savart). Ahead of the node (R − X)/q is written 1/(R + X), which
// keeps its digits. On another surface q is smoothed to √(q² + a⁴), a the
// core's radius (Vatistas, Kozel and Mih 1991, Experiments in Fluids 11,
// exponent 2), a close fit to a laminar core that leaves the far field alone.
func (m *nodes) see(x, y, z float64, own int) {
	n := len(m.x)
	nx, ny, nz, surface, core4 := m.x[:n], m.y[:n], m.z[:n], m.surface[:n], m.core4[:n]
	dxs, dys, dzs, rs, legV, legW := m.dx[:n], m.dy[:n], m.dz[:n], m.r[:n], m.legV[:n], m.legW[:n]
	for k := range n {
		dx, dy, dz := x-nx[k], y-ny[k], z-nz[k]
		q := dy*dy + dz*dz
		r := math.Sqrt(dx*dx + q)
		over, under := r-dx, r*q
		if surface[k] != own {
			under = r * math.Sqrt(q*q+core4[k])
		} else if dx > 0 {
			over, under = 1, r*(r+dx)
		}
		f := 0.0
		if q > axis && r > 0 {
			f = over / under
		}
		dxs[k], dys[k], dzs[k], rs[k] = dx, dy, dz, r
		legV[k], legW[k] = f*dz, -f*dy
	}
}

// bound returns 4π times the velocity of the bound vortex of unit circulation
// from node a to node b at the target that see was called for:
// (rₐ × r_b)(|rₐ| + |r_b|) / (|rₐ||r_b|(|rₐ||r_b| + rₐ·r_b)) (Biot and
// Savart; Katz and Plotkin 2001, sec. 2.12, in another form). Between the ends
// |rₐ||r_b| + rₐ·r_b is written |rₐ × r_b|²/(|rₐ||r_b| − rₐ·r_b).
func (m *nodes) bound(a, b int) (u, v, w float64) {
	ax, ay, az, bx, by, bz := m.dx[a], m.dy[a], m.dz[a], m.dx[b], m.dy[b], m.dz[b]
	cx, cy, cz := ay*bz-az*by, az*bx-ax*bz, ax*by-ay*bx
	ra, rb := m.r[a], m.r[b]
	product := ra * rb
	dot := ax*bx + ay*by + az*bz
	g := 0.0
	if dot > 0 {
		g = (ra + rb) / (product * (product + dot))
	} else if square := cx*cx + cy*cy + cz*cz; square > axis*product {
		g = (ra + rb) * (product - dot) / (product * square)
	}
	return g * cx, g * cy, g * cz
}

// wash adds to row 4π times the velocity along n that each panel of unit
// circulation induces at the target that see was called for. It is bound,
// written out: a call each would cost a quarter of the time of a state.
func (w *Workspace) wash(row []float64, nx, ny, nz float64) {
	m := &w.nodes
	k := len(m.x)
	dx, dy, dz, r, legV, legW := m.dx[:k], m.dy[:k], m.dz[:k], m.r[:k], m.legV[:k], m.legW[:k]
	from, to := w.from[:len(row)], w.to[:len(row)]
	for j := range row {
		a, b := from[j], to[j]
		ax, ay, az, bx, by, bz := dx[a], dy[a], dz[a], dx[b], dy[b], dz[b]
		cx, cy, cz := ay*bz-az*by, az*bx-ax*bz, ax*by-ay*bx
		ra, rb := r[a], r[b]
		product, dot := ra*rb, ax*bx+ay*by+az*bz
		over, under := ra+rb, product*(product+dot)
		if dot <= 0 {
			square := cx*cx + cy*cy + cz*cz
			over, under = over*(product-dot), product*square
			if square <= axis*product {
				over, under = 0, 1
			}
		}
		row[j] += over/under*(nx*cx+ny*cy+nz*cz) + ny*(legV[b]-legV[a]) + nz*(legW[b]-legW[a])
	}
}

// mirror returns the signs that turn the velocity at the reflected target into
// that of the image at the target itself. A lattice that induces (u, v, w) at
// (x, y, −z) has an image of the same circulation that induces (−u, −v, w) at
// (x, y, z): the bound vortices keep their sense on the reflected curve. The
// wall's image is the opposite.
func (b Boundary) mirror() (u, v, w float64) {
	switch b {
	case FreeSurface:
		return -1, -1, 1
	case Wall:
		return 1, 1, -1
	}
	return 0, 0, 0
}
