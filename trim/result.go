package trim

import (
	"foilwright/balance"
	"foilwright/boat"
	"foilwright/foil"
	"foilwright/frame"
	"foilwright/hull"
	"foilwright/sail"
	"foilwright/si"
)

// Result is the answer to one request for one boat. Angles and forces keep the
// signs of the track and boat frames: leeway positive with the bow to port,
// heel positive starboard down, pitch positive bow down.
type Result struct {
	Boat   string `json:"boat"`
	Answer Answer `json:"answer"`
	Aim    string `json:"aim"`
	Mode   string `json:"mode"`
	Set    string `json:"set"`

	TrueWindSpeed si.Speed `json:"true_wind_speed_mps"`
	TrueWindAngle si.Angle `json:"true_wind_angle_rad"` // positive
	WindFrom      string   `json:"wind_from"`           // port or starboard

	Sea *SeaRoom `json:"sea"` // nil in a calm

	Speed      si.Speed  `json:"speed_mps"`
	VMG        si.Speed  `json:"vmg_mps"` // progress to windward, negative to leeward
	Leeway     si.Angle  `json:"leeway_rad"`
	Heel       si.Angle  `json:"heel_rad"`
	Pitch      si.Angle  `json:"pitch_rad"`
	RideHeight float64   `json:"ride_height_m"`
	Height     float64   `json:"datum_height_m"`
	Controls   []Setting `json:"controls"`

	ApparentWindSpeed si.Speed `json:"apparent_wind_speed_mps"`
	ApparentWindAngle si.Angle `json:"apparent_wind_angle_rad"`
	AeroDragAngle     si.Angle `json:"aero_drag_angle_rad"`
	HydroDragAngle    si.Angle `json:"hydro_drag_angle_rad"`

	Weight           float64                `json:"weight_N"`
	Loads            []Load                 `json:"loads"`
	ResidualForce    frame.Vec[frame.Track] `json:"residual_force_N"`
	ResidualMoment   frame.Vec[frame.Track] `json:"residual_moment_Nm"`
	RightingMoment   float64                `json:"righting_moment_Nm"`
	HeelingMoment    float64                `json:"heeling_moment_Nm"`
	Budget           balance.Budget         `json:"budget"`
	Centres          []balance.Centre       `json:"centres"`
	SideForceCarried *Carried               `json:"side_force_carried"`
	CarriedForce     float64                `json:"side_force_carried_N"`
	CarriedMissing   string                 `json:"side_force_carried_missing,omitempty"` // why there is none
	Drag             balance.DragByCause    `json:"drag_N"`
	WettedArea       []WetPart              `json:"wetted_area"`
	Carrying         string                 `json:"carrying"`       // flying, partly lifted or afloat
	OnHulls          float64                `json:"share_on_hulls"` // of the weight, by their buoyancy
	Hulls            []hull.Report          `json:"hulls"`          // those that touch the water
	Sails            []sail.Report          `json:"sails"`
	Margins          []Margin               `json:"margins"`
	Hinges           []Hinge                `json:"hinge_moments"`

	Limits   []LimitRow `json:"limits"`
	Warnings []string   `json:"warnings"`

	Closing   []string  `json:"closing_set"`           // the six variables that close the six equations
	Condition float64   `json:"closing_set_condition"` // of their slopes; 0 where they do not close the equations by themselves
	Others    []Optimum `json:"other_optima"`
	Search    Effort    `json:"search"`

	// Where there is no answer: what stands in the way, and the best attempt's
	// shortfall. The state above is then the best attempt's.
	Reason *Reason `json:"reason,omitempty"`

	// Per is what small changes of the boat's figures would gain, where it was
	// asked for: see Worth.
	Per []PerRow `json:"per,omitempty"`

	answered  *answered
	attempted *attempt // the best, where there is no answer and its limit was not looked for

	State      boat.State         `json:"-"`
	SetIndex   int                `json:"-"`
	Conditions balance.Conditions `json:"-"`
	Foil       foil.Options       `json:"-"` // how the foils were cut
}

// Progress returns what the aim makes most of: progress to windward or leeward,
// or speed.
func (r *Result) Progress() si.Speed {
	switch r.Aim {
	case Windward.String():
		return r.VMG
	case Leeward.String():
		return -r.VMG
	}
	return r.Speed
}

// Answer tells whether there is one.
type Answer string

// The answers.
const (
	Found    Answer = "found"
	NoAnswer Answer = "none"
	Stated   Answer = "stated" // the state was given, and nothing was searched: see Describe
)

// Setting is one control's setting in the answer.
type Setting struct {
	Name   string  `json:"name"`
	Called string  `json:"called"` // by the wind: "leeward main cant"
	Value  float64 `json:"value"`  // rad, m or 1, as Unit says
	Unit   string  `json:"unit"`
	Lower  float64 `json:"lower"`
	Upper  float64 `json:"upper"`
	State  string  `json:"state"`              // free, at its lower end, at its upper end, fixed, under its law
	Price  float64 `json:"price_mps_per_unit"` // what one Unit more of range at its end would gain in progress, m/s per Unit
}

// PerRow is what one step of one figure of the boat's file would gain in progress at
// the re-optimised trim.
type PerRow struct {
	Figure string  `json:"figure"` // its path in the file: "weights.rig.mass"
	Where  string  `json:"where"`  // file:line:column
	Says   string  `json:"says"`   // as it stands
	Step   string  `json:"step"`   // "1 kg", "1 mm", "1 %", "1 deg"
	Gain   float64 `json:"gain_mps_per_step"`
}

// Load is one row of the balance.
type Load struct {
	Part  string `json:"part"`
	Piece string `json:"piece,omitempty"`
	Item  string `json:"item"` // the cause
	frame.Load[frame.Track]
}

// WetPart is the wetted surface of one piece, both faces.
type WetPart struct {
	Part  string  `json:"part"`
	Piece string  `json:"piece"`
	Area  float64 `json:"wetted_area_m2"`
	Plan  float64 `json:"plan_area_m2"`
}

// LimitRow is one limit in the answer.
type LimitRow struct {
	Name   string   `json:"name"`
	Value  float64  `json:"value"`
	Lower  *float64 `json:"lower"` // nil where that side is open
	Upper  *float64 `json:"upper"`
	Unit   string   `json:"unit"`
	Margin float64  `json:"margin"` // to the nearer bound, negative past it
	Active bool     `json:"active"`
	// Price is what relaxing the limit by one Unit would gain in progress at the
	// re-optimised trim, m/s per Unit: the search's multiplier. 0 where the limit is
	// not active.
	Price float64 `json:"price_mps_per_unit"`
}

// Optimum is another local optimum that the search met, or how far a way of sailing had come when
// it was left as outdone: it may have reached a little more, not the answer.
type Optimum struct {
	Mode  string   `json:"mode"`
	Set   string   `json:"set"`
	Tips  string   `json:"tips,omitempty"` // where tips may be on either side of the surface: under, or out
	Speed si.Speed `json:"speed_mps"`
	VMG   si.Speed `json:"vmg_mps"`
	Heel  si.Angle `json:"heel_rad"`
	Times int      `json:"starts"` // how many starts led there

	LeftEarly bool `json:"left_early,omitempty"`
}

// Effort is what the search took.
type Effort struct {
	Starts      int `json:"starts"`
	Converged   int `json:"converged"`
	Evaluations int `json:"evaluations"`
	Agreeing    int `json:"starts_at_the_answer"` // that reached the answer within 0.05 % of progress
}

// Carried is the side force carried at a stated height.
type Carried struct {
	Height float64 `json:"height_m"` // above the undisturbed water
	Force  float64 `json:"side_force_N"`
	Share  float64 `json:"share_of_weight"`
}

// Reason is why there is no answer.
type Reason struct {
	Words       string      `json:"words"`
	Limit       string      `json:"limit,omitempty"` // relaxing this one alone lets the boat sail (tried)
	Shortfalls  []Shortfall `json:"shortfalls"`
	Relaxations []string    `json:"tried"` // limits that were relaxed one at a time in vain before
}

// Shortfall is one equation or limit that the best attempt does not meet. Of a limit the
// amount is what is missing where it is below zero, else what is too much.
type Shortfall struct {
	Name   string  `json:"name"`
	Amount float64 `json:"amount"`
	Unit   string  `json:"unit"`
}
