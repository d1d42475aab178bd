package lattice

import (
	"fmt"
	"math"
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
	chains   chains
	controls targets      // with the normals
	forces   targets      // force points, with (0, −lz, ly), which turns a velocity into drag
	length   [][3]float64 // B − A, m
	strip    []int
	rows     []int // panels in each strip

	influence []float64 // normal velocity at control i by panel j, at j·padded(n) + i; factorised
	factors   factors
	residual  []float64 // scratch memory of SolveBeside
	near      nearDrag
	wake      wake
	drag      []float64 // near-field drag of each panel of several rows
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
	if err := w.fill(p, b, o, extra); err != nil {
		return err
	}
	if n := p.Len(); w.factors.factorise(w.influence, n) == regular {
		w.n = n
		return nil
	}
	return &SingularError{p.Len()}
}

// AssembleBeside is AssembleWith of panels that lie very near those that another
// workspace has assembled, as many and in the same order. Their own matrix is not
// factorised, which the other's makes up for: circulations are found by SolveBeside,
// and Solve has none.
func (w *Workspace) AssembleBeside(p *Panels, b Boundary, o Options, extra []float64) error {
	if err := w.fill(p, b, o, extra); err != nil {
		return err
	}
	w.n, w.factors.n = p.Len(), 0
	return nil
}

// fill builds the influence matrix of panels, and holds no lattice yet.
func (w *Workspace) fill(p *Panels, b Boundary, o Options, extra []float64) error {
	w.n = 0
	if err := p.check(b); err != nil {
		return err
	}
	if o.Depth < ExactDepth || o.Depth > LumpedDepth {
		return &InputError{-1, fmt.Sprintf("depth option %d is neither exact nor lumped", int(o.Depth))}
	}
	if extra != nil && len(extra) != p.Len()*p.Len() {
		return &InputError{-1, fmt.Sprintf("%d extra velocities for %d panels, must be their square", len(extra), p.Len())}
	}
	w.take(p, b)
	n := p.Len()
	stride := padded(n)
	w.influence = sized(w.influence, n*stride)
	for j := range n {
		clear(w.influence[j*stride+n : (j+1)*stride])
	}
	w.chains.see(&w.controls, b, everything, w.influence, stride)
	if b == FreeSurface && o.Depth == ExactDepth {
		w.correctDepth(p)
	}
	if extra != nil {
		for i := range n {
			for j, v := range extra[i*n : (i+1)*n] {
				w.influence[j*stride+i] += v
			}
		}
	}
	return nil
}

// take lists steps, targets, lengths and strips.
func (w *Workspace) take(p *Panels, b Boundary) {
	n := p.Len()
	w.boundary = b
	w.length = sized(w.length, n)
	w.strip = append(w.strip[:0], p.Strip...)
	w.rows = sized(w.rows, p.Strips())
	clear(w.rows)
	w.chains.reset()
	w.controls.reset(n)
	w.forces.reset(n)
	for i := range n {
		core4 := p.Core[i] * p.Core[i] * p.Core[i] * p.Core[i]
		a, b := &p.A[i], &p.B[i]
		w.chains.add(i, a, b, p.Surface[i], core4, 1/(4*math.Pi))
		length := [3]float64{b[0] - a[0], b[1] - a[1], b[2] - a[2]}
		w.length[i] = length
		w.controls.put(i, &p.Control[i], &p.Normal[i], p.Surface[i], core4)
		w.forces.put(i, &p.Mid[i], &[3]float64{0, -length[2], length[1]}, p.Surface[i], core4)
		w.rows[p.Strip[i]]++
	}
	w.near.known = nothing
	w.wake.take(p, w.rows, &w.chains, &w.forces)
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
	if err := w.factorised(); err != nil {
		return err
	}
	copy(circulation, wash)
	w.factors.solve(circulation, 1)
	return finite(circulation)
}

// SolveBeside finds what Solve does for a lattice of AssembleBeside, to first order
// in how far it lies from another that is factorised and whose circulations for
// nearly the same wash are known: with A the matrix of this lattice and A₀ that of
// the other, Γ = Γ₀ + A₀⁻¹(wash − AΓ₀), one step of iterative refinement (Golub and
// Van Loan 1996, sec. 3.5). What is left out is (1 − A₀⁻¹A)²Γ₀.
func (w *Workspace) SolveBeside(other *Workspace, known, wash, circulation []float64) error {
	for _, length := range []int{len(known), len(wash), len(circulation)} {
		if err := w.fits("known, wash or circulation", length, 1); err != nil {
			return err
		}
	}
	if err := other.factorised(); err != nil {
		return err
	}
	if other.n != w.n || w.factors.n != 0 {
		return &InputError{-1, fmt.Sprintf("lattices of %d and %d panels, must be beside each other\nhint: call AssembleBeside first", w.n, other.n)}
	}
	w.residual = sized(w.residual, w.n)
	clear(w.residual)
	addProducts(w.residual, w.influence, padded(w.n), known)
	for i, v := range w.residual {
		w.residual[i] = wash[i] - v
	}
	other.factors.solveOne(w.residual)
	for i, change := range w.residual {
		circulation[i] = known[i] + change
	}
	return finite(circulation)
}

// factorised refuses a lattice of AssembleBeside, and none.
func (w *Workspace) factorised() error {
	if w.n == 0 || w.factors.n != w.n {
		return &InputError{-1, "the lattice is not factorised\nhint: call Assemble first"}
	}
	return nil
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
	if err := w.factorised(); err != nil {
		return err
	}
	copy(circulation, wash)
	w.factors.solve(circulation, sides)
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
