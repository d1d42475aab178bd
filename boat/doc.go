// Package boat says what a foiling yacht is, and the state that it can be in.
//
// In go figures that are settled: one number for each quantity, in SI units and
// radians. Out comes a [Boat], which nothing changes once it is built, and the
// geometry that follows from it in a [State]: where a foil's pieces stand, how
// high the hull rides, where the weights are. What varies (speed, attitude,
// settings of the controls) is the State passed beside it.
//
// The package refuses to know about text and files, uncertainty, water, wind
// and forces: those belong to boatfile, fluid, and the packages that load a boat.
package boat
