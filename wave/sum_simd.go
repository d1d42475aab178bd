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
