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

func each4(x float64) lanes4                     { return archsimd.BroadcastFloat64x4(x) }
func load4(x []float64) lanes4                   { return archsimd.LoadFloat64x4Slice(x) }
func all4(x *spread) lanes4                      { return load4(x[:]) }
func allWhole4(x *spreadWhole) whole4            { return archsimd.LoadInt64x4Slice(x[:]) }
func horner4(z, sum lanes4, next *spread) lanes4 { return all4(next).Add(z.Mul(sum)) }

// raise4 is raiseScalar by lanes: one step after another for all strips, so that
// what one strip waits for is done for others meanwhile.
func raise4(t *traces, d *directions, from, to int, made []amplitudes, sum *amplitudes) {
	for k := 0; k < several; k += width4 {
		look4(t, d, k, from, to, made)
		for i := from; i < to; i++ {
			if !t.fades(d, i) {
				e := made[i].im[k:]
				exponent := load4(e)
				seen := exponent.Greater(all4(&wide.least))
				exp4(exponent.Masked(seen)).Masked(seen).StoreSlice(e)
			}
		}
		turn4(t, d, k, from, to, made, sum)
	}
	archsimd.ClearAVXUpperBits()
}

// look4 leaves the phases in re and reM, and the exponent in im.
func look4(t *traces, d *directions, k, from, to int, made []amplitudes) {
	kappa, turn, ahead := load4(d.kappa[k:]), load4(d.across[k:]), load4(d.along[k:])
	for i := from; i < to; i++ {
		if t.fades(d, i) {
			continue
		}
		a := &made[i]
		phase, fall := turn.Mul(each4(t.dy[i])), kappa.Mul(each4(t.dz[i]))
		blur := phase.Mul(phase).Add(fall.Mul(fall))
		kappa.Mul(each4(t.z[i])).Sub(blur.Mul(blur)).StoreSlice(a.im[k:])
		along, across := ahead.Mul(each4(t.x[i])), turn.Mul(each4(t.y[i]))
		along.Add(across).StoreSlice(a.re[k:])
		along.Sub(across).StoreSlice(a.reM[k:])
	}
}

// turn4 makes amplitudes of phases and the exponential in im, and adds them up.
func turn4(t *traces, d *directions, k, from, to int, made []amplitudes, sum *amplitudes) {
	cosh, sinh, zero := load4(d.cosh[k:]), load4(d.sinh[k:]), each4(0)
	sumRe, sumIm, sumReM, sumImM := load4(sum.re[k:]), load4(sum.im[k:]), load4(sum.reM[k:]), load4(sum.imM[k:])
	for i := from; i < to; i++ {
		if t.fades(d, i) {
			continue
		}
		a := &made[i]
		e := load4(a.im[k:])
		seen := e.Greater(zero)
		sin, cos := sincos4(load4(a.re[k:]))
		sinM, cosM := sincos4(load4(a.reM[k:]))
		vertical, lateral := e.Mul(each4(t.ly[i]).Mul(cosh)), e.Mul(each4(t.lz[i]).Mul(sinh))
		re := lateral.Mul(cos).Sub(vertical.Mul(sin)).Masked(seen)
		im := vertical.Mul(cos).Add(lateral.Mul(sin)).Masked(seen)
		reM := zero.Sub(lateral.Mul(cosM).Add(vertical.Mul(sinM))).Masked(seen)
		imM := vertical.Mul(cosM).Sub(lateral.Mul(sinM)).Masked(seen)
		re.StoreSlice(a.re[k:])
		im.StoreSlice(a.im[k:])
		reM.StoreSlice(a.reM[k:])
		imM.StoreSlice(a.imM[k:])
		sumRe, sumIm, sumReM, sumImM = sumRe.Add(re), sumIm.Add(im), sumReM.Add(reM), sumImM.Add(imM)
	}
	sumRe.StoreSlice(sum.re[k:])
	sumIm.StoreSlice(sum.im[k:])
	sumReM.StoreSlice(sum.reM[k:])
	sumImM.StoreSlice(sum.imM[k:])
}

// exponent4 is traces.exponent by lanes.
func (t *traces) exponent4(d *directions, i, k int) lanes4 {
	phase, fall := load4(d.across[k:]).Mul(each4(t.dy[i])), load4(d.kappa[k:]).Mul(each4(t.dz[i]))
	blur := phase.Mul(phase).Add(fall.Mul(fall))
	return load4(d.kappa[k:]).Mul(each4(t.z[i])).Sub(blur.Mul(blur))
}

// follow4 is followScalar by lanes.
func follow4(t, near *traces, d, now *directions, from, to int, unit, made []amplitudes, sum *amplitudes) {
	for i := from; i < to; i++ {
		u, a := &unit[i], &made[i]
		if t.fades(d, i) {
			*a = amplitudes{}
			continue
		}
		for k := 0; k < several; k += width4 {
			grown := all4(&wide.one).Add(near.exponent4(now, i, k).Sub(t.exponent4(d, i, k)))
			along := load4(now.along[k:]).Mul(each4(near.x[i])).Sub(load4(d.along[k:]).Mul(each4(t.x[i])))
			across := load4(now.across[k:]).Mul(each4(near.y[i])).Sub(load4(d.across[k:]).Mul(each4(t.y[i])))
			turn, turnM := along.Add(across), along.Sub(across)
			vertical, lateral := each4(near.ly[i]).Mul(load4(now.cosh[k:])), each4(near.lz[i]).Mul(load4(now.sinh[k:]))
			uRe, uIm, uReM, uImM := load4(u.re[k:]), load4(u.im[k:]), load4(u.reM[k:]), load4(u.imM[k:])
			re, im := uRe.Mul(grown).Sub(uIm.Mul(turn)), uIm.Mul(grown).Add(uRe.Mul(turn))
			reM, imM := uReM.Mul(grown).Sub(uImM.Mul(turnM)), uImM.Mul(grown).Add(uReM.Mul(turnM))
			re, im = lateral.Mul(re).Sub(vertical.Mul(im)), vertical.Mul(re).Add(lateral.Mul(im))
			reM, imM = lateral.Mul(reM).Add(vertical.Mul(imM)), lateral.Mul(imM).Sub(vertical.Mul(reM))
			re.StoreSlice(a.re[k:])
			im.StoreSlice(a.im[k:])
			reM.StoreSlice(a.reM[k:])
			imM.StoreSlice(a.imM[k:])
			load4(sum.re[k:]).Add(re).StoreSlice(sum.re[k:])
			load4(sum.im[k:]).Add(im).StoreSlice(sum.im[k:])
			load4(sum.reM[k:]).Add(reM).StoreSlice(sum.reM[k:])
			load4(sum.imM[k:]).Add(imM).StoreSlice(sum.imM[k:])
		}
	}
	archsimd.ClearAVXUpperBits()
}

// share4 is shareScalar by lanes.
func share4(t *traces, d *directions, from, to int, made []amplitudes, felt *amplitudes, shares [][several]float64) {
	for k := 0; k < several; k += width4 {
		re, im, reM, imM := load4(felt.re[k:]), load4(felt.im[k:]), load4(felt.reM[k:]), load4(felt.imM[k:])
		for i := from; i < to; i++ {
			if t.fades(d, i) {
				continue
			}
			a, s := &made[i], shares[i][k:]
			sum := re.Mul(load4(a.re[k:])).Add(im.Mul(load4(a.im[k:]))).Add(reM.Mul(load4(a.reM[k:]))).Add(imM.Mul(load4(a.imM[k:])))
			load4(s).Add(sum).StoreSlice(s)
		}
	}
	archsimd.ClearAVXUpperBits()
}

// sincos4 is sincos by lanes.
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

// exp4 is exp by lanes.
func exp4(x lanes4) lanes4 {
	shifted := x.Mul(all4(&wide.perTwo)).Add(all4(&wide.magic))
	powers := shifted.Sub(all4(&wide.magic))
	r := x.Sub(powers.Mul(all4(&wide.two[0]))).Sub(powers.Mul(all4(&wide.two[1])))
	z := r.Mul(r)
	even := horner4(z, horner4(z, horner4(z, all4(&wide.exp[12]), &wide.exp[10]), &wide.exp[8]), &wide.exp[6])
	even = horner4(z, horner4(z, horner4(z, even, &wide.exp[4]), &wide.exp[2]), &wide.exp[0])
	odd := horner4(z, horner4(z, all4(&wide.exp[11]), &wide.exp[9]), &wide.exp[7])
	odd = horner4(z, horner4(z, horner4(z, odd, &wide.exp[5]), &wide.exp[3]), &wide.exp[1])
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
				q = q.Mul(q).Add(each4(n.core4)).Sqrt()
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
