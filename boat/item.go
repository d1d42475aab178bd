package boat

import "foilwright/frame"

// Cause is why a load acts: the row of the balance sheet, and of the drag by
// cause, that it belongs to.
type Cause int

// The causes.
const (
	Gravity     Cause = iota // weight
	Buoyancy                 // of what is under water
	Potential                // water: lift and side force of the lattice, without its drag
	Induced                  // water: induced drag of the lattice
	Profile                  // water: friction and pressure drag of sections, with their moment
	Stall                    // water: what is added past the largest usable lift
	Spray                    // water: where a surface pierces the water's surface
	Junction                 // water: where surfaces meet
	Wave                     // water: waves that the lift makes
	BodyDrag                 // water: bulbs and pods
	HullDrag                 // water: the hull afloat
	SailLift                 // air: lift of the sails, without its drag
	SailInduced              // air: induced drag of the sails
	SailSection              // air: section drag of the sails
	WindDrag                 // air: windage
	causes
)

// Causes is how many causes there are.
const Causes = int(causes)

// String returns the cause's name in tables.
func (c Cause) String() string {
	return [Causes]string{
		"weight", "buoyancy", "lift", "induced drag", "profile drag", "stall", "spray", "junctions", "waves",
		"bodies", "hull", "sail lift", "sail induced drag", "sail section drag", "windage",
	}[c]
}

// Medium tells what a load comes from.
type Medium int

// The media. Weight and buoyancy are static: they make no drag.
const (
	Static Medium = iota
	Water
	Air
)

// Medium returns what a cause comes from.
func (c Cause) Medium() Medium {
	switch {
	case c <= Buoyancy:
		return Static
	case c <= HullDrag:
		return Water
	}
	return Air
}

// Item is one load on the boat: a row of the balance.
type Item struct {
	Part  string // "starboard main", "hull and deck", "jib"
	Piece string // "outer wing"; empty where the part has no pieces
	Cause Cause
	Load  frame.Load[frame.Track]
}
