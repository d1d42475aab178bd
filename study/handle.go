package study

import (
	"math"

	"foilwright/balance"
	"foilwright/boat"
	"foilwright/frame"
	"foilwright/si"
	"foilwright/trim"
)

// Handle is a figure of a boat's state that a person can set: a control, a figure of
// attitude, speed. Where it has a place on the boat it can be taken hold of there: its
// place moves with its value as Rate says, along a line or about a pivot.
type Handle struct {
	Name  string  `json:"name"`            // by the wind: "leeward main cant"; heel, pitch, leeway, ride height, speed, true wind angle
	Hold  string  `json:"hold"`            // the name that trims hold it under; empty where they cannot
	Unit  string  `json:"unit"`            // rad, m, 1 or m/s
	Value float64 `json:"value"`           // heel and leeway positive to leeward, pitch bow down
	Lower float64 `json:"lower"`           // what the mode allows
	Upper float64 `json:"upper"`           //
	Step  float64 `json:"step"`            // a fine step; a coarse one is ten
	State string  `json:"state"`           // as under A control
	Part  string  `json:"part,omitempty"`  // the foil that it moves or flaps
	Place *Place  `json:"place,omitempty"` // nil where there is nothing to take hold of
}

// Place is where on the boat a handle is, and how it moves.
type Place struct {
	At    frame.Point[frame.Track] `json:"at_m"`
	Rate  frame.Vec[frame.Track]   `json:"rate_m"`  // of the place, m for each Unit of the handle
	Axis  frame.Vec[frame.Track]   `json:"axis"`    // that it turns about, right-handed for a positive value; zero for a straight line
	Pivot frame.Point[frame.Track] `json:"pivot_m"` // that it turns about; the place itself on a straight line
}

// Fine steps of a handle: what a tape, a protractor and a log can show.
const (
	fineAngle  = 0.1 * si.Degree
	fineLength = 0.01 // m
	fineShare  = 0.01
	fineSpeed  = 0.1 * si.Knot
)

// handles gathers the handles of one boat in one state.
type handles struct {
	b    *boat.Boat
	r    *trim.Result
	side boat.Side
	mode *boat.Mode
	all  []Handle
}

// handlesOf returns the handles of a boat in the state of a result.
func handlesOf(b *boat.Boat, r *trim.Result) []Handle {
	h := &handles{b: b, r: r, side: r.Conditions.WindFrom(), all: []Handle{}}
	h.mode = &boat.Mode{Name: r.Mode}
	for i := range b.Modes {
		if b.Modes[i].Name == r.Mode {
			h.mode = &b.Modes[i]
		}
	}
	// Held, a boat may be put where a mode would not have her: her notes say so.
	within := h.mode
	if r.Answer == trim.Stated {
		within = &boat.Mode{}
	}
	lower, upper := b.Bounds(within, h.side)
	for i := range b.Controls {
		if c := &b.Controls[i]; !c.Fixed() && c.Law == nil {
			h.control(i, lower[i], upper[i])
		}
	}
	h.attitude()
	h.sailing()
	return h.all
}

// control adds the handle of a control.
func (h *handles) control(i int, lower, upper float64) {
	c := &h.b.Controls[i]
	set := &h.r.Controls[i]
	k := Handle{
		Name: set.Called, Hold: c.Name, Unit: set.Unit, Value: h.r.State.Settings[i], Lower: lower, Upper: upper,
		Step: [...]float64{fineAngle.Radians(), fineLength, fineShare}[c.Kind], State: set.State,
	}
	if lower == upper {
		k.State = "fixed"
	}
	carrier := h.serves(i)
	if carrier >= 0 {
		k.Part = h.b.Foils[carrier].Name
	}
	if lower < upper {
		k.Place = h.grip(i, carrier)
	}
	h.all = append(h.all, k)
}

// serves returns the foil that a control moves or flaps, the leeward one of a pair; −1
// for none.
func (h *handles) serves(control int) int {
	found := -1
	for i := range h.b.Foils {
		f := &h.b.Foils[i]
		touched := false
		for _, m := range f.Moves {
			touched = touched || m.Control == control
		}
		for j := range f.Pieces {
			touched = touched || f.Pieces[j].Flap.Share > 0 && f.Pieces[j].Flap.Control == control
		}
		if touched && (found < 0 || f.Side == h.side.Other()) {
			found = i
		}
	}
	return found
}

// attitude adds heel, pitch, leeway and ride height.
func (h *handles) attitude() {
	tack := balance.Leeward(h.side)
	a := h.r.State.Attitude
	for _, k := range []struct {
		name  string
		value float64
		limit boat.LimitKind
		reach si.Angle
		turn  frame.Vec[frame.Boat]
	}{
		{"heel", a.Heel.Radians() * tack, boat.LimitHeel, 35 * si.Degree, frame.Vec[frame.Boat]{X: tack}},
		{"pitch", a.Pitch.Radians(), boat.LimitPitch, 6 * si.Degree, frame.Vec[frame.Boat]{Y: 1}},
		{"leeway", a.Leeway.Radians() * tack, boat.LimitLeeway, 8 * si.Degree, frame.Vec[frame.Boat]{Z: tack}},
	} {
		one := Handle{Name: k.name, Hold: k.name, Unit: "rad", Value: k.value, Lower: -k.reach.Radians(), Upper: k.reach.Radians(), Step: fineAngle.Radians(), State: "free"}
		h.limit(&one, k.limit)
		one.Place = h.lie(k.name, tack)
		h.all = append(h.all, one)
	}
	ride := Handle{Name: "ride height", Hold: "ride height", Unit: "m", Value: h.r.RideHeight, Lower: -h.b.Length / 10, Upper: h.b.Length / 5, Step: fineLength, State: "free"}
	h.limit(&ride, boat.LimitRideHeight)
	at := h.r.State.Attitude.Pose().Point(h.deck(0))
	ride.Place = &Place{At: at, Rate: frame.Vec[frame.Track]{Z: 1}, Pivot: at}
	h.all = append(h.all, ride)
}

// limit narrows a handle to what the mode allows, where a trim is looked for.
func (h *handles) limit(k *Handle, kind boat.LimitKind) {
	if h.r.Answer == trim.Stated {
		return
	}
	for _, l := range h.b.LimitsIn(h.mode) {
		if l.Kind == kind {
			k.Lower, k.Upper = math.Max(k.Lower, l.Lower), math.Min(k.Upper, l.Upper)
		}
	}
}

// sailing adds what has no place on the boat: speed, and the angle to the true wind.
func (h *handles) sailing() {
	speed := Handle{Name: "speed", Hold: "speed", Unit: "m/s", Value: h.r.Speed.MetresPerSecond(), Lower: 1, Upper: 40, Step: fineSpeed.MetresPerSecond(), State: "free"}
	angle := Handle{Name: "true wind angle", Unit: "rad", Value: h.r.TrueWindAngle.Radians(), Lower: si.Degree.Radians(), Upper: (179 * si.Degree).Radians(), Step: fineAngle.Radians(), State: "free"}
	h.all = append(h.all, speed, angle)
}
