package lattice

import (
	"math"
	"slices"
)

// Totals sums the loads of a lattice, per ρV², m².
type Totals struct {
	Force   [3]float64 // sum of the panels' forces; x is −Induced
	Induced float64    // induced drag of the far wake
}

// Forces fills the force on every panel per ρV², m², in the track frame, for
// the circulations Γ/V, m, and returns the totals.
//
// Across the stream the force is U × Γl on each bound vortex, l = B − A (Kutta
// and Joukowski): the load of a linear surface. Induced velocities along the
// stream and along the span would add what is of the next order in incidence,
// which a linear surface leaves out; next to a water surface those terms grow
// as one over depth. Along the stream it is the induced drag, whose total is
// the far wake's: each strip is given what the other surfaces do to it in the
// near field, −Γ(v lz − w ly), and what its own surface does in the far wake;
// what is then missing from the total is dealt out by modulus, and a strip's
// rows share its difference evenly.
//
// Without sweep within a surface that is the near field itself. With sweep the
// near field of a surface on itself is no measure of where its drag acts: at
// the kink of one row swept by 10° it grows with the logarithm of the number
// of strips, and the drag's centroid on the half span of aspect ratio 6 wanders
// from 0.36 through 0.33 to 0.31 at 12, 24 and 48 strips, where ten rows give
// 0.44 and the far wake 0.50 at any number.
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
	strips, several := len(w.rows), slices.Max(w.rows) > 1
	w.stripDrag, w.stripNear = sized(w.stripDrag, strips), sized(w.stripNear, strips)
	w.stripCirc = sized(w.stripCirc, strips)
	clear(w.stripDrag)
	clear(w.stripCirc)
	for i, g := range circulation {
		w.stripCirc[w.strip[i]] += g
	}
	if several {
		w.nearField(circulation, everything)
		w.rowDrag(circulation)
	} else {
		w.nearField(circulation, others)
	}
	for i, g := range circulation {
		w.stripDrag[w.strip[i]] += g * w.near.others[i]
	}
	t.Induced = w.wake.induced(w.boundary, w.stripCirc)
	t.Force[0] = -t.Induced
	missing := t.Induced
	for s, g := range w.stripCirc {
		w.stripDrag[s] += g * w.wake.own[s]
		missing -= w.stripDrag[s]
	}
	w.share(missing)
	for i := range force {
		s := w.strip[i]
		drag := w.stripDrag[s]
		if w.rows[s] > 1 {
			drag = w.drag[i] + (drag-w.stripNear[s])/float64(w.rows[s])
		}
		force[i] = [3]float64{-drag, circulation[i] * w.length[i][2], -circulation[i] * w.length[i][1]}
		t.Force[1] += force[i][1]
		t.Force[2] += force[i][2]
	}
	return t
}

// rowDrag finds the near-field drag of each panel and of each strip.
func (w *Workspace) rowDrag(circulation []float64) {
	w.drag = sized(w.drag, w.n)
	clear(w.stripNear)
	for i, g := range circulation {
		w.drag[i] = g * (w.near.own[i] + w.near.others[i])
		w.stripNear[w.strip[i]] += w.drag[i]
	}
}

// share adds to the strips' drags what is missing from the total, by modulus:
// plain scaling where all have one sign. The modulus is smoothed over a
// thousandth of the root mean square, so that loads stay smooth where a strip's
// drag changes sign.
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
		if w.rows[s] > 0 {
			sum += math.Sqrt(d*d + soft)
		}
	}
	for s, d := range w.stripDrag {
		if w.rows[s] > 0 {
			w.stripDrag[s] += missing * math.Sqrt(d*d+soft) / sum
		}
	}
}
