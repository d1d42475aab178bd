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

// raise4 is raiseScalar for a whole number of lanes.
func raise4(t *traces, d *direction, from, to int, a *amplitudes) {
	zero, least := each4(0), each4(-decay)
	sinh, cosh := each4(d.sinh), each4(d.cosh)
	for i := from; i < to; i += width4 {
		phase, fall := each4(d.across).Mul(load4(t.dy[i:])), each4(d.kappa).Mul(load4(t.dz[i:]))
		blur := phase.Mul(phase).Add(fall.Mul(fall))
		exponent := each4(d.kappa).Mul(load4(t.z[i:])).Sub(blur.Mul(blur))
		seen := exponent.Greater(least)
		if seen.ToBits() == 0 {
			zero.StoreSlice(a.re[i:])
			zero.StoreSlice(a.im[i:])
			zero.StoreSlice(a.reM[i:])
			zero.StoreSlice(a.imM[i:])
			continue
		}
		along, across := each4(d.along).Mul(load4(t.x[i:])), each4(d.across).Mul(load4(t.y[i:]))
		sin, cos := sincos4(along.Add(across))
		sinM, cosM := sincos4(along.Sub(across))
		e := exp4(exponent.Merge(zero, seen))
		vertical, lateral := e.Mul(load4(t.ly[i:]).Mul(cosh)), e.Mul(load4(t.lz[i:]).Mul(sinh))
		lateral.Mul(cos).Sub(vertical.Mul(sin)).Masked(seen).StoreSlice(a.re[i:])
		vertical.Mul(cos).Add(lateral.Mul(sin)).Masked(seen).StoreSlice(a.im[i:])
		zero.Sub(lateral.Mul(cosM).Add(vertical.Mul(sinM))).Masked(seen).StoreSlice(a.reM[i:])
		vertical.Mul(cosM).Sub(lateral.Mul(sinM)).Masked(seen).StoreSlice(a.imM[i:])
	}
	archsimd.ClearAVXUpperBits()
}

// share4 is shareScalar for a whole number of lanes.
func share4(a *amplitudes, felt *amplitude, weight float64, from, to int, perStrip []float64) {
	re, im, reM, imM := each4(felt.re), each4(felt.im), each4(felt.reM), each4(felt.imM)
	for i := from; i < to; i += width4 {
		sum := re.Mul(load4(a.re[i:])).Add(im.Mul(load4(a.im[i:]))).Add(reM.Mul(load4(a.reM[i:]))).Add(imM.Mul(load4(a.imM[i:])))
		load4(perStrip[i:]).Add(each4(weight).Mul(sum)).StoreSlice(perStrip[i:])
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
