package study

import (
	"context"
	"fmt"
	"strconv"
	"sync"

	"foilwright/balance"
	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/foil"
	"foilwright/quantity"
	"foilwright/si"
	"foilwright/trim"
	"foilwright/wave"
)

// Held asks for every load on boats that are each held in a fixed state under sail,
// balanced or not.
type Held struct {
	States  []HeldState `json:"states"`            // one for each boat, in their order
	Dragged bool        `json:"dragged,omitempty"` // the side force carried, which takes longer than all else, is left out
	Lattice
	Waves
	Conditions
}

// HeldState is one boat's stance, speed and wind, and the sails that are up.
type HeldState struct {
	Stance
	Speed     si.Speed `json:"speed_mps"`
	WindSpeed si.Speed `json:"true_wind_speed_mps"`
	WindAngle si.Angle `json:"true_wind_angle_rad"` // off the track, positive
	Set       string   `json:"set,omitempty"`       // of sails; empty: the first that the mode allows; see BarePoles
	About     *Across  `json:"about_m,omitempty"`   // the point of the budget; nil: on the line of action
}

// BarePoles as a set of sails means none.
const BarePoles = "bare poles"

// HeldResult is what air, water and weight do to a boat that is held in one state.
type HeldResult struct {
	ViewResult `json:"view"` // its trim is the state as it was given
	Imbalance  Imbalance     `json:"imbalance"`
	Notes      []string      `json:"notes"` // what of the state the boat's own limits would not allow
}

// Verb names the question.
func (*Held) Verb() string { return "hold" }

func (q *Held) ask(_ context.Context, d *desk) (any, Verdict, error) {
	if len(q.States) != len(d.boats) {
		return nil, "", fmt.Errorf("hold: %d states are given for %d boats\nhint: give one for each boat, in their order", len(q.States), len(d.boats))
	}
	water, air, profile, err := q.fluids()
	if err != nil {
		return nil, "", err
	}
	options, err := q.options()
	if err != nil {
		return nil, "", err
	}
	sea, err := q.sea()
	if err != nil {
		return nil, "", err
	}
	bench := d.request.Shelf.bench()
	defer d.request.Shelf.putBack(bench)
	bench.cut(options)
	results := []*HeldResult{}
	for i, b := range d.boats {
		s := &q.States[i]
		st, set, c, err := s.of(b, balance.Conditions{Wind: fluid.Wind{Profile: profile}, Water: water, Air: air})
		if err != nil {
			return nil, "", err
		}
		r := trim.Describe(b, st.state, set, c, &bench.state)
		if r.Answer == trim.NoAnswer {
			return nil, "", fmt.Errorf("%s: %s", b.Name, r.Warnings[0])
		}
		r.Answer, r.Mode = trim.Stated, st.Mode
		r.TellSea(sea)
		if s.About != nil {
			if err := budgetAbout(b, r, *s.About); err != nil {
				return nil, "", err
			}
		}
		if !q.Dragged {
			r.TellCarried(b, 0, &bench.trim)
		}
		held := &HeldResult{ViewResult: *viewOf(b, r, bench), Imbalance: imbalanceOf(b, r), Notes: st.Notes}
		held.Dragged = q.Dragged
		results = append(results, held)
	}
	return results, Answered, nil
}

// of puts the state to a boat. It returns how she stands, the set of sails and the
// conditions.
func (s *HeldState) of(b *boat.Boat, c balance.Conditions) (Standing, int, balance.Conditions, error) {
	fail := func(err error) (Standing, int, balance.Conditions, error) { return Standing{}, 0, c, err }
	for _, speed := range []struct {
		name string
		is   si.Speed
	}{{"speed", s.Speed}, {"true wind speed", s.WindSpeed}} {
		if err := sane(speed.name, speed.is.MetresPerSecond(), quantity.Speed); err != nil {
			return fail(fmt.Errorf("%s: %w", b.Name, err))
		}
	}
	if !(s.WindAngle > 0 && s.WindAngle.Degrees() < 180) {
		return fail(fmt.Errorf("%s: true wind angle: must lie between 0 and 180 deg\nhint: angles are taken from the track, on either side", b.Name))
	}
	st, err := s.Stance.of(b)
	if err != nil {
		return fail(err)
	}
	st.state.Speed = s.Speed
	c.Wind.Speed, c.Wind.Angle = s.WindSpeed, s.WindAngle
	if st.side == boat.Starboard {
		c.Wind.Angle = -c.Wind.Angle
	}
	set, err := s.set(b, st.Mode)
	return st, set, c, err
}

// set returns the index of the set of sails.
func (s *HeldState) set(b *boat.Boat, mode string) (int, error) {
	if s.Set == BarePoles || len(b.Sets) == 0 {
		return -1, nil
	}
	var names []string
	for i := range b.Sets {
		names = append(names, b.Sets[i].Name)
		if s.Set == b.Sets[i].Name {
			return i, nil
		}
	}
	if err := named(b, "set of sails", s.Set, names); err != nil {
		return 0, err
	}
	for i := range b.Modes {
		if b.Modes[i].Name == mode && len(b.Modes[i].Sets) > 0 {
			return b.Modes[i].Sets[0], nil
		}
	}
	return 0, nil
}

// heldAs returns the state of a result as a question that holds the boat in it.
func heldAs(b *boat.Boat, r *trim.Result) HeldState {
	side := r.Conditions.WindFrom()
	tack := si.Angle(balance.Leeward(side))
	ride := r.RideHeight
	s := HeldState{
		Stance:    Stance{Heel: r.Heel * tack, Pitch: r.Pitch, Leeway: r.Leeway * tack, Ride: &ride, WindFrom: side.String(), Mode: r.Mode, Settings: []Setting{}},
		Speed:     r.Speed,
		WindSpeed: r.TrueWindSpeed, WindAngle: r.TrueWindAngle, Set: r.Set,
	}
	if len(b.Modes) == 0 {
		s.Mode = ""
	}
	for i := range b.Controls {
		if b.Controls[i].Law == nil {
			s.Settings = append(s.Settings, Setting{Name: trim.ByWind(b.Controls[i].Name, side), Value: exactly(r.State.Settings[i], b.Controls[i].Kind)})
		}
	}
	return s
}

// exactly writes a control's setting so that it reads back the same.
func exactly(value float64, k boat.ControlKind) string {
	if value > -1e-12 && value < 1e-12 {
		value = 0 // smaller than anything that is read
	}
	text := strconv.FormatFloat(value, 'g', -1, 64)
	if unit := [...]string{"rad", "m", ""}[k]; unit != "" {
		return text + " " + unit
	}
	return text
}

// bench is the memory that states and trims are worked out in.
type bench struct {
	state balance.Workspace
	trim  trim.Workspace
}

// cut says how finely foils are cut.
func (w *bench) cut(o foil.Options) {
	if o.Waves == foil.WaveWash && w.state.Foil.Kernel == nil {
		w.state.Foil.Kernel = wave.NewKernel()
	}
	w.state.Foil.Options = o
}

// benches are those that nobody works at.
type benches struct{ free sync.Pool }

// bench returns one that nobody works at.
func (s *Shelf) bench() *bench {
	if s != nil {
		if w, ok := s.benches.free.Get().(*bench); ok {
			return w
		}
	}
	return new(bench)
}

// putBack leaves a bench to others.
func (s *Shelf) putBack(w *bench) {
	if s != nil {
		s.benches.free.Put(w)
	}
}
