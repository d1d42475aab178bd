package lattice

import (
	"math"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
)

// Totals sums the loads of a lattice, per ρV², m².
type Totals struct {
	Force     [3]float64 // sum of the panels' forces; x is −Induced
	Induced   float64    // induced drag of the far wake
	NearField float64    // induced drag summed at the bound vortices, as found
}

// Forces fills the force on every panel per ρV², m², in the track frame, for
// the circulations Γ/V, m, and returns the totals.
//
// The force is (U + u) × Γl on each bound vortex, l = B − A, with the
// velocities (v, w) across the stream that the lattice and its image induce at
// the force point and without the streamwise one, consistent with a surface
// that is linear (Kutta and Joukowski). Near-field drag of swept spans is some
// per cent off at any number of strips, so that the total is the far wake's;
// each strip is given d + (D − Σd)·|d|/Σ|d|, which is plain scaling where all
// strips have one sign, and its rows share the difference evenly.
//
// Both slices are as long as the panels of the lattice last assembled; another
// length is the caller's fault and panics.
func (w *Workspace) Forces(circulation []float64, force [][3]float64) Totals {
	var t Totals
	for _, length := range []int{len(circulation), len(force)} {
		if err := w.fits("circulation or force", length, 1); err != nil {
			panic("internal error: " + err.Error())
		}
	}
	n, strips := w.n, len(w.rows)
	w.nearV, w.nearW = sized(w.nearV, n), sized(w.nearW, n)
	w.stripDrag, w.stripCirc = sized(w.stripDrag, strips), sized(w.stripCirc, strips)
	clear(w.stripDrag)
	clear(w.stripCirc)
	gamma := blas64.Vector{N: n, Inc: 1, Data: circulation}
	blas64.Gemv(blas.NoTrans, 1/(4*math.Pi), w.crossV, gamma, 0, blas64.Vector{N: n, Inc: 1, Data: w.nearV})
	blas64.Gemv(blas.NoTrans, 1/(4*math.Pi), w.crossW, gamma, 0, blas64.Vector{N: n, Inc: 1, Data: w.nearW})
	for i, g := range circulation {
		l, v, z := w.length[i], w.nearV[i], w.nearW[i]
		force[i] = [3]float64{g * (v*l[2] - z*l[1]), g * (l[2] + z*l[0]), -g * (l[1] + v*l[0])}
		w.stripDrag[w.strip[i]] -= force[i][0]
		w.stripCirc[w.strip[i]] += g
		t.NearField -= force[i][0]
		t.Force[1] += force[i][1]
		t.Force[2] += force[i][2]
	}
	t.Induced = w.wake.induced(w.stripCirc)
	t.Force[0] = -t.Induced
	w.share(t.Induced - t.NearField)
	for i := range force {
		s := w.strip[i]
		force[i][0] -= w.stripDrag[s] / float64(w.rows[s])
	}
	return t
}

// share turns the strips' near-field drags into what each gets of missing, the
// far wake's drag less their sum. The modulus is smoothed over a thousandth of
// the strips' root mean square, so that loads stay smooth where a strip's drag
// changes sign.
func (w *Workspace) share(missing float64) {
	square := 0.0
	for _, d := range w.stripDrag {
		square += d * d
	}
	if square == 0 {
		return
	}
	soft := 1e-6 * square / float64(len(w.stripDrag))
	sum := 0.0
	for s, d := range w.stripDrag {
		if w.rows[s] == 0 {
			continue
		}
		w.stripDrag[s] = math.Sqrt(d*d + soft)
		sum += w.stripDrag[s]
	}
	for s := range w.stripDrag {
		w.stripDrag[s] *= missing / sum
	}
}
