package wave

import (
	"slices"

	"foilwright/si"
)

// Nearby finds the waves of strips that lie very near others, at very nearly their
// speed, to first order in how near: for slopes that are taken as differences. It
// holds the directions of the quadrature for the others, and what a strip does in each, so
// that strips that have moved a little cost some products and no exponentials. The zero
// value holds nothing. It serves one goroutine at a time.
type Nearby struct {
	traces traces
	held   []directions // of the quadrature
	strips heldStrips   // each strip in each of them
	work   Workspace
}

// Hold takes the strips and the speed that others will lie near, and tells whether
// they are held: not beyond the ends of the range of speeds, nor where strips make
// no waves. Errors are *InputError.
func (n *Nearby) Hold(s *Strips, speed si.Speed, gravity float64) (held bool, err error) {
	v := speed.MetresPerSecond()
	n.Release()
	if err := s.check(v, gravity); err != nil {
		return false, err
	}
	k0 := gravity / (v * v)
	if s.Len() == 0 || !(k0 >= longest && k0 <= shortest) {
		return false, nil
	}
	shape := n.work.look(s, k0)
	rule, some := n.work.ruleOf(&shape, k0)
	if !some {
		return false, nil
	}
	n.traces.take(&n.work.traces)
	for i := range s.Len() {
		n.work.traces.strips[i].ly, n.work.traces.strips[i].lz = 0, 1
	}
	one := [several]float64{1, 1, 1, 1, 1, 1, 1, 1}
	for d := (directions{}); rule.next(&d, nil); {
		n.held = append(n.held, d)
		unit := d
		unit.sinh, unit.cosh = one, one
		n.work.raise(&unit)
		h := &n.strips
		h.unit = append(h.unit, n.work.raised...)
		h.parts = slices.Grow(h.parts, s.Len())[:len(h.unit)]
		keep(&n.traces, &d, h.parts[len(h.unit)-s.Len():])
	}
	return true, nil
}

// Release lets go of what is held.
func (n *Nearby) Release() {
	n.held, n.strips = n.held[:0], heldStrips{n.strips.unit[:0], n.strips.parts[:0]}
}

// Increment is [Workspace.Increment] of strips near those that are held, in the same
// order on the same surfaces; of others, and where none are held, it is that itself.
//
// What is left out is of second order in how far the phase of any wave turns, and in
// how much any exponent changes.
func (n *Nearby) Increment(s *Strips, speed si.Speed, gravity float64, perStrip []float64) (float64, error) {
	w, v := &n.work, speed.MetresPerSecond()
	if len(n.held) == 0 || s.Len() != len(n.traces.strips) {
		return w.Increment(s, speed, gravity, perStrip)
	}
	if err := s.check(v, gravity); err != nil {
		return 0, err
	}
	k0 := gravity / (v * v)
	shape := w.look(s, k0)
	rule, some := w.ruleOf(&shape, k0)
	if !some || !slices.Equal(w.traces.runs, n.traces.runs) {
		return w.Increment(s, speed, gravity, perStrip)
	}
	clear(perStrip)
	total := w.image(s, -2, perStrip)
	w.shares = sized(w.shares, s.Len())
	clear(w.shares)
	var d directions
	for k := 0; k < len(n.held) && rule.next(&d, &n.held[k]); k++ {
		clear(w.sums)
		for _, r := range w.traces.runs {
			follow(&n.traces, &w.traces, &n.held[k], &d, r.from, r.to, n.strips.from(k*s.Len()), w.raised, &w.sums[r.surface])
		}
		w.weigh(&d)
	}
	return total + w.shared(perStrip), nil
}
