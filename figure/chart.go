package figure

import (
	"fmt"
	"math"
	"strings"

	"foilwright/compare"
	"foilwright/odds"
	"foilwright/polar"
	"foilwright/quantity"
	"foilwright/study"
	"foilwright/trim"
	"foilwright/why"
)

// Kind names a chart or a drawing.
type Kind string

// The kinds.
const (
	FrontView  Kind = "front-view" // the boat to scale, looking forward, with her forces
	Causes     Kind = "causes"     // a difference split into causes
	Difference Kind = "difference" // how sure a difference is
	Polar      Kind = "polar"      // speed over wind angle, around the wind
	Speed      Kind = "speed"      // the same along an axis
	Winds      Kind = "winds"      // progress over the wind's speed
	Crossovers Kind = "crossovers" // modes and sails over wind angle
	Budget     Kind = "budget"     // righting and heeling moments of several boats
	Drag       Kind = "drag"       // drag by cause of several boats
	Limits     Kind = "limits"     // where a boat stands between her limits, and what they cost
	Inputs     Kind = "inputs"     // what each uncertain input does to a difference

	// Scene is what live views of a boat are drawn from; it is no picture by itself, and
	// Kinds does not list it.
	Scene Kind = "scene"
)

// Kinds lists every kind.
func Kinds() []Kind {
	return []Kind{FrontView, Causes, Difference, Polar, Speed, Winds, Crossovers, Budget, Drag, Limits, Inputs}
}

// Chart is what one picture shows. One of the parts that are pointers is set.
// Texts are final; numbers beside them only place marks.
type Chart struct {
	Kind    Kind     `json:"kind"`
	Title   string   `json:"title"`           // the finding
	Under   string   `json:"under"`           // what is shown, with conditions
	Summary string   `json:"summary"`         // for those who cannot see it
	Foot    []string `json:"foot"`            // caution and provenance
	Level   string   `json:"level"`           // of the bands that stand out
	Width   int      `json:"width,omitempty"` // px; 0 for a page's
	Table   Table    `json:"table"`

	Front     *FrontPart     `json:"front,omitempty"`
	Waterfall *WaterfallPart `json:"waterfall,omitempty"`
	Spread    *SpreadPart    `json:"spread,omitempty"`
	Angles    *AnglesPart    `json:"angles,omitempty"`
	Bars      *BarsPart      `json:"bars,omitempty"`
	Margins   *MarginsPart   `json:"margins,omitempty"`
	Tornado   *TornadoPart   `json:"tornado,omitempty"`
	Winds     *WindsPart     `json:"winds,omitempty"`
	Scene     *ScenePart     `json:"scene,omitempty"`

	units quantity.Units
	level Level
}

// Table is the figures behind a picture, as text. Heads name the units.
type Table struct {
	Head []string   `json:"head"`
	Rows [][]string `json:"rows"`
}

// Number is a figure on a chart: where it is drawn, and how it reads.
type Number struct {
	At   float64 `json:"at"` // in the axis's unit
	Text string  `json:"text"`
}

// Of is In with the units of the trade.
func Of(kind Kind, r *study.Result) (*Chart, error) { return In(quantity.Trade, kind, r) }

// In returns the chart of a kind of a result, in the first wind that it tells of, with
// its figures in a choice of units. The error says what the result would have to be.
func In(units quantity.Units, kind Kind, r *study.Result) (*Chart, error) {
	return Look{Units: units}.Of(kind, r)
}

func listed() string {
	var all []string
	for _, k := range Kinds() {
		all = append(all, string(k))
	}
	return strings.Join(all, ", ")
}

// fill draws on the result by its type.
func (c *Chart) fill(r *study.Result) error {
	switch results := r.Results.(type) {
	case []*study.HeldResult:
		if c.Kind == Scene && len(results) > 0 {
			c.heldScene(results[0])
			return nil
		}
	case []*study.ViewResult:
		if c.Kind == Scene && len(results) > 0 {
			c.viewScene(results[0])
			return nil
		}
		if c.Kind == FrontView && len(results) > 0 {
			return c.frontView(results[0])
		}
		if c.Kind == Limits && len(results) > 0 {
			return c.limits(results[0].Trim)
		}
	case []*trim.Result:
		if c.Kind == Limits && len(results) > 0 {
			return c.limits(results[0])
		}
	case []*why.Result:
		if c.Kind == Causes && len(results) > 0 {
			return c.causes(results[0])
		}
	case []*compare.Result:
		if c.Kind == Winds {
			return c.winds(results)
		}
		if c.Kind == Budget && len(results) > 0 {
			return c.budget(results[0])
		}
		if c.Kind == Drag && len(results) > 0 {
			return c.drag(results[0])
		}
	case *odds.Result:
		if c.Kind == Difference {
			return c.difference(results)
		}
		if c.Kind == Inputs {
			return c.inputs(results)
		}
		if c.Kind == Winds {
			return c.bands(results)
		}
	case *polar.Result:
		if c.Kind == Polar || c.Kind == Speed || c.Kind == Crossovers {
			return c.angles(results)
		}
	}
	return fmt.Errorf("figure: %s is not drawn from an answer of %s\nhint: %s", c.Kind, r.Verb, drawnFrom)
}

const drawnFrom = "front-view is drawn from view, limits from trim, causes from why, difference and inputs from odds, " +
	"polar, speed and crossovers from polar, budget and drag from compare, winds from compare over winds or odds with bands"

// foot returns what stands under every picture.
func foot(r *study.Result, more ...*study.Result) []string {
	source, invented := fmt.Sprintf("foilwright %s · kernel %s · inputs %.12s", r.Version, r.Kernel, r.Fingerprint), false
	for i, one := range append([]*study.Result{r}, more...) {
		if i > 0 {
			source += fmt.Sprintf(", %.12s", one.Fingerprint)
		}
		for _, b := range one.Boats {
			invented = invented || b.Figures == "invented"
		}
	}
	if invented {
		source += " · figures of boats that say so are invented"
	}
	return []string{r.Caution, source}
}

// wind says which wind, and what is made most of.
func (c *Chart) wind(r *trim.Result) string {
	where := "true wind " + c.windSpeed(r.TrueWindSpeed.MetresPerSecond())
	if r.Aim == trim.AtAngle.String() || r.Answer == trim.Stated {
		return where + " at " + c.usual("rad").Format(r.TrueWindAngle.Radians()) + ", wind from " + r.WindFrom
	}
	return where + ", " + r.Aim + ", wind from " + r.WindFrom
}

func (c *Chart) windSpeed(v float64) string { return c.usual("m/s").To(1).Format(v) }

func (c *Chart) usual(unit string) quantity.Usual { return c.units.For(unit) }

// numberIn returns a figure as it is drawn and read.
func numberIn(u quantity.Usual, v float64) Number { return Number{At: u.In(v), Text: u.Numeral(v)} }

// changeIn returns a difference as it is drawn and read, with its sign.
func changeIn(u quantity.Usual, v float64) Number {
	return Number{At: u.In(v), Text: signed(u, v)}
}

func signed(u quantity.Usual, v float64) string {
	n := u.Numeral(v)
	if v > 0 && n != u.Numeral(0) {
		return "+" + n
	}
	return n
}

// noAnswer is the error of a picture of a boat that has no answer.
func noAnswer(r *trim.Result) error {
	words := "no steady state was found"
	if r.Reason != nil {
		words, _, _ = strings.Cut(r.Reason.Words, "\n")
	}
	return &NoAnswer{Boat: r.Boat, Words: words}
}

// NoAnswer tells that a boat cannot sail as asked, so that there is nothing to draw.
type NoAnswer struct{ Boat, Words string }

// Error says so.
func (e *NoAnswer) Error() string {
	return fmt.Sprintf("%s: nothing to draw: %s\nhint: foilwright trim tells more about what stands in the way", e.Boat, e.Words)
}

// joined joins words to a list: a, b and c.
func joined(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

func nearZero(u quantity.Usual, v float64) bool { return u.Numeral(math.Abs(v)) == u.Numeral(0) }
