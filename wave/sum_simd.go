//go:build goexperiment.simd && amd64

package wave

import "simd/archsimd"

// wide returns the first places that are not left over after taking eights, and
// after taking fours of the rest, as the processor has it.
func wide(from, to int) (eights, fours int) {
	eights = from
	if archsimd.X86.AVX512() {
		eights += (to - from) / width8 * width8
	}
	fours = eights
	if archsimd.X86.AVX2() {
		fours += (to - eights) / width4 * width4
	}
	return eights, fours
}

func raise(t *traces, d *direction, from, to int, a *amplitudes) {
	if d.phase > furthestPhase {
		raiseScalar(t, d, from, to, a)
		return
	}
	eights, fours := wide(from, to)
	raise8(t, d, from, eights, a)
	raise4(t, d, eights, fours, a)
	raiseScalar(t, d, fours, to, a)
}

func share(a *amplitudes, felt *amplitude, weight float64, from, to int, perStrip []float64) {
	eights, fours := wide(from, to)
	share8(a, felt, weight, from, eights, perStrip)
	share4(a, felt, weight, eights, fours, perStrip)
	shareScalar(a, felt, weight, fours, to, perStrip)
}

func image(legs []leg, v *images, from, to int, own bool) {
	eights, fours := wide(from, to)
	image8(legs, v, from, eights, own)
	image4(legs, v, eights, fours, own)
	imageScalar(legs, v, fours, to, own)
}
