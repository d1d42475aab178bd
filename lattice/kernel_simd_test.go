//go:build goexperiment.simd && amd64 && !amd64.v3

package lattice

import (
	"math"
	"math/rand/v2"
	"testing"
)

// widths are the vector kernels that this processor can run.
func widths(t *testing.T) []int {
	t.Helper()
	switch lanes() {
	case width8:
		return []int{width4, width8}
	case width4:
		return []int{width4}
	}
	t.Skip("this processor has neither AVX2 nor AVX-512: its kernel is the scalar one")
	return nil
}

// sameBits fails where two slices differ in any bit, or hold no numbers.
func sameBits(t *testing.T, what string, got, want []float64) {
	t.Helper()
	for i := range want {
		if math.Float64bits(got[i]) != math.Float64bits(want[i]) {
			t.Fatalf("%s: %v at %d, scalar %v", what, got[i], i, want[i])
		}
		if math.IsNaN(want[i]) || math.IsInf(want[i], 0) {
			t.Fatalf("%s: %v at %d", what, want[i], i)
		}
	}
}

// crowd fills a lattice with what the kernels tell apart: several surfaces, with
// cores and without, one row and three, targets ahead, behind, between a vortex's
// ends, on its line, on a leg and on a node.
func crowd(p *Panels) {
	bladed(p, 9)
	AppendSpan(p, wing(6, 0.3, 0.5), 0, 1, 11, 3, 2, 0)
	p.Control[3] = p.A[5]
	p.Control[4] = [3]float64{p.A[2][0] - 4, p.A[2][1], p.A[2][2]}
	p.Control[7] = [3]float64{p.A[2][0] + 4, p.A[2][1], p.A[2][2]}
	p.Control[12] = [3]float64{(p.A[3][0] + p.B[3][0]) / 2, (p.A[3][1] + p.B[3][1]) / 2, (p.A[3][2] + p.B[3][2]) / 2}
	p.Mid[6] = p.B[6]
}

// All kernels give the same bits.
func TestKernelsGiveTheSameBits(t *testing.T) {
	var p Panels
	crowd(&p)
	n := p.Len()
	for _, width := range widths(t) {
		see, seeFar := influence4, far4
		if width == width8 {
			see, seeFar = influence8, far8
		}
		for _, b := range []Boundary{Unbounded, FreeSurface, Wall} {
			var w Workspace
			w.take(&p, b)
			for _, own := range []bool{true, false} {
				got, want := make([]float64, n*n), make([]float64, n*n)
				for _, targets := range []*targets{&w.controls, &w.forces} {
					see(w.chains.steps, targets, 1, 1+n/width*width-width, own, b.mirror(), got, n)
					influenceScalar(w.chains.steps, targets, 1, 1+n/width*width-width, own, b.mirror(), want, n)
					sameBits(t, b.String(), got, want)
				}
				strips := len(w.rows)
				square := strips * strips
				got, want = make([]float64, 2*square), make([]float64, 2*square)
				seeFar(w.wake.chains.steps, w.wake.targets, 2, strips, own, b.mirror(), got[:square], got[square:], strips)
				farScalar(w.wake.chains.steps, w.wake.targets, 2, strips, own, b.mirror(), want[:square], want[square:], strips)
				sameBits(t, "far wake, "+b.String(), got, want)
			}
		}
	}
}

// So do a whole state's parts as they are called for.
func TestStatesHaveTheSameBits(t *testing.T) {
	var p Panels
	crowd(&p)
	n := p.Len()
	var w Workspace
	w.take(&p, FreeSurface)
	got, want := make([]float64, n*n), make([]float64, n*n)
	w.chains.see(&w.controls, FreeSurface, everything, got, n)
	for _, at := range w.controls.runs {
		for _, of := range w.chains.runs {
			steps, own := w.chains.steps[of.from:of.to], at.surface == of.surface
			influenceScalar(steps, &w.controls, at.from, at.to, own, FreeSurface.mirror(), want, n)
		}
	}
	sameBits(t, "influence", got, want)
}

func TestFactorsHaveTheSameBits(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for _, width := range widths(t) {
		products, settle, eliminate, add := takeProducts4, settle4, eliminate4, addProducts4
		if width == width8 {
			products, settle, eliminate, add = takeProducts8, settle8, eliminate8, addProducts8
		}
		const rows, stride = 13, 40
		got, above := make([]float64, rows*stride), make([]float64, rank*stride)
		for _, s := range [][]float64{got, above} {
			for i := range s {
				s[i] = random.NormFloat64()
			}
		}
		want := append([]float64(nil), got...)
		products(got, stride, 8, above)
		takeProductsScalar(want, stride, 8, above)
		sameBits(t, "products", got, want)
		settle(got[:rank*stride], stride, 16, above)
		sum := append([]float64(nil), above...)
		settleScalar(want[:rank*stride], stride, 16, above)
		sameBits(t, "rows above", append(got, sum...), append(want, above...))
		right := [rank]float64(above)
		right[0], right[1] = 0, 0
		largest := []float64{eliminate(got, stride, 16, 1, 0.37, &right)}
		sameBits(t, "largest", largest, []float64{eliminateScalar(want, stride, 16, 1, 0.37, &right)})
		sameBits(t, "elimination", got, want)
		for n := range 30 {
			add(got[:n], above, stride, above[:5])
			addProductsScalar(want[:n], above, stride, above[:5])
			sameBits(t, "sum of rows", got, want)
		}
	}
}

func TestLinesHaveTheSameBits(t *testing.T) {
	const several = 19
	l := cutLines(several)
	n := 2 * several
	for _, width := range widths(t) {
		see := lines4
		if width == width8 {
			see = lines8
		}
		for _, own := range []bool{true, false} {
			got, want := make([]float64, 2*n*n), make([]float64, 2*n*n)
			see(l.nodes, &l.strips, 1, n, own, 1e-18, l.wall, got[:n*n], got[n*n:], n)
			linesScalar(l.nodes, &l.strips, 1, n, own, 1e-18, l.wall, want[:n*n], want[n*n:], n)
			sameBits(t, "lines", got, want)
		}
	}
}
