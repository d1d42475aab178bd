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

func each8(x float64) lanes8                     { return archsimd.BroadcastFloat64x8(x) }
func eachWhole8(n int64) whole8                  { return archsimd.BroadcastInt64x8(n) }
func load8(x []float64) lanes8                   { return archsimd.LoadFloat64x8Slice(x) }
func horner8(z, sum lanes8, next float64) lanes8 { return each8(next).Add(z.Mul(sum)) }

// raise8 is raiseScalar by lanes.
func raise8(t *traces, d *directions, from, to int, made []amplitudes, sum *amplitudes) {
	zero, least := each8(0), each8(-decay)
	for i := from; i < to; i++ {
		if t.fades(d, i) {
			continue
		}
		a, dy, dz, z := &made[i], each8(t.dy[i]), each8(t.dz[i]), each8(t.z[i])
		x, y, ly, lz := each8(t.x[i]), each8(t.y[i]), each8(t.ly[i]), each8(t.lz[i])
		for k := 0; k < several; k += width8 {
			kappa, turn := load8(d.kappa[k:]), load8(d.across[k:])
			phase, fall := turn.Mul(dy), kappa.Mul(dz)
			blur := phase.Mul(phase).Add(fall.Mul(fall))
			exponent := kappa.Mul(z).Sub(blur.Mul(blur))
			seen := exponent.Greater(least)
			re, im, reM, imM := zero, zero, zero, zero
			if seen.ToBits() != 0 {
				along, across := load8(d.along[k:]).Mul(x), turn.Mul(y)
				sin, cos := sincos8(along.Add(across))
				sinM, cosM := sincos8(along.Sub(across))
				e := exp8(exponent.Merge(zero, seen))
				vertical, lateral := e.Mul(ly.Mul(load8(d.cosh[k:]))), e.Mul(lz.Mul(load8(d.sinh[k:])))
				re = lateral.Mul(cos).Sub(vertical.Mul(sin)).Masked(seen)
				im = vertical.Mul(cos).Add(lateral.Mul(sin)).Masked(seen)
				reM = zero.Sub(lateral.Mul(cosM).Add(vertical.Mul(sinM))).Masked(seen)
				imM = vertical.Mul(cosM).Sub(lateral.Mul(sinM)).Masked(seen)
			}
			re.StoreSlice(a.re[k:])
			im.StoreSlice(a.im[k:])
			reM.StoreSlice(a.reM[k:])
			imM.StoreSlice(a.imM[k:])
			load8(sum.re[k:]).Add(re).StoreSlice(sum.re[k:])
			load8(sum.im[k:]).Add(im).StoreSlice(sum.im[k:])
			load8(sum.reM[k:]).Add(reM).StoreSlice(sum.reM[k:])
			load8(sum.imM[k:]).Add(imM).StoreSlice(sum.imM[k:])
		}
	}
	archsimd.ClearAVXUpperBits()
}

// share8 is shareScalar by lanes.
func share8(t *traces, d *directions, from, to int, made []amplitudes, felt *amplitudes, shares [][several]float64) {
	for k := 0; k < several; k += width8 {
		re, im, reM, imM := load8(felt.re[k:]), load8(felt.im[k:]), load8(felt.reM[k:]), load8(felt.imM[k:])
		for i := from; i < to; i++ {
			if t.fades(d, i) {
				continue
			}
			a, s := &made[i], shares[i][k:]
			sum := re.Mul(load8(a.re[k:])).Add(im.Mul(load8(a.im[k:]))).Add(reM.Mul(load8(a.reM[k:]))).Add(imM.Mul(load8(a.imM[k:])))
			load8(s).Add(sum).StoreSlice(s)
		}
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
