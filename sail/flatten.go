package sail

import "math"

// fullCamber is the depth over chord that stands for a sail's as it is cut:
// common practice. Flattening takes a share of it out. A circular arc of that
// depth has its zero lift at −2·depth (Glauert 1926).
const fullCamber = 0.08

// flatLift is the share of the largest lift coefficient that a sail without any
// camber has lost: thin flat plates reach about 0.8, thin arcs of 8 % about 1.5.
// In between it falls in proportion. Judgement.
const flatLift = 0.5

// entryDrag is the growth of section drag, over its least, with the square of
// the distance between the lift coefficient and the one at which the flow meets
// the luff smoothly. Judgement: at half of that lift an eighteenth more, at none a
// quarter more.
const entryDrag = 0.25

// entry returns section drag over that of the same sail as it is cut, at the size
// of a lift coefficient, where a share flat of the camber is taken out.
//
// The flow meets the luff of a thin arc smoothly at the lift coefficient 4π times
// its depth (Glauert 1926, the ideal lift); away from it drag grows by entryDrag
// times the distance squared. A table's drag is that of the sail as cut, so that
// the ratio of two such parabolas remains: below the smooth entry of the full
// sail flattening saves drag, above it costs.
func entry(lift, flat float64) float64 {
	const smooth = 4 * math.Pi * fullCamber
	off, offFull := lift-smooth*(1-flat), lift-smooth
	return (1 + entryDrag*off*off) / (1 + entryDrag*offFull*offFull)
}

// sheetCentre returns where along the chord the force of a sail is taken to act
// for the sheet's load: at 40 % as it is cut (common practice), at the quarter
// chord without camber, and between them in proportion, as the moment of a thin
// arc about its quarter chord is (Glauert 1926). The balance itself takes the
// quarter chord.
func sheetCentre(flat float64) float64 { return 0.25 + 0.15*(1-flat) }
