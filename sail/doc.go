// Package sail says what the wind pushes on a boat with: sails by span loading,
// and windage.
//
// In go a boat, the set of sails that is up, a state and the wind; out come
// loads in the track frame, item by item, and on demand a report that tells the
// same computation in full. Each sail is a lifting line (Prandtl 1918) as long as
// its luff, with its loads at the quarter chords; all sails of a set, and their mirror images in the water, act
// on each other through their wakes. Lift, induced drag and the height of the
// centre of effort follow from that; largest lift and section drag come from
// tables over the apparent wind angle.
//
// Left out: the bound vortices' action on the other sails (what one sail does to
// the direction of the wind at another beyond its wake, so that incidence, not
// the sheeting angle, is the control), the mast in front of a sail, the centre
// of pressure's move aft of the quarter chord with camber, luffing, and all
// unsteadiness. Predictions compare designs: sheet and mast-foot loads are not
// scantlings.
//
// The package refuses to know about files, uncertainty, water loads, balance
// and trim. Dry foils in the wind belong to package foil.
package sail
