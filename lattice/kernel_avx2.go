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

// influence4 is influenceScalar for a whole number of lanes. What a step needs is read
// from memory where it is needed, and so is what the step before left: else there would
// be more to keep than registers, and what is set aside on the stack, whose place in its
// cache lines nobody chooses, takes twice the time.
func influence4(steps []step, t *targets, from, to int, own bool, mirror float64, into []float64, stride int) {
	at := t.scratch
	for i := from; i < to; i += width4 {
		at.take4(t, i)
		for k := range steps {
			n, a, b := &steps[k], &at.ways[k&1], &at.ways[(k+1)&1]
			at.step4(n, a, b)
			velocity := at.direct.see4(at, n, a, b, own)
			mirrored := at.mirrored.see4(at, n, a, b, own)
			if n.source != first {
				each4(n.scale).Mul(velocity.Add(each4(mirror).Mul(mirrored))).StoreSlice(into[n.source*stride+i:])
			}
		}
	}
	archsimd.ClearAVXUpperBits()
}

// take4 takes the targets from one on.
func (b *block) take4(t *targets, i int) {
	z, w, zero := load4(t.z[i:]), load4(t.w[i:]), each4(0)
	load4(t.x[i:]).StoreSlice(b.x[:])
	load4(t.y[i:]).StoreSlice(b.y[:])
	load4(t.u[i:]).StoreSlice(b.u[:])
	load4(t.v[i:]).StoreSlice(b.v[:])
	load4(t.core4[i:]).StoreSlice(b.core4[:])
	z.StoreSlice(b.direct.height[:])
	w.StoreSlice(b.direct.w[:])
	zero.Sub(z).StoreSlice(b.mirrored.height[:])
	zero.Sub(w).StoreSlice(b.mirrored.w[:])
	b.ways = [2]way{}
	for _, h := range []*half{&b.direct, &b.mirrored} {
		zero.StoreSlice(h.z[:])
		zero.StoreSlice(h.r[:])
		zero.StoreSlice(h.leg[:])
	}
}

// step4 finds what targets and reflections share of a step, b, and the one before, a.
func (at *block) step4(n *step, a, b *way) {
	ax, ay := all4(&a.x), all4(&a.y)
	bx, by := all4(&at.x).Sub(each4(n.x)), all4(&at.y).Sub(each4(n.y))
	bx.StoreSlice(b.x[:])
	by.StoreSlice(b.y[:])
	bx.Mul(bx).StoreSlice(at.along[:])
	by.Mul(by).StoreSlice(at.across[:])
	ax.Mul(bx).Add(ay.Mul(by)).StoreSlice(at.flat[:])
	ax.Mul(by).Sub(ay.Mul(bx)).StoreSlice(at.cz[:])
	all4(&at.u).Mul(by).Sub(all4(&at.v).Mul(bx)).StoreSlice(b.side[:])
}

// see4 returns what the targets or their reflections feel of a step's panel, over its
// scale; without meaning where it has none.
func (h *half) see4(at *block, n *step, a, b *way, own bool) lanes4 {
	az, ra, bz := all4(&h.z), all4(&h.r), all4(&h.height).Sub(each4(n.z))
	q := all4(&at.across).Add(bz.Mul(bz))
	rb := all4(&at.along).Add(q).Sqrt()
	bz.StoreSlice(h.z[:])
	rb.StoreSlice(h.r[:])
	product, dot := ra.Mul(rb), all4(&at.flat).Add(az.Mul(bz))
	overBound, underBound := ra.Add(rb), product.Mul(product.Add(dot))
	if n.source == first {
		underBound = all4(&one[0])
	} else if near := product.Add(dot).LessEqual(all4(&nearly).Mul(product)); near.ToBits() != 0 {
		overBound, underBound = at.between4(a, b, az, bz, product, dot, overBound, underBound)
	}
	bx := all4(&b.x)
	over, under := rb.Sub(bx), rb.Mul(q)
	if own {
		ahead := bx.Greater(each4(0))
		over = all4(&one[1]).Merge(over, ahead)
		under = rb.Mul(rb.Add(bx)).Merge(under, ahead)
	} else {
		under = rb.Mul(q.Mul(q).Add(each4(n.core4).Add(all4(&at.core4))).Sqrt())
	}
	off := q.Greater(all4(&thin))
	over, under = over.Masked(off), under.Merge(all4(&one[2]), off)
	turn := all4(&at.v).Mul(bz).Sub(all4(&h.w).Mul(all4(&b.y)))
	legA, legB := all4(&h.leg), over.Mul(turn).Div(under)
	legB.StoreSlice(h.leg[:])
	side := bz.Mul(all4(&a.side)).Sub(az.Mul(all4(&b.side))).Add(all4(&h.w).Mul(all4(&at.cz)))
	return overBound.Mul(side).Div(underBound).Add(legB.Sub(legA))
}

// between4 returns over and under of bound vortices, anew where targets lie next to them
// between their ends.
func (at *block) between4(a, b *way, az, bz, product, dot, over, under lanes4) (newOver, newUnder lanes4) {
	ax, ay, bx, by, cz := all4(&a.x), all4(&a.y), all4(&b.x), all4(&b.y), all4(&at.cz)
	cx, cy := ay.Mul(bz).Sub(az.Mul(by)), az.Mul(bx).Sub(ax.Mul(bz))
	square := cx.Mul(cx).Add(cy.Mul(cy)).Add(cz.Mul(cz))
	near := product.Add(dot).LessEqual(all4(&nearly).Mul(product))
	off := square.Greater(all4(&thin).Mul(product))
	newOver = over.Mul(product.Sub(dot)).Masked(off).Merge(over, near)
	newUnder = product.Mul(square).Merge(all4(&one[0]), off).Merge(under, near)
	return newOver, newUnder
}

// far4 is farScalar for at least one width of lanes.
func far4(steps []step, t *targets, from, to int, own bool, mirror float64, into, image []float64, stride int) {
	one, zero, thin := each4(1), each4(0), each4(axisOf(own))
	for i := from; i < to; i += width4 {
		i := min(i, to-width4)
		y, z, v, w := load4(t.y[i:]), load4(t.z[i:]), load4(t.v[i:]), load4(t.w[i:])
		mirroredV, mirroredW := each4(mirror).Mul(v), each4(-mirror).Mul(w)
		below := zero.Sub(z)
		legA, imageA := zero, zero
		for k := range steps {
			n := &steps[k]
			nz := each4(n.z)
			dy, up, down := y.Sub(each4(n.y)), z.Sub(nz), below.Sub(nz)
			square := dy.Mul(dy)
			q, mirroredQ := square.Add(up.Mul(up)), square.Add(down.Mul(down))
			if !own {
				core4 := each4(n.core4).Add(load4(t.core4[i:]))
				q, mirroredQ = q.Mul(q).Add(core4), mirroredQ.Mul(mirroredQ).Add(core4)
			}
			turn, mirroredTurn := v.Mul(up).Sub(w.Mul(dy)), mirroredV.Mul(down).Sub(mirroredW.Mul(dy))
			off, mirroredOff := q.Greater(thin), mirroredQ.Greater(thin)
			turn, q = turn.Masked(off), q.Merge(one, off)
			mirroredTurn, mirroredQ = mirroredTurn.Masked(mirroredOff), mirroredQ.Merge(one, mirroredOff)
			both := one.Div(q.Mul(mirroredQ))
			each, mirroredEach := mirroredQ.Mul(both), q.Mul(both)
			if !own {
				each, mirroredEach = each.Sqrt(), mirroredEach.Sqrt()
			}
			imageB := mirroredTurn.Mul(mirroredEach)
			legB := turn.Mul(each).Add(imageB)
			if n.source != first {
				scale := each4(n.scale)
				scale.Mul(legB.Sub(legA)).StoreSlice(into[n.source*stride+i:])
				scale.Mul(imageB.Sub(imageA)).StoreSlice(image[n.source*stride+i:])
			}
			legA, imageA = legB, imageB
		}
	}
	archsimd.ClearAVXUpperBits()
}

// lines4 is linesScalar for at least one width of lanes.
func lines4(nodes []lineNode, t *strips, from, to int, own bool, thin, wall float64, into, scaled []float64, stride int) {
	fourth := each4(overFourPi)
	for i := from; i < to; i += width4 {
		i := min(i, to-width4)
		y, z, v, w, half := load4(t.y[i:]), load4(t.z[i:]), load4(t.v[i:]), load4(t.w[i:]), load4(t.half[i:])
		below, last := z.Sub(each4(2*wall)), each4(0)
		for k := range nodes {
			n := &nodes[k]
			core2 := thin
			if !own {
				core2 += n.core2
			}
			nz := each4(n.z)
			dy, up, down := y.Sub(each4(n.y)), z.Sub(nz), below.Add(nz)
			square := dy.Mul(dy).Add(each4(core2))
			q, mirroredQ := up.Mul(up).Add(square), down.Mul(down).Add(square)
			both := fourth.Div(q.Mul(mirroredQ))
			each, mirroredEach := mirroredQ.Mul(both), q.Mul(both)
			felt := up.Mul(each).Sub(down.Mul(mirroredEach)).Mul(v).Add(dy.Mul(mirroredEach.Sub(each)).Mul(w))
			if n.source != first {
				last.Sub(felt).StoreSlice(into[n.source*stride+i:])
				half.Mul(last.Sub(felt)).StoreSlice(scaled[n.source*stride+i:])
			}
			last = felt
		}
	}
	archsimd.ClearAVXUpperBits()
}

// addProducts4 is addProductsScalar by lanes.
func addProducts4(into, matrix []float64, stride int, by []float64) {
	i := 0
	for ; i+2*width4 <= len(into); i += 2 * width4 {
		sum, next := load4(into[i:]), load4(into[i+width4:])
		for j, g := range by {
			row, factor := matrix[j*stride+i:][:2*width4], each4(g)
			sum, next = sum.Add(factor.Mul(load4(row))), next.Add(factor.Mul(load4(row[width4:])))
		}
		sum.StoreSlice(into[i:])
		next.StoreSlice(into[i+width4:])
	}
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
