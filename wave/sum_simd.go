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

func take(a *amplitudes, from, to int, s *sums) {
	whole := from + (to-from)/partials*partials
	switch {
	case archsimd.X86.AVX512():
		take8(a, from, whole, s)
	case archsimd.X86.AVX2():
		take4(a, from, whole, s)
	default:
		takeScalar(a, from, whole, s)
	}
	takeScalar(a, whole, to, s)
}

// take8 is takeScalar for whole eights into sums that are zero.
func take8(a *amplitudes, from, to int, s *sums) {
	re, im, reM, imM := each8(0), each8(0), each8(0), each8(0)
	for i := from; i+partials <= to; i += partials {
		re, im = re.Add(load8(a.re[i:])), im.Add(load8(a.im[i:]))
		reM, imM = reM.Add(load8(a.reM[i:])), imM.Add(load8(a.imM[i:]))
	}
	re.StoreSlice(s.re[:])
	im.StoreSlice(s.im[:])
	reM.StoreSlice(s.reM[:])
	imM.StoreSlice(s.imM[:])
	archsimd.ClearAVXUpperBits()
}

// take4 is take8 by twice four.
func take4(a *amplitudes, from, to int, s *sums) {
	for half := 0; half < partials; half += width4 {
		re, im, reM, imM := each4(0), each4(0), each4(0), each4(0)
		for i := from; i+partials <= to; i += partials {
			re, im = re.Add(load4(a.re[i+half:])), im.Add(load4(a.im[i+half:]))
			reM, imM = reM.Add(load4(a.reM[i+half:])), imM.Add(load4(a.imM[i+half:]))
		}
		re.StoreSlice(s.re[half:])
		im.StoreSlice(s.im[half:])
		reM.StoreSlice(s.reM[half:])
		imM.StoreSlice(s.imM[half:])
	}
	archsimd.ClearAVXUpperBits()
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
