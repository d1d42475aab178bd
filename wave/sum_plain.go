//go:build !(goexperiment.simd && amd64)

package wave

func raise(t *traces, d *directions, from, to int, made []amplitudes, sum *amplitudes) {
	raiseScalar(t, d, from, to, made, sum)
}

func keep(t *traces, d *directions, held []parts) { keepScalar(t, d, held) }

func follow(t, near *traces, d, now *directions, from, to int, held heldStrips, made []amplitudes, sum *amplitudes) {
	followScalar(t, near, d, now, from, to, held, made, sum)
}

func feel(d *directions, sums, felt []amplitudes) { feelScalar(d, sums, felt) }

func exps(x *[several]float64) { expsScalar(x) }

func share(t *traces, d *directions, from, to int, made []amplitudes, felt *amplitudes, shares [][several]float64) {
	shareScalar(t, d, from, to, made, felt, shares)
}

func image(legs []leg, v *images, from, to int, own bool) { imageScalar(legs, v, from, to, own) }
