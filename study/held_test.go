package study

import (
	"math"
	"slices"
	"strconv"
	"testing"

	"foilwright/boat"
	"foilwright/frame"
	"foilwright/si"
	"foilwright/trim"
)

// best returns a boat's best trim as it is drawn.
func best(t *testing.T, windFrom, file string) *ViewResult {
	t.Helper()
	q := &View{Sailing: Sailing{WindSpeeds: []si.Speed{17 * si.Knot}, WindFrom: windFrom, Conditions: Standard()}}
	return ask(t, q, file).Results.([]*ViewResult)[0]
}

// hold holds a boat in a state.
func hold(t *testing.T, s HeldState, file string) *HeldResult {
	t.Helper()
	return ask(t, &Held{States: []HeldState{s}, Conditions: Standard()}, file).Results.([]*HeldResult)[0]
}

// A boat held in the state of her best trim has that trim's loads, and is in balance.
func TestHeldAtHerBestTrim(t *testing.T) {
	for _, windFrom := range []string{"port", "starboard"} {
		v := best(t, windFrom, sorrel)
		r := hold(t, v.Held, sorrel)
		weight, length := v.Trim.Weight, 12.0
		if len(r.Trim.Loads) != len(v.Trim.Loads) {
			t.Fatalf("%d loads, and %d in the trim", len(r.Trim.Loads), len(v.Trim.Loads))
		}
		for i := range r.Trim.Loads {
			own, of := &r.Trim.Loads[i], &v.Trim.Loads[i]
			if own.Part != of.Part || own.Item != of.Item || own.Force.Minus(of.Force).Norm() > 1e-9*weight ||
				own.MovedTo(of.About).Moment.Minus(of.Moment).Norm() > 1e-9*weight*length {
				t.Errorf("wind from %s: %s %s: %v, and %v in the trim", windFrom, own.Part, own.Item, own.Load, of.Load)
			}
		}
		if len(r.Imbalance.Ways) > 0 || r.Imbalance.Force.Norm() > 1e-6*weight || r.Imbalance.Moment.Norm() > 1e-6*weight*length {
			t.Errorf("wind from %s: out of balance: %+v", windFrom, r.Imbalance)
		}
		for name, pair := range map[string][2]float64{
			"righting moment": {r.Trim.RightingMoment, v.Trim.RightingMoment}, "side force carried": {r.Trim.CarriedForce, v.Trim.CarriedForce},
			"apparent wind": {float64(r.Trim.ApparentWindAngle), float64(v.Trim.ApparentWindAngle)}, "drag": {r.Trim.Drag.Water(), v.Trim.Drag.Water()},
		} {
			if math.Abs(pair[0]-pair[1]) > 1e-7*math.Abs(pair[1]) || pair[1] == 0 {
				t.Errorf("wind from %s: %s %v, and %v in the trim", windFrom, name, pair[0], pair[1])
			}
		}
		if r.Trim.Answer != trim.Stated || r.Trim.Mode != v.Trim.Mode || r.Trim.Set != v.Trim.Set || len(r.Notes) > 0 {
			t.Errorf("answer %q, mode %q, set %q, notes %v", r.Trim.Answer, r.Trim.Mode, r.Trim.Set, r.Notes)
		}
	}
}

// A boat that is let go moves the way that anyone would expect.
func TestHeldOutOfBalance(t *testing.T) {
	for _, windFrom := range []string{"port", "starboard"} {
		v := best(t, windFrom, sorrel)
		for words, change := range map[string]func(*HeldState){
			"slows":             func(s *HeldState) { s.Speed *= 1.2 },
			"gains speed":       func(s *HeldState) { s.Speed *= 0.9 },
			"rises":             func(s *HeldState) { set(t, s, "leeward main flap", "12 deg") },
			"sinks":             func(s *HeldState) { set(t, s, "leeward main flap", "-4 deg") },
			"bow up":            func(s *HeldState) { set(t, s, "rudder rake", "-3 deg") },
			"bow down":          func(s *HeldState) { set(t, s, "rudder rake", "3 deg") },
			"heels to leeward":  func(s *HeldState) { s.WindSpeed *= 1.3 },
			"heels to windward": func(s *HeldState) { s.WindSpeed *= 0.7 },
		} {
			s := v.Held
			s.Settings = slices.Clone(s.Settings)
			change(&s)
			m := hold(t, s, sorrel).Imbalance
			if !slices.ContainsFunc(m.Ways, func(w Way) bool { return w.Words == words }) {
				t.Errorf("wind from %s: she does not say that she %s: %+v", windFrom, words, m)
			}
		}
	}
}

// set sets a control of a state.
func set(t *testing.T, s *HeldState, name, value string) {
	t.Helper()
	side := boat.Port
	if s.WindFrom == "starboard" {
		side = boat.Starboard
	}
	for i := range s.Settings {
		if trim.ByWind(s.Settings[i].Name, side) == name {
			s.Settings[i].Value = value
			return
		}
	}
	t.Fatalf("there is no %q among %v", name, s.Settings)
}

// put sets the figure of a handle in a state.
func put(t *testing.T, s *HeldState, k *Handle, value float64) {
	t.Helper()
	switch k.Name {
	case "heel":
		s.Heel = si.Angle(value)
	case "pitch":
		s.Pitch = si.Angle(value)
	case "leeway":
		s.Leeway = si.Angle(value)
	case "ride height":
		s.Ride = &value
	case "speed":
		s.Speed = si.Speed(value)
	case "true wind angle":
		s.WindAngle = si.Angle(value)
	default:
		unit := map[string]string{"rad": " rad", "m": " m", "1": ""}[k.Unit]
		set(t, s, k.Name, strconv.FormatFloat(value, 'g', -1, 64)+unit)
	}
}

// What is taken hold of moves with its value as its rate says, and about its pivot.
func TestHandlesMoveAsTheySay(t *testing.T) {
	if testing.Short() {
		t.Skip("trims of four boats take long: left out in short runs")
	}
	for _, file := range []string{sorrel, tansy, "../examples/keelboat/guelder.yaml", sloe} {
		s := HeldState{Stance: Stance{Heel: 2 * si.Degree, Pitch: 1 * si.Degree, Leeway: 1 * si.Degree}, Speed: 10, WindSpeed: 8, WindAngle: 1}
		first := hold(t, s, file)
		s = first.Held
		seen := 0
		for i := range first.Handles {
			k := &first.Handles[i]
			if k.Place == nil {
				continue
			}
			seen++
			by := 1e-4
			if k.Value+by > k.Upper {
				by = -by
			}
			moved := s
			moved.Settings = slices.Clone(s.Settings)
			put(t, &moved, k, k.Value+by)
			then := hold(t, moved, file).Handles[i]
			step := then.Place.At.From(k.Place.At).Minus(k.Place.Rate.Times(by)).Norm()
			if math.Abs(then.Value-k.Value-by) > 1e-9 || step > 2e-6 {
				t.Errorf("%s: %s moves %v, its rate says %v (off by %.1e m)", first.Trim.Boat, k.Name, then.Place.At.From(k.Place.At), k.Place.Rate.Times(by), step)
			}
			if k.Place.Axis != (frame.Vec[frame.Track]{}) {
				if off := k.Place.Axis.Cross(k.Place.At.From(k.Place.Pivot)).Minus(k.Place.Rate).Norm(); off > 1e-6 {
					t.Errorf("%s: %s does not turn about its pivot: off by %v m", first.Trim.Boat, k.Name, off)
				}
			}
		}
		if seen < 6 {
			t.Errorf("%s: %d handles have a place", first.Trim.Boat, seen)
		}
	}
}

// While a control is dragged the search from the last answer ends where one from the
// usual starts does.
func TestNearAnswersAreTheAnswers(t *testing.T) {
	if testing.Short() {
		t.Skip("searches from all starts take long: left out in short runs")
	}
	var shelf Shelf
	q := func(near bool, value string) *ViewResult {
		t.Helper()
		s := Sailing{WindSpeeds: []si.Speed{17 * si.Knot}, Conditions: Standard()}
		if value != "" {
			s.Holds = []Setting{{"leeward main cant", value}}
		}
		r, err := Run(t.Context(), Request{Boats: []string{sorrel}, Question: &View{Sailing: s, Near: near}, Open: open, Shelf: &shelf})
		if err != nil {
			t.Fatal(err)
		}
		return r.Results.([]*ViewResult)[0]
	}
	if v := q(true, ""); v.Searched != Everywhere {
		t.Errorf("with nothing to start from it was searched %s", v.Searched)
	}
	for _, value := range []string{"14 deg", "13.5 deg", "12 deg"} {
		near := q(true, value)
		if near.Searched != NearBy {
			t.Errorf("%s: searched %s", value, near.Searched)
		}
		usual := best17(t, value)
		if gap := math.Abs(float64(near.Trim.VMG-usual.Trim.VMG)) / float64(usual.Trim.VMG); near.Trim.Answer != trim.Found || gap > 5e-4 {
			t.Errorf("%s: %v from the last answer, %v from the usual starts", value, near.Trim.VMG, usual.Trim.VMG)
		}
	}
}

func best17(t *testing.T, cant string) *ViewResult {
	t.Helper()
	s := Sailing{WindSpeeds: []si.Speed{17 * si.Knot}, Conditions: Standard(), Holds: []Setting{{"leeward main cant", cant}}}
	return ask(t, &View{Sailing: s}, sorrel).Results.([]*ViewResult)[0]
}

// What cannot be held is refused in words.
func TestHeldRefuses(t *testing.T) {
	s := HeldState{Speed: 10, WindSpeed: 8, WindAngle: 1}
	with := func(change func(*HeldState)) *Held {
		own := s
		change(&own)
		return &Held{States: []HeldState{own}, Conditions: Standard()}
	}
	refused(t, "one for each boat", &Held{Conditions: Standard()}, sorrel)
	refused(t, "true wind angle", with(func(s *HeldState) { s.WindAngle = -1 }), sorrel)
	refused(t, "speed", with(func(s *HeldState) { s.Speed = 0 }), sorrel)
	refused(t, "set of sails", with(func(s *HeldState) { s.Set = "kites" }), sorrel)
	refused(t, "no control", with(func(s *HeldState) { s.Settings = []Setting{{"cannt", "1 deg"}} }), sorrel)
}

func BenchmarkHeld(b *testing.B) {
	var shelf Shelf
	r := Request{Boats: []string{sorrel}, Question: &View{Sailing: Sailing{WindSpeeds: []si.Speed{17 * si.Knot}, Conditions: Standard()}}, Open: open, Shelf: &shelf}
	first, err := Run(b.Context(), r)
	if err != nil {
		b.Fatal(err)
	}
	r.Question = &Held{States: []HeldState{first.Results.([]*ViewResult)[0].Held}, Conditions: Standard()}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Run(b.Context(), r); err != nil {
			b.Fatal(err)
		}
	}
}

// A drag of the cant, one answer a step of 0.2 degrees, there and back.
func BenchmarkNear(b *testing.B) {
	var shelf Shelf
	at := 0
	for b.Loop() {
		away := at % 40
		if away > 20 {
			away = 40 - away
		}
		s := Sailing{WindSpeeds: []si.Speed{17 * si.Knot}, Conditions: Standard(), Holds: []Setting{{"leeward main cant", strconv.FormatFloat(12+0.2*float64(away), 'g', -1, 64) + " deg"}}}
		if _, err := Run(b.Context(), Request{Boats: []string{sorrel}, Question: &View{Sailing: s, Near: true}, Open: open, Shelf: &shelf}); err != nil {
			b.Fatal(err)
		}
		at++
	}
}
