// Package polar takes one boat over winds and angles: the best trim at each,
// the best angles to windward and leeward with the band around them that costs
// next to nothing, where one way of sailing gives way to another, what limits
// hold the boat along the curve, and where she cannot fly.
//
// In go a boat, a request to package trim, wind speeds and angles; out comes a
// plain value for every wind, which also comes out as rows of a table.
//
// Every point of the grid is searched on its own, from all the starts that the
// request asks for. Then its neighbours' answers are carried to it along each
// wind, up and down, and whatever is better stays: so no point is left on an
// optimum that the point beside it shows to be a poor one. What lies between
// the points (best angles, ends of bands, crossovers, ends of gaps) is found on
// trims of its own, never read off a curve through the grid.
//
// The package refuses to know why a boat is fast, how a trim is found, and any
// file or screen.
package polar
