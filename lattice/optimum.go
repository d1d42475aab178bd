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
	system blas64.General
	pivot  []int
	right  []float64
}

// loop is the share of the mean diagonal that keeps the system regular where a
// closed ring of strips can carry any constant circulation: the smallest is taken.
const loop = 1e-10

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
	return w.wake.induced(strips), nil
}

// Optimum finds the circulations Γ/V of the strips, m, that give the forces
// aimed at with the least induced drag of the far wake, and returns that drag
// D/(ρV²), m² (Munk 1921, NACA Report 121: constant normal wash along the
// direction for one aim). Circulations may be negative. Aims that contradict
// one another, or that no strip can give, are a *SingularError.
func (w *Workspace) Optimum(aims []Aim, strips []float64) (float64, error) {
	if err := w.fitsStrips(len(strips)); err != nil {
		return 0, err
	}
	n, m := len(strips), len(strips)+len(aims)
	o := &w.optimum
	o.system = square(o.system, m)
	o.pivot, o.right = sized(o.pivot, m), sized(o.right, m)
	clear(o.right)
	drag, a := w.wake.drag, o.system.Data
	mean := 0.0
	for i := range n {
		mean += 2 * drag[i*n+i] / float64(n)
	}
	for i := range n {
		for j := range n {
			a[i*m+j] = drag[i*n+j] + drag[j*n+i]
		}
		a[i*m+i] += loop * mean
		ly, lz := w.wake.b[i][0]-w.wake.a[i][0], w.wake.b[i][1]-w.wake.a[i][1]
		for k, aim := range aims {
			force := aim.Direction[1]*lz - aim.Direction[2]*ly
			a[i*m+n+k] = force
			a[(n+k)*m+i] = force
		}
	}
	for k, aim := range aims {
		o.right[n+k] = aim.Force
	}
	if !lapack64.Getrf(o.system, o.pivot) {
		return 0, &SingularError{n}
	}
	lapack64.Getrs(blas.NoTrans, o.system, blas64.General{Rows: m, Cols: 1, Stride: 1, Data: o.right}, o.pivot)
	copy(strips, o.right[:n])
	if err := finite(strips); err != nil {
		return 0, err
	}
	return w.wake.induced(strips), nil
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
