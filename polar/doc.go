// Package polar takes one boat over winds and angles: the best trim at each,
// the best angles to windward and leeward with the band around them that costs
// next to nothing, where one way of sailing gives way to another, what limits
// hold the boat along the curve, and where she cannot fly.
//
// In go a boat, a request to package trim, wind speeds and angles; out comes a
// plain value for every wind, which also comes out as rows of a table.
//
// Along each wind the ends and the middle of the angles are searched on their own,
// from all the starts that the request asks for, and then what halves the gaps
// between them: the answers on either side are carried there, and where they agree
// within 0.05 % that is the answer; where they do not, or one of them does not fly,
// the point is searched on its own too. Then neighbours' answers are carried along
// each wind, up and down, to and from points on which nothing agreed, and whatever is
// better stays. What lies between the points (best angles, ends of bands,
// crossovers, ends of gaps) is found on trims of its own, never read off a curve
// through the grid.
//
// The package refuses to know why a boat is fast, how a trim is found, and any
// file or screen.
package polar
