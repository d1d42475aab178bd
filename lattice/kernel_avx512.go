//go:build goexperiment.simd && amd64

package lattice

import "simd/archsimd"

// This file holds for eight numbers at once; kernel_avx2.go is the same for four,
// and renewed from it by
//
//	go test ./lattice -run TestKernelsAreOneText -write-kernels

// lanes8 are so many numbers at once.
type lanes8 = archsimd.Float64x8

const width8 = 8

func each8(x float64) lanes8   { return archsimd.BroadcastFloat64x8(x) }
func load8(x []float64) lanes8 { return archsimd.LoadFloat64x8Slice(x) }

// influence8 is influenceScalar for a whole number of lanes.
func influence8(steps []step, t *targets, from, to int, s sight, into []float64, stride int) {
	one, zero, thin := each8(1), each8(0), each8(axis)
	for i := from; i < to; i += width8 {
		x, y, z := load8(t.x[i:]), load8(t.y[i:]), load8(t.z[i:])
		u, v, w := each8(s.u).Mul(load8(t.u[i:])), each8(s.v).Mul(load8(t.v[i:])), each8(s.w).Mul(load8(t.w[i:]))
		if s.image {
			z = zero.Sub(z)
		}
		var ax, ay, az, ra, legA lanes8
		for k := range steps {
			n := &steps[k]
			bx, by, bz := x.Sub(each8(n.x)), y.Sub(each8(n.y)), z.Sub(each8(n.z))
			q := by.Mul(by).Add(bz.Mul(bz))
			rb := bx.Mul(bx).Add(q).Sqrt()
			var over, under lanes8
			if s.own {
				ahead := bx.Greater(zero)
				over = one.Merge(rb.Sub(bx), ahead)
				under = rb.Mul(rb.Add(bx).Merge(q, ahead))
			} else {
				over = rb.Sub(bx)
				under = rb.Mul(q.Mul(q).Add(each8(n.core4)).Sqrt())
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
			if beyond := dot.Greater(zero); beyond.ToBits() != 1<<width8-1 {
				square := cx.Mul(cx).Add(cy.Mul(cy)).Add(cz.Mul(cz))
				between := square.Greater(thin.Mul(product))
				overBound = overBound.Merge(overBound.Mul(product.Sub(dot)).Masked(between), beyond)
				underBound = underBound.Merge(product.Mul(square).Merge(one, between), beyond)
			}
			inverse := one.Div(under.Mul(underBound))
			legB := over.Mul(underBound.Mul(inverse)).Mul(turn)
			bound := overBound.Mul(under.Mul(inverse)).Mul(u.Mul(cx).Add(v.Mul(cy)).Add(w.Mul(cz)))
			velocity := each8(n.scale).Mul(bound.Add(legB.Sub(legA)))
			out := into[n.source*stride+i:]
			if s.image {
				velocity = velocity.Add(load8(out))
			}
			velocity.StoreSlice(out)
			ax, ay, az, ra, legA = bx, by, bz, rb, legB
		}
	}
	archsimd.ClearAVXUpperBits()
}

// far8 is farScalar for at least one width of lanes.
func far8(steps []step, t *targets, from, to int, s sight, into, mirror []float64, stride int) {
	one, zero, thin := each8(1), each8(0), each8(axis)
	for i := from; i < to; i += width8 {
		i := min(i, to-width8)
		y, z, v, w := load8(t.y[i:]), load8(t.z[i:]), load8(t.v[i:]), load8(t.w[i:])
		mirroredV, mirroredW := each8(s.v).Mul(v), each8(s.w).Mul(w)
		below := zero.Sub(z)
		legA, imageA := zero, zero
		for k := range steps {
			n := &steps[k]
			nz := each8(n.z)
			dy, up, down := y.Sub(each8(n.y)), z.Sub(nz), below.Sub(nz)
			square := dy.Mul(dy)
			q, mirroredQ := square.Add(up.Mul(up)), square.Add(down.Mul(down))
			if !s.own {
				core4 := each8(n.core4)
				q, mirroredQ = q.Mul(q).Add(core4).Sqrt(), mirroredQ.Mul(mirroredQ).Add(core4).Sqrt()
			}
			turn, mirroredTurn := v.Mul(up).Sub(w.Mul(dy)), mirroredV.Mul(down).Sub(mirroredW.Mul(dy))
			off, mirroredOff := q.Greater(thin), mirroredQ.Greater(thin)
			turn, q = turn.Masked(off), q.Merge(one, off)
			mirroredTurn, mirroredQ = mirroredTurn.Masked(mirroredOff), mirroredQ.Merge(one, mirroredOff)
			imageB := mirroredTurn.Div(mirroredQ)
			legB := turn.Div(q).Add(imageB)
			if n.source != first {
				scale := each8(n.scale)
				scale.Mul(legB.Sub(legA)).StoreSlice(into[n.source*stride+i:])
				scale.Mul(imageB.Sub(imageA)).StoreSlice(mirror[n.source*stride+i:])
			}
			legA, imageA = legB, imageB
		}
	}
	archsimd.ClearAVXUpperBits()
}

// addProducts8 is addProductsScalar by lanes.
func addProducts8(into, matrix []float64, stride int, by []float64) {
	i := 0
	for ; i+width8 <= len(into); i += width8 {
		sum := load8(into[i:])
		for j, g := range by {
			sum = sum.Add(each8(g).Mul(load8(matrix[j*stride+i:])))
		}
		sum.StoreSlice(into[i:])
	}
	archsimd.ClearAVXUpperBits()
	if i < len(into) {
		addProductsScalar(into[i:], matrix[i:], stride, by)
	}
}

// takeScaled8 is takeScaledScalar by lanes.
func takeScaled8(into, by []float64, factor float64) {
	l, i, n := each8(factor), 0, min(len(into), len(by))
	for ; i+width8 <= n; i += width8 {
		load8(into[i:]).Sub(l.Mul(load8(by[i:]))).StoreSlice(into[i:])
	}
	archsimd.ClearAVXUpperBits()
	takeScaledScalar(into[i:], by[i:], factor)
}
