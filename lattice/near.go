package lattice

import (
	"fmt"
	"math"
)

// nearDrag is the drag of each bound vortex of unit circulation at its force point
// in the velocity of every panel: found only when forces ask for it, and on a
// panel's own surface only where that counts.
type nearDrag struct {
	known  extent
	drag   []float64 // at panel i in the velocity of panel j, at j·n + i
	own    []float64 // for a set of circulations: at each panel, of its own surface
	others []float64 // and of the others
}

// extent says which sources are looked at.
type extent int

const (
	nothing extent = iota
	others         // those on other surfaces than the target
	everything
)

// see fills into with the velocities along the targets' directions of all panels
// of unit circulation, that of panel j at target i at j·stride + i.
func (c *chains) see(t *targets, b Boundary, which extent, into []float64, stride int) {
	for _, at := range t.runs {
		for _, of := range c.runs {
			if own := at.surface == of.surface; !own || which == everything {
				influence(c.steps[of.from:of.to], t, at.from, at.to, own, b.mirror(), into, stride)
			}
		}
	}
}

// need makes the near field known to the extent.
func (w *Workspace) need(which extent) {
	k := &w.near
	if k.known >= which {
		return
	}
	k.drag = sized(k.drag, w.n*w.n)
	w.chains.see(&w.forces, w.boundary, which, k.drag, w.n)
	if which == everything {
		w.leaveOwn()
	}
	k.known = which
}

// leaveOwn takes off what each bound vortex does to itself. On a curved span the
// force point is off the straight bound vortex, whose pull on itself is a matter
// of its core, not of the load.
func (w *Workspace) leaveOwn() {
	for k := range w.chains.steps {
		b := &w.chains.steps[k]
		if b.source == first {
			continue
		}
		a, i := &w.chains.steps[k-1], b.source
		x, y, z := w.forces.x[i], w.forces.y[i], w.forces.z[i]
		ax, ay, az, bx, by, bz := x-a.x, y-a.y, z-a.z, x-b.x, y-b.y, z-b.z
		cx, cy, cz := ay*bz-az*by, az*bx-ax*bz, ax*by-ay*bx
		ra, rb := math.Sqrt(ax*ax+(ay*ay+az*az)), math.Sqrt(bx*bx+(by*by+bz*bz))
		product, dot := ra*rb, ax*bx+ay*by+az*bz
		g := 0.0
		if dot > 0 {
			g = (ra + rb) / (product * (product + dot))
		} else if square := cx*cx + cy*cy + cz*cz; square > axis*product {
			g = (ra + rb) * (product - dot) / (product * square)
		}
		w.near.drag[i*w.n+i] -= b.scale * g * (w.forces.v[i]*cy + w.forces.w[i]*cz)
	}
}

// nearField sums, for circulations, the near-field drag of each panel over its
// circulation: that of its own surface, where the extent asks for it, and of the
// others.
func (w *Workspace) nearField(circulation []float64, which extent) {
	w.need(which)
	k := &w.near
	k.own, k.others = sized(k.own, w.n), sized(k.others, w.n)
	if which == others {
		w.forces.sum(k.drag, circulation, nil, k.others)
	} else {
		w.forces.sum(k.drag, circulation, k.own, k.others)
	}
}

// sum multiplies a matrix, row j of which holds what source j of unit circulation
// does to the targets, by circulations. Sources and targets are the same panels
// or strips. What a target's own surface does goes to own, if there is one.
func (t *targets) sum(matrix, circulation, own, others []float64) {
	n := len(t.x)
	clear(own)
	clear(others)
	for _, at := range t.runs {
		for _, of := range t.runs {
			into := others
			if of.surface == at.surface {
				into = own
			}
			if into != nil {
				addProducts(into[at.from:at.to], matrix[of.from*n+at.from:], n, circulation[of.from:of.to])
			}
		}
	}
}

// ImageDrag fills what the boundary's image adds to the induced drag of each strip, per
// ρV², m², for the circulations that Forces saw last: what the image does to it in the
// far wake, on its own surface and on others. There is one figure for each strip;
// another length is the caller's fault and panics.
func (w *Workspace) ImageDrag(strips []float64) {
	if len(strips) != len(w.stripCirc) || w.n == 0 {
		panic(fmt.Sprintf("internal error: lattice: %d figures for %d strips", len(strips), len(w.stripCirc)))
	}
	w.wake.see(w.boundary)
	clear(strips)
	addProducts(strips, w.wake.mirror, len(strips), w.stripCirc)
	for i, g := range w.stripCirc {
		strips[i] *= g
	}
}

// NearField returns the induced drag summed at the bound vortices for the
// circulations Γ/V, m, with each surface's own: per ρV², m². Forces does not need
// it; beside the far wake's drag it shows the error of the lattice.
func (w *Workspace) NearField(circulation []float64) (float64, error) {
	if err := w.fits("circulation", len(circulation), 1); err != nil {
		return 0, err
	}
	w.nearField(circulation, everything)
	sum := 0.0
	for i, g := range circulation {
		sum += g * (w.near.own[i] + w.near.others[i])
	}
	return sum, nil
}
