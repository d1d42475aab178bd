package figure

import (
	"fmt"
	"math"
	"strings"

	"foilwright/balance"
	"foilwright/boat"
	"foilwright/frame"
	"foilwright/quantity"
	"foilwright/study"
	"foilwright/trim"
)

// Place is a point of a front view: metres to starboard of the track, and above
// the undisturbed water.
type Place [2]float64

// FrontPart is a boat seen from astern, looking forward, to scale.
type FrontPart struct {
	Boat     string      `json:"boat"`
	Hulls    [][]Place   `json:"hulls"` // sections, closed
	Pieces   []FrontLine `json:"pieces"`
	Bodies   []FrontBody `json:"bodies"`
	Spars    [][2]Place  `json:"spars"`
	Sails    [][2]Place  `json:"luffs"`
	Weights  []FrontMark `json:"weights"`
	Forces   []FrontPull `json:"forces"`
	Centres  []FrontMark `json:"centres"` // of the foil that carries most
	Line     *FrontAxis  `json:"line,omitempty"`
	Lever    *FrontLever `json:"lever,omitempty"`
	Detail   string      `json:"detail"`        // the foil that is drawn larger
	Called   string      `json:"detail_called"` // by the wind
	Wings    []FrontWing `json:"wings"`         // circulation along that foil
	WingSay  string      `json:"wings_text"`    // the most of it
	Crest    float64     `json:"crest"`         // height of the waves' crests, m; 0 in a calm
	CrestSay string      `json:"crest_text"`
	Unit     string      `json:"force_unit"`
	PerUnit  float64     `json:"newtons_per_unit"`

	finding string // what carries most
	units   quantity.Units
}

// FrontLine is a piece of a foil.
type FrontLine struct {
	Foil  string    `json:"foil"`
	Line  []Place   `json:"line"`
	Thick []float64 `json:"thick"` // m
}

// FrontWing is circulation along one wet piece: places of its strips, and how far its
// curve stands off each, as a share of the foil's largest.
type FrontWing struct {
	At  []Place `json:"at"`
	Off []Place `json:"off"`
}

// FrontBody is a bulb or pod.
type FrontBody struct {
	At       Place   `json:"at"`
	Diameter float64 `json:"diameter"`
}

// FrontMark is a named place.
type FrontMark struct {
	Kind string `json:"kind"`
	At   Place  `json:"at"`
	Name string `json:"name"`
	Text string `json:"text"`
}

// FrontPull is a force across the track.
type FrontPull struct {
	Kind  string `json:"kind"` // weight, air, water or buoyancy
	At    Place  `json:"at"`
	Force Place  `json:"force"` // N
	Name  string `json:"name"`
	Text  string `json:"text"`
}

// FrontAxis is a line of action.
type FrontAxis struct {
	At        Place `json:"at"`
	Direction Place `json:"direction"`
}

// FrontLever is a level distance.
type FrontLever struct {
	From    Place  `json:"from"`
	To      Place  `json:"to"`
	Text    string `json:"text"`
	Between string `json:"between"` // what it is measured between
}

func seen(p frame.Point[frame.Track]) Place    { return Place{-p.Y, p.Z} }
func seenForce(v frame.Vec[frame.Track]) Place { return Place{-v.Y, v.Z} }

// frontView fills the chart with a boat seen from astern.
func (c *Chart) frontView(v *study.ViewResult) error {
	r := v.Trim
	if r.Answer != trim.Found {
		return noAnswer(r)
	}
	force := c.units.On(r.Weight, "N")
	f := &FrontPart{Boat: r.Boat, Unit: force.Unit, PerUnit: 1 / force.In(1), units: c.units}
	c.Front = f
	f.outlines(&v.Shape)
	centre := f.pulls(v, force)
	f.carrier(r, centre)
	f.wings(v.Spans)
	if r.Sea != nil {
		f.Crest, f.CrestSay = r.Sea.Amplitude, "crests of one wave in twenty are higher than "+c.usual("m").Format(r.Sea.Amplitude)
	}
	c.frontWords(r, force)
	return nil
}

func (f *FrontPart) outlines(s *study.Shape) {
	for _, h := range s.Hulls {
		for _, section := range h.Sections {
			var outline []Place
			for _, p := range section {
				outline = append(outline, seen(p))
			}
			f.Hulls = append(f.Hulls, outline)
		}
	}
	for _, foil := range s.Foils {
		for _, piece := range foil.Pieces {
			line := FrontLine{Foil: foil.Name, Thick: piece.Thickness}
			for _, p := range piece.Line {
				line.Line = append(line.Line, seen(p))
			}
			f.Pieces = append(f.Pieces, line)
		}
	}
	for _, b := range s.Bodies {
		f.Bodies = append(f.Bodies, FrontBody{seen(b.Middle), b.Diameter})
	}
	for _, spar := range s.Spars {
		f.Spars = append(f.Spars, [2]Place{seen(spar.Bottom), seen(spar.Top)})
	}
	for _, sail := range s.Sails {
		f.Sails = append(f.Sails, [2]Place{seen(sail.Tack), seen(sail.Head)})
	}
}

// pulls gathers forces by what they come from. It returns the centre of gravity.
func (f *FrontPart) pulls(v *study.ViewResult, force quantity.Usual) Place {
	r := v.Trim
	var centre Place
	for i := range r.Loads {
		l := &r.Loads[i]
		if l.Item == boat.Gravity.String() {
			at := seen(l.About)
			centre[0] += at[0] * -l.Force.Z / r.Weight
			centre[1] += at[1] * -l.Force.Z / r.Weight
		}
	}
	for _, w := range v.Shape.Weights {
		f.Weights = append(f.Weights, FrontMark{"weight", seen(w.Place), w.Name, f.units.For("kg").Format(w.Mass)})
	}
	f.pull("weight", "weight", centre, Place{0, -r.Weight}, force)
	for _, sail := range v.Shape.Sails {
		f.pull("air", sail.Name, seen(sail.Centre), sumOf(r, sail.Name, boat.Air), force)
	}
	for _, k := range r.Centres {
		at := k.Loaded
		if at == nil && k.Line != nil {
			at = &k.Line.Point
		}
		if at != nil {
			f.pull("water", trim.ByWind(k.Foil, side(r.WindFrom)), seen(*at), seenForce(k.Force), force)
		}
	}
	for i := range r.Loads {
		if l := &r.Loads[i]; l.Item == boat.Buoyancy.String() && math.Abs(l.Force.Z) > 0.02*r.Weight {
			f.pull("water", l.Part+" buoyancy", seen(l.About), seenForce(l.Force), force)
		}
	}
	return centre
}

// wings draws the circulation along the foil that is drawn larger.
func (f *FrontPart) wings(spans []study.Span) {
	largest := 0.0
	for _, span := range spans {
		for i := range span.Strips {
			if span.Part == f.Detail {
				largest = math.Max(largest, math.Abs(span.Strips[i].Circulation))
			}
		}
	}
	f.Wings = []FrontWing{}
	if largest == 0 {
		return
	}
	f.WingSay = circulation(largest)
	for _, span := range spans {
		if span.Part != f.Detail {
			continue
		}
		var wing FrontWing
		for i := range span.Strips {
			st := &span.Strips[i]
			wing.At = append(wing.At, seen(st.Place))
			wing.Off = append(wing.Off, seenForce(offWing(st, largest)))
		}
		f.Wings = append(f.Wings, wing)
	}
}

// offWing is how far the curve of circulation stands off a strip, towards its force
// across the track, as a share of the largest.
func offWing(st *study.Strip, largest float64) frame.Vec[frame.Track] {
	across := st.Force
	across.X = 0
	return across.Unit().Times(math.Abs(st.Circulation) / largest)
}

func circulation(v float64) string {
	return quantity.Format(v, quantity.Number, "", quantity.Decimals(1)) + " m²/s"
}

// pull adds a force that can be seen beside the others.
func (f *FrontPart) pull(kind, name string, at, amount Place, force quantity.Usual) {
	if size := math.Hypot(amount[0], amount[1]); !nearZero(force, size) {
		f.Forces = append(f.Forces, FrontPull{kind, at, amount, name, force.Format(size)})
	}
}

// sumOf adds up what a medium does to a part, across the track.
func sumOf(r *trim.Result, part string, medium boat.Medium) Place {
	var sum Place
	for i := range r.Loads {
		l := &r.Loads[i]
		for cause := range boat.Cause(boat.Causes) {
			if l.Part == part && l.Item == cause.String() && cause.Medium() == medium {
				sum[0] -= l.Force.Y
				sum[1] += l.Force.Z
			}
		}
	}
	return sum
}

func side(windFrom string) boat.Side {
	if windFrom == boat.Starboard.String() {
		return boat.Starboard
	}
	return boat.Port
}

// carrier marks what carries most: the three centres of a foil and its line of
// action, or a hull's centre of buoyancy; and the level distance to it from the
// centre of gravity.
func (f *FrontPart) carrier(r *trim.Result, centre Place) {
	most := -1
	for i := range r.Centres {
		if r.Centres[i].Loaded != nil && (most < 0 || r.Centres[i].Force.Z > r.Centres[most].Force.Z) {
			most = i
		}
	}
	up := 0.0
	if most >= 0 {
		up = r.Centres[most].Force.Z
	}
	for i := range r.Loads {
		if l := &r.Loads[i]; l.Item == boat.Buoyancy.String() && l.Force.Z > up {
			f.carried(l.Part, l.Force.Z/r.Weight, centre, seen(l.About), "lever: weight to centre of buoyancy", r.WindFrom)
			up, most = l.Force.Z, -1
		}
	}
	if most < 0 || up <= 0 {
		return
	}
	k := &r.Centres[most]
	f.Detail, f.Called = k.Foil, trim.ByWind(k.Foil, side(r.WindFrom))
	f.marks(k, centre)
	f.carried(f.Called, k.Force.Z/r.Weight, centre, seen(*k.Loaded), "lever: weight to load-weighted centre", r.WindFrom)
}

// carried dimensions the lever of what carries most, and says the finding.
func (f *FrontPart) carried(by string, share float64, from, to Place, between, windFrom string) {
	f.Lever = &FrontLever{from, to, f.units.For("m").Format(math.Abs(to[0] - from[0])), between}
	f.finding = fmt.Sprintf("%s: the %s carries %s of the weight, %s to %s of it", f.Boat, by,
		quantity.Format(share, quantity.Share, "%", quantity.Decimals(0)), f.Lever.Text, f.Lever.bearing(windFrom))
}

// marks marks a foil's three centres.
func (f *FrontPart) marks(k *balance.Centre, centre Place) {
	mark := func(kind, name string, p *frame.Point[frame.Track]) {
		if p != nil {
			f.Centres = append(f.Centres, FrontMark{kind, seen(*p), name, f.units.For("m").Format(math.Abs(seen(*p)[0]-centre[0])) + " off"})
		}
	}
	mark("rule", "rule of thumb", k.Rule)
	mark("loaded", "load-weighted", k.Loaded)
	if k.Line == nil {
		return
	}
	f.Line = &FrontAxis{seen(k.Line.Point), seenForce(k.Line.Direction)}
	if k.Line.Direction.Z > 0.05 { // else the line is nearly level and crosses no height
		up := (k.Loaded.Z - k.Line.Point.Z) / k.Line.Direction.Z
		at := frame.Point[frame.Track]{Y: k.Line.Point.Y + up*k.Line.Direction.Y, Z: k.Loaded.Z}
		mark("line", "line of action there", &at)
	}
}

// lookingForward is how a front view is seen.
const lookingForward = "Looking forward, to scale. "

func (c *Chart) frontWords(r *trim.Result, force quantity.Usual) {
	f := c.Front
	c.Under = fmt.Sprintf(lookingForward+"%s. Speed %s, heel %s, ride height %s", capital(c.wind(r)),
		c.usual("m/s").Format(r.Speed.MetresPerSecond()), c.leaning(r), c.usual("m").Format(r.RideHeight))
	c.Title = fmt.Sprintf("%s at her best trim: %s", r.Boat, c.usual("m/s").Format(r.Progress().MetresPerSecond())+" "+progressWord(r.Aim))
	if f.finding != "" {
		c.Title = f.finding
	}
	var told []string
	c.Table.Head = []string{"what", "name", "to starboard (m)", "above water (m)", "force to starboard (N)", "force up (N)"}
	m := c.usual("m")
	newton := quantity.SI.For("N").To(1)
	for _, p := range f.Forces {
		told = append(told, p.Name+" "+p.Text)
		c.Table.Rows = append(c.Table.Rows, []string{"force", p.Name, m.Numeral(p.At[0]), m.Numeral(p.At[1]), newton.Numeral(p.Force[0]), newton.Numeral(p.Force[1])})
	}
	for _, w := range f.Weights {
		c.Table.Rows = append(c.Table.Rows, []string{"place of weight", w.Name + " " + w.Text, m.Numeral(w.At[0]), m.Numeral(w.At[1]), "", ""})
	}
	for _, k := range f.Centres {
		c.Table.Rows = append(c.Table.Rows, []string{"centre of " + f.Called, k.Name, m.Numeral(k.At[0]), m.Numeral(k.At[1]), "", ""})
	}
	c.Summary = fmt.Sprintf("%s seen from astern. Forces across the track: %s.", r.Boat, strings.Join(told, ", "))
}

// bearing says on which side the far end of a lever is by the wind.
func (l *FrontLever) bearing(windFrom string) string {
	if (l.To[0] > l.From[0]) == (side(windFrom) == boat.Port) {
		return "leeward"
	}
	return "windward"
}

// leaning says how far and which way a boat heels.
func (c *Chart) leaning(r *trim.Result) string {
	heel := side(r.WindFrom).Sign() * r.Heel.Radians() // on port tack positive heel is to leeward
	u := c.usual("rad")
	switch {
	case nearZero(u, heel):
		return u.Format(0)
	case heel > 0:
		return u.Format(heel) + " to leeward"
	}
	return u.Format(-heel) + " to windward"
}

func progressWord(aim string) string {
	switch aim {
	case trim.Windward.String():
		return "of progress to windward"
	case trim.Leeward.String():
		return "of progress to leeward"
	}
	return "of speed"
}
