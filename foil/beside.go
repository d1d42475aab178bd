package foil

import (
	"math"

	"foilwright/lattice"
	"foilwright/si"
	"foilwright/wave"
)

// beside is how a workspace finds states a tiny step from one that is held, itself or
// by another workspace: to first order in the step, without factors of their own and
// without exponentials for their waves.
type beside struct {
	holder *Workspace  // that this workspace may lean on besides itself; nil for none
	held   int         // which state is held, counted from 1; 0 where none is
	count  int         // of states held so far
	at     []float64   // speed and flaps of the state that is held
	nearby wave.Nearby // its waves
	// peakSlopes are of its strips, where they were asked for.
	peakSlopes []peakSlope
	leant      int // which held state of the holder the lattice leans on; 0 where it has its own factors
	stood      int // which held state of the holder pieces stand in that are the same there
}

// tiny is how far a state may be from one that is held, m, rad or m/s: what is left
// out is of its square. Steps of differences are a hundredth of it.
const tiny = 1e-4

// Hold keeps the state that Loads saw last, until Release or until foils stand
// elsewhere. Loads of states a tiny step away are then found from it, to first
// order in the step, in this workspace and in those that lean on it: slopes by
// differences are as good as ever and cost less. It does nothing where no foil was
// wet. An error is one of Loads.
func (w *Workspace) Hold() error {
	w.Release()
	if !w.lies || w.leant != 0 || len(w.strips) == 0 || len(w.solved) == 0 {
		return nil
	}
	if w.makesWaves() {
		if _, err := w.nearby.Hold(&w.waving, si.Speed(w.solved[0]), si.Gravity); err != nil {
			return err
		}
	}
	w.peakSlopes = grown(w.peakSlopes, len(w.strips))
	clear(w.peakSlopes)
	w.at = append(w.at[:0], w.solved...)
	w.count++
	w.held = w.count
	return nil
}

// Release lets go of the state that is held.
func (w *Workspace) Release() {
	w.held = 0
	w.nearby.Release()
}

// LeanOn lets a workspace lean on another's held states; nil on none. Both serve one
// goroutine.
func (w *Workspace) LeanOn(holder *Workspace) { w.holder, w.stood = holder, 0 }

// heldStanding returns where pieces stand in the state that the holder holds, of the same
// boat cut alike; nil where there is none. A step of one foil leaves the others there.
func (w *Workspace) heldStanding() []standing {
	o := w.holder
	if o == nil || o.held == 0 || o.boat != w.boat || o.options != w.options {
		return nil
	}
	w.stood = o.held
	return o.standing
}

// standsStill tells whether the holder still holds the state that pieces stand in which are
// the same.
func (w *Workspace) standsStill() bool {
	return w.stood != 0 && w.holder != nil && w.holder.held == w.stood
}

// copyPiece lays a piece as the holder has it.
func (w *Workspace) copyPiece(p *standing) {
	o := w.holder
	for i := range o.pieces {
		q := o.pieces[i]
		if q.foil != p.foil || q.piece != p.index {
			continue
		}
		from := o.strips[q.first].panels[0]
		shift := w.panels.Len() - from
		w.panels.AppendFrom(&o.panels, from, from+q.n*w.Options.Rows)
		strips := o.strips[q.first : q.first+q.n]
		q.first, q.placed = len(w.strips), p.placed
		w.pieces = append(w.pieces, q)
		for k := range strips {
			w.strips = append(w.strips, strips[k])
			w.strips[q.first+k].panels[0] += shift
		}
	}
}

// neighbour returns the workspace that holds a state a tiny step from the one asked
// for, on foils that are wet and cut alike; nil where none does.
func (w *Workspace) neighbour() *Workspace {
	o := w
	if o.held == 0 {
		o = w.holder
	}
	if o == nil || o.held == 0 || o.boat != w.boat || o.options != w.options || !allNear(o.stance, w.stance) || !allNear(o.at, w.asked) || len(o.pieces) != len(w.pieces) {
		return nil
	}
	for i := range w.pieces {
		p, q := &w.pieces[i], &o.pieces[i]
		if p.foil != q.foil || p.piece != q.piece || p.n != q.n || p.interval.Pierces != q.interval.Pierces {
			return nil
		}
	}
	return o
}

// allNear tells whether figures are a tiny step from others.
func allNear(a, b []float64) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if !(math.Abs(a[i]-b[i]) <= tiny) {
			return false
		}
	}
	return true
}

// assemble builds the lattice of the panels at hand, on its own factors or leaning on
// a neighbour's.
func (w *Workspace) assemble(extra []float64) error {
	w.leant = 0
	if o := w.neighbour(); o != nil && o != w {
		w.leant = o.held
		return w.lattice.AssembleBeside(&w.panels, w.Options.Boundary, lattice.Options{}, extra)
	}
	return w.lattice.AssembleWith(&w.panels, w.Options.Boundary, lattice.Options{}, extra)
}

// circulate finds the circulations of the wash.
func (w *Workspace) circulate() error {
	if w.leant != 0 {
		return w.lattice.SolveBeside(&w.holder.lattice, w.holder.circulation, w.wash, w.circulation)
	}
	return w.lattice.Solve(w.wash, w.circulation)
}

// leansStill tells whether the lattice has what it needs: its own factors, or those of
// a state that is held still.
func (w *Workspace) leansStill() bool {
	return w.leant == 0 || w.holder != nil && w.holder.held == w.leant && w.neighbour() == w.holder
}
