// Package wave is what the water's surface at a finite Froude number adds to
// lifting surfaces that sail steadily under it and through it, beyond the
// surface of zero potential (infinite Froude number) of a vortex lattice.
//
// In go Strips, the bound vortices of all surfaces with their circulations, a
// speed and gravity. Out comes the increment of induced drag with waves, W − 2σ,
// whole and for each strip. What a surface of zero potential gives is 1 + σ times the
// drag in unbounded water; with the increment it becomes 1 − σ + W: the drag
// under a rigid wall, that of the trailing vortices far behind, where nothing
// depends on x any more and the surface is flat, and the drag of the waves. W has
// one complex amplitude over all strips, vertical and lateral loads together, so
// that surfaces may help or harm each other through their waves.
//
// Derivation. The stream runs along −x, k0 = g/V². Under the linear condition
// φxx + k0 φz = 0 at z = 0 the potential −1/(4πr) of a source gains the image
// +1/(4πr′) of zero potential and, in the direction θ and the wave number k, the
// factor 2κ/(k − κ) with κ = k0 sec²θ, whose pole is the free waves behind
// (Havelock 1932, Proc. R. Soc. A 138; Kochin 1937; Wehausen and Laitone 1960,
// sec. 13). Sources of strength m have the drag
//
//	W/ρ = (k0²/2π) ∫ |H|² sec³θ dθ,  −π/2 < θ < π/2,
//	H = Σ m exp(κz + iκ(x cos θ + y sin θ))
//
// (Lunde 1951, Trans. SNAME 59). A strip of circulation Γ along l sheds a sheet
// of doublets Γ(0, lz, −ly) a length, from the strip to x = −∞; taken along the
// sheet they make
//
//	H = −Σ Γ (i ly sec θ + lz tan θ) exp(κz + ik0(x sec θ + y sec θ tan θ)).
//
// For one deep straight line this is the drag of Wu 1954 (J. Math. Phys. 33)
// and Breslin 1957 (J. Ship Research 1); for an endless one it is Kochin's and
// Lamb's ρgΓ²/V² exp(−2gh/V²) a length.
//
// What waves add to the velocity at the strips, Wash, is the same Green function
// integrated along the sheet: exponential integrals upstream, where no waves run,
// and downstream the free waves and a wall's far wake less what is upstream.
//
// The texts named were not at hand: the formulas were derived afresh and are
// held by tests to closed forms, to the image's own drag at high speed, where
// W = 2σ, to two tables computed by others, and the wash to Laplace's equation, to
// the surface's condition, and to the drag.
//
// Left out: all that is of second order in the wave's height (breaking, spray,
// the change of depth under the foil's own wave), viscosity, currents, and waves
// that were there before. Sheets stay where they were shed. Strips are points
// along x: waves are longer than chords. Checked from rest to depth Froude
// numbers of 1000, at depths from a twentieth of the span, and for struts that
// pierce the surface, whose circulation fades towards it as a lattice under zero
// potential makes it.
//
// The package refuses to know what a foil or a boat is, where strips and
// circulations came from, and the density of the water.
package wave
