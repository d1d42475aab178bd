package study

import (
	"fmt"
	"math"

	"foilwright/balance"
	"foilwright/boat"
	"foilwright/quantity"
	"foilwright/si"
	"foilwright/trim"
)

// Stance is an attitude and the controls, as a person asks for them. What is not
// asked for stands as the boat's file has it.
type Stance struct {
	Heel     si.Angle  `json:"heel_to_leeward_rad"`
	Pitch    si.Angle  `json:"pitch_rad"` // positive bow down
	Leeway   si.Angle  `json:"leeway_rad"`
	Ride     *float64  `json:"ride_height_m,omitempty"` // nil: the middle of the mode's limits
	WindFrom string    `json:"wind_from"`               // port or starboard; empty is port
	Mode     string    `json:"mode,omitempty"`          // empty: the boat's first
	Settings []Setting `json:"settings,omitempty"`
}

// Standing is a stance as it came to be for one boat. Heel, pitch and leeway keep
// the signs of the track frame, as in trim.Result.
type Standing struct {
	Boat       string         `json:"boat"`
	Mode       string         `json:"mode"`
	WindFrom   string         `json:"wind_from"`
	Leeway     si.Angle       `json:"leeway_rad"`
	Heel       si.Angle       `json:"heel_rad"`
	Pitch      si.Angle       `json:"pitch_rad"`
	RideHeight float64        `json:"ride_height_m"`
	Height     float64        `json:"datum_height_m"`
	Controls   []trim.Setting `json:"controls"`
	Notes      []string       `json:"notes"` // what of it the boat's own limits would not allow

	state boat.State
	side  boat.Side
}

// of puts the stance to a boat.
func (q *Stance) of(b *boat.Boat) (Standing, error) {
	side, err := sideOf(q.WindFrom)
	if err != nil {
		return Standing{}, err
	}
	q.WindFrom = side.String()
	if err := q.sane(); err != nil {
		return Standing{}, fmt.Errorf("%s: %w", b.Name, err)
	}
	mode, err := modeOf(b, q.Mode)
	if err != nil {
		return Standing{}, err
	}
	tack := si.Angle(balance.Leeward(side))
	lower, upper := b.Bounds(mode, side)
	st := Standing{Boat: b.Name, Mode: mode.Name, WindFrom: side.String(), Notes: []string{}, side: side}
	st.state = boat.State{
		Attitude: boat.Attitude{Leeway: q.Leeway * tack, Heel: q.Heel * tack, Pitch: q.Pitch},
		Settings: b.Starts(),
	}
	for i := range st.state.Settings {
		st.state.Settings[i] = math.Min(math.Max(st.state.Settings[i], lower[i]), upper[i])
	}
	ride := rideIn(b.LimitsIn(mode))
	if q.Ride != nil {
		ride = *q.Ride
	}
	st.state.Attitude = b.AtRideHeight(st.state.Attitude, ride)
	b.ObeyLaws(&st.state)
	for _, s := range q.Settings {
		i, value, err := settingOf(b, s, side)
		if err != nil {
			return Standing{}, err
		}
		st.state.Settings[i] = value
		if value < lower[i]-1e-12 || value > upper[i]+1e-12 {
			st.Notes = append(st.Notes, notAllowed(mode.Name, trim.ByWind(b.Controls[i].Name, side))+" to "+s.Value)
		}
	}
	st.tell(b)
	return st, nil
}

// notAllowed says that a mode would not let the crew set a control as asked.
func notAllowed(mode, called string) string {
	return fmt.Sprintf("mode %q would not let the crew set %s", mode, called)
}

// sane refuses an attitude that no boat is asked about.
func (q *Stance) sane() error {
	for _, a := range []struct {
		name  string
		angle si.Angle
	}{{"heel", q.Heel}, {"pitch", q.Pitch}, {"leeway", q.Leeway}} {
		if err := sane(a.name, a.angle.Radians(), quantity.Angle); err != nil {
			return err
		}
	}
	if q.Ride == nil {
		return nil
	}
	return sane("ride height", *q.Ride, quantity.Length)
}

// What can be asked about: wide of anything that floats or flies.
const (
	widest  = 90 * si.Degree // of heel, pitch and leeway
	highest = 50.0           // of ride height, up or down, m
	fastest = 100 * si.Knot
)

// sane refuses a figure of state, SI, that is out of all reason.
func sane(name string, value float64, d quantity.Dimension) error {
	allowed := quantity.Range{Low: -widest.Radians(), High: widest.Radians(), Dimension: d, Unit: "deg"}
	switch d {
	case quantity.Speed:
		allowed.Low, allowed.High, allowed.Unit = 0, fastest.MetresPerSecond(), "kn"
	case quantity.Length:
		allowed.Low, allowed.High, allowed.Unit = -highest, highest, "m"
	}
	if allowed.Contains(value) && (d != quantity.Speed || value > 0) {
		return nil
	}
	return fmt.Errorf("%s: %s is outside %s\nhint: check its sign and unit", name, quantity.Format(value, d, allowed.Unit, quantity.Decimals(1)), allowed)
}

// tell reads the standing off its state.
func (st *Standing) tell(b *boat.Boat) {
	a := st.state.Attitude
	st.Leeway, st.Heel, st.Pitch, st.Height, st.RideHeight = a.Leeway, a.Heel, a.Pitch, a.Height, b.RideHeight(a)
	st.Controls = trim.SettingsOf(b, st.state, st.side)
	for i := range b.Sails {
		// No sail is up: sheets set nothing here.
		for _, c := range [3]int{b.Sails[i].Sheet, b.Sails[i].Twist, b.Sails[i].Flatten} {
			if c >= 0 {
				st.Controls[c].State = "not in use"
			}
		}
	}
}

// modeOf returns the mode of a name; where none is named the first, or one that
// allows everything where the boat has none.
func modeOf(b *boat.Boat, name string) (*boat.Mode, error) {
	var names []string
	for i := range b.Modes {
		names = append(names, b.Modes[i].Name)
	}
	if err := named(b, "mode", name, names); err != nil {
		return nil, err
	}
	for i := range b.Modes {
		if name == "" || b.Modes[i].Name == name {
			return &b.Modes[i], nil
		}
	}
	return &boat.Mode{Name: "any"}, nil
}

// rideIn returns the middle of the ride heights that limits allow, m; where a
// side is open, the other end; 0 where both are.
func rideIn(limits []boat.Limit) float64 {
	for _, l := range limits {
		if l.Kind != boat.LimitRideHeight {
			continue
		}
		switch low, high := math.IsInf(l.Lower, 0), math.IsInf(l.Upper, 0); {
		case low && high:
		case low:
			return l.Upper
		case high:
			return l.Lower
		default:
			return (l.Lower + l.Upper) / 2
		}
	}
	return 0
}
