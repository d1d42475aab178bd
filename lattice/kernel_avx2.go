//go:build goexperiment.simd && amd64

package lattice

import "simd/archsimd"

// This file is made from kernel_avx512.go: see there.

// lanes4 are so many numbers at once.
type lanes4 = archsimd.Float64x4

const width4 = 4

func each4(x float64) lanes4   { return archsimd.BroadcastFloat64x4(x) }
func load4(x []float64) lanes4 { return archsimd.LoadFloat64x4Slice(x) }

// influence4 is influenceScalar for a whole number of lanes.
func influence4(steps []step, t *targets, from, to int, s sight, into []float64, stride int) {
	one, zero, thin := each4(1), each4(0), each4(axis)
	for i := from; i < to; i += width4 {
		x, y, z := load4(t.x[i:]), load4(t.y[i:]), load4(t.z[i:])
		u, v, w := each4(s.u).Mul(load4(t.u[i:])), each4(s.v).Mul(load4(t.v[i:])), each4(s.w).Mul(load4(t.w[i:]))
		if s.image {
			z = zero.Sub(z)
		}
		var ax, ay, az, ra, legA lanes4
		for k := range steps {
			n := &steps[k]
			bx, by, bz := x.Sub(each4(n.x)), y.Sub(each4(n.y)), z.Sub(each4(n.z))
			q := by.Mul(by).Add(bz.Mul(bz))
			rb := bx.Mul(bx).Add(q).Sqrt()
			var over, under lanes4
			if s.own {
				ahead := bx.Greater(zero)
				over = one.Merge(rb.Sub(bx), ahead)
				under = rb.Mul(rb.Add(bx).Merge(q, ahead))
			} else {
				over = rb.Sub(bx)
				under = rb.Mul(q.Mul(q).Add(each4(n.core4)).Sqrt())
			}
			off := q.Greater(thin)
			over, under = over.Masked(off), under.Merge(one, off)
			turn := v.Mul(bz).Sub(w.Mul(by))
			if n.source == first {
				ax, ay, az, ra, legA = bx, by, bz, rb, over.Div(under).Mul(turn)
				continue
			}
			cx, cy, cz := ay.Mul(bz).Sub(az.Mul(by)), az.Mul(bx).Sub(ax.Mul(bz)), ax.Mul(by).Sub(ay.Mul(bx))
			product, dot := ra.Mul(rb), ax.Mul(bx).Add(ay.Mul(by)).Add(az.Mul(bz))
			overBound, underBound := ra.Add(rb), product.Mul(product.Add(dot))
			if beyond := dot.Greater(zero); beyond.ToBits() != 1<<width4-1 {
				square := cx.Mul(cx).Add(cy.Mul(cy)).Add(cz.Mul(cz))
				between := square.Greater(thin.Mul(product))
				overBound = overBound.Merge(overBound.Mul(product.Sub(dot)).Masked(between), beyond)
				underBound = underBound.Merge(product.Mul(square).Merge(one, between), beyond)
			}
			inverse := one.Div(under.Mul(underBound))
			legB := over.Mul(underBound.Mul(inverse)).Mul(turn)
			bound := overBound.Mul(under.Mul(inverse)).Mul(u.Mul(cx).Add(v.Mul(cy)).Add(w.Mul(cz)))
			velocity := each4(n.scale).Mul(bound.Add(legB.Sub(legA)))
			out := into[n.source*stride+i:]
			if s.image {
				velocity = velocity.Add(load4(out))
			}
			velocity.StoreSlice(out)
			ax, ay, az, ra, legA = bx, by, bz, rb, legB
		}
	}
	archsimd.ClearAVXUpperBits()
}

// far4 is farScalar for at least one width of lanes.
func far4(steps []step, t *targets, from, to int, s sight, into, mirror []float64, stride int) {
	one, zero, thin := each4(1), each4(0), each4(axis)
	for i := from; i < to; i += width4 {
		i := min(i, to-width4)
		y, z, v, w := load4(t.y[i:]), load4(t.z[i:]), load4(t.v[i:]), load4(t.w[i:])
		mirroredV, mirroredW := each4(s.v).Mul(v), each4(s.w).Mul(w)
		below := zero.Sub(z)
		legA, imageA := zero, zero
		for k := range steps {
			n := &steps[k]
			nz := each4(n.z)
			dy, up, down := y.Sub(each4(n.y)), z.Sub(nz), below.Sub(nz)
			square := dy.Mul(dy)
			q, mirroredQ := square.Add(up.Mul(up)), square.Add(down.Mul(down))
			if !s.own {
				core4 := each4(n.core4)
				q, mirroredQ = q.Mul(q).Add(core4).Sqrt(), mirroredQ.Mul(mirroredQ).Add(core4).Sqrt()
			}
			turn, mirroredTurn := v.Mul(up).Sub(w.Mul(dy)), mirroredV.Mul(down).Sub(mirroredW.Mul(dy))
			off, mirroredOff := q.Greater(thin), mirroredQ.Greater(thin)
			turn, q = turn.Masked(off), q.Merge(one, off)
			mirroredTurn, mirroredQ = mirroredTurn.Masked(mirroredOff), mirroredQ.Merge(one, mirroredOff)
			imageB := mirroredTurn.Div(mirroredQ)
			legB := turn.Div(q).Add(imageB)
			if n.source != first {
				scale := each4(n.scale)
				scale.Mul(legB.Sub(legA)).StoreSlice(into[n.source*stride+i:])
				scale.Mul(imageB.Sub(imageA)).StoreSlice(mirror[n.source*stride+i:])
			}
			legA, imageA = legB, imageB
		}
	}
	archsimd.ClearAVXUpperBits()
}

// addProducts4 is addProductsScalar by lanes.
func addProducts4(into, matrix []float64, stride int, by []float64) {
	i := 0
	for ; i+width4 <= len(into); i += width4 {
		sum := load4(into[i:])
		for j, g := range by {
			sum = sum.Add(each4(g).Mul(load4(matrix[j*stride+i:])))
		}
		sum.StoreSlice(into[i:])
	}
	archsimd.ClearAVXUpperBits()
	if i < len(into) {
		addProductsScalar(into[i:], matrix[i:], stride, by)
	}
}

// takeScaled4 is takeScaledScalar by lanes.
func takeScaled4(into, by []float64, factor float64) {
	l, i, n := each4(factor), 0, min(len(into), len(by))
	for ; i+width4 <= n; i += width4 {
		load4(into[i:]).Sub(l.Mul(load4(by[i:]))).StoreSlice(into[i:])
	}
	archsimd.ClearAVXUpperBits()
	takeScaledScalar(into[i:], by[i:], factor)
}
