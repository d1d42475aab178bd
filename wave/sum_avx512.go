//go:build goexperiment.simd && amd64

package wave

import "simd/archsimd"

// This file holds for eight numbers at once; sum_avx2.go is the same for four,
// and renewed from it by
//
//	go test -run TestKernelsAreOneText -write-kernels ./wave

// lanes8 are so many numbers at once, whole8 the same as whole numbers.
type (
	lanes8 = archsimd.Float64x8
	whole8 = archsimd.Int64x8
)

const width8 = 8

func each8(x float64) lanes8                     { return archsimd.BroadcastFloat64x8(x) }
func eachWhole8(n int64) whole8                  { return archsimd.BroadcastInt64x8(n) }
func load8(x []float64) lanes8                   { return archsimd.LoadFloat64x8Slice(x) }
func horner8(z, sum lanes8, next float64) lanes8 { return each8(next).Add(z.Mul(sum)) }

// raise8 is raiseScalar for a whole number of lanes.
func raise8(t *traces, d *direction, from, to int, a *amplitudes) {
	zero, least := each8(0), each8(-decay)
	sinh, cosh := each8(d.sinh), each8(d.cosh)
	for i := from; i < to; i += width8 {
		phase, fall := each8(d.across).Mul(load8(t.dy[i:])), each8(d.kappa).Mul(load8(t.dz[i:]))
		blur := phase.Mul(phase).Add(fall.Mul(fall))
		exponent := each8(d.kappa).Mul(load8(t.z[i:])).Sub(blur.Mul(blur))
		seen := exponent.Greater(least)
		if seen.ToBits() == 0 {
			zero.StoreSlice(a.re[i:])
			zero.StoreSlice(a.im[i:])
			zero.StoreSlice(a.reM[i:])
			zero.StoreSlice(a.imM[i:])
			continue
		}
		along, across := each8(d.along).Mul(load8(t.x[i:])), each8(d.across).Mul(load8(t.y[i:]))
		sin, cos := sincos8(along.Add(across))
		sinM, cosM := sincos8(along.Sub(across))
		e := exp8(exponent.Merge(zero, seen))
		vertical, lateral := e.Mul(load8(t.ly[i:]).Mul(cosh)), e.Mul(load8(t.lz[i:]).Mul(sinh))
		lateral.Mul(cos).Sub(vertical.Mul(sin)).Masked(seen).StoreSlice(a.re[i:])
		vertical.Mul(cos).Add(lateral.Mul(sin)).Masked(seen).StoreSlice(a.im[i:])
		zero.Sub(lateral.Mul(cosM).Add(vertical.Mul(sinM))).Masked(seen).StoreSlice(a.reM[i:])
		vertical.Mul(cosM).Sub(lateral.Mul(sinM)).Masked(seen).StoreSlice(a.imM[i:])
	}
	archsimd.ClearAVXUpperBits()
}

// share8 is shareScalar for a whole number of lanes.
func share8(a *amplitudes, felt *amplitude, weight float64, from, to int, perStrip []float64) {
	re, im, reM, imM := each8(felt.re), each8(felt.im), each8(felt.reM), each8(felt.imM)
	for i := from; i < to; i += width8 {
		sum := re.Mul(load8(a.re[i:])).Add(im.Mul(load8(a.im[i:]))).Add(reM.Mul(load8(a.reM[i:]))).Add(imM.Mul(load8(a.imM[i:])))
		load8(perStrip[i:]).Add(each8(weight).Mul(sum)).StoreSlice(perStrip[i:])
	}
	archsimd.ClearAVXUpperBits()
}

// sincos8 is sincos by lanes.
func sincos8(phase lanes8) (sin, cos lanes8) {
	shifted := phase.Mul(each8(perRight)).Add(each8(magic))
	turns := shifted.Sub(each8(magic))
	r := phase.Sub(turns.Mul(each8(right1))).Sub(turns.Mul(each8(right2))).Sub(turns.Mul(each8(right3)))
	z := r.Mul(r)
	s := horner8(z, horner8(z, horner8(z, horner8(z, each8(sin6), sin5), sin4), sin3), sin2)
	s = r.Add(r.Mul(z).Mul(horner8(z, s, sin1)))
	c := horner8(z, horner8(z, horner8(z, horner8(z, each8(cos6), cos5), cos4), cos3), cos2)
	c = each8(1).Sub(each8(0.5).Mul(z)).Add(z.Mul(z).Mul(horner8(z, c, cos1)))
	quadrant, sign := shifted.AsInt64x8(), eachWhole8(-1<<63)
	odd := quadrant.And(eachWhole8(1)).Equal(eachWhole8(1))
	s, c = c.Merge(s, odd), s.Merge(c, odd)
	sinSign := quadrant.ShiftAllLeft(62).And(sign)
	cosSign := quadrant.Add(eachWhole8(1)).ShiftAllLeft(62).And(sign)
	return s.AsInt64x8().Xor(sinSign).AsFloat64x8(), c.AsInt64x8().Xor(cosSign).AsFloat64x8()
}

// exp8 is exp by lanes.
func exp8(x lanes8) lanes8 {
	shifted := x.Mul(each8(perTwo)).Add(each8(magic))
	powers := shifted.Sub(each8(magic))
	r := x.Sub(powers.Mul(each8(two1))).Sub(powers.Mul(each8(two2)))
	e := horner8(r, horner8(r, horner8(r, each8(1./479001600), 1./39916800), 1./3628800), 1./362880)
	e = horner8(r, horner8(r, horner8(r, horner8(r, e, 1./40320), 1./5040), 1./720), 1./120)
	e = horner8(r, horner8(r, horner8(r, horner8(r, horner8(r, e, 1./24), 1./6), 1./2), 1), 1)
	return e.Mul(shifted.AsInt64x8().Add(eachWhole8(bias)).ShiftAllLeft(fractions).AsFloat64x8())
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
				q = q.Mul(q).Add(each8(n.core4)).Sqrt()
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
