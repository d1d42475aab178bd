package figure

import (
	"fmt"
	"math"
	"strings"

	"foilwright/boat"
	"foilwright/frame"
	"foilwright/quantity"
	"foilwright/study"
	"foilwright/trim"
)

// Spot is a point or a vector of the track frame to the millimetre, or to the newton:
// forward, to port, up.
type Spot [3]float64

// ScenePart is a boat in one state for live views from ahead, beside, above and around:
// where everything is, and what it reads. Its texts are those of the front view.
type ScenePart struct {
	Boat    string          `json:"boat"`
	Length  float64         `json:"length"` // of the hulls with what sticks out, m
	Way     string          `json:"way"`    // balanced, first answer, held, or best attempt
	Says    string          `json:"says"`   // what the state is, in a sentence
	Hulls   []SceneHull     `json:"hulls"`
	Pieces  []ScenePiece    `json:"pieces"`
	Bodies  []SceneBody     `json:"bodies"`
	Weights []SceneWeight   `json:"weights"`
	Axes    [3]Spot         `json:"axes"` // of the boat: forward, to port, up
	Spars   [][2]Spot       `json:"spars"`
	Sails   []SceneSail     `json:"sails"`
	Forces  []ScenePull     `json:"forces"`
	Largest float64         `json:"largest"` // force, for the scale of arrows, N
	Centres []SceneMark     `json:"centres"` // of the foil that carries most
	Called  string          `json:"called"`  // that foil, by the wind
	Line    *SceneAxis      `json:"line,omitempty"`
	Levers  []SceneLever    `json:"levers"`
	Curves  []SceneCurve    `json:"curves"` // circulation along wings
	Astray  *SceneAstray    `json:"astray,omitempty"`
	Figures []SceneFigure   `json:"figures"`
	Handles []SceneHandle   `json:"handles"`
	Crest   float64         `json:"crest"` // height of the waves' crests, m; 0 in a calm
	Waves   float64         `json:"waves"` // their length, m
	Crests  string          `json:"crests"`
	Held    study.HeldState `json:"held"` // a question that holds her so

	units quantity.Units
}

// SceneHull is a hull: sections, and outlines of its deck and its waterline.
type SceneHull struct {
	Sections [][]Spot `json:"sections"`
	Deck     []Spot   `json:"deck"`
	Water    []Spot   `json:"water"`
}

// ScenePiece is a piece of a foil between its edges.
type ScenePiece struct {
	Foil     string    `json:"foil"`
	Line     []Spot    `json:"line"`
	Leading  []Spot    `json:"leading"`
	Trailing []Spot    `json:"trailing"`
	Thick    []float64 `json:"thick"`
	Wet      []bool    `json:"wet"` // each length of the line
}

// SceneBody is a bulb or pod.
type SceneBody struct {
	At       Spot    `json:"at"`
	Length   float64 `json:"length"`
	Diameter float64 `json:"diameter"`
}

// SceneMark is a named place.
type SceneMark struct {
	Kind string `json:"kind"`
	At   Spot   `json:"at"`
	Name string `json:"name"`
	Text string `json:"text"`
}

// SceneWeight is a weight, and the figures of its place in the boat's file.
type SceneWeight struct {
	SceneMark
	File   [3]float64 `json:"file"`   // forward, to port, up, m
	Texts  [3]string  `json:"texts"`  // of those
	Moved  [3]bool    `json:"moved"`  // by a control instead
	Spoken string     `json:"spoken"` // where it is
}

// SceneSail is the corners of a sail that is up.
type SceneSail struct {
	Name   string `json:"name"`
	Tack   Spot   `json:"tack"`
	Head   Spot   `json:"head"`
	Clew   Spot   `json:"clew"`
	Centre Spot   `json:"centre"`
}

// ScenePull is a force. What it reads depends on where it is seen from: only what
// lies in the plane of the drawing counts there.
type ScenePull struct {
	Kind  string `json:"kind"` // weight, air or water
	At    Spot   `json:"at"`
	Force Spot   `json:"force"`
	Name  string `json:"name"`
	Front string `json:"front"`
	Side  string `json:"side"`
	Top   string `json:"top"`
	Whole string `json:"whole"`
}

// SceneAxis is a line of action in the transverse plane.
type SceneAxis struct {
	At        Spot `json:"at"`
	Direction Spot `json:"direction"`
}

// SceneLever is a level distance across the boat.
type SceneLever struct {
	From    Spot   `json:"from"`
	To      Spot   `json:"to"`
	Text    string `json:"text"`
	Between string `json:"between"`
}

// SceneCurve is circulation along one wet piece: at each strip how far its curve
// stands off the piece, as a share of the largest on the boat.
type SceneCurve struct {
	Name string `json:"name"`
	At   []Spot `json:"at"`
	Off  []Spot `json:"off"`
	Peak int    `json:"peak"` // the strip with most
	Text string `json:"text"` // how much that is
}

// SceneAstray is what is left over where a boat is held out of balance.
type SceneAstray struct {
	At     Spot   `json:"at"`
	Force  Spot   `json:"force"`  // over her weight
	Moment Spot   `json:"moment"` // over her weight times her length
	Text   string `json:"text"`   // the force and the moment
	Words  string `json:"words"`  // how she would move
}

// SceneFigure is a figure that is read off a state.
type SceneFigure struct {
	Name  string `json:"name"`
	Text  string `json:"text"`
	Later bool   `json:"later,omitempty"` // not worked out while something is dragged
}

// SceneHandle is what can be set, and where it is taken hold of.
type SceneHandle struct {
	Name   string      `json:"name"`
	Hold   string      `json:"hold"`
	Unit   string      `json:"unit"`
	Value  float64     `json:"value"`
	Lower  float64     `json:"lower"`
	Upper  float64     `json:"upper"`
	Step   float64     `json:"step"`
	State  string      `json:"state"`
	Text   string      `json:"text"`
	Range  string      `json:"range"` // from where to where, in words
	Spoken string      `json:"spoken"`
	Place  *ScenePlace `json:"place,omitempty"`
}

// ScenePlace is where a handle is, and how it moves: see study.Place.
type ScenePlace struct {
	At    Spot `json:"at"`
	Rate  Spot `json:"rate"`
	Axis  Spot `json:"axis"`
	Pivot Spot `json:"pivot"`
}

// rounded keeps what can be seen: a tenth of a millimetre.
func rounded(v float64) float64 { return math.Round(v*1e4) / 1e4 }

func spot(p frame.Point[frame.Track]) Spot { return Spot{rounded(p.X), rounded(p.Y), rounded(p.Z)} }
func arrow(v frame.Vec[frame.Track]) Spot  { return Spot{rounded(v.X), rounded(v.Y), rounded(v.Z)} }

func spots(points []frame.Point[frame.Track]) []Spot {
	all := make([]Spot, 0, len(points))
	for _, p := range points {
		all = append(all, spot(p))
	}
	return all
}

// viewScene fills the chart with a boat at her best trim, or at the best attempt.
func (c *Chart) viewScene(v *study.ViewResult) {
	s := c.scene(v)
	r := v.Trim
	if r.Answer != trim.Found {
		s.Way, s.Says = "best attempt", "best attempt, which does not balance"
		c.Title = r.Boat + " cannot sail so"
		if r.Reason != nil {
			words, _, _ := strings.Cut(r.Reason.Words, "\n")
			c.Title = r.Boat + ": " + words
		}
		return
	}
	s.Way, s.Says = "balanced", "best trim"
	switch v.Searched {
	case study.NearBy:
		s.Says = "best trim near by, to be confirmed"
	case study.OneStart:
		s.Way, s.Says = "first answer", "a first answer; the best trim is being looked for"
	}
}

// heldScene fills the chart with a boat that is held in a state.
func (c *Chart) heldScene(v *study.HeldResult) {
	s := c.scene(&v.ViewResult)
	r := v.Trim
	s.Way, s.Says = "held", "held"
	if len(v.Notes) > 0 {
		s.Says = "held where " + strings.Join(v.Notes, "; ")
	}
	m := &v.Imbalance
	weight, arm := r.Weight, 1.0
	if m.Shares[3] != 0 {
		arm = math.Abs(m.Moment.X / m.Shares[3] / weight)
	}
	force, moment := c.units.On(weight, "N"), c.units.On(weight, "N·m")
	s.Astray = &SceneAstray{
		At: spot(m.About), Force: arrow(m.Force.Times(1 / weight)), Moment: arrow(m.Moment.Times(1 / (weight * arm))),
		Text:  fmt.Sprintf("%s and %s left over", force.Format(m.Force.Norm()), moment.Format(m.Moment.Norm())),
		Words: "in balance",
	}
	c.Title = r.Boat + " is in balance as she is held"
	if len(m.Ways) == 0 {
		return
	}
	var words []string
	for _, w := range m.Ways[:min(mostWays, len(m.Ways))] {
		words = append(words, w.Words)
	}
	s.Astray.Words = strings.Join(words, ", ")
	c.Title = fmt.Sprintf("%s, let go: %s (%s of %s)", r.Boat, s.Astray.Words, quantity.Format(m.Ways[0].Share, quantity.Share, "%", quantity.Decimals(1)), wholeOf(m.Ways[0].Equation))
}

// mostWays is how many ways in which a boat would move are told: more nobody hears.
const mostWays = 3

// wholeOf says what the share of an equation is a share of.
func wholeOf(equation string) string {
	switch equation {
	case "heel", "pitch", "yaw":
		return "her weight times her length"
	}
	return "her weight"
}

// scene fills the chart with where everything is, and what it reads.
func (c *Chart) scene(v *study.ViewResult) *ScenePart {
	r := v.Trim
	force := c.units.On(r.Weight, "N")
	front := &FrontPart{Boat: r.Boat, Unit: force.Unit, PerUnit: 1 / force.In(1), units: c.units}
	front.outlines(&v.Shape)
	centre := front.pulls(v, force)
	front.carrier(r, centre)
	c.Front = front
	c.frontWords(r, force)
	c.Front, c.Under = nil, strings.TrimPrefix(c.Under, lookingForward)
	s := &ScenePart{
		Boat: r.Boat, Called: front.Called, Spars: [][2]Spot{}, Weights: []SceneWeight{}, Levers: []SceneLever{}, Curves: []SceneCurve{},
		Centres: []SceneMark{}, Held: v.Held, units: c.units,
	}
	c.Scene = s
	turn := r.State.Attitude.Pose().Turn.Matrix()
	for i := range s.Axes {
		s.Axes[i] = Spot{rounded(turn[0][i]), rounded(turn[1][i]), rounded(turn[2][i])}
	}
	s.outlines(v)
	s.pulls(v, front, force)
	s.carrier(r, front, centre)
	s.circulation(v)
	s.handles(v)
	s.figures(v, front)
	if r.Sea != nil {
		s.Crest, s.Waves = r.Sea.Amplitude, r.Sea.Length
		s.Crests = "crests of one wave in twenty are higher than " + s.units.For("m").Format(r.Sea.Amplitude)
	}
	return s
}

func (s *ScenePart) outlines(v *study.ViewResult) {
	low, high := math.Inf(1), math.Inf(-1)
	reach := func(points []Spot) {
		for _, p := range points {
			low, high = math.Min(low, p[0]), math.Max(high, p[0])
		}
	}
	s.Hulls, s.Pieces, s.Bodies, s.Sails = []SceneHull{}, []ScenePiece{}, []SceneBody{}, []SceneSail{}
	for i := range v.Shape.Hulls {
		h := &v.Shape.Hulls[i]
		one := SceneHull{Deck: spots(h.Deck), Water: spots(h.Water), Sections: [][]Spot{}}
		for _, section := range h.Sections {
			one.Sections = append(one.Sections, spots(section))
		}
		reach(one.Deck)
		s.Hulls = append(s.Hulls, one)
	}
	for _, f := range v.Shape.Foils {
		for i := range f.Pieces {
			p := &f.Pieces[i]
			one := ScenePiece{Foil: f.Name, Line: spots(p.Line), Leading: spots(p.Leading), Trailing: spots(p.Trailing), Wet: p.Wet}
			for _, t := range p.Thickness {
				one.Thick = append(one.Thick, rounded(t))
			}
			reach(one.Leading)
			reach(one.Trailing)
			s.Pieces = append(s.Pieces, one)
		}
	}
	for _, b := range v.Shape.Bodies {
		s.Bodies = append(s.Bodies, SceneBody{spot(b.Middle), b.Length, b.Diameter})
	}
	for _, spar := range v.Shape.Spars {
		s.Spars = append(s.Spars, [2]Spot{spot(spar.Bottom), spot(spar.Top)})
	}
	for _, sail := range v.Shape.Sails {
		s.Sails = append(s.Sails, SceneSail{sail.Name, spot(sail.Tack), spot(sail.Head), spot(sail.Clew), spot(sail.Centre)})
	}
	for _, w := range v.Shape.Weights {
		s.Weights = append(s.Weights, s.weight(&w))
	}
	s.Length = math.Max(0, high-low)
}

// weight marks a weight.
func (s *ScenePart) weight(w *study.WeightSpot) SceneWeight {
	m := s.units.For("m")
	one := SceneWeight{SceneMark: SceneMark{"weight", spot(w.Place), w.Name, s.units.For("kg").Format(w.Mass)}, File: w.At.Array(), Moved: w.Free}
	for i, v := range one.File {
		one.Texts[i] = m.Format(v)
	}
	one.Spoken = fmt.Sprintf("%s, %s forward, %s to port, %s up", one.Text, one.Texts[0], one.Texts[1], one.Texts[2])
	return one
}

// pulls gathers the forces of the front view, with what they do along the track too.
func (s *ScenePart) pulls(v *study.ViewResult, front *FrontPart, force quantity.Usual) {
	r := v.Trim
	s.Forces = []ScenePull{}
	for _, p := range front.Forces {
		at, whole := s.whole(r, &p)
		size := func(a, b float64) string { return force.Format(math.Hypot(a, b)) }
		s.Forces = append(s.Forces, ScenePull{
			Kind: p.Kind, At: at, Force: arrow(whole), Name: p.Name,
			Front: p.Text, Side: size(whole.X, whole.Z), Top: size(whole.X, whole.Y), Whole: force.Format(whole.Norm()),
		})
		s.Largest = math.Max(s.Largest, whole.Norm())
	}
}

// whole returns where a force of the front view acts along the boat too, and the whole
// of it.
func (s *ScenePart) whole(r *trim.Result, p *FrontPull) (Spot, frame.Vec[frame.Track]) {
	at := Spot{0, rounded(-p.At[0]), rounded(p.At[1])}
	var sum frame.Vec[frame.Track]
	if p.Kind == "weight" {
		sum.Z = -r.Weight
		for i := range r.Loads {
			if l := &r.Loads[i]; l.Item == boat.Gravity.String() {
				at[0] += l.About.X * -l.Force.Z / r.Weight
			}
		}
		at[0] = rounded(at[0])
		return at, sum
	}
	medium := map[string]boat.Medium{"air": boat.Air, "water": boat.Water}[p.Kind]
	part, buoyant := strings.CutSuffix(trim.BySide(p.Name, side(r.WindFrom)), " buoyancy")
	moment, gross := 0.0, 0.0
	for i := range r.Loads {
		l := &r.Loads[i]
		if l.Part != part || !counts(l.Item, medium, buoyant) {
			continue
		}
		sum = sum.Plus(l.Force)
		moment += l.About.X * l.Force.Norm()
		gross += l.Force.Norm()
	}
	if gross > 0 {
		at[0] = rounded(moment / gross)
	}
	for _, sail := range s.Sails {
		if p.Kind == "air" && sail.Name == part {
			at[0] = sail.Centre[0]
		}
	}
	return at, sum
}

// counts tells whether a load of a cause counts to a medium, or to buoyancy.
func counts(item string, medium boat.Medium, buoyant bool) bool {
	if buoyant || item == boat.Buoyancy.String() {
		return buoyant && item == boat.Buoyancy.String()
	}
	for cause := range boat.Cause(boat.Causes) {
		if item == cause.String() {
			return cause.Medium() == medium
		}
	}
	return false
}
