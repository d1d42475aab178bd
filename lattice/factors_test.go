package lattice

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack/lapack64"
)

// Factors, exchanges and solutions against gonum's LAPACK.
func TestFactorsAgainstLapack(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	for _, n := range []int{1, 2, 3, 7, 8, 9, 15, 16, 17, 24, 40, 72, 96} {
		stride := padded(n)
		own, theirs, pivot := make([]float64, n*stride), make([]float64, n*n), make([]int, n)
		for i := range n {
			for j := range n {
				v := random.NormFloat64()
				own[i*stride+j], theirs[i*n+j] = v, v
			}
		}
		var f factors
		if f.factorise(own, n) == singular {
			t.Fatalf("%d rows: singular", n)
		}
		a := blas64.General{Rows: n, Cols: n, Stride: n, Data: theirs}
		lapack64.Getrf(a, pivot)
		for i := range n {
			if f.pivot[i] != pivot[i] {
				t.Fatalf("%d rows: step %d exchanges with row %d, LAPACK with %d", n, i, f.pivot[i], pivot[i])
			}
			for j := range n {
				if got, want := own[i*stride+j], theirs[i*n+j]; math.Abs(got-want) > 1e-11*(1+math.Abs(want)) {
					t.Fatalf("%d rows: factor %d, %d is %g, LAPACK has %g", n, i, j, got, want)
				}
			}
		}
		const sides = 3
		x, y := make([]float64, n*sides), make([]float64, n*sides)
		for i := range x {
			x[i] = random.NormFloat64()
			y[i] = x[i]
		}
		one := make([]float64, n)
		for i := range one {
			one[i] = x[i*sides+1]
		}
		f.solve(x, sides)
		f.solve(one, 1)
		lapack64.Getrs(blas.Trans, a, blas64.General{Rows: n, Cols: sides, Stride: sides, Data: y}, pivot)
		size := 0.0
		for i := range y {
			size = max(size, math.Abs(y[i]))
		}
		for i := range x {
			if math.Abs(x[i]-y[i]) > 1e-10*size {
				t.Fatalf("%d rows: solution %d is %g, LAPACK's %g", n, i, x[i], y[i])
			}
			if i%sides == 1 && x[i] != one[i/sides] {
				t.Fatalf("%d rows: solution %d is %g alone, %g among others", n, i/sides, one[i/sides], x[i])
			}
		}
	}
}

func TestFactorsTellSingular(t *testing.T) {
	const n = 11
	for _, empty := range []int{0, 6, 10} {
		a := make([]float64, n*padded(n))
		for i := range n {
			for j := range n {
				if i != empty {
					a[i*padded(n)+j] = math.Sin(float64(i*i + 3*j*i + 2*j))
				}
			}
		}
		var f factors
		if f.factorise(a, n) == regular {
			t.Errorf("row %d is empty, and the matrix regular", empty)
		}
	}
}
