package sail

import (
	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/frame"
	"foilwright/lattice"
	"foilwright/si"
)

// defaultStrips is how many strips a sail has unless the workspace says
// otherwise. Doubling them moves lift by under 0.2 % and induced drag by under
// 0.5 % (measured by TestTwiceTheStrips).
const defaultStrips = 16

// Workspace is the scratch memory of [Loads] and [Explain], one per goroutine.
// Its zero value is ready. It remembers the last boat, set, attitude, speed and
// wind, and solves again only what has changed: settings alone cost no new
// factorisation. It relies on a boat's never being changed.
type Workspace struct {
	Strips int // of each sail; zero means 16

	shaped shape // what strips and sails were cut for
	placed place // what wake was factored for

	strips []strip
	sails  []rigged
	wake   wake

	windward float64 // +1 with the apparent wind from port, −1 from starboard
	solved   bool    // whether the wake's equations have a solution

	circulation []float64 // Γ of each strip, m²/s, positive with force to leeward
	downwash    []float64 // w of each strip, m/s, positive against that force
	incidence   []float64 // α of each strip above zero lift, rad
	sections    []section
	margins     []Margin
	driven      []driven // areas in the wind

	beside  beside
	density float64 // kg/m³, of the air that loads at hand are for; NaN where there are none
}

// shape is what the strips in the boat frame follow from.
type shape struct {
	boat   *boat.Boat
	set    int
	strips int
}

// place is what the wake follows from.
type place struct {
	attitude boat.Attitude
	speed    si.Speed
	wind     fluid.Wind
}

// strip is one strip of a sail between two shares of its height.
type strip struct {
	sail   int // index in Workspace.sails
	eta    float64
	chord  float64                 // normal to the luff, m
	area   float64                 // m²
	middle frame.Point[frame.Boat] // its quarter chord: where its loads act
	behind float64                 // how far that lies aft of the luff, m
	luff   [3]float64              // how far up the luff its lower end, eta and its upper end are, m

	at     frame.Point[frame.Track] // of the middle
	span   frame.Vec[frame.Track]   // of its luff, upward, m
	wind   frame.Vec[frame.Track]   // the undisturbed air over the boat, m/s
	normal float64                  // its part normal to the luff, m/s
	freer  float64                  // how much freer the wind is than at mid-height, rad
}

// rigged is one sail of the set with what holds for all of its strips.
type rigged struct {
	sail        *boat.Sail
	first, last int // its strips are strips[first:last]
	luff        frame.Vec[frame.Boat]

	tack       frame.Point[frame.Track]
	up         frame.Vec[frame.Track] // unit, along the luff
	astern     frame.Vec[frame.Track] // unit, in the plane normal to the luff, aft along the chords
	abeam      frame.Vec[frame.Track] // unit, to port
	wind       frame.Vec[frame.Track] // at mid-height
	aft, port  float64                // its parts in the plane normal to the luff, m/s
	angle      si.Angle               // of that wind off the bow, in the plane normal to the luff, unsigned
	largest    float64                // lift coefficient of the sail as cut
	drag       float64                // section drag coefficient at no lift
	dragFactor float64                // the model's, on section drag
	sheet      float64                // incidence above zero lift at mid-height, rad
	twist      float64                // rad
	flat       float64                // share of the camber that is taken out
	hardest    int                    // the strip that has least lift in hand
	about      frame.Point[frame.Track]
	lift       frame.Load[frame.Track]
	induced    frame.Load[frame.Track]
	section    frame.Load[frame.Track]
	sheetLoad  float64 // N
	atSheet    float64 // sheet load over the moment about the luff of a force on a chord, over the chord, 1/m
}

// wake is the lifting lines in the plane normal to the wake, and the factored
// equations for their circulation.
type wake struct {
	along  frame.Vec[frame.Track] // unit, horizontal: the way that the wake drifts
	across frame.Vec[frame.Track] // unit, horizontal: z × along
	mirror float64                // height of the mirror that the image is behind, m

	nodes    []node
	segments []segment
	first    []int // of each segment: its lower node; the upper is the next
	lines    lattice.Lines
	flow     []float64 // W·α of each strip, m/s
}

// node is where a trailing vortex leaves, in the plane normal to the wake.
type node struct {
	t, z float64 // across and up, m
	core float64 // radius on other sails, m
	sail int
}

// segment is one strip's lifting line in the plane normal to the wake.
type segment struct {
	t, z   float64 // its control point, m
	mt, mz float64 // unit normal on the side that positive circulation pulls to on port tack
	length float64 // m
	half   float64 // ½·a₀·c, m
	sail   int
}

// grow returns s with n elements, reusing its memory.
func grow[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n)
	}
	return s[:n]
}
