// Package foil says where a boat's foils stand in the water and what the water
// does to them.
//
// In go a boat, a state and the water; out come the wet and dry parts of every
// piece with their areas and tip depths, and the loads: lift and induced drag
// by the vortex lattice over all wet surfaces together, profile drag, spray,
// junctions, buoyancy, and the drag of the bulbs that the foils carry.
//
// The package knows no sails and no balance, and no class of boat: a rudder, a
// board and a canting foil are the same thing to it.
//
// What is wet is decided by the quarter-chord line against the undisturbed
// surface. Sections are cut streamwise: chords lie along the boat's x axis at
// zero moves, turned by twist.
package foil
