// Package hull says what the water does to hulls: buoyancy, and resistance while
// they carry part of the weight.
//
// In go a boat, a state and the water; out come loads in the track frame, one row
// of buoyancy and one of resistance for each hull that touches the water, and
// nothing for one that flies. A hull is a closed surface of flat triangles laid
// through its sections, with its transom and deck. The undisturbed water cuts it
// exactly at any heel, pitch and height; volume, centre, wetted surface and
// waterplane follow as integrals over the wet triangles.
//
// Resistance is friction over the wetted surface of the moment, and what is left
// over (residuary), from a regression on open tank results of sailing yachts or
// from a curve of the user's own, in proportion to the weight that the hull
// carries at that moment.
//
// Left out: lift that speed makes on the bottom, side force and turning moment of
// the hull itself, what heel adds to residuary resistance, the action of two hulls
// on each other, waves of the sea, and the boat's own wave in the cut of the
// waterline.
//
// The package refuses to know about files, uncertainty, foils, sails, balance and
// trim.
package hull
