package odds

import "foilwright/si"

// Result is the answer: how each boat's progress and every difference is spread.
// Progress is what the aim makes most of. Where there is an anchor that could be
// used, all is as it leaves it, and Anchor holds what it was before.
type Result struct {
	Seed       uint64    `json:"seed"`
	Samples    int       `json:"samples"`
	Failed     int       `json:"failed"` // samples in which one boat or more cannot sail, in the wind that is asked about
	Aim        string    `json:"aim"`
	Wind       si.Speed  `json:"true_wind_speed_mps"` // likely
	Confidence float64   `json:"confidence"`          // below which a difference is too close to call
	Until      float64   `json:"until,omitempty"`
	Boats      []Figure  `json:"boats"`
	Pairs      []Pair    `json:"pairs"` // every boat with every one after it
	Inputs     []Input   `json:"inputs"`
	Surrogates []Fit     `json:"surrogates"` // what the indices of the inputs rest on
	Tornado    []Bar     `json:"tornado,omitempty"`
	Bands      []Band    `json:"bands,omitempty"`
	Anchor     *Anchored `json:"anchor,omitempty"`
	Starts     *Starts   `json:"starts,omitempty"`
	Warnings   []string  `json:"warnings"`

	Table *Table `json:"-"` // every sample
}

// Figure is one boat's progress.
type Figure struct {
	Name     string       `json:"name"`
	Likely   *float64     `json:"likely_mps"` // at the likely value of every input; nil where she cannot sail
	Failed   int          `json:"failed"`     // samples in which she cannot sail or be built
	Unbuilt  int          `json:"cannot_be"`  // of these, samples that make no boat
	Flies    float64      `json:"chance_sails"`
	Progress Distribution `json:"progress_mps"`
}

// Pair is two boats in the same samples.
type Pair struct {
	First        string       `json:"first"`
	Second       string       `json:"second"`
	Likely       *float64     `json:"likely_difference_mps"` // first less second
	Difference   Distribution `json:"difference_mps"`        // first less second; quantiles without the samples in which neither sails
	FirstFaster  float64      `json:"chance_first_faster"`   // a boat that cannot sail loses to one that does; equal progress counts half for each
	SecondFaster float64      `json:"chance_second_faster"`
	Neither      float64      `json:"chance_neither_sails"`
	ChanceError  float64      `json:"chance_error"` // standard error of the larger chance, as if samples were independent: above that of Sobol points
	Compared     int          `json:"compared"`     // samples in which both sail
	Apart        float64      `json:"deviation_if_independent_mps"`
	Call         Call         `json:"call"`
	Settle       *Settle      `json:"settle,omitempty"` // where it is too close to call
}

// Call is what a pair comes to at the stated confidence.
type Call string

// The calls.
const (
	CallFirst   Call = "first"
	CallSecond  Call = "second"
	TooClose    Call = "too close to call"
	CallNeither Call = "neither sails"
)

// Settle names the input whose measurement would narrow a difference most.
type Settle struct {
	Input      string  `json:"input"`
	Kind       Kind    `json:"kind"`
	FirstOrder float64 `json:"first_order"`        // on the difference
	Deviation  float64 `json:"deviation_mps"`      // of the difference as it is
	Left       float64 `json:"deviation_left_mps"` // expected, once the input is known exactly
	// Measure is the one among figures that a boat file gives, where Input is not.
	Measure      string   `json:"measure,omitempty"`
	MeasureOrder float64  `json:"measure_first_order,omitempty"`
	MeasureLeft  *float64 `json:"measure_deviation_left_mps,omitempty"`
}

// Input is one unknown with its share in the spread of the first pair's
// difference, or of the boat where there is one.
type Input struct {
	Name  string   `json:"name"`
	Kind  Kind     `json:"kind"`
	Says  string   `json:"says"`  // its spread
	Where string   `json:"where"` // file:line:column, empty where it stands in no file
	Basis string   `json:"basis"`
	Boats []string `json:"boats"` // that use it
	Share
	Others []Share `json:"others"` // in the spread of the other figures
}

// Bar is what one input alone does at the ends of its 80 % band, all others at
// their likely values, by full trims.
type Bar struct {
	Input string   `json:"input"`
	Of    string   `json:"of"`
	Low   *float64 `json:"at_p10_mps"` // change of the figure; nil where a boat cannot sail there
	High  *float64 `json:"at_p90_mps"`
}

// Band is boats and pairs in one wind of the range.
type Band struct {
	Wind   si.Speed `json:"true_wind_speed_mps"`
	Failed int      `json:"failed"`
	Boats  []Figure `json:"boats"`
	Pairs  []Pair   `json:"pairs"`
}

// Starts is what starting every search from the likely boat's answer costs:
// some samples were searched again from the usual starts.
type Starts struct {
	Checked int     `json:"checked"`            // best trims
	Loss    float64 `json:"largest_loss_share"` // of progress, at least 0
	Mean    float64 `json:"mean_loss_share"`    // below 0 where the likely boat's answer is the better start
}

// Table is every sample: the values of the unknowns and what came of them.
type Table struct {
	Unknowns []Unknown
	Columns  []Column
	Values   [][]float64 // by sample, then unknown, SI
	Outcomes [][]Outcome // by sample, then column
	Weights  []float64   // nil for equal ones; they sum to 1
}
