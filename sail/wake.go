package sail

import "math"

// liftSlope is the two-dimensional lift slope a₀ of thin aerofoils, 1/rad
// (Glauert 1926).
const liftSlope = 2 * math.Pi

// factor takes the equations of the lifting lines and factors them; it tells
// whether they have a solution.
func (k *wake) factor() (solved bool) {
	k.take()
	return k.lines.Factorise()
}

// take writes the lifting lines of which the equations are made.
//
// Prandtl (1918): Γ = ½·c·a₀·(W·α − w), with w = A·Γ the velocity that all
// trailing vortices and their images in the water raise at the lifting line,
// half of that far downstream, against the force. A strip of positive Γ sheds a
// vortex at each end, seen end-on in the plane normal to the wake; the water is
// a rigid wall, so that a vortex has an image of opposite sense as far behind
// the mirror (which the model's gap factor shifts). On other sails a vortex has
// a core, v = κ·r/(2π·(r² + r_c²)) (Scully 1975), since a sail in the plane of
// another's wake would meet a singularity; on its own sail it has none. Wakes
// drift straight along one direction and are seen as if all sails stood in one
// plane normal to it: by Munk (1921) that keeps the induced drag of a set, and
// leaves out what the fore-and-aft distance does to each sail's incidence.
func (k *wake) take() {
	k.lines.Reset(k.mirror)
	for i := range k.nodes {
		d := &k.nodes[i]
		k.lines.AddNode(d.t, d.z, d.core, d.sail)
	}
	for i := range k.segments {
		s := &k.segments[i]
		k.lines.AddStrip(k.first[i], [2]float64{s.t, s.z}, [2]float64{s.mt, s.mz}, s.half, s.sail)
	}
}

// influence returns w of strip i for unit circulation of strip j, 1/m: A.
func (k *wake) influence(i, j int) float64 { return k.lines.Influence(i, j) }

// solve writes the circulation of every strip for W·α in flow, m²/s, and the
// velocity w that goes with it, m/s.
func (k *wake) solve(circulation, downwash []float64) { k.lines.Solve(k.flow, circulation, downwash) }
