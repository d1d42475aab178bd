// Package rule holds boats against a class rule.
//
// In go a file of limits, written in the spirit of a boat file, and a boat with the
// sheet that she comes from. Out comes each limit with the boat's figure, what is
// left of the limit or how far it is broken, and where both stand; or faults of the
// file with their places.
//
// A limit measures one thing of one part: a mass, an area, a span, the drop of a
// tip, the height of a sail, how many parts move, or the box that a foil lies in at
// stated settings. Geometry is of the boat as drawn, in the boat frame (x forward,
// z up) with y counted outboard; foils are their quarter-chord lines with the chords
// about them, so that twist, thickness and flaps are left out. Figures are the likely
// ones: what is uncertain about them is not looked at.
//
// The package refuses to know water, wind, forces and how a boat sails.
package rule
