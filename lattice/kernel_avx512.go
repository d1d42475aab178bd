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
func all8(x *spread) lanes8    { return load8(x[:]) }

// influence8 is influenceScalar for a whole number of lanes. What holds for all steps
// is read from memory where it is needed, from places of its own each time, and the
// bound vortex is done with before its leg: else there would be more to keep than
// registers, and what is set aside on the stack, whose place in its cache lines nobody
// chooses, takes twice the time.
func influence8(steps []step, t *targets, from, to int, s sight, into []float64, stride int) {
	at := t.scratch
	for i := from; i < to; i += width8 {
		at.see8(t, i, s)
		var ax, ay, az, ra, legA, zero lanes8
		for k := range steps {
			n := &steps[k]
			bx, by, bz := all8(&at.x).Sub(each8(n.x)), all8(&at.y).Sub(each8(n.y)), all8(&at.z).Sub(each8(n.z))
			q := by.Mul(by).Add(bz.Mul(bz))
			rb := bx.Mul(bx).Add(q).Sqrt()
			if n.source == first {
				ax, ay, az, ra, legA = bx, by, bz, rb, at.leg8(bx, by, bz, q, rb, n.core4, s.own)
				continue
			}
			cx, cy, cz := ay.Mul(bz).Sub(az.Mul(by)), az.Mul(bx).Sub(ax.Mul(bz)), ax.Mul(by).Sub(ay.Mul(bx))
			product, dot := ra.Mul(rb), ax.Mul(bx).Add(ay.Mul(by)).Add(az.Mul(bz))
			overBound, underBound := ra.Add(rb), product.Mul(product.Add(dot))
			if beyond := dot.Greater(zero); beyond.ToBits() != 1<<width8-1 {
				square := cx.Mul(cx).Add(cy.Mul(cy)).Add(cz.Mul(cz))
				between := square.Greater(all8(&thin[0]).Mul(product))
				overBound = overBound.Merge(overBound.Mul(product.Sub(dot)).Masked(between), beyond)
				underBound = underBound.Merge(product.Mul(square).Merge(all8(&one[0]), between), beyond)
			}
			across := all8(&at.u).Mul(cx).Add(all8(&at.v[0]).Mul(cy)).Add(all8(&at.w[0]).Mul(cz))
			var over, under lanes8
			if s.own {
				ahead := bx.Greater(zero)
				over = all8(&one[1]).Merge(rb.Sub(bx), ahead)
				under = rb.Mul(rb.Add(bx).Merge(q, ahead))
			} else {
				over = rb.Sub(bx)
				under = rb.Mul(q.Mul(q).Add(each8(n.core4)).Sqrt())
			}
			off := q.Greater(all8(&thin[1]))
			over, under = over.Masked(off), under.Merge(all8(&one[2]), off)
			inverse := all8(&one[3]).Div(under.Mul(underBound))
			turn := all8(&at.v[1]).Mul(bz).Sub(all8(&at.w[1]).Mul(by))
			legB := over.Mul(underBound.Mul(inverse)).Mul(turn)
			bound := overBound.Mul(under.Mul(inverse)).Mul(across)
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

// leg8 returns what a leg does, its node at the way from it that is given.
func (b *block) leg8(x, y, z, q, r lanes8, core4 float64, own bool) lanes8 {
	over, under := r.Sub(x), r.Mul(q)
	if own {
		ahead := x.Greater(each8(0))
		over = each8(1).Merge(over, ahead)
		under = r.Mul(r.Add(x).Merge(q, ahead))
	} else {
		under = r.Mul(q.Mul(q).Add(each8(core4)).Sqrt())
	}
	off := q.Greater(each8(axis))
	over, under = over.Masked(off), under.Merge(each8(1), off)
	return over.Div(under).Mul(all8(&b.v[0]).Mul(z).Sub(all8(&b.w[0]).Mul(y)))
}

// see8 takes the targets from one on.
func (b *block) see8(t *targets, i int, s sight) {
	z := load8(t.z[i:])
	if s.image {
		z = each8(0).Sub(z)
	}
	load8(t.x[i:]).StoreSlice(b.x[:])
	load8(t.y[i:]).StoreSlice(b.y[:])
	z.StoreSlice(b.z[:])
	each8(s.u).Mul(load8(t.u[i:])).StoreSlice(b.u[:])
	v, w := each8(s.v).Mul(load8(t.v[i:])), each8(s.w).Mul(load8(t.w[i:]))
	for k := range 2 {
		v.StoreSlice(b.v[k][:])
		w.StoreSlice(b.w[k][:])
	}
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
