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
func eachWhole4(n int64) whole4                  { return archsimd.BroadcastInt64x4(n) }
func load4(x []float64) lanes4                   { return archsimd.LoadFloat64x4Slice(x) }
func horner4(z, sum lanes4, next float64) lanes4 { return each4(next).Add(z.Mul(sum)) }

// raise4 is raiseScalar by lanes.
func raise4(t *traces, d *directions, from, to int, made []amplitudes, sum *amplitudes) {
	zero, least := each4(0), each4(-decay)
	for i := from; i < to; i++ {
		if t.fades(d, i) {
			continue
		}
		a, dy, dz, z := &made[i], each4(t.dy[i]), each4(t.dz[i]), each4(t.z[i])
		x, y, ly, lz := each4(t.x[i]), each4(t.y[i]), each4(t.ly[i]), each4(t.lz[i])
		for k := 0; k < several; k += width4 {
			kappa, turn := load4(d.kappa[k:]), load4(d.across[k:])
			phase, fall := turn.Mul(dy), kappa.Mul(dz)
			blur := phase.Mul(phase).Add(fall.Mul(fall))
			exponent := kappa.Mul(z).Sub(blur.Mul(blur))
			seen := exponent.Greater(least)
			re, im, reM, imM := zero, zero, zero, zero
			if seen.ToBits() != 0 {
				along, across := load4(d.along[k:]).Mul(x), turn.Mul(y)
				sin, cos := sincos4(along.Add(across))
				sinM, cosM := sincos4(along.Sub(across))
				e := exp4(exponent.Merge(zero, seen))
				vertical, lateral := e.Mul(ly.Mul(load4(d.cosh[k:]))), e.Mul(lz.Mul(load4(d.sinh[k:])))
				re = lateral.Mul(cos).Sub(vertical.Mul(sin)).Masked(seen)
				im = vertical.Mul(cos).Add(lateral.Mul(sin)).Masked(seen)
				reM = zero.Sub(lateral.Mul(cosM).Add(vertical.Mul(sinM))).Masked(seen)
				imM = vertical.Mul(cosM).Sub(lateral.Mul(sinM)).Masked(seen)
			}
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
	shifted := phase.Mul(each4(perRight)).Add(each4(magic))
	turns := shifted.Sub(each4(magic))
	r := phase.Sub(turns.Mul(each4(right1))).Sub(turns.Mul(each4(right2))).Sub(turns.Mul(each4(right3)))
	z := r.Mul(r)
	s := horner4(z, horner4(z, horner4(z, horner4(z, each4(sin6), sin5), sin4), sin3), sin2)
	s = r.Add(r.Mul(z).Mul(horner4(z, s, sin1)))
	c := horner4(z, horner4(z, horner4(z, horner4(z, each4(cos6), cos5), cos4), cos3), cos2)
	c = each4(1).Sub(each4(0.5).Mul(z)).Add(z.Mul(z).Mul(horner4(z, c, cos1)))
	quadrant, sign := shifted.AsInt64x4(), eachWhole4(-1<<63)
	odd := quadrant.And(eachWhole4(1)).Equal(eachWhole4(1))
	s, c = c.Merge(s, odd), s.Merge(c, odd)
	sinSign := quadrant.ShiftAllLeft(62).And(sign)
	cosSign := quadrant.Add(eachWhole4(1)).ShiftAllLeft(62).And(sign)
	return s.AsInt64x4().Xor(sinSign).AsFloat64x4(), c.AsInt64x4().Xor(cosSign).AsFloat64x4()
}

// exp4 is exp by lanes.
func exp4(x lanes4) lanes4 {
	shifted := x.Mul(each4(perTwo)).Add(each4(magic))
	powers := shifted.Sub(each4(magic))
	r := x.Sub(powers.Mul(each4(two1))).Sub(powers.Mul(each4(two2)))
	e := horner4(r, horner4(r, horner4(r, each4(1./479001600), 1./39916800), 1./3628800), 1./362880)
	e = horner4(r, horner4(r, horner4(r, horner4(r, e, 1./40320), 1./5040), 1./720), 1./120)
	e = horner4(r, horner4(r, horner4(r, horner4(r, horner4(r, e, 1./24), 1./6), 1./2), 1), 1)
	return e.Mul(shifted.AsInt64x4().Add(eachWhole4(bias)).ShiftAllLeft(fractions).AsFloat64x4())
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
