//go:build goexperiment.simd && amd64

package wave

import "simd/archsimd"

// This file holds for eight numbers at once; sum_avx2.go is the same for four,
// and renewed from it by
//
//	go test ./wave -run TestKernelsAreOneText -write-kernels

// lanes8 are so many numbers at once, whole8 the same as whole numbers.
type (
	lanes8 = archsimd.Float64x8
	whole8 = archsimd.Int64x8
)

const width8 = 8

func each8(x float64) lanes8                      { return archsimd.BroadcastFloat64x8(x) }
func load8(x []float64) lanes8                    { return archsimd.LoadFloat64x8Slice(x) }
func slice8(x *[several]float64, k int) []float64 { return x[k&(several-width8):][:width8] }
func part8(x *[several]float64, k int) lanes8     { return load8(slice8(x, k)) }
func all8(x *spread) lanes8                       { return load8(x[:]) }
func allWhole8(x *spreadWhole) whole8             { return archsimd.LoadInt64x8Slice(x[:]) }
func horner8(z, sum lanes8, next *spread) lanes8  { return all8(next).Add(z.Mul(sum)) }

// raise8 is raiseScalar by lanes. What one function has found waits in the amplitudes for
// the others, since no register keeps it meanwhile.
func raise8(t *traces, d *directions, from, to int, made []amplitudes, sum *amplitudes) {
	for k := 0; k < several; k += width8 {
		for i := from; i < to; i++ {
			p, a := &t.strips[i], &made[i]
			if p.fades(d) {
				continue
			}
			exponent := p.exponent8(d, k)
			seen := exponent.Greater(all8(&wide.least))
			exp8(exponent.Masked(seen)).Masked(seen).StoreSlice(slice8(&a.im, k))
			along, across := part8(&d.along, k).Mul(each8(p.x)), part8(&d.across, k).Mul(each8(p.y))
			along.Add(across).StoreSlice(slice8(&a.re, k))
			sinM, cosM := sincos8(along.Sub(across))
			sinM.StoreSlice(slice8(&a.reM, k))
			cosM.StoreSlice(slice8(&a.imM, k))
			sin, cos := sincos8(part8(&a.re, k))
			a.turn8(k, each8(p.ly).Mul(part8(&d.cosh, k)), each8(p.lz).Mul(part8(&d.sinh, k)), sin, cos)
			part8(&sum.re, k).Add(part8(&a.re, k)).StoreSlice(slice8(&sum.re, k))
			part8(&sum.im, k).Add(part8(&a.im, k)).StoreSlice(slice8(&sum.im, k))
			part8(&sum.reM, k).Add(part8(&a.reM, k)).StoreSlice(slice8(&sum.reM, k))
			part8(&sum.imM, k).Add(part8(&a.imM, k)).StoreSlice(slice8(&sum.imM, k))
		}
	}
	archsimd.ClearAVXUpperBits()
}

// turn8 makes amplitudes of the parts of circulation, sine and cosine of the one phase,
// those of the other in reM and imM, and the exponential in im.
func (a *amplitudes) turn8(k int, vertical, lateral, sin, cos lanes8) {
	e, sinM, cosM, zero := part8(&a.im, k), part8(&a.reM, k), part8(&a.imM, k), each8(0)
	seen := e.Greater(zero)
	vertical, lateral = e.Mul(vertical), e.Mul(lateral)
	lateral.Mul(cos).Sub(vertical.Mul(sin)).Masked(seen).StoreSlice(slice8(&a.re, k))
	vertical.Mul(cos).Add(lateral.Mul(sin)).Masked(seen).StoreSlice(slice8(&a.im, k))
	zero.Sub(lateral.Mul(cosM).Add(vertical.Mul(sinM))).Masked(seen).StoreSlice(slice8(&a.reM, k))
	vertical.Mul(cosM).Sub(lateral.Mul(sinM)).Masked(seen).StoreSlice(slice8(&a.imM, k))
}

// exponent8 is trace.exponent by lanes.
func (t *trace) exponent8(d *directions, k int) lanes8 {
	phase, fall := part8(&d.across, k).Mul(each8(t.dy)), part8(&d.kappa, k).Mul(each8(t.dz))
	blur := phase.Mul(phase).Add(fall.Mul(fall))
	return part8(&d.kappa, k).Mul(each8(t.z)).Sub(blur.Mul(blur))
}

// keep8 is keepScalar by lanes.
func keep8(t *traces, d *directions, held []parts) {
	for k := 0; k < several; k += width8 {
		for i := range held {
			p, h := &t.strips[i], &held[i]
			p.exponent8(d, k).StoreSlice(slice8(&h.exponent, k))
			part8(&d.along, k).Mul(each8(p.x)).StoreSlice(slice8(&h.xPhase, k))
			part8(&d.across, k).Mul(each8(p.y)).StoreSlice(slice8(&h.yPhase, k))
		}
	}
	archsimd.ClearAVXUpperBits()
}

// follow8 is followScalar by lanes.
func follow8(t, near *traces, d, now *directions, from, to int, held heldStrips, made []amplitudes, sum *amplitudes) {
	for k := 0; k < several; k += width8 {
		sumRe, sumIm, sumReM, sumImM := part8(&sum.re, k), part8(&sum.im, k), part8(&sum.reM, k), part8(&sum.imM, k)
		for i := from; i < to; i++ {
			p, q, u, h, a := &t.strips[i], &near.strips[i], &held.unit[i], &held.parts[i], &made[i]
			if p.fades(d) {
				*a = amplitudes{}
				continue
			}
			grown := all8(&wide.one).Add(q.exponent8(now, k).Sub(part8(&h.exponent, k)))
			along := part8(&now.along, k).Mul(each8(q.x)).Sub(part8(&h.xPhase, k))
			across := part8(&now.across, k).Mul(each8(q.y)).Sub(part8(&h.yPhase, k))
			turn, turnM := along.Add(across), along.Sub(across)
			vertical, lateral := each8(q.ly).Mul(part8(&now.cosh, k)), each8(q.lz).Mul(part8(&now.sinh, k))
			uRe, uIm := part8(&u.re, k), part8(&u.im, k)
			re, im := uRe.Mul(grown).Sub(uIm.Mul(turn)), uIm.Mul(grown).Add(uRe.Mul(turn))
			re, im = lateral.Mul(re).Sub(vertical.Mul(im)), vertical.Mul(re).Add(lateral.Mul(im))
			re.StoreSlice(slice8(&a.re, k))
			im.StoreSlice(slice8(&a.im, k))
			sumRe, sumIm = sumRe.Add(re), sumIm.Add(im)
			uRe, uIm = part8(&u.reM, k), part8(&u.imM, k)
			re, im = uRe.Mul(grown).Sub(uIm.Mul(turnM)), uIm.Mul(grown).Add(uRe.Mul(turnM))
			re, im = lateral.Mul(re).Add(vertical.Mul(im)), lateral.Mul(im).Sub(vertical.Mul(re))
			re.StoreSlice(slice8(&a.reM, k))
			im.StoreSlice(slice8(&a.imM, k))
			sumReM, sumImM = sumReM.Add(re), sumImM.Add(im)
		}
		sumRe.StoreSlice(slice8(&sum.re, k))
		sumIm.StoreSlice(slice8(&sum.im, k))
		sumReM.StoreSlice(slice8(&sum.reM, k))
		sumImM.StoreSlice(slice8(&sum.imM, k))
	}
	archsimd.ClearAVXUpperBits()
}

// feel8 is feelScalar by lanes.
func feel8(d *directions, sums, felt []amplitudes) {
	for k := 0; k < several; k += width8 {
		re, im, reM, imM := each8(0), each8(0), each8(0), each8(0)
		for s := range sums {
			a := &sums[s]
			re, im = re.Add(part8(&a.re, k)), im.Add(part8(&a.im, k))
			reM, imM = reM.Add(part8(&a.reM, k)), imM.Add(part8(&a.imM, k))
		}
		weight, coherent := part8(&d.weight, k), part8(&d.coherent, k)
		all, alone := weight.Mul(coherent), weight.Mul(all8(&wide.one).Sub(coherent))
		for s := range sums {
			a, f := &sums[s], &felt[s]
			alone.Mul(part8(&a.re, k)).Add(all.Mul(re)).StoreSlice(slice8(&f.re, k))
			alone.Mul(part8(&a.im, k)).Add(all.Mul(im)).StoreSlice(slice8(&f.im, k))
			alone.Mul(part8(&a.reM, k)).Add(all.Mul(reM)).StoreSlice(slice8(&f.reM, k))
			alone.Mul(part8(&a.imM, k)).Add(all.Mul(imM)).StoreSlice(slice8(&f.imM, k))
		}
	}
	archsimd.ClearAVXUpperBits()
}

// share8 is shareScalar by lanes.
func share8(t *traces, d *directions, from, to int, made []amplitudes, felt *amplitudes, shares [][several]float64) {
	for k := 0; k < several; k += width8 {
		re, im, reM, imM := part8(&felt.re, k), part8(&felt.im, k), part8(&felt.reM, k), part8(&felt.imM, k)
		for i := from; i < to; i++ {
			if t.strips[i].fades(d) {
				continue
			}
			a, s := &made[i], shares[i][k:]
			sum := re.Mul(part8(&a.re, k)).Add(im.Mul(part8(&a.im, k))).Add(reM.Mul(part8(&a.reM, k))).Add(imM.Mul(part8(&a.imM, k)))
			load8(s).Add(sum).StoreSlice(s)
		}
	}
	archsimd.ClearAVXUpperBits()
}

// sincos8 is sincosScalar by lanes.
func sincos8(phase lanes8) (sin, cos lanes8) {
	shifted := phase.Mul(all8(&wide.perRight)).Add(all8(&wide.magic))
	turns := shifted.Sub(all8(&wide.magic))
	r := phase.Sub(turns.Mul(all8(&wide.right[0]))).Sub(turns.Mul(all8(&wide.right[1])))
	z := r.Mul(r)
	w := z.Mul(z)
	s := horner8(w, horner8(w, all8(&wide.sin[4]), &wide.sin[2]), &wide.sin[0])
	s = s.Add(z.Mul(horner8(w, horner8(w, all8(&wide.sin[5]), &wide.sin[3]), &wide.sin[1])))
	c := horner8(w, horner8(w, all8(&wide.cos[4]), &wide.cos[2]), &wide.cos[0])
	c = c.Add(z.Mul(horner8(w, horner8(w, all8(&wide.cos[5]), &wide.cos[3]), &wide.cos[1])))
	s = r.Add(r.Mul(z).Mul(s))
	c = all8(&wide.one).Sub(all8(&wide.half).Mul(z)).Add(w.Mul(c))
	quadrant, sign := shifted.AsInt64x8(), allWhole8(&wide.sign)
	odd := quadrant.And(allWhole8(&wide.unit)).Equal(allWhole8(&wide.unit))
	s, c = c.Merge(s, odd), s.Merge(c, odd)
	sinSign := quadrant.ShiftAllLeft(62).And(sign)
	cosSign := quadrant.Add(allWhole8(&wide.unit)).ShiftAllLeft(62).And(sign)
	return s.AsInt64x8().Xor(sinSign).AsFloat64x8(), c.AsInt64x8().Xor(cosSign).AsFloat64x8()
}

// exp8 is expsScalar by lanes.
func exp8(x lanes8) lanes8 {
	shifted := x.Mul(all8(&wide.perTwo)).Add(all8(&wide.magic))
	powers := shifted.Sub(all8(&wide.magic))
	r := x.Sub(powers.Mul(all8(&wide.two[0]))).Sub(powers.Mul(all8(&wide.two[1])))
	z := r.Mul(r)
	w := z.Mul(z)
	even := horner8(w, horner8(w, horner8(w, all8(&wide.exp[12]), &wide.exp[8]), &wide.exp[4]), &wide.exp[0])
	even = even.Add(z.Mul(horner8(w, horner8(w, all8(&wide.exp[10]), &wide.exp[6]), &wide.exp[2])))
	odd := horner8(w, horner8(w, all8(&wide.exp[9]), &wide.exp[5]), &wide.exp[1])
	odd = odd.Add(z.Mul(horner8(w, horner8(w, all8(&wide.exp[11]), &wide.exp[7]), &wide.exp[3])))
	e := even.Add(r.Mul(odd))
	return e.Mul(shifted.AsInt64x8().Add(allWhole8(&wide.bias)).ShiftAllLeft(fractions).AsFloat64x8())
}

// exps8 is expsScalar by lanes.
func exps8(x *[several]float64) {
	for k := 0; k < several; k += width8 {
		exp8(load8(x[k:])).StoreSlice(x[k:])
	}
	archsimd.ClearAVXUpperBits()
}

// image8 is imageScalar for a whole number of lanes.
func image8(legs []leg, v *images, from, to int, own bool) {
	thin := each8(axis)
	for i := from; i < to; i += width8 {
		y, z, up, across := load8(v.y[i:]), load8(v.z[i:]), load8(v.up[i:]), load8(v.across[i:])
		for j := range legs {
			n := &legs[j]
			dy, down := y.Sub(each8(n.y)), z.Sub(each8(n.z))
			q := dy.Mul(dy).Add(down.Mul(down))
			if !own {
				q = q.Mul(q).Add(each8(n.core4).Add(load8(v.core4[i:]))).Sqrt()
			}
			f := each8(n.circulation).Div(q).Masked(q.Greater(thin))
			up = up.Add(f.Mul(dy))
			across = across.Add(f.Mul(down))
		}
		up.StoreSlice(v.up[i:])
		across.StoreSlice(v.across[i:])
	}
	archsimd.ClearAVXUpperBits()
}
