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
		tr.x[i], tr.y[i], tr.z[i] = 3*random.NormFloat64(), 3*random.NormFloat64(), -random.ExpFloat64()
		tr.dy[i], tr.dz[i] = 0.1*random.Float64(), 0.1*random.Float64()
		tr.ly[i], tr.lz[i] = random.NormFloat64(), random.NormFloat64()
	}
	tr.y[3], tr.x[3], tr.z[4], tr.dy[4], tr.dz[4] = 0, 0, 0, 0, 0
	felt := &amplitude{0.3, -0.7, 1.1, 0.9}
	for _, kappa := range []float64{0.05, 1, 20, 400, 5000} {
		cosh := math.Sqrt(kappa / 0.05)
		sinh := math.Sqrt(cosh*cosh - 1)
		d := &direction{sinh: sinh, cosh: cosh, kappa: kappa, along: 0.05 * cosh, across: 0.05 * cosh * sinh}
		want, wantShares := made(&tr, d, felt, raiseScalar, shareScalar)
		got, shares := made(&tr, d, felt, raise4, share4)
		sameBits(t, "four at a time", append(got, shares...), append(want, wantShares...))
		if archsimd.X86.AVX512() {
			got, shares = made(&tr, d, felt, raise8, share8)
			sameBits(t, "eight at a time", append(got, shares...), append(want, wantShares...))
		}
	}
}

// made returns the amplitudes, their sums and the shares of a kernel.
func made(tr *traces, d *direction, felt *amplitude,
	raise func(*traces, *direction, int, int, *amplitudes),
	share func(*amplitudes, *amplitude, float64, int, int, []float64),
) (all, shares []float64) {
	n := len(tr.x)
	var a amplitudes
	a.reset(n)
	raise(tr, d, 0, n, &a)
	shares = make([]float64, n)
	share(&a, felt, 0.7, 8, n, shares)
	for _, s := range [][]float64{a.re, a.im, a.reM, a.imM} {
		all = append(all, s...)
	}
	return all, shares
}

func TestSumsHaveTheSameBits(t *testing.T) {
	if !archsimd.X86.AVX2() {
		t.Skip("this processor has no AVX2: its kernel is the scalar one")
	}
	random := rand.New(rand.NewPCG(7, 8))
	const n = 40
	var a amplitudes
	a.reset(n)
	v := images{y: make([]float64, n), z: make([]float64, n)}
	legs := make([]leg, 9)
	for i := range n {
		a.re[i], a.im[i], a.reM[i], a.imM[i] = random.NormFloat64(), random.NormFloat64(), random.NormFloat64(), random.NormFloat64()
		v.y[i], v.z[i] = random.NormFloat64(), random.NormFloat64()
	}
	for i := range legs {
		legs[i] = leg{random.NormFloat64(), random.NormFloat64(), 1e-3 * random.Float64(), random.NormFloat64(), 0}
	}
	v.y[5], v.z[5] = legs[4].y, legs[4].z
	var want, got sums
	takeScalar(&a, 0, n, &want)
	take4(&a, 0, n, &got)
	if got != want {
		t.Errorf("sums four at a time: %v, scalar %v", got, want)
	}
	if archsimd.X86.AVX512() {
		got = sums{}
		take8(&a, 0, n, &got)
		if got != want {
			t.Errorf("sums eight at a time: %v, scalar %v", got, want)
		}
	}
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
