// Package polar takes one boat over winds and angles: the best trim at each,
// the best angles to windward and leeward with the band around them that costs
// next to nothing, where one way of sailing gives way to another, what limits
// hold the boat along the curve, and where she cannot fly.
//
// In go a boat, a request to package trim, wind speeds and angles; out comes a
// plain value for every wind, which also comes out as rows of a table.
//
// The middle angle in the first, the middle and the last wind, and the first and the last
// angle in the middle wind, are searched on their own, from all the starts that the request
// asks for. From these the answers are followed over angles and winds, each from where its
// neighbours together point to. What they did not make expect is searched on its own too, and
// so is what neighbours do not agree on within 0.05 %, what does not fly though there is wind
// enough, and the last point before a gap. Then neighbours' answers are carried along each
// wind, up and down, where neither was followed from the other, and whatever is better stays.
// What lies between the points (best angles, ends of bands, crossovers, ends of gaps) is found
// on trims of its own, never read off a curve through the grid.
//
// The package refuses to know why a boat is fast, how a trim is found, and any
// file or screen.
package polar
