package trim

import (
	"math"

	"foilwright/balance"
	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/foil"
	"foilwright/si"
)

// Aim is what is best.
type Aim int

// The aims.
const (
	Windward  Aim = iota // best progress to windward, the true wind angle free
	Leeward              // best progress to leeward, the true wind angle free
	AtAngle              // most speed at a given true wind angle
	LeastWind            // least true wind to sail in: WindSpeed is where the search begins, WindAngle is free where 0
)

// String returns the aim in words.
func (a Aim) String() string {
	return [...]string{"best progress to windward", "best progress to leeward", "most speed at the given angle", "least true wind"}[a]
}

// Request is one question to Best.
type Request struct {
	WindSpeed si.Speed // true, at the profile's reference height
	Profile   fluid.Profile
	WindAngle si.Angle  // true, off the track, positive; where Aim is AtAngle
	WindFrom  boat.Side // Port or Starboard; Centre counts as Port
	Water     fluid.Water
	Air       fluid.Air
	Sea       fluid.Sea // its waves ask for room, see SeaRoom; the zero value is calm
	Aim       Aim
	Mode      string // name of the one mode to sail in; empty for the best of all
	Set       string // name of the one set of sails; empty for the best of all
	Branch    Branch // which way of carrying the weight
	Holds     []Hold
	Relaxed   []string // names of limits that do not hold
	Starts    int      // for each mode and set, From not counted; 0 for DefaultStarts, OnlyFrom for none
	Scatter   uint64   // 0 for the usual starts; else a seed of random ones
	From      *Result  // an answer for the same boat: its state is one more start, the first; nil for none
	Nearly    float64  // the gain, over the true wind's speed, that a search from From alone may leave lying where more than the state is told; 0 for 1e-6
	Patience  int      // steps of each search from From alone, where it leads nowhere at once; 0 for as many as any search may take
	Why       Why      // how far the reason is looked into where there is no answer
	Foil      foil.Options
	Tell      Tell    // how much of an answer is told
	CarriedAt float64 // height above the water at which the side force carried is stated, m; 0 for the sails' own
}

// DefaultStarts is how many starts each mode and set of sails gets where a request
// names no number; the best of them all then gets some more beside its optimum.
const DefaultStarts = 2

// OnlyFrom as the number of starts searches from Request.From alone. Where there
// is nothing to start from it stands for DefaultStarts.
const OnlyFrom = -1

// Why tells how far the reason of no answer is looked into.
type Why int

// The depths of a reason.
const (
	WithLimit  Why = iota // limits are relaxed one at a time until one lets the boat sail
	Shortfalls            // what the best attempt lacks, no more: for searches that look for an edge
)

// Tell tells how much of an answer is told.
type Tell int

// What is told.
const (
	InFull         Tell = iota
	WithoutCarried      // all but the side force carried, which takes a tenth as long as a search from a neighbour; Result.TellCarried adds it
	StateAlone          // the state with its speed, wind angle and progress, as the search left it: no loads, limits or prices
)

// Hold keeps one variable at a value.
type Hold struct {
	Name  string  // speed, leeway, heel, pitch, ride height, or a control
	Value float64 // SI; heel and leeway positive to leeward
}

func (r *Request) conditions(angle si.Angle) balance.Conditions {
	if r.WindFrom == boat.Starboard {
		angle = -angle
	}
	return balance.Conditions{Wind: fluid.Wind{Speed: r.WindSpeed, Angle: angle, Profile: r.Profile}, Water: r.Water, Air: r.Air}
}

func (r *Request) windFrom() boat.Side {
	if r.WindFrom == boat.Starboard {
		return boat.Starboard
	}
	return boat.Port
}

func (r *Request) relaxed(name string) bool {
	for _, n := range r.Relaxed {
		if n == name {
			return true
		}
	}
	return false
}

// progress returns what the aim makes most of, m/s.
func (r *Request) progress(speed, angle float64) float64 {
	switch r.Aim {
	case Windward:
		return speed * math.Cos(angle)
	case Leeward:
		return -speed * math.Cos(angle)
	}
	return speed
}
