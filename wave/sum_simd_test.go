//go:build goexperiment.simd && amd64 && !amd64.v3

package wave

import (
	"math"
	"math/rand/v2"
	"simd/archsimd"
	"testing"
)

// All kernels give the same bits: from the surface down to where waves have
// faded, with phases of many turns and of none.
func TestKernelsGiveTheSameBits(t *testing.T) {
	if !archsimd.X86.AVX2() {
		t.Skip("this processor has no AVX2: its kernel is the scalar one")
	}
	random := rand.New(rand.NewPCG(5, 6))
	const n = 32
	var tr traces
	tr.reset(n)
	for i := range n {
		tr.strips[i] = trace{
			3 * random.NormFloat64(), 3 * random.NormFloat64(), -random.ExpFloat64(),
			0.1 * random.Float64(), 0.1 * random.Float64(), random.NormFloat64(), random.NormFloat64(),
		}
	}
	tr.strips[3].x, tr.strips[3].y = 0, 0
	tr.strips[4].z, tr.strips[4].dy, tr.strips[4].dz = 0, 0, 0
	for _, kappa := range []float64{0.05, 1, 20, 400, 5000} {
		var d directions
		var felt amplitudes
		for k := range several {
			d.kappa[k] = kappa * (1 + float64(k)/5)
			d.cosh[k] = math.Sqrt(d.kappa[k] / 0.05)
			d.sinh[k] = math.Sqrt(d.cosh[k]*d.cosh[k] - 1)
			d.along[k], d.across[k] = 0.05*d.cosh[k], 0.05*d.cosh[k]*d.sinh[k]
			felt.re[k], felt.im[k], felt.reM[k], felt.imM[k] = random.NormFloat64(), random.NormFloat64(), random.NormFloat64(), random.NormFloat64()
		}
		sameWhenFollowed(t, &tr, &d)
		want := made(&tr, &d, &felt, raiseScalar, shareScalar)
		sameBits(t, "four at a time", made(&tr, &d, &felt, raise4, share4), want)
		if archsimd.X86.AVX512() {
			sameBits(t, "eight at a time", made(&tr, &d, &felt, raise8, share8), want)
		}
	}
}

// So do exponentials, from 0 down to the least.
func TestExponentialsHaveTheSameBits(t *testing.T) {
	if !archsimd.X86.AVX2() {
		t.Skip("this processor has no AVX2: its kernel is the scalar one")
	}
	random := rand.New(rand.NewPCG(9, 10))
	for range 200 {
		x := [several]float64{0, -leastExp, -1e-9}
		for k := 3; k < several; k++ {
			x[k] = -leastExp * math.Pow(random.Float64(), 4)
		}
		want, four, eight := x, x, x
		expsScalar(&want)
		for k, v := range x {
			near(t, "exponential", want[k]/math.Exp(v), 1, 1e-14)
		}
		exps4(&four)
		sameBits(t, "exponentials by four", four[:], want[:])
		if archsimd.X86.AVX512() {
			exps8(&eight)
			sameBits(t, "exponentials by eight", eight[:], want[:])
		}
	}
}

// sameWhenFollowed holds the kernels that follow strips nearby against each other.
func sameWhenFollowed(t *testing.T, tr *traces, d *directions) {
	t.Helper()
	var near traces
	near.take(tr)
	for i := range near.strips {
		near.strips[i].x += 1e-6 * float64(i)
		near.strips[i].z *= 1 + 1e-7
		near.strips[i].dy -= 1e-8
	}
	now := *d
	for k := range several {
		now.kappa[k] *= 1 + 1e-7
	}
	n := len(tr.strips)
	unit := make([]amplitudes, n)
	raiseScalar(tr, d, 0, n, unit, new(amplitudes))
	type kernel struct {
		keep   func(*traces, *directions, []parts)
		follow func(*traces, *traces, *directions, *directions, int, int, heldStrips, []amplitudes, *amplitudes)
		feel   func(*directions, []amplitudes, []amplitudes)
	}
	followed := func(by kernel) (all []float64) {
		held := heldStrips{unit, make([]parts, n)}
		by.keep(tr, d, held.parts)
		a := make([]amplitudes, n+3)
		by.follow(tr, &near, d, &now, 1, n, held, a, &a[n])
		by.feel(d, a[n-1:n+1], a[n+1:])
		for i := range a {
			all = append(append(append(append(all, a[i].re[:]...), a[i].im[:]...), a[i].reM[:]...), a[i].imM[:]...)
		}
		return all
	}
	want := followed(kernel{keepScalar, followScalar, feelScalar})
	sameBits(t, "following four at a time", followed(kernel{keep4, follow4, feel4}), want)
	if archsimd.X86.AVX512() {
		sameBits(t, "following eight at a time", followed(kernel{keep8, follow8, feel8}), want)
	}
}

// made returns the amplitudes, their sums and the shares of a kernel.
func made(tr *traces, d *directions, felt *amplitudes,
	raise func(*traces, *directions, int, int, []amplitudes, *amplitudes),
	share func(*traces, *directions, int, int, []amplitudes, *amplitudes, [][several]float64),
) (all []float64) {
	n := len(tr.strips)
	a, shares := make([]amplitudes, n+1), make([][several]float64, n)
	raise(tr, d, 1, n, a, &a[n])
	share(tr, d, 1, n, a, felt, shares)
	share(tr, d, 8, n, a, felt, shares)
	for i := range a {
		all = append(append(append(append(all, a[i].re[:]...), a[i].im[:]...), a[i].reM[:]...), a[i].imM[:]...)
	}
	for i := range shares {
		all = append(all, shares[i][:]...)
	}
	return all
}

func TestImagesHaveTheSameBits(t *testing.T) {
	if !archsimd.X86.AVX2() {
		t.Skip("this processor has no AVX2: its kernel is the scalar one")
	}
	random := rand.New(rand.NewPCG(7, 8))
	const n = 40
	v := images{y: make([]float64, n), z: make([]float64, n), core4: make([]float64, n)}
	legs := make([]leg, 9)
	for i := range n {
		v.y[i], v.z[i], v.core4[i] = random.NormFloat64(), random.NormFloat64(), 1e-3*random.Float64()
	}
	for i := range legs {
		legs[i] = leg{random.NormFloat64(), random.NormFloat64(), 1e-3 * random.Float64(), random.NormFloat64(), 0}
	}
	v.y[5], v.z[5] = legs[4].y, legs[4].z
	for _, own := range []bool{true, false} {
		seen := func(image func([]leg, *images, int, int, bool)) []float64 {
			v.up, v.across = make([]float64, n), make([]float64, n)
			image(legs, &v, 0, n, own)
			image(legs[:4], &v, 0, n, own)
			return append(append([]float64(nil), v.up...), v.across...)
		}
		want := seen(imageScalar)
		sameBits(t, "image four at a time", seen(image4), want)
		if archsimd.X86.AVX512() {
			sameBits(t, "image eight at a time", seen(image8), want)
		}
	}
}

// sameBits fails where two slices differ in any bit.
func sameBits(t *testing.T, what string, got, want []float64) {
	t.Helper()
	for i := range want {
		if math.Float64bits(got[i]) != math.Float64bits(want[i]) {
			t.Fatalf("%s: %v at %d, scalar %v", what, got[i], i, want[i])
		}
	}
}
