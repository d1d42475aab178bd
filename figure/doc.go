// Package figure turns results into charts and drawings.
//
// In goes a [study.Result]; out comes a [Chart], which holds what one picture
// shows (numbers in the units of its axes, every text as it is to be read, and
// the table behind it), and from that an SVG or CSV.
//
// What a picture looks like is written once, in TypeScript under charts: pure
// functions from a chart to SVG. They run here in an interpreter and in a browser
// as they are, so that the command line, reports and the local app show the same
// pictures. The bundle that is embedded is built from these sources, and a test
// holds it against them.
//
// The package refuses to know files, screens and flags, and it computes nothing of
// a boat: each number comes from a result.
package figure
