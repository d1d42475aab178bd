package polar

import (
	"foilwright/boat"
	"foilwright/si"
	"foilwright/trim"
)

// Result is one boat over winds and angles. Winds and points stand in rising
// order. Signs are those of package trim: leeway positive with the bow to port,
// heel positive starboard down, pitch positive bow down.
type Result struct {
	Boat     string `json:"boat"`
	WindFrom string `json:"wind_from"` // port or starboard
	Winds    []Wind `json:"winds"`
}

// Wind is one wind speed's part of a polar.
type Wind struct {
	Speed      si.Speed    `json:"true_wind_speed_mps"`
	Points     []Point     `json:"points"` // one for each angle asked
	Windward   Best        `json:"windward"`
	Leeward    Best        `json:"leeward"`
	Crossovers []Crossover `json:"crossovers"`
	Gaps       []Gap       `json:"gaps"`
}

// Way is a way of sailing: a mode with a set of sails.
type Way struct {
	Mode string `json:"mode"`
	Set  string `json:"set"`
}

func wayOf(r *trim.Result) Way { return Way{r.Mode, r.Set} }

// Point is the best trim at one wind and angle. Where there is no answer the
// state is the best attempt's and Reason says why.
type Point struct {
	Angle  si.Angle    `json:"true_wind_angle_rad"` // positive
	Answer trim.Answer `json:"answer"`
	Way
	Speed             si.Speed       `json:"speed_mps"`
	VMG               si.Speed       `json:"vmg_mps"` // progress to windward, negative to leeward
	ApparentWindSpeed si.Speed       `json:"apparent_wind_speed_mps"`
	ApparentWindAngle si.Angle       `json:"apparent_wind_angle_rad"`
	Leeway            si.Angle       `json:"leeway_rad"`
	Heel              si.Angle       `json:"heel_rad"`
	Pitch             si.Angle       `json:"pitch_rad"`
	RideHeight        float64        `json:"ride_height_m"`
	Controls          []trim.Setting `json:"controls"`
	Active            []Active       `json:"active"` // what holds the boat here
	Warnings          []string       `json:"warnings"`
	Reason            *trim.Reason   `json:"reason,omitempty"`

	Trim *trim.Result `json:"-"` // in full
}

// Active is one limit, or one end of a control's range, that a best trim stands on.
type Active struct {
	Name  string  `json:"name"` // controls by the wind: "leeward main cant"
	Value float64 `json:"value"`
	Unit  string  `json:"unit"` // rad, m, N, N·m or 1
	End   End     `json:"end"`
}

// End tells which end of a range something stands on.
type End string

// The ends.
const (
	LowerEnd End = "lower"
	UpperEnd End = "upper"
)

// Best is the best angle to windward or leeward with the band around it.
type Best struct {
	Point
	From *BandEnd `json:"band_from"` // the smaller angle; nil where there is no answer
	To   *BandEnd `json:"band_to"`
}

// BandEnd is one end of the band of angles in which progress is within Loss of
// the best.
type BandEnd struct {
	Angle si.Angle `json:"true_wind_angle_rad"`
	Way
	Speed si.Speed `json:"speed_mps"`
	VMG   si.Speed `json:"vmg_mps"`
	Lost  float64  `json:"lost_progress"` // share of the best progress that is lost here
	Why   BandWhy  `json:"why"`

	Trim *trim.Result `json:"-"`
}

// Loss is the share of the best progress that is lost at the ends of a band.
const Loss = 0.01

// BandWhy tells why a band ends.
type BandWhy string

// Why bands end.
const (
	LossReached BandWhy = "progress is 1 % less"
	FlightEnds  BandWhy = "beyond it the boat cannot fly"
	SearchEnds  BandWhy = "end of the angles searched"
)

// Crossover is where one way of sailing gives way to another along the angle.
// Both speeds are at the ends of the bracket in which the change was found.
type Crossover struct {
	Angle  si.Angle `json:"true_wind_angle_rad"`
	Within si.Angle `json:"within_rad"` // width of the bracket
	Below  Branch   `json:"below"`      // best at smaller angles
	Above  Branch   `json:"above"`      // best at larger angles
}

// Branch is a way of sailing with its speed at one angle.
type Branch struct {
	Way
	Speed si.Speed `json:"speed_mps"`
}

// Gap is a run of angles at which the boat cannot fly.
type Gap struct {
	First si.Angle  `json:"first_rad"` // of the angles asked
	Last  si.Angle  `json:"last_rad"`
	From  *si.Angle `json:"from_rad"` // where flight ends before it, within half a degree; nil where the angles asked do not tell
	To    *si.Angle `json:"to_rad"`   // where flight begins after it
	Words string    `json:"words"`    // the reason, at the angle asked that is nearest to flight
	Limit string    `json:"limit"`    // relaxing this one alone lets the boat sail there; empty where none does
}

// result gathers what the stages have found.
func (c *charter) result() *Result {
	side := boat.Port
	if c.base.WindFrom == boat.Starboard {
		side = boat.Starboard
	}
	res := &Result{Boat: c.boat.Name, WindFrom: side.String(), Winds: []Wind{}}
	for i := range c.winds {
		w := &c.winds[i]
		wind := Wind{Speed: w.speed, Points: []Point{}, Windward: *w.windward, Leeward: *w.leeward, Crossovers: w.crossovers, Gaps: []Gap{}}
		runs := w.gapRuns()
		for k, run := range runs {
			w.points[w.told(run)] = w.ends[k].told
		}
		for _, p := range w.points {
			wind.Points = append(wind.Points, pointOf(p))
		}
		for k, run := range runs {
			wind.Gaps = append(wind.Gaps, w.gap(run, w.ends[k]))
		}
		res.Winds = append(res.Winds, wind)
	}
	return res
}

// pointOf takes from an answer what a polar shows.
func pointOf(r *trim.Result) Point {
	p := Point{
		Angle: r.TrueWindAngle, Answer: r.Answer, Way: wayOf(r), Speed: r.Speed, VMG: r.VMG,
		ApparentWindSpeed: r.ApparentWindSpeed, ApparentWindAngle: r.ApparentWindAngle,
		Leeway: r.Leeway, Heel: r.Heel, Pitch: r.Pitch, RideHeight: r.RideHeight,
		Controls: r.Controls, Active: []Active{}, Warnings: r.Warnings, Reason: r.Reason, Trim: r,
	}
	for i := range r.Limits {
		l := &r.Limits[i]
		if !l.Active {
			continue
		}
		end := LowerEnd
		if l.Lower == nil || l.Upper != nil && *l.Upper-l.Value < l.Value-*l.Lower {
			end = UpperEnd
		}
		p.Active = append(p.Active, Active{l.Name, l.Value, l.Unit, end})
	}
	for i := range r.Controls {
		s := &r.Controls[i]
		switch s.State {
		case "at its lower end":
			p.Active = append(p.Active, Active{s.Called, s.Value, s.Unit, LowerEnd})
		case "at its upper end":
			p.Active = append(p.Active, Active{s.Called, s.Value, s.Unit, UpperEnd})
		}
	}
	return p
}

// Flies tells whether the boat flies anywhere on the polar.
func (r *Result) Flies() bool {
	for i := range r.Winds {
		w := &r.Winds[i]
		if w.Windward.Answer == trim.Found || w.Leeward.Answer == trim.Found {
			return true
		}
		for k := range w.Points {
			if w.Points[k].Answer == trim.Found {
				return true
			}
		}
	}
	return false
}
