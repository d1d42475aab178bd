package why

import (
	"fmt"

	"foilwright/si"
	"foilwright/trim"
)

// Result is the difference of one figure between two boats, split into causes.
// Signs are of going from the first boat to the second: a part above zero makes
// the figure of the second greater.
type Result struct {
	Figure     string   `json:"figure"`
	Unit       string   `json:"unit"` // m/s, rad, m, m², N, N·m or 1
	First      Side     `json:"first"`
	Second     Side     `json:"second"`
	Difference *float64 `json:"difference"` // second less first; nil where one has no answer

	Aim           string   `json:"aim"`
	TrueWindSpeed si.Speed `json:"true_wind_speed_mps"`
	WindFrom      string   `json:"wind_from"`
	CarriedAt     float64  `json:"carried_at_m"` // height above the water of every side force carried

	Causes     []Part     `json:"causes"`      // in the order of the first boat's file
	Pairs      []Pair     `json:"pairs"`       // the strongest first; empty unless asked for
	Figures    []Row      `json:"figures"`     // other figures of the same trims, split in the same way
	Ledger     *Ledger    `json:"ledger"`      // nil where one boat has no answer
	Merged     []Merged   `json:"merged"`      // causes that could not be told apart
	CannotSail []StandIn  `json:"cannot_sail"` // mixed boats without an answer, with what they count for
	Work       Evaluation `json:"work"`

	Boats [2]*trim.Result `json:"boats"` // the best trims of first and second
}

// Side is one of the two boats.
type Side struct {
	Boat   string      `json:"boat"`
	Answer trim.Answer `json:"answer"`
	Value  *float64    `json:"value"` // of the figure; nil where there is no answer
}

// Part is what one cause is worth.
type Part struct {
	Name    string   `json:"name"`
	Part    float64  `json:"part"`       // in the figure's unit
	Error   float64  `json:"part_error"` // standard error of sampling the orders; 0 where none was sampled
	Changes []Change `json:"changes"`
}

// Change is one difference of the two files.
type Change struct {
	Path string `json:"path"`
	From string `json:"from"`
	To   string `json:"to"`
	Of   string `json:"of"` // file:line:column where the second boat says so, else where the first does
}

// Pair is how two causes act on each other: the index of Grabisch and Roubens
// (1999), above zero where both together raise the figure by more than each alone.
type Pair struct {
	One         string  `json:"one"`
	Other       string  `json:"other"`
	Interaction float64 `json:"interaction"` // in the figure's unit
}

// StandIn is a mixed boat that has no figure of her own, and what she counts for.
type StandIn struct {
	Causes []string `json:"causes"` // that are as in the second boat
	Why    string   `json:"why"`
	Value  float64  `json:"value"` // in the figure's unit
	Of     string   `json:"value_of"`
}

// Evaluation is what the split took.
type Evaluation struct {
	Method string `json:"method"` // in words
	Mixed  int    `json:"mixed_boats"`
	Trims  int    `json:"trims"`
	Mended int    `json:"mended"` // mixed boats of which the trim from the second neighbour is better than that from the first by more than 0.05 %
	Orders int    `json:"orders"` // sampled; 0 where all were counted
	Seed   uint64 `json:"seed"`
}

// Whole returns the sum of the parts.
func (r *Result) Whole() float64 {
	sum := 0.0
	for i := range r.Causes {
		sum += r.Causes[i].Part
	}
	return sum
}

// Figure is a figure that is read off a best trim.
type Figure struct {
	Name string
	Unit string                                      // m/s, rad, m, m², N, N·m or 1
	Read func(*trim.Result) (value float64, ok bool) // false where the trim has none
}

// FigureError tells that a figure cannot be split.
type FigureError struct{ Figure, Problem, Hint string }

// Error words it in the house's style.
func (e *FigureError) Error() string {
	return "figure " + e.Figure + ": " + e.Problem + "\nhint: " + e.Hint
}

// changesOf tells a cause's changes.
func changesOf(c Cause) []Change {
	all := []Change{}
	for _, k := range c.Changes {
		at := k.ToAt
		if at.File == "" {
			at = k.FromAt
		}
		all = append(all, Change{Path: k.Path, From: k.From, To: k.To, Of: fmt.Sprintf("%s:%d:%d", at.File, at.Line, at.Column)})
	}
	return all
}
