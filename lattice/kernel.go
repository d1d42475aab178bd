package lattice

import "math"

// axis is the squared distance, m², below which a target is on a vortex's own
// line and feels nothing of it.
const axis = 1e-24

// sight is how targets see steps.
type sight struct {
	own     bool    // the steps are on the targets' own surface
	image   bool    // adds to what is there, from the targets' reflections
	u, v, w float64 // signs of the targets' directions
}

// direct and image return the sights of a boundary. A lattice that induces
// (u, v, w) at (x, y, −z) has an image of the same circulation that induces
// (−u, −v, w) at (x, y, z): the bound vortices keep their sense on the reflected
// curve. The wall's image is the opposite.
func direct(own bool) sight { return sight{own: own, u: 1, v: 1, w: 1} }

func (b Boundary) image(own bool) sight {
	u, v, w := b.mirror()
	return sight{own: own, image: true, u: u, v: v, w: w}
}

// mirror returns the signs that turn the velocity at the reflected target into
// that of the image at the target itself.
func (b Boundary) mirror() (u, v, w float64) {
	switch b {
	case FreeSurface:
		return -1, -1, 1
	case Wall:
		return 1, 1, -1
	}
	return 0, 0, 0
}

// The order of operations below is that of the vector kernel, so that both give
// the same bits.

// influenceScalar writes to into, one row of stride values for each source, the
// velocity along the targets' directions that the panels of unit circulation
// induce at the targets from one to before another.
//
// A leg of unit circulation from the origin to x = −∞ induces
// (0, Z, −Y) (R − X) / (4π R q) at (X, Y, Z), with q = Y² + Z² and R² = X² + q
// (Biot and Savart). Ahead of the node (R − X)/q is written 1/(R + X), which
// keeps its digits. On another surface q is smoothed to √(q² + a⁴), a the
// core's radius (Vatistas, Kozel and Mih 1991, Experiments in Fluids 11,
// exponent 2), a close fit to a laminar core that leaves the far field alone.
//
// A bound vortex of unit circulation from a to b induces
// (rₐ × r_b)(|rₐ| + |r_b|) / (4π |rₐ||r_b|(|rₐ||r_b| + rₐ·r_b)) (Biot and
// Savart; Katz and Plotkin 2001, sec. 2.12, in another form). Between the ends
// |rₐ||r_b| + rₐ·r_b is written |rₐ × r_b|²/(|rₐ||r_b| − rₐ·r_b).
//
// A step costs one root and one division, which its leg and its panel share.
func influenceScalar(steps []step, t *targets, from, to int, s sight, into []float64, stride int) {
	for i := from; i < to; i++ {
		x, y, z := t.x[i], t.y[i], t.z[i]
		u, v, w := s.u*t.u[i], s.v*t.v[i], s.w*t.w[i]
		if s.image {
			z = -z
		}
		var ax, ay, az, ra, legA float64
		for k := range steps {
			n := &steps[k]
			bx, by, bz := x-n.x, y-n.y, z-n.z
			q := by*by + bz*bz
			rb := math.Sqrt(bx*bx + q)
			over, under := rb-bx, rb*q
			if !s.own {
				under = rb * math.Sqrt(q*q+n.core4)
			} else if bx > 0 {
				over, under = 1, rb*(rb+bx)
			}
			if q <= axis {
				over, under = 0, 1
			}
			turn := v*bz - w*by
			if n.source == first {
				ax, ay, az, ra, legA = bx, by, bz, rb, over/under*turn
				continue
			}
			cx, cy, cz := ay*bz-az*by, az*bx-ax*bz, ax*by-ay*bx
			product, dot := ra*rb, ax*bx+ay*by+az*bz
			overBound, underBound := ra+rb, product*(product+dot)
			if dot <= 0 {
				square := cx*cx + cy*cy + cz*cz
				overBound, underBound = overBound*(product-dot), product*square
				if square <= axis*product {
					overBound, underBound = 0, 1
				}
			}
			inverse := 1 / (under * underBound)
			legB := over * (underBound * inverse) * turn
			bound := overBound * (under * inverse) * (u*cx + v*cy + w*cz)
			velocity := n.scale * (bound + (legB - legA))
			if s.image {
				velocity += into[n.source*stride+i]
			}
			into[n.source*stride+i] = velocity
			ax, ay, az, ra, legA = bx, by, bz, rb, legB
		}
	}
}

// farScalar writes to into, one row of stride values for each source, the far
// wake's half of the velocity along the targets' directions (v, w) in the plane
// across the stream: (Z, −Y)/(4π(Y² + Z²)) of a unit vortex along −x at each
// step, smoothed as in influenceScalar, with its image, whose signs the sight
// holds; and to mirror that of the image alone.
func farScalar(steps []step, t *targets, from, to int, s sight, into, mirror []float64, stride int) {
	for i := from; i < to; i++ {
		y, z, v, w := t.y[i], t.z[i], t.v[i], t.w[i]
		mirroredV, mirroredW := s.v*v, s.w*w
		legA, imageA := 0.0, 0.0
		for k := range steps {
			n := &steps[k]
			dy, up, down := y-n.y, z-n.z, -z-n.z
			square := dy * dy
			q, mirroredQ := square+up*up, square+down*down
			if !s.own {
				q, mirroredQ = math.Sqrt(q*q+n.core4), math.Sqrt(mirroredQ*mirroredQ+n.core4)
			}
			turn, mirroredTurn := v*up-w*dy, mirroredV*down-mirroredW*dy
			if q <= axis {
				turn, q = 0, 1
			}
			if mirroredQ <= axis {
				mirroredTurn, mirroredQ = 0, 1
			}
			legB, imageB := turn/q, mirroredTurn/mirroredQ
			legB += imageB
			if n.source != first {
				into[n.source*stride+i] = n.scale * (legB - legA)
				mirror[n.source*stride+i] = n.scale * (imageB - imageA)
			}
			legA, imageA = legB, imageB
		}
	}
}

// addProductsScalar adds to into the rows of a matrix, stride apart and as long
// as into, times the values of by, row after row.
func addProductsScalar(into, matrix []float64, stride int, by []float64) {
	for j, g := range by {
		row := matrix[j*stride:][:len(into)]
		for i, v := range row {
			into[i] += g * v
		}
	}
}
