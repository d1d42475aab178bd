package lattice

import (
	"fmt"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack/lapack64"
)

// Aim is a force that a loading must give: its component along Direction, a
// unit vector in the track frame across the stream, per ρV², m².
type Aim struct {
	Direction [3]float64
	Force     float64
}

// optimum is the scratch memory of Optimum.
type optimum struct {
	normal blas64.General // DᵀD for the drag matrix D, factorised
	pivot  []int
	force  []float64 // of each strip's unit circulation, a column for each aim
	load   []float64 // circulations of constant wash, a column for each aim
	give   blas64.General
	right  []float64
}

// loop is the share of the mean diagonal of DᵀD that keeps the system regular
// where a closed ring of strips can carry any constant circulation: the
// smallest is taken.
const loop = 1e-12

// Strips returns the number of strips of the assembled lattice.
func (w *Workspace) Strips() int {
	if w.n == 0 {
		return 0
	}
	return len(w.rows)
}

// Induced returns the induced drag D/(ρV²) of the far wake, m², for the
// circulations Γ/V of the strips, m.
func (w *Workspace) Induced(strips []float64) (float64, error) {
	if err := w.fitsStrips(len(strips)); err != nil {
		return 0, err
	}
	return w.wake.induced(w.boundary, strips), nil
}

// Optimum finds the circulations Γ/V of the strips, m, that give the forces
// aimed at with the least induced drag of the far wake, and returns that drag
// D/(ρV²), m². Circulations may be negative. Aims that contradict one another,
// or that no strip can give, are a *SingularError.
//
// It solves Munk's condition, a wash far behind that is at every strip the
// component normal to it of one velocity (Munk 1921, NACA Report 121), rather
// than minimise the discrete drag: the minimum would seek out what the rule of
// summation has of error where spans join.
func (w *Workspace) Optimum(aims []Aim, strips []float64) (float64, error) {
	if err := w.fitsStrips(len(strips)); err != nil {
		return 0, err
	}
	n, m := len(strips), len(aims)
	if m == 0 {
		clear(strips)
		return 0, nil
	}
	o := &w.optimum
	o.normal, o.pivot = square(o.normal, n), sized(o.pivot, max(n, m))
	o.force, o.load = sized(o.force, n*m), sized(o.load, n*m)
	o.give, o.right = square(o.give, m), sized(o.right, m)
	w.wake.see(w.boundary)
	drag := blas64.General{Rows: n, Cols: n, Stride: n, Data: w.wake.drag} // Dᵀ: a row for each source
	blas64.Gemm(blas.NoTrans, blas.Trans, 1, drag, drag, 0, o.normal)
	mean := 0.0
	for i := range n {
		mean += o.normal.Data[i*n+i] / float64(n)
	}
	for i := range n {
		o.normal.Data[i*n+i] += loop * mean
		ly, lz := w.wake.targets.w[i], -w.wake.targets.v[i]
		for k, aim := range aims {
			o.force[i*m+k] = aim.Direction[1]*lz - aim.Direction[2]*ly
		}
	}
	force := blas64.General{Rows: n, Cols: m, Stride: m, Data: o.force}
	load := blas64.General{Rows: n, Cols: m, Stride: m, Data: o.load}
	blas64.Gemm(blas.NoTrans, blas.NoTrans, 1, drag, force, 0, load)
	if !lapack64.Getrf(o.normal, o.pivot) {
		return 0, &SingularError{n}
	}
	lapack64.Getrs(blas.NoTrans, o.normal, load, o.pivot)
	blas64.Gemm(blas.Trans, blas.NoTrans, 1, force, load, 0, o.give)
	for k, aim := range aims {
		o.right[k] = aim.Force
	}
	if !lapack64.Getrf(o.give, o.pivot[:m]) {
		return 0, &SingularError{n}
	}
	lapack64.Getrs(blas.NoTrans, o.give, blas64.General{Rows: m, Cols: 1, Stride: 1, Data: o.right}, o.pivot[:m])
	blas64.Gemv(blas.NoTrans, 1, load, blas64.Vector{N: m, Inc: 1, Data: o.right}, 0, blas64.Vector{N: n, Inc: 1, Data: strips})
	if err := finite(strips); err != nil {
		return 0, err
	}
	return w.wake.induced(w.boundary, strips), nil
}

// fitsStrips holds a slice's length against the strips of the lattice.
func (w *Workspace) fitsStrips(length int) error {
	if w.n == 0 {
		return &InputError{-1, "nothing is assembled\nhint: call Assemble first"}
	}
	if length != len(w.rows) {
		return &InputError{-1, fmt.Sprintf("circulation of strips has %d values, must have %d", length, len(w.rows))}
	}
	return nil
}

// square returns m as an n by n matrix of zeros.
func square(m blas64.General, n int) blas64.General {
	m = blas64.General{Rows: n, Cols: n, Stride: n, Data: sized(m.Data, n*n)}
	clear(m.Data)
	return m
}
