//go:build goexperiment.simd && amd64

package wave

import "simd/archsimd"

func raise(t *traces, d *directions, from, to int, made []amplitudes, sum *amplitudes) {
	switch {
	case d.phase > furthestPhase:
		raiseScalar(t, d, from, to, made, sum)
	case archsimd.X86.AVX512():
		raise8(t, d, from, to, made, sum)
	case archsimd.X86.AVX2():
		raise4(t, d, from, to, made, sum)
	default:
		raiseScalar(t, d, from, to, made, sum)
	}
}

func keep(t *traces, d *directions, held []parts) {
	switch {
	case archsimd.X86.AVX512():
		keep8(t, d, held)
	case archsimd.X86.AVX2():
		keep4(t, d, held)
	default:
		keepScalar(t, d, held)
	}
}

func follow(t, near *traces, d, now *directions, from, to int, held heldStrips, made []amplitudes, sum *amplitudes) {
	switch {
	case archsimd.X86.AVX512():
		follow8(t, near, d, now, from, to, held, made, sum)
	case archsimd.X86.AVX2():
		follow4(t, near, d, now, from, to, held, made, sum)
	default:
		followScalar(t, near, d, now, from, to, held, made, sum)
	}
}

func feel(d *directions, sums, felt []amplitudes) {
	switch {
	case archsimd.X86.AVX512():
		feel8(d, sums, felt)
	case archsimd.X86.AVX2():
		feel4(d, sums, felt)
	default:
		feelScalar(d, sums, felt)
	}
}

func exps(x *[several]float64) {
	switch {
	case archsimd.X86.AVX512():
		exps8(x)
	case archsimd.X86.AVX2():
		exps4(x)
	default:
		expsScalar(x)
	}
}

func share(t *traces, d *directions, from, to int, made []amplitudes, felt *amplitudes, shares [][several]float64) {
	switch {
	case archsimd.X86.AVX512():
		share8(t, d, from, to, made, felt, shares)
	case archsimd.X86.AVX2():
		share4(t, d, from, to, made, felt, shares)
	default:
		shareScalar(t, d, from, to, made, felt, shares)
	}
}

// image takes eights, then fours of the rest, as the processor has it, then
// what is left.
func image(legs []leg, v *images, from, to int, own bool) {
	if n := (to - from) / width8 * width8; n > 0 && archsimd.X86.AVX512() {
		image8(legs, v, from, from+n, own)
		from += n
	}
	if n := (to - from) / width4 * width4; n > 0 && archsimd.X86.AVX2() {
		image4(legs, v, from, from+n, own)
		from += n
	}
	imageScalar(legs, v, from, to, own)
}

// spread is a number as often as the widest vector holds one, spreadWhole the same
// of a whole number: loading it costs less than spreading it anew.
type (
	spread      [several]float64
	spreadWhole [several]int64
)

// wide are the constants of sincosScalar and expsScalar.
var wide = struct {
	magic, perRight, perTwo, one, half, least spread
	right                                     [2]spread
	two                                       [2]spread
	sin, cos                                  [6]spread
	exp                                       [13]spread // of Taylor's series, by power
	unit, sign, bias                          spreadWhole
}{
	magic: all(magic), perRight: all(perRight), perTwo: all(perTwo), one: all(1), half: all(0.5), least: all(-decay),
	right: [2]spread{all(right1), all(right2)},
	two:   [2]spread{all(two1), all(two2)},
	sin:   [6]spread{all(sin1), all(sin2), all(sin3), all(sin4), all(sin5), all(sin6)},
	cos:   [6]spread{all(cos1), all(cos2), all(cos3), all(cos4), all(cos5), all(cos6)},
	exp: [13]spread{
		all(1), all(1), all(1. / 2), all(1. / 6), all(1. / 24), all(1. / 120), all(1. / 720), all(1. / 5040), all(1. / 40320),
		all(1. / 362880), all(1. / 3628800), all(1. / 39916800), all(1. / 479001600),
	},
	unit: allWhole(1), sign: allWhole(-1 << 63), bias: allWhole(bias),
}

func all(x float64) (s spread) {
	for k := range s {
		s[k] = x
	}
	return s
}

func allWhole(n int64) (s spreadWhole) {
	for k := range s {
		s[k] = n
	}
	return s
}
