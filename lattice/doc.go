// Package lattice is a vortex lattice: panels to circulation to load.
//
// In goes a set of Panels, bound vortices with their force and control points
// in the track frame (x along the boat's velocity, y to port, z up, origin on
// the undisturbed water surface), the Boundary at z = 0, and the normal
// velocity that the lattice must induce at every control point. Out come
// circulations, the force on every panel and the induced drag of the far wake.
//
// Everything is per unit speed and unit density: circulation is Γ/V in m, per
// unit of the normal velocity given per V; force is F/(ρV²) in m². The stream
// runs along −x with unit speed. Positive circulation runs from A to B by the
// right-hand rule, and its force is U × Γ(B−A) with U = (−1, 0, 0), that is
// along (0, lz, −ly) for l = B − A: a bound vortex that runs from port to
// starboard lifts up.
//
// Method: one horseshoe a panel, its legs straight downstream along −x from
// the ends of the bound vortex; nodes spaced by the cosine with control and
// force points at the angular midpoints; any number of chordwise rows at the
// angles of the Gauss–Jacobi rule, of which one row is the quarter and
// three-quarter chord. A free surface in the high-speed limit is the image of
// the same circulation, a rigid wall that of the opposite one. One row under a
// free surface carries on its diagonal what the image of a whole plate does
// beyond that of one vortex. Lift and side force come from the bound vortices in
// the undisturbed stream, as befits a linear surface, the total induced drag
// from the far wake.
//
// Beside the lattice stand [Lines], lifting lines over a wall that have its kernels and
// factors.
//
// The package refuses to know what a foil, a sail or a boat is, where the
// panels came from, viscosity, thickness, waves at finite Froude number, and
// the density and speed of the stream.
package lattice
