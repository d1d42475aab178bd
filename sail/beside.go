package sail

import (
	"math"

	"foilwright/lattice"
)

// beside is how a workspace finds the circulation of sails a tiny step from where they
// stood in a state that is held, by itself or by another workspace: to first order in the
// step, without factors of their own.
type beside struct {
	holder *Workspace // that this workspace may lean on besides itself; nil for none
	held   int        // which state is held, counted from 1; 0 where none is
	count  int        // of states held so far
	shape  shape      // of the state that is held
	place  place
	lines  lattice.Lines // its factors
	known  []float64     // its circulation

	on    *Workspace // whose held state the sails lean on; nil where they have factors of their own
	leant int        // which of its states
}

// tiny is how far a state may be from one that is held, m, rad or m/s: what is left
// out is of its square. Steps of differences are a hundredth of it.
const tiny = 1e-4

// Hold keeps the state that Loads saw last, until Release. Circulations in states a tiny
// step away are then found from it, in this workspace and in those that lean on it.
func (w *Workspace) Hold() {
	w.Release()
	if !w.solved || w.beside.on != nil || len(w.strips) == 0 || math.IsNaN(w.density) {
		return
	}
	k := &w.beside
	k.shape, k.place = w.shaped, w.placed
	k.lines.Keep(&w.wake.lines)
	k.known = append(k.known[:0], w.circulation...)
	k.count++
	k.held = k.count
}

// Release lets go of the state that is held.
func (w *Workspace) Release() { w.beside.held = 0 }

// LeanOn lets a workspace lean on another's held states; nil on none. Both serve one
// goroutine.
func (w *Workspace) LeanOn(holder *Workspace) { w.beside.holder = holder }

// lean lets the sails lean on a held state that they stand next to; false where there is
// none.
func (w *Workspace) lean() bool {
	w.beside.on = nil
	for _, o := range [2]*Workspace{w, w.beside.holder} {
		if o != nil && o.beside.held != 0 && o.beside.shape == w.shaped && o.beside.place.near(&w.placed) {
			w.beside.on, w.beside.leant = o, o.beside.held
			return true
		}
	}
	return false
}

// leansStill tells whether the sails have what they need: factors of their own, or those
// of a state that is held still.
func (w *Workspace) leansStill() bool {
	return w.beside.on == nil || w.beside.on.beside.held == w.beside.leant
}

// circulate finds the circulation and downwash of the flow.
func (w *Workspace) circulate() {
	if o := w.beside.on; o != nil {
		w.wake.lines.SolveBeside(&o.beside.lines, o.beside.known, w.wake.flow, w.circulation, w.downwash)
		return
	}
	w.wake.solve(w.circulation, w.downwash)
}

// near tells whether a place is a tiny step from another.
func (p *place) near(o *place) bool {
	a, b := &p.attitude, &o.attitude
	for _, step := range [...]float64{
		(a.Leeway - b.Leeway).Radians(), (a.Heel - b.Heel).Radians(), (a.Pitch - b.Pitch).Radians(), a.Height - b.Height,
		(p.speed - o.speed).MetresPerSecond(), (p.wind.Speed - o.wind.Speed).MetresPerSecond(), (p.wind.Angle - o.wind.Angle).Radians(),
	} {
		if !(math.Abs(step) <= tiny) {
			return false
		}
	}
	return p.wind.Profile == o.wind.Profile
}
