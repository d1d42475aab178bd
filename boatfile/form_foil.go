package boatfile

import "foilwright/quantity"

// foilForm is a wing, strut, board, keel or rudder: pieces end to end that move
// together about a root.
type foilForm struct {
	site
	Side     words              `json:"side" need:"side: pair" jsonschema_description:"pair (written for port, starboard its mirror image), port, starboard or centre"`
	Root     point              `json:"root" need:"root: {x: 0.6 m, y: 1.9 m, z: 0.7 m}" jsonschema_description:"the pivot"`
	Mass     foilMass           `json:"mass" jsonschema_description:"its mass, each of a pair, and where it hangs"`
	Moves    named[moveForm]    `json:"moves" jsonschema_description:"movements, the one nearest the hull first, each a control"`
	Pieces   named[pieceForm]   `json:"pieces" need:"pieces: {blade: {path: …, chord: …, section: naca 0012}}" jsonschema_description:"lengths between joints"`
	Controls named[controlForm] `json:"controls" jsonschema_description:"controls of its flaps, by name"`
	Basis    words              `json:"basis" jsonschema_description:"where its uncertain figures come from"`
}

// foilMass is a foil's mass and where it hangs.
type foilMass struct {
	site
	Mass  mass  `json:"mass" need:"mass: 70 kg" jsonschema_description:"mass, each of a pair"`
	Along words `json:"along" jsonschema_description:"where its centre is, as 60 % of arm"`
	Basis words `json:"basis" jsonschema_description:"where its figures come from"`
}

func (m *foilMass) shortFor() string { return "mass" }

// moveForm is one movement of a foil.
type moveForm struct {
	site
	Axis   axis   `json:"axis" jsonschema_description:"x: + lifts the tip outboard and up; y: + leading edge up; z: + leading edge to port; or a direction, right-handed"`
	Along  words  `json:"along" jsonschema_description:"instead of axis: slides through its case along this piece; 100 % is all the way down"`
	Travel length `json:"travel" jsonschema_description:"slide: how far it comes up from 100 % to 0 %"`
	Both   words  `json:"both sides" jsonschema_description:"of a pair: together makes one control, apart (default) one on each side"`
	With   words  `json:"with" jsonschema_description:"another control by name, which then moves this too"`
	Zero   words  `json:"zero" jsonschema_description:"in words, what it looks like at zero"`
	controlKeys
}

// pieceForm is one length of a foil between joints.
type pieceForm struct {
	site
	From     words       `json:"from" jsonschema_description:"where it starts: root (default), or the tip of another piece, as arm tip"`
	As       words       `json:"as" jsonschema_description:"another piece of this foil that it equals in what is not written here"`
	Mirrored yes         `json:"mirrored" jsonschema_description:"with as: mirrored port to starboard in the plane through its start"`
	Path     []point     `json:"path" jsonschema_description:"quarter-chord line with every move at zero, from where it starts"`
	Rounded  length      `json:"rounded" jsonschema_description:"radius at the path's corners"`
	Chord    chords      `json:"chord" jsonschema_description:"one length, or lengths by share of the path"`
	Twist    twists      `json:"twist" jsonschema_description:"one angle, or angles by share of the path; + raises incidence towards the upper side"`
	Section  sectionForm `json:"section" jsonschema_description:"name of a section, or a file of coordinates"`
	Upper    words       `json:"upper side" jsonschema_description:"where the suction side of positive camber is: up, down, inboard, outboard, port or starboard"`
	Flap     flapForm    `json:"flap" jsonschema_description:"a plain flap"`
	Laminar  share       `json:"laminar" jsonschema_description:"laminar share of its chord, where it is not the model's"`
	Basis    words       `json:"basis" jsonschema_description:"where its uncertain figures come from"`
}

// sectionForm is a section.
type sectionForm struct {
	site
	Name        words  `json:"name" jsonschema_description:"as naca 63-412, naca 0012 or another known name, with at 11 % for another thickness"`
	File        words  `json:"file" jsonschema_description:"file of coordinates, two numbers a line"`
	Thickness   share  `json:"thickness" jsonschema_description:"thickness over chord that it is scaled to"`
	LargestLift number `json:"largest lift" jsonschema_description:"largest usable lift coefficient, where it is known"`
	DragTable   words  `json:"drag table" jsonschema_description:"file of profile drag over lift, Reynolds number and flap angle, in place of the model's"`
	Transition  words  `json:"transition" jsonschema_description:"computed: laminar shares from a published criterion on a smooth surface, in place of a stated share"`
	Basis       words  `json:"basis" jsonschema_description:"where its figures come from"`
}

func (s *sectionForm) shortFor() string { return "name" }

// flapForm is a plain flap.
type flapForm struct {
	site
	Share    share   `json:"share" need:"share: 30 %" jsonschema_description:"flap chord over chord"`
	Angle    setting `json:"angle" need:"angle: main flap" jsonschema_description:"the control that sets it (of the foil's controls), or a fixed angle; + trailing edge away from the upper side"`
	From     share   `json:"from" jsonschema_description:"share of the path where it begins, default 0 %"`
	To       share   `json:"to" jsonschema_description:"share of the path where it ends, default 100 %"`
	Reversed yes     `json:"reversed" jsonschema_description:"moves against the control, as one of two ailerons"`
}

// bodyForm is a body of revolution.
type bodyForm struct {
	site
	On       words  `json:"on" need:"on: foils.main" jsonschema_description:"what carries it: hull, or a foil as foils.main"`
	At       bodyAt `json:"at" need:"at: arm tip" jsonschema_description:"where its middle is: as arm tip or 60 % of arm, on the hull a point"`
	Length   length `json:"length" need:"length: 0.9 m" jsonschema_description:"its length"`
	Diameter length `json:"diameter" need:"diameter: 0.16 m" jsonschema_description:"its largest diameter"`
	Mass     mass   `json:"mass" jsonschema_description:"its mass, each of a pair, besides the foil's own"`
	Basis    words  `json:"basis" jsonschema_description:"where its uncertain figures come from"`
}

// bodyAt is a place along a piece or a point.
type bodyAt struct {
	site
	words words
	point point
}

func (b *bodyAt) readNode(d *decoder, n *node, path string) {
	b.stand(n, path)
	if n.kind != mapping {
		b.words.readNode(d, n, path)
		return
	}
	form := bodyPoint{}
	d.readInto(&form, n, path)
	b.point = form.point
}

type bodyPoint struct{ point }

// axis is an axis of the boat by its letter, or a direction.
type axis struct {
	site
	letter    string
	direction point
}

func (a *axis) readNode(d *decoder, n *node, path string) {
	a.stand(n, path)
	if n.kind == mapping {
		form := directionForm{}
		d.readInto(&form, n, path)
		a.direction.X.figure, a.direction.Y.figure, a.direction.Z.figure = form.X.figure, form.Y.figure, form.Z.figure
		return
	}
	if n.kind != scalar || n.text != "x" && n.text != "y" && n.text != "z" {
		d.fault(n, path, n.String()+" is not an axis", "write x, y or z, or a direction such as {x: 0.1, z: 1}")
		return
	}
	a.letter = n.text
}

// directionForm is a direction in plain numbers.
type directionForm struct {
	site
	X number `json:"x" jsonschema_description:"forward"`
	Y number `json:"y" jsonschema_description:"to port"`
	Z number `json:"z" jsonschema_description:"up"`
}

// angleText tells whether a text begins like a quantity rather than a name.
func angleText(text string) bool {
	_, err := quantity.Parse(text, quantity.Angle)
	if err == nil {
		return true
	}
	return text != "" && (text[0] >= '0' && text[0] <= '9' || text[0] == '-' || text[0] == '+' || text[0] == '.')
}
