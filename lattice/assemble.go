package lattice

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack/lapack64"
)

// Depth says what a strip of one row makes of a free surface above it.
type Depth int

const (
	// ExactDepth adds on the diagonal what the image of a whole plate does
	// beyond that of one vortex.
	ExactDepth Depth = iota
	// LumpedDepth leaves the one vortex and its image as they are.
	LumpedDepth
)

// Options are the choices of a lattice. The zero value is the usual one.
type Options struct {
	Depth Depth
}

// Workspace holds an assembled lattice and grows with the largest it has seen.
// It serves one goroutine at a time. The zero value is ready for Assemble.
type Workspace struct {
	n        int
	boundary Boundary
	nodes    nodes
	from, to []int        // nodes of each panel
	length   [][3]float64 // B − A, m
	strip    []int
	surface  []int
	rows     []int // panels in each strip

	matrix    blas64.General // normal velocity at control i by panel j; factorised
	pivot     []int
	near      blas64.General // near-field drag of bound vortex i of unit circulation in the velocity of panel j
	wake      wake
	drag      []float64 // near-field drag of each panel
	stripDrag []float64 // induced drag as given to each strip
	stripNear []float64 // induced drag of each strip in the near field
	stripCirc []float64 // circulation of each strip
	optimum   optimum
}

// SingularError tells that circulations cannot be told apart: two panels have
// the same control point, or a panel has no length.
type SingularError struct{ Panels int }

// Error words the fault.
func (e *SingularError) Error() string {
	return fmt.Sprintf("lattice: influence matrix of %d panels is singular\nhint: two control points coincide, or a panel has no length", e.Panels)
}

// Assemble builds and factorises the influence matrix of the panels beside the
// boundary, and keeps what forces need. The panels may change afterwards; the
// workspace does not look at them again.
//
// Errors are *InputError and *SingularError. After an error the workspace
// holds no lattice.
func (w *Workspace) Assemble(p *Panels, b Boundary, o Options) error {
	return w.AssembleWith(p, b, o, nil)
}

// AssembleWith is Assemble with normal velocities of another origin, such as
// waves, added to what the panels of unit circulation induce at the control
// points, 1/m: that at control point i from panel j at extra[i·panels + j]. Forces
// know nothing of them. Nil adds nothing.
func (w *Workspace) AssembleWith(p *Panels, b Boundary, o Options, extra []float64) error {
	w.n = 0
	if err := p.check(b); err != nil {
		return err
	}
	if o.Depth < ExactDepth || o.Depth > LumpedDepth {
		return &InputError{-1, fmt.Sprintf("depth option %d is neither exact nor lumped", int(o.Depth))}
	}
	w.take(p, b)
	w.influence(p)
	w.wake.assemble(p, b, w.rows)
	if b == FreeSurface && o.Depth == ExactDepth {
		w.correctDepth(p)
	}
	if extra != nil {
		if len(extra) != p.Len()*p.Len() {
			return &InputError{-1, fmt.Sprintf("%d extra velocities for %d panels, must be their square", len(extra), p.Len())}
		}
		blas64.Axpy(1, blas64.Vector{N: len(extra), Inc: 1, Data: extra}, blas64.Vector{N: len(extra), Inc: 1, Data: w.matrix.Data})
	}
	w.pivot = sized(w.pivot, p.Len())
	if !lapack64.Getrf(w.matrix, w.pivot) {
		return &SingularError{p.Len()}
	}
	w.n = p.Len()
	return nil
}

// take lists nodes, lengths and strips.
func (w *Workspace) take(p *Panels, b Boundary) {
	n := p.Len()
	w.boundary = b
	w.from, w.to = sized(w.from, n), sized(w.to, n)
	w.length = sized(w.length, n)
	w.strip = append(w.strip[:0], p.Strip...)
	w.surface = append(w.surface[:0], p.Surface...)
	w.rows = sized(w.rows, p.Strips())
	clear(w.rows)
	w.nodes.reset()
	last := [2]int{-1, -1}
	for i := range n {
		core4 := p.Core[i] * p.Core[i] * p.Core[i] * p.Core[i]
		w.from[i] = w.nodes.add(p.A[i], p.Surface[i], core4, last)
		w.to[i] = w.nodes.add(p.B[i], p.Surface[i], core4, last)
		last = [2]int{w.from[i], w.to[i]}
		for k := range 3 {
			w.length[i][k] = p.B[i][k] - p.A[i][k]
		}
		w.rows[p.Strip[i]]++
	}
	w.nodes.ready()
	w.matrix = square(w.matrix, n)
	w.near = square(w.near, n)
}

// square returns m as an n by n matrix of zeros.
func square(m blas64.General, n int) blas64.General {
	m = blas64.General{Rows: n, Cols: n, Stride: n, Data: sized(m.Data, n*n)}
	clear(m.Data)
	return m
}

// influence fills the matrices: normal velocities at control points, induced
// drags at force points.
func (w *Workspace) influence(p *Panels) {
	n := p.Len()
	mu, mv, mw := w.boundary.mirror()
	for i := range n {
		row := w.matrix.Data[i*n : (i+1)*n]
		c, normal := p.Control[i], p.Normal[i]
		w.nodes.see(c[0], c[1], c[2], p.Surface[i])
		w.wash(row, normal[0], normal[1], normal[2])
		if w.boundary != Unbounded {
			w.nodes.see(c[0], c[1], -c[2], p.Surface[i])
			w.wash(row, mu*normal[0], mv*normal[1], mw*normal[2])
		}

		row = w.near.Data[i*n : (i+1)*n]
		c = p.Mid[i]
		ly, lz := w.length[i][1], w.length[i][2]
		w.nodes.see(c[0], c[1], c[2], p.Surface[i])
		w.wash(row, 0, -lz, ly)
		// On a curved span the force point is off the straight bound vortex,
		// whose pull on itself is a matter of its core, not of the load.
		_, v, z := w.nodes.bound(w.from[i], w.to[i])
		row[i] -= z*ly - v*lz
		if w.boundary != Unbounded {
			w.nodes.see(c[0], c[1], -c[2], p.Surface[i])
			w.wash(row, 0, -mv*lz, mw*ly)
		}
	}
	blas64.Scal(1/(4*math.Pi), blas64.Vector{N: n * n, Inc: 1, Data: w.matrix.Data})
	blas64.Scal(1/(4*math.Pi), blas64.Vector{N: n * n, Inc: 1, Data: w.near.Data})
}

// Solve finds the circulations Γ/V, m, that induce the given normal velocities
// per unit speed at the control points. wash[i] is −U·n/V plus what camber and
// flap ask for; a plate at rest in the stream has wash Normal.x. Both slices
// are as long as the panels; they may be the same slice.
func (w *Workspace) Solve(wash, circulation []float64) error {
	if err := w.fits("wash", len(wash), 1); err != nil {
		return err
	}
	if err := w.fits("circulation", len(circulation), 1); err != nil {
		return err
	}
	copy(circulation, wash)
	lapack64.Getrs(blas.NoTrans, w.matrix, blas64.General{Rows: w.n, Cols: 1, Stride: 1, Data: circulation}, w.pivot)
	return finite(circulation)
}

// SolveMany solves several right-hand sides with one factorisation. Both
// slices hold one row of sides values for each panel: value k of panel i is at
// i·sides + k. They may be the same slice.
func (w *Workspace) SolveMany(wash, circulation []float64, sides int) error {
	if sides < 1 {
		return &InputError{-1, fmt.Sprintf("%d right-hand sides, must be at least 1", sides)}
	}
	if err := w.fits("wash", len(wash), sides); err != nil {
		return err
	}
	if err := w.fits("circulation", len(circulation), sides); err != nil {
		return err
	}
	copy(circulation, wash)
	lapack64.Getrs(blas.NoTrans, w.matrix, blas64.General{Rows: w.n, Cols: sides, Stride: sides, Data: circulation}, w.pivot)
	return finite(circulation)
}

// fits holds a slice's length against the assembled lattice.
func (w *Workspace) fits(what string, length, sides int) error {
	if w.n == 0 {
		return &InputError{-1, "nothing is assembled\nhint: call Assemble first"}
	}
	if length != w.n*sides {
		return &InputError{-1, fmt.Sprintf("%s has %d values, must have %d", what, length, w.n*sides)}
	}
	return nil
}

// finite refuses circulations that are none.
func finite(circulation []float64) error {
	for _, g := range circulation {
		if math.IsNaN(g) || math.IsInf(g, 0) {
			return &InputError{-1, "a circulation is not a finite number\nhint: a wash is not finite, or two control points all but coincide"}
		}
	}
	return nil
}
