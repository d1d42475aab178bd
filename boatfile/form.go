package boatfile

// The types of this file and of form_foil.go are the format of boat files: the
// decoder reads into them and the schema is written from them. The tag json
// holds a key ("-" takes all other keys), need what to write where the key is
// missing, jsonschema_description what the key means.

// boatForm is a boat file with what it is like merged in.
type boatForm struct {
	site
	Foilwright version              `json:"foilwright" need:"foilwright: 1" jsonschema_description:"version of the format, 1"`
	Name       words                `json:"name" need:"name: Sorrel" jsonschema_description:"the boat's name"`
	Class      words                `json:"class" jsonschema_description:"the class or rule that it sails in"`
	Invented   yes                  `json:"invented" jsonschema_description:"true where the figures are made up; results say so"`
	Like       words                `json:"like" jsonschema_description:"boat file that this one varies: mappings merge key by key, lists are replaced, none removes"`
	Shares     shareList            `json:"shares" jsonschema_description:"file of shared unknowns, or a list of them"`
	Datum      words                `json:"datum" jsonschema_description:"where the origin is, in words; x forward, y to port, z up"`
	Length     length               `json:"length" need:"length: 12.0 m" jsonschema_description:"reference length"`
	Unknowns   named[unknownForm]   `json:"unknowns" jsonschema_description:"uncertain factors and offsets that several quantities share"`
	Weights    named[weightForm]    `json:"weights" jsonschema_description:"every item of mass at its place; foils and bodies have their own"`
	Hulls      named[hullForm]      `json:"hulls" jsonschema_description:"what floats"`
	Foils      named[foilForm]      `json:"foils" jsonschema_description:"wings, struts, boards, keels and rudders"`
	Bodies     named[bodyForm]      `json:"bodies" jsonschema_description:"bodies of revolution: bulbs, pods"`
	Sails      named[sailForm]      `json:"sails" jsonschema_description:"sails"`
	Sets       named[nameList]      `json:"sets" jsonschema_description:"sails that are up together"`
	Rig        rigForm              `json:"rig" jsonschema_description:"mast, boom and rigging as the wind sees them"`
	Modes      named[modeForm]      `json:"modes" jsonschema_description:"what the crew may combine, by windward and leeward"`
	Limits     limitsForm           `json:"limits" jsonschema_description:"bounds on attitude, ride height, loads and margins"`
	Controls   named[overridesForm] `json:"controls" jsonschema_description:"other ranges, fixed settings or laws for controls, by name"`
	Model      modelForm            `json:"model" jsonschema_description:"factors of the model itself, each with its spread"`
}

// unknownsForm is a file of shared unknowns.
type unknownsForm struct {
	site
	Foilwright version            `json:"foilwright" jsonschema_description:"version of the format, 1"`
	Invented   yes                `json:"invented" jsonschema_description:"true where the figures are made up"`
	Unknowns   named[unknownForm] `json:"unknowns" need:"unknowns: {scale: {is: 1.00 ± 0.02, basis: …}}" jsonschema_description:"uncertain factors and offsets, by name"`
}

// unknownForm is a shared unknown; the scope reads it.
type unknownForm struct{ site }

func (u *unknownForm) readNode(_ *decoder, n *node, path string) { u.stand(n, path) }

// shareList is what shares: names; the loader reads it.
type shareList struct{ site }

func (s *shareList) readNode(_ *decoder, n *node, path string) { s.stand(n, path) }

// nameList is names of other parts.
type nameList struct {
	site
	names []words
}

func (l *nameList) readNode(d *decoder, n *node, path string) {
	l.stand(n, path)
	items := []*node{n}
	if n.kind == list {
		items = n.items
	}
	l.names = make([]words, len(items))
	for i, item := range items {
		l.names[i].readNode(d, item, path)
	}
}

// point is a place or a direction; coordinates left out are zero.
type point struct {
	site
	X length `json:"x" jsonschema_description:"forward of the origin"`
	Y length `json:"y" jsonschema_description:"to port of the origin"`
	Z length `json:"z" jsonschema_description:"above the origin"`
}

// weightForm is an item of mass.
type weightForm struct {
	site
	Mass    mass        `json:"mass" need:"mass: 240 kg" jsonschema_description:"mass; a crew as 6 x 88 kg"`
	At      point       `json:"at" need:"at: {x: 0 m, y: 0 m, z: 1 m}" jsonschema_description:"where its centre is when nothing moves it"`
	Moves   shiftForm   `json:"moves" jsonschema_description:"directions in which it can be moved, each a control"`
	Swing   swingForm   `json:"swing" jsonschema_description:"turns it about an axis, as a canting keel does"`
	Windage bodyWindage `json:"windage" jsonschema_description:"its drag in the wind, which moves with it"`
	Basis   words       `json:"basis" jsonschema_description:"where its uncertain figures come from"`
}

// shiftForm is where a weight can be moved to.
type shiftForm struct {
	site
	X controlForm `json:"x" jsonschema_description:"range of x"`
	Y controlForm `json:"y" jsonschema_description:"range of y"`
	Z controlForm `json:"z" jsonschema_description:"range of z"`
}

// swingForm turns a weight about an axis.
type swingForm struct {
	site
	Axis  axis  `json:"axis" need:"axis: x" jsonschema_description:"x, y, z or a direction; x lifts it to port"`
	About point `json:"about" need:"about: {x: 0 m, z: 0.2 m}" jsonschema_description:"a point of the axis"`
	controlKeys
}

// controlKeys is what every control may have.
type controlKeys struct {
	Range setting `json:"range" jsonschema_description:"from one setting to another"`
	Fixed setting `json:"fixed" jsonschema_description:"the only setting"`
	Start setting `json:"start" jsonschema_description:"where a search begins"`
	Step  setting `json:"step" jsonschema_description:"a small step, for scaling"`
	Law   lawForm `json:"law" jsonschema_description:"settings against ride height, straight lines between them"`
	Name  words   `json:"name" jsonschema_description:"the control's name, where part and movement do not say enough"`
	Basis words   `json:"basis" jsonschema_description:"where its figures come from"`
}

// controlForm is a control on its own: its range, or more.
type controlForm struct {
	site
	controlKeys
}

func (c *controlForm) shortFor() string { return "range" }

// overridesForm is a control set otherwise than where it was made.
type overridesForm struct {
	site
	Range setting `json:"range" jsonschema_description:"from one setting to another, within what the part allows"`
	Fixed setting `json:"fixed" jsonschema_description:"the only setting"`
	Start setting `json:"start" jsonschema_description:"where a search begins"`
	Step  setting `json:"step" jsonschema_description:"a small step, for scaling"`
	Law   lawForm `json:"law" jsonschema_description:"settings against ride height, straight lines between them"`
	Basis words   `json:"basis" jsonschema_description:"where its figures come from"`
}

func (c *overridesForm) shortFor() string { return "range" }

// lawForm makes a control follow something.
type lawForm struct {
	site
	RideHeight named[setting] `json:"ride height" need:"ride height: {0.3 m: 8 deg, 0.9 m: -2 deg}" jsonschema_description:"settings by ride height, heights rising"`
}

// windageForm is an area in the wind.
type windageForm struct {
	site
	Area        area   `json:"area" jsonschema_description:"its area seen from the wind"`
	Chord       length `json:"chord" jsonschema_description:"instead of area, with height: its width"`
	Height      length `json:"height" jsonschema_description:"from its bottom to its top"`
	Coefficient number `json:"drag coefficient" need:"drag coefficient: 0.5" jsonschema_description:"drag over dynamic pressure and area"`
	X           length `json:"x" jsonschema_description:"of its middle, forward"`
	Y           length `json:"y" jsonschema_description:"of its middle, to port"`
	Z           length `json:"z" jsonschema_description:"height of its middle"`
	Bottom      length `json:"bottom" jsonschema_description:"height of its lower end, instead of z"`
	Basis       words  `json:"basis" jsonschema_description:"where its uncertain figures come from"`
}

// bodyWindage is an area in the wind that goes with a weight.
type bodyWindage struct {
	site
	Area        area   `json:"area" need:"area: 0.5 m²" jsonschema_description:"its area seen from the wind"`
	Coefficient number `json:"drag coefficient" need:"drag coefficient: 0.9" jsonschema_description:"drag over dynamic pressure and area"`
	Basis       words  `json:"basis" jsonschema_description:"where its uncertain figures come from"`
}

// hullForm is what floats.
type hullForm struct {
	site
	Side     words        `json:"side" jsonschema_description:"centre (default), port, starboard, or pair: written for port, starboard its mirror image"`
	At       point        `json:"at" jsonschema_description:"added to every section"`
	Sections []sectionCut `json:"sections" jsonschema_description:"transverse sections, bow to stern"`
	Lines    linesForm    `json:"lines" jsonschema_description:"instead of sections: dimensions and coefficients, from which a parent form's sections are made"`
	Windage  windageForm  `json:"windage" jsonschema_description:"the hull in the wind"`
	Floats   floatsForm   `json:"floats" jsonschema_description:"where its resistance afloat comes from"`
	Basis    words        `json:"basis" jsonschema_description:"where its uncertain figures come from"`
}

// sectionCut is one transverse section of a hull.
type sectionCut struct {
	site
	X      length     `json:"x" need:"x: 5.8 m" jsonschema_description:"where it is"`
	Points [][]length `json:"points" need:"points: [[0 m, 0.2 m], [0.4 m, 1.1 m]]" jsonschema_description:"half-breadth and height, from the keel up"`
}

// linesForm is a hull told in short: see hull.Lines.
type linesForm struct {
	site
	Length    length `json:"length" need:"length: 11.2 m" jsonschema_description:"of the waterline"`
	Beam      length `json:"beam" need:"beam: 2.6 m" jsonschema_description:"of the waterline"`
	Draught   length `json:"draught" need:"draught: 0.42 m" jsonschema_description:"of the hull itself"`
	Block     number `json:"block" need:"block: 0.38" jsonschema_description:"displaced volume over length times beam times draught"`
	Prismatic number `json:"prismatic" need:"prismatic: 0.56" jsonschema_description:"displaced volume over length times the largest section's wet area"`
	Transom   number `json:"transom" jsonschema_description:"wet area of the aft end over the largest section's, 0 (default, a pointed stern) to below 1"`
	Freeboard length `json:"freeboard" need:"freeboard: 0.9 m" jsonschema_description:"from the waterline to the sheer"`
	Middle    length `json:"middle" jsonschema_description:"x of the middle of the waterline, 0 where left out"`
}

// floatsForm is where a hull's resistance afloat comes from.
type floatsForm struct {
	site
	From  words          `json:"from" need:"from: regression" jsonschema_description:"regression, or own curve"`
	File  words          `json:"file" jsonschema_description:"own curve: a table of speed and resistance"`
	Curve named[setting] `json:"curve" jsonschema_description:"own curve, written here: resistance by speed, of this hull upright with the boat's whole weight afloat"`
	Form  number         `json:"form factor" jsonschema_description:"1 + k on the hull's friction, 1 or more; left out, 1: the regression's residuary resistance holds its models' own"`
}

// sailForm is a sail.
type sailForm struct {
	site
	Luff         length           `json:"luff" need:"luff: 17.2 m" jsonschema_description:"length of the luff"`
	Foot         length           `json:"foot" need:"foot: 5.0 m" jsonschema_description:"length of the foot"`
	Area         area             `json:"area" need:"area: 66 m²" jsonschema_description:"its area"`
	Tack         point            `json:"tack" need:"tack: {x: 0 m, z: 2.0 m}" jsonschema_description:"forward lower corner"`
	Lean         angle            `json:"lean" jsonschema_description:"of the luff, aft"`
	Coefficients coefficientsForm `json:"coefficients" need:"coefficients: jib" jsonschema_description:"name of a published table, or the sail's own: lift and drag by apparent wind angle"`
	Sheet        sailControlForm  `json:"sheet" jsonschema_description:"incidence above that of no lift, at mid-height"`
	Twist        sailControlForm  `json:"twist" jsonschema_description:"by how much incidence falls from foot to head"`
	Flatten      sailControlForm  `json:"flatten" jsonschema_description:"share of the camber that is taken out, up to 100 %; left out, the sail stays as full as it is cut"`
	Basis        words            `json:"basis" jsonschema_description:"where its uncertain figures come from"`
}

// sailControlForm is a control of a sail, which another sail's may be set with.
type sailControlForm struct {
	site
	controlKeys
	With words `json:"with" jsonschema_description:"another sail's control of the same kind by name, which then sets this too"`
}

func (c *sailControlForm) shortFor() string { return "range" }

// coefficientsForm is a sail's coefficients: a name, or a table of its own.
type coefficientsForm struct {
	site
	name  words
	table ownCoefficientsForm
}

func (c *coefficientsForm) readNode(d *decoder, n *node, path string) {
	c.stand(n, path)
	if n.kind == mapping {
		d.readInto(&c.table, n, path)
		return
	}
	c.name.readNode(d, n, path)
}

// ownCoefficientsForm is a sail's own table.
type ownCoefficientsForm struct {
	site
	Against words                  `json:"against" jsonschema_description:"the angle that lines go by: apparent wind angle (default), of the wind at mid-height off the bow, or incidence, of each strip above zero lift less what the wakes take off it"`
	Basis   words                  `json:"basis" jsonschema_description:"where its figures come from"`
	Lines   named[coefficientForm] `json:"-" jsonschema_description:"an angle, rising: largest lift and section drag there"`
}

// coefficientForm is one line of a table of coefficients.
type coefficientForm struct {
	site
	Lift number `json:"lift" need:"lift: 1.5" jsonschema_description:"largest lift coefficient on the sail's area"`
	Drag number `json:"drag" need:"drag: 0.03" jsonschema_description:"section drag coefficient on the sail's area"`
}

// rigForm is the rig as the wind sees it.
type rigForm struct {
	site
	Windage named[windageForm] `json:"windage" jsonschema_description:"mast, boom, rigging, by name"`
}

// modeForm is what the crew may combine.
type modeForm struct {
	site
	Sets   nameList              `json:"sets" jsonschema_description:"sets of sails that may be up; left out, any"`
	Limits limitsForm            `json:"limits" jsonschema_description:"limits that stand in for the boat's in this mode"`
	Parts  named[named[setting]] `json:"-" jsonschema_description:"a part, also as windward or leeward part: narrower ranges of its controls"`
}

// limitsForm is bounds by name.
type limitsForm struct{ named[setting] }

// modelForm is the model's own factors.
type modelForm struct {
	site
	Friction    number `json:"friction" jsonschema_description:"on friction in water, and with it profile drag"`
	Laminar     share  `json:"laminar" jsonschema_description:"laminar share of the chord of foils"`
	LiftDrag    number `json:"lift drag" jsonschema_description:"on the lift-dependent part of profile drag"`
	Spray       number `json:"spray" jsonschema_description:"on spray drag"`
	Junction    number `json:"junction" jsonschema_description:"on junction drag"`
	WakeCore    number `json:"wake core" jsonschema_description:"radius of a wake's core over the shedding chord"`
	Gap         number `json:"gap" jsonschema_description:"on the gap under a sail's foot"`
	SailDrag    number `json:"sail drag" jsonschema_description:"on the section drag of sails"`
	Windage     number `json:"windage" jsonschema_description:"on every windage"`
	RaisedFoil  number `json:"raised foil" jsonschema_description:"drag coefficient of dry foils on chord times span"`
	FlapLoss    number `json:"flap loss" jsonschema_description:"on the viscous loss of flap effectiveness"`
	Ventilation number `json:"ventilation" jsonschema_description:"on the incidence at which a surface that pierces the water ventilates"`
	Residuary   number `json:"residuary" jsonschema_description:"on the residuary resistance of hulls from the regression"`
	Basis       words  `json:"basis" jsonschema_description:"where these figures come from"`
}
