//go:build goexperiment.simd && amd64

package wave

import "simd/archsimd"

// This file is made from sum_avx512.go: see there.

// lanes4 are so many numbers at once, whole4 the same as whole numbers.
type (
	lanes4 = archsimd.Float64x4
	whole4 = archsimd.Int64x4
)

const width4 = 4

func each4(x float64) lanes4                      { return archsimd.BroadcastFloat64x4(x) }
func load4(x []float64) lanes4                    { return archsimd.LoadFloat64x4Slice(x) }
func slice4(x *[several]float64, k int) []float64 { return x[k&(several-width4):][:width4] }
func part4(x *[several]float64, k int) lanes4     { return load4(slice4(x, k)) }
func all4(x *spread) lanes4                       { return load4(x[:]) }
func allWhole4(x *spreadWhole) whole4             { return archsimd.LoadInt64x4Slice(x[:]) }
func horner4(z, sum lanes4, next *spread) lanes4  { return all4(next).Add(z.Mul(sum)) }

// raise4 is raiseScalar by lanes. What one function has found waits in the amplitudes for
// the others, since no register keeps it meanwhile.
func raise4(t *traces, d *directions, from, to int, made []amplitudes, sum *amplitudes) {
	for k := 0; k < several; k += width4 {
		for i := from; i < to; i++ {
			p, a := &t.strips[i], &made[i]
			if p.fades(d) {
				continue
			}
			exponent := p.exponent4(d, k)
			seen := exponent.Greater(all4(&wide.least))
			exp4(exponent.Masked(seen)).Masked(seen).StoreSlice(slice4(&a.im, k))
			along, across := part4(&d.along, k).Mul(each4(p.x)), part4(&d.across, k).Mul(each4(p.y))
			along.Add(across).StoreSlice(slice4(&a.re, k))
			sinM, cosM := sincos4(along.Sub(across))
			sinM.StoreSlice(slice4(&a.reM, k))
			cosM.StoreSlice(slice4(&a.imM, k))
			sin, cos := sincos4(part4(&a.re, k))
			a.turn4(k, each4(p.ly).Mul(part4(&d.cosh, k)), each4(p.lz).Mul(part4(&d.sinh, k)), sin, cos)
			part4(&sum.re, k).Add(part4(&a.re, k)).StoreSlice(slice4(&sum.re, k))
			part4(&sum.im, k).Add(part4(&a.im, k)).StoreSlice(slice4(&sum.im, k))
			part4(&sum.reM, k).Add(part4(&a.reM, k)).StoreSlice(slice4(&sum.reM, k))
			part4(&sum.imM, k).Add(part4(&a.imM, k)).StoreSlice(slice4(&sum.imM, k))
		}
	}
	archsimd.ClearAVXUpperBits()
}

// turn4 makes amplitudes of the parts of circulation, sine and cosine of the one phase,
// those of the other in reM and imM, and the exponential in im.
func (a *amplitudes) turn4(k int, vertical, lateral, sin, cos lanes4) {
	e, sinM, cosM, zero := part4(&a.im, k), part4(&a.reM, k), part4(&a.imM, k), each4(0)
	seen := e.Greater(zero)
	vertical, lateral = e.Mul(vertical), e.Mul(lateral)
	lateral.Mul(cos).Sub(vertical.Mul(sin)).Masked(seen).StoreSlice(slice4(&a.re, k))
	vertical.Mul(cos).Add(lateral.Mul(sin)).Masked(seen).StoreSlice(slice4(&a.im, k))
	zero.Sub(lateral.Mul(cosM).Add(vertical.Mul(sinM))).Masked(seen).StoreSlice(slice4(&a.reM, k))
	vertical.Mul(cosM).Sub(lateral.Mul(sinM)).Masked(seen).StoreSlice(slice4(&a.imM, k))
}

// exponent4 is trace.exponent by lanes.
func (t *trace) exponent4(d *directions, k int) lanes4 {
	phase, fall := part4(&d.across, k).Mul(each4(t.dy)), part4(&d.kappa, k).Mul(each4(t.dz))
	blur := phase.Mul(phase).Add(fall.Mul(fall))
	return part4(&d.kappa, k).Mul(each4(t.z)).Sub(blur.Mul(blur))
}

// keep4 is keepScalar by lanes.
func keep4(t *traces, d *directions, held []parts) {
	for k := 0; k < several; k += width4 {
		for i := range held {
			p, h := &t.strips[i], &held[i]
			p.exponent4(d, k).StoreSlice(slice4(&h.exponent, k))
			part4(&d.along, k).Mul(each4(p.x)).StoreSlice(slice4(&h.xPhase, k))
			part4(&d.across, k).Mul(each4(p.y)).StoreSlice(slice4(&h.yPhase, k))
		}
	}
	archsimd.ClearAVXUpperBits()
}

// follow4 is followScalar by lanes.
func follow4(t, near *traces, d, now *directions, from, to int, held heldStrips, made []amplitudes, sum *amplitudes) {
	for k := 0; k < several; k += width4 {
		sumRe, sumIm, sumReM, sumImM := part4(&sum.re, k), part4(&sum.im, k), part4(&sum.reM, k), part4(&sum.imM, k)
		for i := from; i < to; i++ {
			p, q, u, h, a := &t.strips[i], &near.strips[i], &held.unit[i], &held.parts[i], &made[i]
			if p.fades(d) {
				*a = amplitudes{}
				continue
			}
			grown := all4(&wide.one).Add(q.exponent4(now, k).Sub(part4(&h.exponent, k)))
			along := part4(&now.along, k).Mul(each4(q.x)).Sub(part4(&h.xPhase, k))
			across := part4(&now.across, k).Mul(each4(q.y)).Sub(part4(&h.yPhase, k))
			turn, turnM := along.Add(across), along.Sub(across)
			vertical, lateral := each4(q.ly).Mul(part4(&now.cosh, k)), each4(q.lz).Mul(part4(&now.sinh, k))
			uRe, uIm := part4(&u.re, k), part4(&u.im, k)
			re, im := uRe.Mul(grown).Sub(uIm.Mul(turn)), uIm.Mul(grown).Add(uRe.Mul(turn))
			re, im = lateral.Mul(re).Sub(vertical.Mul(im)), vertical.Mul(re).Add(lateral.Mul(im))
			re.StoreSlice(slice4(&a.re, k))
			im.StoreSlice(slice4(&a.im, k))
			sumRe, sumIm = sumRe.Add(re), sumIm.Add(im)
			uRe, uIm = part4(&u.reM, k), part4(&u.imM, k)
			re, im = uRe.Mul(grown).Sub(uIm.Mul(turnM)), uIm.Mul(grown).Add(uRe.Mul(turnM))
			re, im = lateral.Mul(re).Add(vertical.Mul(im)), lateral.Mul(im).Sub(vertical.Mul(re))
			re.StoreSlice(slice4(&a.reM, k))
			im.StoreSlice(slice4(&a.imM, k))
			sumReM, sumImM = sumReM.Add(re), sumImM.Add(im)
		}
		sumRe.StoreSlice(slice4(&sum.re, k))
		sumIm.StoreSlice(slice4(&sum.im, k))
		sumReM.StoreSlice(slice4(&sum.reM, k))
		sumImM.StoreSlice(slice4(&sum.imM, k))
	}
	archsimd.ClearAVXUpperBits()
}

// feel4 is feelScalar by lanes.
func feel4(d *directions, sums, felt []amplitudes) {
	for k := 0; k < several; k += width4 {
		re, im, reM, imM := each4(0), each4(0), each4(0), each4(0)
		for s := range sums {
			a := &sums[s]
			re, im = re.Add(part4(&a.re, k)), im.Add(part4(&a.im, k))
			reM, imM = reM.Add(part4(&a.reM, k)), imM.Add(part4(&a.imM, k))
		}
		weight, coherent := part4(&d.weight, k), part4(&d.coherent, k)
		all, alone := weight.Mul(coherent), weight.Mul(all4(&wide.one).Sub(coherent))
		for s := range sums {
			a, f := &sums[s], &felt[s]
			alone.Mul(part4(&a.re, k)).Add(all.Mul(re)).StoreSlice(slice4(&f.re, k))
			alone.Mul(part4(&a.im, k)).Add(all.Mul(im)).StoreSlice(slice4(&f.im, k))
			alone.Mul(part4(&a.reM, k)).Add(all.Mul(reM)).StoreSlice(slice4(&f.reM, k))
			alone.Mul(part4(&a.imM, k)).Add(all.Mul(imM)).StoreSlice(slice4(&f.imM, k))
		}
	}
	archsimd.ClearAVXUpperBits()
}

// share4 is shareScalar by lanes.
func share4(t *traces, d *directions, from, to int, made []amplitudes, felt *amplitudes, shares [][several]float64) {
	for k := 0; k < several; k += width4 {
		re, im, reM, imM := part4(&felt.re, k), part4(&felt.im, k), part4(&felt.reM, k), part4(&felt.imM, k)
		for i := from; i < to; i++ {
			if t.strips[i].fades(d) {
				continue
			}
			a, s := &made[i], shares[i][k:]
			sum := re.Mul(part4(&a.re, k)).Add(im.Mul(part4(&a.im, k))).Add(reM.Mul(part4(&a.reM, k))).Add(imM.Mul(part4(&a.imM, k)))
			load4(s).Add(sum).StoreSlice(s)
		}
	}
	archsimd.ClearAVXUpperBits()
}

// sincos4 is sincosScalar by lanes.
func sincos4(phase lanes4) (sin, cos lanes4) {
	shifted := phase.Mul(all4(&wide.perRight)).Add(all4(&wide.magic))
	turns := shifted.Sub(all4(&wide.magic))
	r := phase.Sub(turns.Mul(all4(&wide.right[0]))).Sub(turns.Mul(all4(&wide.right[1])))
	z := r.Mul(r)
	w := z.Mul(z)
	s := horner4(w, horner4(w, all4(&wide.sin[4]), &wide.sin[2]), &wide.sin[0])
	s = s.Add(z.Mul(horner4(w, horner4(w, all4(&wide.sin[5]), &wide.sin[3]), &wide.sin[1])))
	c := horner4(w, horner4(w, all4(&wide.cos[4]), &wide.cos[2]), &wide.cos[0])
	c = c.Add(z.Mul(horner4(w, horner4(w, all4(&wide.cos[5]), &wide.cos[3]), &wide.cos[1])))
	s = r.Add(r.Mul(z).Mul(s))
	c = all4(&wide.one).Sub(all4(&wide.half).Mul(z)).Add(w.Mul(c))
	quadrant, sign := shifted.AsInt64x4(), allWhole4(&wide.sign)
	odd := quadrant.And(allWhole4(&wide.unit)).Equal(allWhole4(&wide.unit))
	s, c = c.Merge(s, odd), s.Merge(c, odd)
	sinSign := quadrant.ShiftAllLeft(62).And(sign)
	cosSign := quadrant.Add(allWhole4(&wide.unit)).ShiftAllLeft(62).And(sign)
	return s.AsInt64x4().Xor(sinSign).AsFloat64x4(), c.AsInt64x4().Xor(cosSign).AsFloat64x4()
}

// exp4 is expsScalar by lanes.
func exp4(x lanes4) lanes4 {
	shifted := x.Mul(all4(&wide.perTwo)).Add(all4(&wide.magic))
	powers := shifted.Sub(all4(&wide.magic))
	r := x.Sub(powers.Mul(all4(&wide.two[0]))).Sub(powers.Mul(all4(&wide.two[1])))
	z := r.Mul(r)
	w := z.Mul(z)
	even := horner4(w, horner4(w, horner4(w, all4(&wide.exp[12]), &wide.exp[8]), &wide.exp[4]), &wide.exp[0])
	even = even.Add(z.Mul(horner4(w, horner4(w, all4(&wide.exp[10]), &wide.exp[6]), &wide.exp[2])))
	odd := horner4(w, horner4(w, all4(&wide.exp[9]), &wide.exp[5]), &wide.exp[1])
	odd = odd.Add(z.Mul(horner4(w, horner4(w, all4(&wide.exp[11]), &wide.exp[7]), &wide.exp[3])))
	e := even.Add(r.Mul(odd))
	return e.Mul(shifted.AsInt64x4().Add(allWhole4(&wide.bias)).ShiftAllLeft(fractions).AsFloat64x4())
}

// exps4 is expsScalar by lanes.
func exps4(x *[several]float64) {
	for k := 0; k < several; k += width4 {
		exp4(load4(x[k:])).StoreSlice(x[k:])
	}
	archsimd.ClearAVXUpperBits()
}

// image4 is imageScalar for a whole number of lanes.
func image4(legs []leg, v *images, from, to int, own bool) {
	thin := each4(axis)
	for i := from; i < to; i += width4 {
		y, z, up, across := load4(v.y[i:]), load4(v.z[i:]), load4(v.up[i:]), load4(v.across[i:])
		for j := range legs {
			n := &legs[j]
			dy, down := y.Sub(each4(n.y)), z.Sub(each4(n.z))
			q := dy.Mul(dy).Add(down.Mul(down))
			if !own {
				q = q.Mul(q).Add(each4(n.core4).Add(load4(v.core4[i:]))).Sqrt()
			}
			f := each4(n.circulation).Div(q).Masked(q.Greater(thin))
			up = up.Add(f.Mul(dy))
			across = across.Add(f.Mul(down))
		}
		up.StoreSlice(v.up[i:])
		across.StoreSlice(v.across[i:])
	}
	archsimd.ClearAVXUpperBits()
}
