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

// influence8 is influenceScalar for a whole number of lanes. What a step needs is read
// from memory where it is needed, and so is what the step before left: else there would
// be more to keep than registers, and what is set aside on the stack, whose place in its
// cache lines nobody chooses, takes twice the time.
func influence8(steps []step, t *targets, from, to int, own bool, mirror float64, into []float64, stride int) {
	at := t.scratch
	for i := from; i < to; i += width8 {
		at.take8(t, i)
		for k := range steps {
			n, a, b := &steps[k], &at.ways[k&1], &at.ways[(k+1)&1]
			at.step8(n, a, b)
			velocity := at.direct.see8(at, n, a, b, own)
			mirrored := at.mirrored.see8(at, n, a, b, own)
			if n.source != first {
				each8(n.scale).Mul(velocity.Add(each8(mirror).Mul(mirrored))).StoreSlice(into[n.source*stride+i:])
			}
		}
	}
	archsimd.ClearAVXUpperBits()
}

// take8 takes the targets from one on.
func (b *block) take8(t *targets, i int) {
	z, w, zero := load8(t.z[i:]), load8(t.w[i:]), each8(0)
	load8(t.x[i:]).StoreSlice(b.x[:])
	load8(t.y[i:]).StoreSlice(b.y[:])
	load8(t.u[i:]).StoreSlice(b.u[:])
	load8(t.v[i:]).StoreSlice(b.v[:])
	load8(t.core4[i:]).StoreSlice(b.core4[:])
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

// step8 finds what targets and reflections share of a step, b, and the one before, a.
func (at *block) step8(n *step, a, b *way) {
	ax, ay := all8(&a.x), all8(&a.y)
	bx, by := all8(&at.x).Sub(each8(n.x)), all8(&at.y).Sub(each8(n.y))
	bx.StoreSlice(b.x[:])
	by.StoreSlice(b.y[:])
	bx.Mul(bx).StoreSlice(at.along[:])
	by.Mul(by).StoreSlice(at.across[:])
	ax.Mul(bx).Add(ay.Mul(by)).StoreSlice(at.flat[:])
	ax.Mul(by).Sub(ay.Mul(bx)).StoreSlice(at.cz[:])
	all8(&at.u).Mul(by).Sub(all8(&at.v).Mul(bx)).StoreSlice(b.side[:])
}

// see8 returns what the targets or their reflections feel of a step's panel, over its
// scale; without meaning where it has none.
func (h *half) see8(at *block, n *step, a, b *way, own bool) lanes8 {
	az, ra, bz := all8(&h.z), all8(&h.r), all8(&h.height).Sub(each8(n.z))
	q := all8(&at.across).Add(bz.Mul(bz))
	rb := all8(&at.along).Add(q).Sqrt()
	bz.StoreSlice(h.z[:])
	rb.StoreSlice(h.r[:])
	product, dot := ra.Mul(rb), all8(&at.flat).Add(az.Mul(bz))
	overBound, underBound := ra.Add(rb), product.Mul(product.Add(dot))
	if n.source == first {
		underBound = all8(&one[0])
	} else if near := product.Add(dot).LessEqual(all8(&nearly).Mul(product)); near.ToBits() != 0 {
		overBound, underBound = at.between8(a, b, az, bz, product, dot, overBound, underBound)
	}
	bx := all8(&b.x)
	over, under := rb.Sub(bx), rb.Mul(q)
	if own {
		ahead := bx.Greater(each8(0))
		over = all8(&one[1]).Merge(over, ahead)
		under = rb.Mul(rb.Add(bx)).Merge(under, ahead)
	} else {
		under = rb.Mul(q.Mul(q).Add(each8(n.core4).Add(all8(&at.core4))).Sqrt())
	}
	off := q.Greater(all8(&thin))
	over, under = over.Masked(off), under.Merge(all8(&one[2]), off)
	turn := all8(&at.v).Mul(bz).Sub(all8(&h.w).Mul(all8(&b.y)))
	legA, legB := all8(&h.leg), over.Mul(turn).Div(under)
	legB.StoreSlice(h.leg[:])
	side := bz.Mul(all8(&a.side)).Sub(az.Mul(all8(&b.side))).Add(all8(&h.w).Mul(all8(&at.cz)))
	return overBound.Mul(side).Div(underBound).Add(legB.Sub(legA))
}

// between8 returns over and under of bound vortices, anew where targets lie next to them
// between their ends.
func (at *block) between8(a, b *way, az, bz, product, dot, over, under lanes8) (newOver, newUnder lanes8) {
	ax, ay, bx, by, cz := all8(&a.x), all8(&a.y), all8(&b.x), all8(&b.y), all8(&at.cz)
	cx, cy := ay.Mul(bz).Sub(az.Mul(by)), az.Mul(bx).Sub(ax.Mul(bz))
	square := cx.Mul(cx).Add(cy.Mul(cy)).Add(cz.Mul(cz))
	near := product.Add(dot).LessEqual(all8(&nearly).Mul(product))
	off := square.Greater(all8(&thin).Mul(product))
	newOver = over.Mul(product.Sub(dot)).Masked(off).Merge(over, near)
	newUnder = product.Mul(square).Merge(all8(&one[0]), off).Merge(under, near)
	return newOver, newUnder
}

// far8 is farScalar for at least one width of lanes.
func far8(steps []step, t *targets, from, to int, own bool, mirror float64, into, image []float64, stride int) {
	one, zero, thin := each8(1), each8(0), each8(axisOf(own))
	for i := from; i < to; i += width8 {
		i := min(i, to-width8)
		y, z, v, w := load8(t.y[i:]), load8(t.z[i:]), load8(t.v[i:]), load8(t.w[i:])
		mirroredV, mirroredW := each8(mirror).Mul(v), each8(-mirror).Mul(w)
		below := zero.Sub(z)
		legA, imageA := zero, zero
		for k := range steps {
			n := &steps[k]
			nz := each8(n.z)
			dy, up, down := y.Sub(each8(n.y)), z.Sub(nz), below.Sub(nz)
			square := dy.Mul(dy)
			q, mirroredQ := square.Add(up.Mul(up)), square.Add(down.Mul(down))
			if !own {
				core4 := each8(n.core4).Add(load8(t.core4[i:]))
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
				scale := each8(n.scale)
				scale.Mul(legB.Sub(legA)).StoreSlice(into[n.source*stride+i:])
				scale.Mul(imageB.Sub(imageA)).StoreSlice(image[n.source*stride+i:])
			}
			legA, imageA = legB, imageB
		}
	}
	archsimd.ClearAVXUpperBits()
}

// lines8 is linesScalar for at least one width of lanes.
func lines8(nodes []lineNode, t *strips, from, to int, own bool, thin, wall float64, into, scaled []float64, stride int) {
	fourth := each8(overFourPi)
	for i := from; i < to; i += width8 {
		i := min(i, to-width8)
		y, z, v, w, half := load8(t.y[i:]), load8(t.z[i:]), load8(t.v[i:]), load8(t.w[i:]), load8(t.half[i:])
		below, last := z.Sub(each8(2*wall)), each8(0)
		for k := range nodes {
			n := &nodes[k]
			core2 := thin
			if !own {
				core2 += n.core2
			}
			nz := each8(n.z)
			dy, up, down := y.Sub(each8(n.y)), z.Sub(nz), below.Add(nz)
			square := dy.Mul(dy).Add(each8(core2))
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

// addProducts8 is addProductsScalar by lanes.
func addProducts8(into, matrix []float64, stride int, by []float64) {
	i := 0
	for ; i+2*width8 <= len(into); i += 2 * width8 {
		sum, next := load8(into[i:]), load8(into[i+width8:])
		for j, g := range by {
			row, factor := matrix[j*stride+i:][:2*width8], each8(g)
			sum, next = sum.Add(factor.Mul(load8(row))), next.Add(factor.Mul(load8(row[width8:])))
		}
		sum.StoreSlice(into[i:])
		next.StoreSlice(into[i+width8:])
	}
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
