//go:build goexperiment.simd && amd64

package lattice

import "simd/archsimd"

// This file is made from kernel_avx512.go: see there.

// lanes4 are so many numbers at once.
type lanes4 = archsimd.Float64x4

const width4 = 4

func each4(x float64) lanes4   { return archsimd.BroadcastFloat64x4(x) }
func load4(x []float64) lanes4 { return archsimd.LoadFloat64x4Slice(x) }
func all4(x *spread) lanes4    { return load4(x[:]) }

// influence4 is influenceScalar for a whole number of lanes. What holds for all steps
// is read from memory where it is needed, from places of its own each time, and the
// bound vortex is done with before its leg: else there would be more to keep than
// registers, and what is set aside on the stack, whose place in its cache lines nobody
// chooses, takes twice the time.
func influence4(steps []step, t *targets, from, to int, s sight, into []float64, stride int) {
	at := t.scratch
	for i := from; i < to; i += width4 {
		at.see4(t, i, s)
		var ax, ay, az, ra, legA, zero lanes4
		for k := range steps {
			n := &steps[k]
			bx, by, bz := all4(&at.x).Sub(each4(n.x)), all4(&at.y).Sub(each4(n.y)), all4(&at.z).Sub(each4(n.z))
			q := by.Mul(by).Add(bz.Mul(bz))
			rb := bx.Mul(bx).Add(q).Sqrt()
			if n.source == first {
				ax, ay, az, ra, legA = bx, by, bz, rb, at.leg4(bx, by, bz, q, rb, n.core4, s.own)
				continue
			}
			cx, cy, cz := ay.Mul(bz).Sub(az.Mul(by)), az.Mul(bx).Sub(ax.Mul(bz)), ax.Mul(by).Sub(ay.Mul(bx))
			product, dot := ra.Mul(rb), ax.Mul(bx).Add(ay.Mul(by)).Add(az.Mul(bz))
			overBound, underBound := ra.Add(rb), product.Mul(product.Add(dot))
			if beyond := dot.Greater(zero); beyond.ToBits() != 1<<width4-1 {
				square := cx.Mul(cx).Add(cy.Mul(cy)).Add(cz.Mul(cz))
				between := square.Greater(all4(&thin[0]).Mul(product))
				overBound = overBound.Merge(overBound.Mul(product.Sub(dot)).Masked(between), beyond)
				underBound = underBound.Merge(product.Mul(square).Merge(all4(&one[0]), between), beyond)
			}
			across := all4(&at.u).Mul(cx).Add(all4(&at.v[0]).Mul(cy)).Add(all4(&at.w[0]).Mul(cz))
			var over, under lanes4
			if s.own {
				ahead := bx.Greater(zero)
				over = all4(&one[1]).Merge(rb.Sub(bx), ahead)
				under = rb.Mul(rb.Add(bx).Merge(q, ahead))
			} else {
				over = rb.Sub(bx)
				under = rb.Mul(q.Mul(q).Add(each4(n.core4)).Sqrt())
			}
			off := q.Greater(all4(&thin[1]))
			over, under = over.Masked(off), under.Merge(all4(&one[2]), off)
			inverse := all4(&one[3]).Div(under.Mul(underBound))
			turn := all4(&at.v[1]).Mul(bz).Sub(all4(&at.w[1]).Mul(by))
			legB := over.Mul(underBound.Mul(inverse)).Mul(turn)
			bound := overBound.Mul(under.Mul(inverse)).Mul(across)
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

// leg4 returns what a leg does, its node at the way from it that is given.
func (b *block) leg4(x, y, z, q, r lanes4, core4 float64, own bool) lanes4 {
	over, under := r.Sub(x), r.Mul(q)
	if own {
		ahead := x.Greater(each4(0))
		over = each4(1).Merge(over, ahead)
		under = r.Mul(r.Add(x).Merge(q, ahead))
	} else {
		under = r.Mul(q.Mul(q).Add(each4(core4)).Sqrt())
	}
	off := q.Greater(each4(axis))
	over, under = over.Masked(off), under.Merge(each4(1), off)
	return over.Div(under).Mul(all4(&b.v[0]).Mul(z).Sub(all4(&b.w[0]).Mul(y)))
}

// see4 takes the targets from one on.
func (b *block) see4(t *targets, i int, s sight) {
	z := load4(t.z[i:])
	if s.image {
		z = each4(0).Sub(z)
	}
	load4(t.x[i:]).StoreSlice(b.x[:])
	load4(t.y[i:]).StoreSlice(b.y[:])
	z.StoreSlice(b.z[:])
	each4(s.u).Mul(load4(t.u[i:])).StoreSlice(b.u[:])
	v, w := each4(s.v).Mul(load4(t.v[i:])), each4(s.w).Mul(load4(t.w[i:]))
	for k := range 2 {
		v.StoreSlice(b.v[k][:])
		w.StoreSlice(b.w[k][:])
	}
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
