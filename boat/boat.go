package boat

import (
	"fmt"

	"foilwright/frame"
	"foilwright/section"
	"foilwright/si"
)

// Side is a side of the boat.
type Side int

// The sides. Centre is the centreplane; Port is y > 0.
const (
	Centre Side = iota
	Port
	Starboard
)

func (s Side) String() string { return [...]string{"centre", "port", "starboard"}[s] }

// Other returns the opposite side; Centre is its own.
func (s Side) Other() Side { return [...]Side{Centre, Starboard, Port}[s] }

// Sign returns +1 for port, −1 for starboard and 0 for the centre: the sign of y.
func (s Side) Sign() float64 { return [...]float64{0, 1, -1}[s] }

// Bearing names a side by the wind.
type Bearing int

// The bearings. On port tack (the wind from port) Windward is Port.
const (
	AnyBearing Bearing = iota
	Windward
	Leeward
)

func (b Bearing) String() string { return [...]string{"", "windward", "leeward"}[b] }

// On returns the side that bears so on a tack, given the side that the wind
// comes from. AnyBearing is Centre.
func (b Bearing) On(windFrom Side) Side {
	switch b {
	case Windward:
		return windFrom
	case Leeward:
		return windFrom.Other()
	}
	return Centre
}

// Boat is one boat with every figure settled. It is never changed after it is
// built; all slices are read only. Indices between its parts (a piece's
// control, a set's sails) are positions in its own slices; −1 means none.
type Boat struct {
	Name     string
	Class    string
	Datum    string  // where the origin is, in words
	Length   float64 // reference length for moments and boat lengths, m
	Weights  []Weight
	Foils    []Foil
	Bodies   []Body
	Hulls    []Hull
	Windages []Windage
	Sails    []Sail
	Sets     []Set
	Modes    []Mode
	Limits   []Limit
	Controls []Control
	Model    Model
}

// Weight is a thing of mass at a place.
type Weight struct {
	Name  string
	Mass  float64                 // kg
	At    frame.Point[frame.Boat] // where it is when nothing moves it, m
	Shift [3]int                  // control whose setting replaces x, y, z, m; −1 where none does
	Swing Move                    // turns it about SwingAbout; Control −1 and Fixed 0 where it does not swing
	About frame.Point[frame.Boat] // the swing's centre, m
}

// Foil is one wing, strut or rudder with all that hangs on it: pieces joined end
// to end which move together about a root. A pair is two foils.
type Foil struct {
	Name   string // "starboard main"
	Kind   string // "main": what both of a pair are called
	Side   Side
	Root   frame.Point[frame.Boat] // the pivot, m
	Moves  []Move                  // the outermost, nearest the hull, first
	Pieces []Piece

	Mass      float64 // kg
	MassPiece int     // the piece that the mass is hung on
	MassShare float64 // how far along that piece's path, 0 to 1
}

// MoveKind tells how a move moves.
type MoveKind int

// The kinds of move.
const (
	Turn  MoveKind = iota // a rotation about an axis through the root
	Slide                 // a slide along a piece's first direction, as through a case
)

// Move is one movement of a foil, or of a weight that swings. Its amount is its
// control's setting: an angle, or for Slide the share of the piece that is out
// of its case (1 is all the way down).
type Move struct {
	Name    string
	Kind    MoveKind
	Axis    frame.Vec[Local] // unit; right-handed for a positive setting (mirroring is in it already)
	Length  float64          // Slide: path length that a share of 1 stands for, m
	Control int              // index in Boat.Controls, −1 where the amount is fixed
	Fixed   float64          // the amount where Control is −1
}

// Local marks the frame of one foil: origin at its root, axes parallel to the
// boat's when every move is at zero (a slide at its full share).
type Local struct{}

// Piece is one length of a foil between joints: an arm, a blade, a wing.
type Piece struct {
	Name    string
	From    int   // the piece whose tip it starts at, −1 for the root
	Path    Path  // quarter-chord line, from its start outward
	Chord   Along // m, over the share of the path
	Twist   Along // rad, positive raises incidence towards the upper side
	Section section.Section
	Upper   float64 // ±1: sign that makes Upper·(forward × tangent) point to the suction side of positive camber
	Flap    Flap
	Laminar float64 // laminar share of the chord; negative means the model's

	// Peaks are the section's pressure peaks over lift and flap angle; nil where
	// they are not known, and then nothing is said about cavitation.
	Peaks *section.PeakTable
	// Hinge is the hinge moment of the flap over lift and flap angle; nil where
	// there is no flap, or it is not known.
	Hinge *section.HingeTable
	// LaminarShares are computed laminar shares, for ComputedTransition; nil where
	// the stated share holds.
	Transition    Transition
	LaminarShares *section.LaminarTable
}

// Transition is where a piece's laminar share comes from.
type Transition int

// The ways to know where the boundary layer turns.
const (
	StatedTransition   Transition = iota // Piece.Laminar, or the model's
	ComputedTransition                   // a published criterion on a smooth surface
)

// Flap is a plain flap along part of a piece. A zero Share means none.
type Flap struct {
	Share    float64 // flap chord over chord
	From, To float64 // shares of the path between which it runs
	Control  int     // its angle, positive trailing edge away from the upper side (more lift)
	Sign     float64 // ±1 on the control's setting
}

// Body is a body of revolution: a bulb or a pod.
type Body struct {
	Name     string
	Foil     int                     // the foil that carries it, −1 for the hull
	Piece    int                     // and the piece of that foil
	Share    float64                 // where along that piece's path its middle is, 0 to 1
	At       frame.Point[frame.Boat] // its middle, m, where Foil is −1
	Length   float64                 // m
	Diameter float64                 // m
	Mass     float64                 // kg, besides the foil's own
}

// Hull is what floats. Its sections are half-breadths about its own midplane.
type Hull struct {
	Name       string
	Offset     frame.Vec[frame.Boat] // added to every section, m
	Sections   []HullSection         // bow to stern
	Resistance Resistance
}

// HullSection is one transverse section: half-breadth over height, from the keel up.
type HullSection struct {
	X      float64      // m
	Points [][2]float64 // half-breadth and height, m
}

// Resistance is where a hull's resistance afloat comes from.
type Resistance struct {
	Source string    // "regression", "own curve" or empty, which is the regression
	Speed  []float64 // own curve: speeds, m/s
	Force  []float64 // own curve: resistance of this hull at the boat's whole weight, N
	// FormFactor is the factor on friction, 1 + k; below 1 counts as 1. Residuary
	// resistance of the regression holds its tank models' own.
	FormFactor float64
}

// Windage is an area in the wind that only drags: a hull's topsides, a mast, people.
type Windage struct {
	Name        string
	Area        float64                 // m²
	Coefficient float64                 // drag over dynamic pressure and Area
	Bottom, Top frame.Point[frame.Boat] // its area is spread evenly between them, m
	Follows     int                     // a weight that it moves with, −1 for none
}

// WindageEnds returns bottom and top of an area in the wind, m, where it is once the
// weight that it follows has moved.
func (b *Boat) WindageEnds(d *Windage, settings []float64) (bottom, top frame.Point[frame.Boat]) {
	if d.Follows < 0 {
		return d.Bottom, d.Top
	}
	weight := &b.Weights[d.Follows]
	shift := weight.Place(settings).From(weight.At)
	return d.Bottom.Add(shift), d.Top.Add(shift)
}

// Sail is one sail. Its span is the luff; its chords are set behind the luff.
type Sail struct {
	Name         string
	Luff, Foot   float64                 // m
	Area         float64                 // m²
	Tack         frame.Point[frame.Boat] // forward lower corner, m
	Lean         si.Angle                // of the luff, positive aft
	Coefficients SailCoefficients
	Sheet        int // control: incidence above zero lift at mid-height, rad
	Twist        int // control: by how much incidence falls from foot to head, rad
	Flatten      int // control: share of the camber that is taken out, 1; −1 where the sail stays as full as it is cut
}

// SetBy tells whether a control sets the sail.
func (s *Sail) SetBy(control int) bool {
	return control >= 0 && (s.Sheet == control || s.Twist == control || s.Flatten == control)
}

// SailCoefficients are largest lift and section drag of a sail, referred to its
// area, over an angle.
type SailCoefficients struct {
	Name    string
	Against Abscissa  // what Angle is
	Angle   []float64 // rad, rising
	Lift    []float64 // largest lift coefficient
	Drag    []float64 // section (viscous) drag coefficient
}

// Abscissa is the angle that a sail's coefficients go by.
type Abscissa int

// The angles.
const (
	WindAngle Abscissa = iota // of the apparent wind at mid-height off the bow, in the plane normal to the luff
	Incidence                 // of each strip above zero lift, less what the wakes take off it
)

// String returns the angle's name in a boat file.
func (a Abscissa) String() string { return [...]string{"apparent wind angle", "incidence"}[a] }

// String says whose coefficients they are; of a boat file's own table, what it
// goes by and from where to where.
func (c SailCoefficients) String() string {
	if n := len(c.Angle); c.Name == OwnTable && n > 0 {
		lines := "lines"
		if n == 1 {
			lines = "line"
		}
		return fmt.Sprintf("%s by %s, %d %s, %.4g to %.4g deg", c.Name, c.Against, n, lines,
			si.Angle(c.Angle[0]).Degrees(), si.Angle(c.Angle[n-1]).Degrees())
	}
	return c.Name
}

// OwnTable is the name of coefficients that a boat file gives itself.
const OwnTable = "own table"

// Set is sails that are up together.
type Set struct {
	Name  string
	Sails []int
}

// Model holds the model's own factors. They are the same for all boats of a
// study unless the user says otherwise. Default values stand in Defaults.
type Model struct {
	Friction    float64 // on water friction and with it profile drag; 1 is the line itself
	Laminar     float64 // laminar share of the chord of foils
	LiftDrag    float64 // on the lift-dependent part of profile drag
	Spray       float64 // on spray drag
	Junction    float64 // on junction drag
	WakeCore    float64 // radius of a wake's core over the shedding chord
	Gap         float64 // on the gap under a sail's foot
	SailDrag    float64 // on the section drag of sails
	Windage     float64 // on every windage
	RaisedFoil  float64 // drag coefficient of dry foils on chord times span
	FlapLoss    float64 // on the viscous loss of flap effectiveness
	Ventilation float64 // on the incidence at which a piercing strip ventilates
	Residuary   float64 // on the residuary resistance of hulls from the regression
}

// Defaults returns the model's factors as they are unless a user says otherwise.
// They are judgement, not measurement; boatfile gives each its spread and basis.
func Defaults() Model {
	return Model{
		Friction: 1, Laminar: 0.15, LiftDrag: 1, Spray: 1, Junction: 1,
		WakeCore: 0.25, Gap: 1, SailDrag: 1, Windage: 1, RaisedFoil: 0.10, FlapLoss: 1, Ventilation: 1, Residuary: 1,
	}
}

// Mass returns all that the boat weighs, kg: weights, foils and bodies.
func (b *Boat) Mass() float64 {
	m := 0.0
	for i := range b.Weights {
		m += b.Weights[i].Mass
	}
	for i := range b.Foils {
		m += b.Foils[i].Mass
	}
	for i := range b.Bodies {
		m += b.Bodies[i].Mass
	}
	return m
}

// Weight returns the boat's weight, N, at standard gravity.
func (b *Boat) Weight() float64 { return b.Mass() * si.Gravity }
