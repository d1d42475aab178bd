//go:build !(goexperiment.simd && amd64)

package wave

func raise(t *traces, d *direction, from, to int, a *amplitudes) { raiseScalar(t, d, from, to, a) }

func take(a *amplitudes, from, to int, s *sums) { takeScalar(a, from, to, s) }

func share(a *amplitudes, felt *amplitude, weight float64, from, to int, perStrip []float64) {
	shareScalar(a, felt, weight, from, to, perStrip)
}

func image(legs []leg, v *images, from, to int, own bool) { imageScalar(legs, v, from, to, own) }
