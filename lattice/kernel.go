package lattice

import "math"

// between is the share of |rₐ||r_b| up to which |rₐ||r_b| + rₐ·r_b loses digits: the
// target lies between a bound vortex's ends, close to it.
const between = 1e-3

// axis is the squared distance, m², below which a target is on a vortex's own
// line and feels nothing of it.
const axis = 1e-24

// mirror returns what the image of a boundary counts. A lattice that induces
// (u, v, w) at (x, y, −z) has an image of the same circulation that induces
// −(u, v, −w) at (x, y, z): the bound vortices keep their sense on the reflected
// curve. The wall's image is the opposite.
func (b Boundary) mirror() float64 {
	switch b {
	case FreeSurface:
		return -1
	case Wall:
		return 1
	}
	return 0
}

// The order of operations below is that of the vector kernel, so that both give
// the same bits.

// influenceScalar writes to into, one row of stride values for each source, the
// velocity along the targets' directions that the panels of unit circulation and
// their images induce at the targets from one to before another. The image counts
// mirror times what the panels induce at the targets' reflections along the reflected
// directions, see Boundary.mirror.
//
// A leg of unit circulation from the origin to x = −∞ induces
// (0, Z, −Y) (R − X) / (4π R q) at (X, Y, Z), with q = Y² + Z² and R² = X² + q
// (Biot and Savart). Ahead of the node (R − X)/q is written 1/(R + X), which
// keeps its digits. On another surface q is smoothed to √(q² + a⁴), a the
// core's radius (Vatistas, Kozel and Mih 1991, Experiments in Fluids 11,
// exponent 2), a close fit to a laminar core that leaves the far field alone. Where legs
// meet another surface the fourth powers of their core and of its own legs' add: what is
// felt at its strips' middles alone must not change more sharply than these lie apart.
//
// A bound vortex of unit circulation from a to b induces
// (rₐ × r_b)(|rₐ| + |r_b|) / (4π |rₐ||r_b|(|rₐ||r_b| + rₐ·r_b)) (Biot and
// Savart; Katz and Plotkin 2001, sec. 2.12, in another form). Close between the ends
// |rₐ||r_b| + rₐ·r_b is written |rₐ × r_b|²/(|rₐ||r_b| − rₐ·r_b).
//
// A step costs a root and a division, which its leg and its panel share, and the same
// again for the image, which shares all that is along the surface.
func influenceScalar(steps []step, t *targets, from, to int, own bool, mirror float64, into []float64, stride int) {
	for i := from; i < to; i++ {
		x, y, z := t.x[i], t.y[i], t.z[i]
		u, v, w, below := t.u[i], t.v[i], t.w[i], 0-z
		// Ways from a step, at the target's reflection as far along and across, their
		// lengths and what the leg does; for the image with an m.
		var ax, ay, az, azM, ra, raM, legA, legAM, sideA float64
		for k := range steps {
			n := &steps[k]
			bx, by, bz, bzM := x-n.x, y-n.y, z-n.z, below-n.z
			along, across := bx*bx, by*by
			q, qM := across+bz*bz, across+bzM*bzM
			rb, rbM := math.Sqrt(along+q), math.Sqrt(along+qM)
			flat, twist := ax*bx+ay*by, w*(ax*by-ay*bx)
			dot, dotM := flat+az*bz, flat+azM*bzM
			product, productM := ra*rb, raM*rbM
			overBound, overBoundM := ra+rb, raM+rbM
			underBound, underBoundM := product*(product+dot), productM*(productM+dotM)
			switch {
			case n.source == first:
				underBound, underBoundM = 1, 1
			case product+dot <= between*product || productM+dotM <= between*productM:
				cz := ax*by - ay*bx
				if product+dot <= between*product {
					cx, cy := ay*bz-az*by, az*bx-ax*bz
					square := cx*cx + cy*cy + cz*cz
					overBound, underBound = overBound*(product-dot), product*square
					if square <= axis*product {
						overBound, underBound = 0, 1
					}
				}
				if productM+dotM <= between*productM {
					cx, cy := ay*bzM-azM*by, azM*bx-ax*bzM
					square := cx*cx + cy*cy + cz*cz
					overBoundM, underBoundM = overBoundM*(productM-dotM), productM*square
					if square <= axis*productM {
						overBoundM, underBoundM = 0, 1
					}
				}
			}
			over, overM, under, underM := rb-bx, rbM-bx, rb*q, rbM*qM
			if !own {
				core4 := n.core4 + t.core4[i]
				under, underM = rb*math.Sqrt(q*q+core4), rbM*math.Sqrt(qM*qM+core4)
			} else if bx > 0 {
				over, overM, under, underM = 1, 1, rb*(rb+bx), rbM*(rbM+bx)
			}
			if q <= axis {
				over, under = 0, 1
			}
			if qM <= axis {
				overM, underM = 0, 1
			}
			lateral, sideB := w*by, u*by-v*bx
			turn, turnM := v*bz-lateral, v*bzM+lateral
			legB, legBM := over*turn/under, overM*turnM/underM
			bound := overBound * (bz*sideA - az*sideB + twist) / underBound // (u, v, w)·(rₐ × r_b)
			boundM := overBoundM * (bzM*sideA - azM*sideB - twist) / underBoundM
			if n.source != first {
				into[n.source*stride+i] = n.scale * (bound + (legB - legA) + mirror*(boundM+(legBM-legAM)))
			}
			ax, ay, az, azM, ra, raM, legA, legAM, sideA = bx, by, bz, bzM, rb, rbM, legB, legBM, sideB
		}
	}
}

// farScalar writes to into, one row of stride values for each source, the far
// wake's half of the velocity along the targets' directions (v, w) in the plane
// across the stream: (Z, −Y)/(4π(Y² + Z²)) of a unit vortex along −x at each
// step, smoothed as in influenceScalar, with its image, which counts mirror times what
// the steps do at the targets' reflections; and to image that of the image alone.
func farScalar(steps []step, t *targets, from, to int, own bool, mirror float64, into, image []float64, stride int) {
	for i := from; i < to; i++ {
		y, z, v, w := t.y[i], t.z[i], t.v[i], t.w[i]
		mirroredV, mirroredW := mirror*v, -mirror*w
		legA, imageA := 0.0, 0.0
		thin := axisOf(own)
		for k := range steps {
			n := &steps[k]
			dy, up, down := y-n.y, z-n.z, -z-n.z
			square := dy * dy
			q, mirroredQ := square+up*up, square+down*down
			turn, mirroredTurn := v*up-w*dy, mirroredV*down-mirroredW*dy
			if !own {
				core4 := n.core4 + t.core4[i]
				q, mirroredQ = q*q+core4, mirroredQ*mirroredQ+core4
			}
			if q <= thin {
				turn, q = 0, 1
			}
			if mirroredQ <= thin {
				mirroredTurn, mirroredQ = 0, 1
			}
			// One division for both: it takes longest.
			both := 1 / (q * mirroredQ)
			each, mirroredEach := mirroredQ*both, q*both
			if !own {
				each, mirroredEach = math.Sqrt(each), math.Sqrt(mirroredEach)
			}
			legB, imageB := turn*each, mirroredTurn*mirroredEach
			legB += imageB
			if n.source != first {
				into[n.source*stride+i] = n.scale * (legB - legA)
				image[n.source*stride+i] = n.scale * (imageB - imageA)
			}
			legA, imageA = legB, imageB
		}
	}
}

// axisOf is axis as farScalar compares it: the square of a distance, or to the fourth
// power.
func axisOf(own bool) float64 {
	if own {
		return axis
	}
	return axis * axis
}

// addProductsScalar adds to into the rows of a matrix, stride apart and as long
// as into, times the values of by, row after row.
func addProductsScalar(into, matrix []float64, stride int, by []float64) {
	n, j := len(into), 0
	for ; j+4 <= len(by); j += 4 {
		g0, g1, g2, g3 := by[j], by[j+1], by[j+2], by[j+3]
		r0, r1 := matrix[j*stride:][:n], matrix[(j+1)*stride:][:n]
		r2, r3 := matrix[(j+2)*stride:][:n], matrix[(j+3)*stride:][:n]
		for i, v := range into {
			v += g0 * r0[i]
			v += g1 * r1[i]
			v += g2 * r2[i]
			v += g3 * r3[i]
			into[i] = v
		}
	}
	for ; j < len(by); j++ {
		g, row := by[j], matrix[j*stride:][:n]
		for i, v := range row {
			into[i] += g * v
		}
	}
}
