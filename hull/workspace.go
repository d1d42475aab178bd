package hull

import "foilwright/boat"

// Workspace is the scratch memory of one goroutine. Its zero value is ready. It
// keeps the surfaces of the last boat and the cut of its last attitude, and relies
// on a boat's never being changed.
type Workspace struct {
	boat     *boat.Boat
	hulls    []laid
	wet      []Immersed
	attitude boat.Attitude
	cut      bool // whether wet is of attitude
	points   [][3]float64

	settled bool    // whether the hulls at rest are known
	height  float64 // of the datum at rest, m
	resting []Immersed
}

// laid is one hull made ready.
type laid struct {
	mesh *mesh // nil where it has no sections
	rest Rest
	drag resistance
}

// lay makes a boat's hulls ready, unless they are.
func (w *Workspace) lay(b *boat.Boat) {
	if w.boat == b {
		return
	}
	w.boat, w.cut, w.settled, w.height = b, false, false, 0
	w.hulls = w.hulls[:0]
	for i := range b.Hulls {
		w.hulls = append(w.hulls, laid{mesh: meshOf(&b.Hulls[i])})
	}
	w.wet = make([]Immersed, len(w.hulls))
}

// wetAt cuts a boat's hulls by the water, unless they are cut so.
func (w *Workspace) wetAt(b *boat.Boat, a boat.Attitude) {
	w.lay(b)
	if w.cut && w.attitude == a {
		return
	}
	w.attitude, w.cut = a, true
	pose := a.Pose()
	for i := range w.hulls {
		w.wet[i] = w.immerse(w.hulls[i].mesh, pose)
	}
}

func grown[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n)
	}
	return s[:n]
}
