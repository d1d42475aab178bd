package compare

import (
	"math"

	"foilwright/balance"
	"foilwright/boat"
	"foilwright/trim"
)

// figure reads one figure off an answer; false where the answer has none.
type figure struct {
	name, unit string
	scale      Scale
	read       func(*trim.Result) (float64, bool)
}

// Scale tells whether a share of the base's value means something: not where
// zero is only a direction.
type Scale int

// The scales.
const (
	Ratio Scale = iota
	Direction
)

// Differ sets the values of one figure side by side, with their changes from
// that at the index base. A value is nil where a boat has none.
func Differ(name, unit string, scale Scale, base int, values []*float64) Difference {
	d := Difference{Figure: name, Unit: unit, Values: values}
	d.Changes, d.Shares = from(base, values)
	if scale == Direction {
		clear(d.Shares)
	}
	return d
}

func always(read func(*trim.Result) float64) func(*trim.Result) (float64, bool) {
	return func(r *trim.Result) (float64, bool) { return read(r), true }
}

// leeward returns +1 where positive heel is to leeward in an answer.
func leeward(r *trim.Result) float64 { return balance.Leeward(r.Conditions.WindFrom()) }

// figures are the rows of the table of differences, controls and drags aside.
func figures() []figure {
	return []figure{
		{"progress", "m/s", Ratio, always(func(r *trim.Result) float64 { return r.Progress().MetresPerSecond() })},
		{"speed", "m/s", Ratio, always(func(r *trim.Result) float64 { return r.Speed.MetresPerSecond() })},
		{"true wind angle", "rad", Direction, always(func(r *trim.Result) float64 { return r.TrueWindAngle.Radians() })},
		{"apparent wind speed", "m/s", Ratio, always(func(r *trim.Result) float64 { return r.ApparentWindSpeed.MetresPerSecond() })},
		{"apparent wind angle", "rad", Direction, always(func(r *trim.Result) float64 { return r.ApparentWindAngle.Radians() })},
		{"heel to leeward", "rad", Direction, always(func(r *trim.Result) float64 { return r.Heel.Radians() * leeward(r) })},
		{"pitch bow down", "rad", Direction, always(func(r *trim.Result) float64 { return r.Pitch.Radians() })},
		{"leeway", "rad", Direction, always(func(r *trim.Result) float64 { return r.Leeway.Radians() * leeward(r) })},
		{"ride height", "m", Direction, always(func(r *trim.Result) float64 { return r.RideHeight })},
		{"room the sea asks for", "m", Ratio, seaRoom},
		{"aerodynamic drag angle", "rad", Direction, always(func(r *trim.Result) float64 { return r.AeroDragAngle.Radians() })},
		{"hydrodynamic drag angle", "rad", Direction, always(func(r *trim.Result) float64 { return r.HydroDragAngle.Radians() })},
		{"weight", "N", Ratio, always(func(r *trim.Result) float64 { return r.Weight })},
		{"side force carried", "N", Ratio, func(r *trim.Result) (float64, bool) { return r.CarriedForce, r.SideForceCarried != nil }},
		{"sail side force", "N", Ratio, always(sailSide)},
		{"righting moment", "N·m", Ratio, always(func(r *trim.Result) float64 { return r.RightingMoment })},
		{"wetted area", "m²", Ratio, always(wetted)},
		{"drag in the water", "N", Ratio, always(func(r *trim.Result) float64 { return r.Drag.Water() })},
		{"drag in the air", "N", Ratio, always(func(r *trim.Result) float64 { return r.Drag.Air() })},
	}
}

func seaRoom(r *trim.Result) (float64, bool) {
	if r.Sea == nil {
		return 0, false
	}
	return r.Sea.Room, true
}

func sailSide(r *trim.Result) float64 {
	sum := 0.0
	for i := range r.Loads {
		switch r.Loads[i].Item {
		case boat.SailLift.String(), boat.SailInduced.String(), boat.SailSection.String():
			sum += r.Loads[i].Force.Y
		}
	}
	return math.Abs(sum)
}

func wetted(r *trim.Result) float64 {
	sum := 0.0
	for i := range r.WettedArea {
		sum += r.WettedArea[i].Area
	}
	return sum
}

// Alone returns the figures of one boat's answer, or of its best attempt where there
// is none.
func Alone(r *trim.Result) []Difference {
	attempt := *r
	attempt.Answer = trim.Found
	return differences(&Result{Boats: []*trim.Result{&attempt}})
}

// differences builds the table: figures, drag by cause, controls.
func differences(r *Result) []Difference {
	all := figures()
	for c := range boat.Cause(boat.Causes) {
		if c.Medium() == boat.Static {
			continue
		}
		all = append(all, figure{"drag: " + c.String(), "N", Ratio, func(a *trim.Result) (float64, bool) {
			return a.Drag[c], a.Drag[c] != 0
		}})
	}
	for _, s := range controls(r) {
		all = append(all, figure{"control: " + s.Called, s.Unit, Direction, func(a *trim.Result) (float64, bool) {
			for i := range a.Controls {
				if k := &a.Controls[i]; k.Called == s.Called && k.State != notInUse {
					return k.Value, true
				}
			}
			return 0, false
		}})
	}
	var rows []Difference
	for _, f := range all {
		values, none := make([]*float64, len(r.Boats)), true
		for i, a := range r.Boats {
			if a.Answer != trim.Found {
				continue
			}
			if v, ok := f.read(a); ok {
				values[i], none = &v, false
			}
		}
		if !none {
			rows = append(rows, Differ(f.name, f.unit, f.scale, r.BaseIndex, values))
		}
	}
	return rows
}

// notInUse is how trim tells a control that its way of sailing leaves alone.
const notInUse = "not in use"

// controls returns every control in use that any of the boats has, by its name
// by the wind, in the order of the boats.
func controls(r *Result) []trim.Setting {
	var all []trim.Setting
	for _, a := range r.Boats {
		for _, s := range a.Controls {
			known := s.State == notInUse
			for i := range all {
				known = known || all[i].Called == s.Called
			}
			if !known {
				all = append(all, s)
			}
		}
	}
	return all
}
