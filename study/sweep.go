package study

import (
	"context"
	"errors"
	"math"
	"strings"
	"sync"

	"foilwright/balance"
	"foilwright/foil"
	"foilwright/frame"
	"foilwright/si"
	"foilwright/trim"
)

// Sweep asks for the loads in the water over a range of one variable, with the
// rest of the state held.
type Sweep struct {
	Tow
	Over       string   `json:"sweep"`                   // a variable and its values: "cant 0 to 25 deg by 1"
	LineHeight *float64 `json:"line_height_m,omitempty"` // at which the line of action is told, above the undisturbed water; nil: the mean height of the load-weighted centre
}

// Verb names the question.
func (*Sweep) Verb() string { return "sweep" }

// SweepResult is a boat towed over a range of one variable.
type SweepResult struct {
	Boat       string       `json:"boat"`
	Mode       string       `json:"mode"`
	WindFrom   string       `json:"wind_from"`
	Only       string       `json:"only,omitempty"`
	Variable   string       `json:"variable"` // speed, heel, pitch, leeway, ride height, or a control by the wind
	Unit       string       `json:"unit"`     // of its values: m/s, rad, m or 1
	Weight     float64      `json:"weight_N"`
	Foil       string       `json:"foil"` // that centre and line are told of: it carries most over the sweep; empty where nothing does
	LineHeight float64      `json:"line_height_m"`
	Points     []SweepPoint `json:"points"`
}

// SweepPoint is one state of a sweep. Heel, pitch and leeway keep the signs of
// the track frame. A figure that the state does not have is nil.
type SweepPoint struct {
	Value      float64  `json:"value"` // heel and leeway positive to leeward, pitch bow down
	Speed      si.Speed `json:"speed_mps"`
	Heel       si.Angle `json:"heel_rad"`
	Pitch      si.Angle `json:"pitch_rad"`
	Leeway     si.Angle `json:"leeway_rad"`
	RideHeight float64  `json:"ride_height_m"`

	Forces      *SweepForces              `json:"forces"`
	Centre      *frame.Point[frame.Track] `json:"load_weighted_m"`
	LineLeeward *float64                  `json:"line_leeward_m"` // of the line of action at the line's height; nil where it is nearly level
	WettedArea  float64                   `json:"wetted_area_m2"`

	LargestLift   *float64     `json:"largest_lift_margin"` // the least of all strips, and on which piece
	LargestLiftAt string       `json:"largest_lift_at"`
	Cavitation    *float64     `json:"cavitation_margin"`
	CavitationAt  string       `json:"cavitation_at"`
	Ventilation   *si.Angle    `json:"ventilation_margin_rad"`
	VentilationAt string       `json:"ventilation_at"`
	Hinges        []trim.Hinge `json:"hinge_moments"`

	Notes []string `json:"notes"` // what is out of the water, or why there are no forces
}

// SweepForces are the water's on all that is towed.
type SweepForces struct {
	Up       float64             `json:"up_N"` // without buoyancy
	Windward float64             `json:"windward_N"`
	Drag     float64             `json:"drag_in_water_N"`
	ByCause  balance.DragByCause `json:"drag_N"`
	Buoyancy float64             `json:"buoyancy_N"`
}

func (q *Sweep) ask(ctx context.Context, d *desk) (any, Verdict, error) {
	t, err := q.tank(d)
	if err != nil {
		return nil, "", err
	}
	over, err := q.variable(t.boat)
	if err != nil {
		return nil, "", err
	}
	r := &SweepResult{
		Boat: t.boat.Name, WindFrom: q.WindFrom, Variable: over.name, Unit: over.unit(), Weight: t.boat.Weight(),
		Points: make([]SweepPoint, len(over.values)),
	}
	states := make([]*TowResult, len(over.values))
	err = t.each(ctx, len(states), d, func(i int, w *foil.Workspace) error {
		at := over.put(&q.Tow, i)
		towed, err := t.tow(&at, w)
		var none *unsolved
		switch {
		case errors.As(err, &none):
			r.Points[i] = SweepPoint{Hinges: []trim.Hinge{}, Notes: []string{none.Error()}}
		case err != nil:
			return err
		default:
			states[i], r.Points[i] = towed, pointOf(towed)
			// One note for all values that a mode does not allow.
			for k, note := range r.Points[i].Notes {
				if own := notAllowed(towed.Mode, over.name); strings.HasPrefix(note, own+" to ") {
					r.Points[i].Notes[k] = own + " so"
				}
			}
		}
		r.Points[i].Value = over.values[i]
		return nil
	})
	if err != nil {
		return nil, "", err
	}
	for _, s := range states {
		if s != nil {
			r.Mode, r.Only = s.Mode, s.Only
		}
	}
	r.locate(states, q.LineHeight)
	r.note(states)
	return r, Answered, nil
}

// each works off a number of states over the desk's goroutines, each with a
// workspace of its own: no state sees another. The error is the first in order.
func (t *tank) each(ctx context.Context, n int, d *desk, one func(i int, w *foil.Workspace) error) error {
	errs, panics := make([]error, n), make([]any, n)
	next := make(chan int)
	count := d.counter(n)
	var group sync.WaitGroup
	for range min(max(1, d.request.Workers), n) {
		group.Go(func() {
			w := t.workspace()
			for i := range next {
				func() {
					defer func() { panics[i] = recover() }()
					if errs[i] = ctx.Err(); errs[i] == nil {
						errs[i] = one(i, w)
					}
				}()
				if count != nil {
					count(i)
				}
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	group.Wait()
	for i := range n {
		if panics[i] != nil {
			panic(panics[i])
		}
		if errs[i] != nil {
			return errs[i]
		}
	}
	return nil
}

// pointOf takes a sweep's figures out of one state.
func pointOf(r *TowResult) SweepPoint {
	p := SweepPoint{
		Speed: r.Speed, Heel: r.Heel, Pitch: r.Pitch, Leeway: r.Leeway, RideHeight: r.RideHeight,
		WettedArea: r.WettedArea, Hinges: r.Hinges, Notes: append([]string{}, r.Notes...),
	}
	if len(r.Loads) == 0 {
		return p
	}
	f := r.Total.Water.Force
	p.Forces = &SweepForces{
		Up: f.Z, Windward: balance.Leeward(r.side) * f.Y, Drag: r.Drag.Water(), ByCause: r.Drag, Buoyancy: r.Total.Buoyancy.Force.Z,
	}
	called := func(m *trim.Margin) string { return trim.ByWind(m.Part, r.side) + " " + m.Piece }
	if m := trim.LeastLiftMargin(r.Margins); m != nil {
		p.LargestLift, p.LargestLiftAt = &m.LargestLift.Margin, called(m)
	}
	if m := trim.LeastCavitation(r.Margins); m != nil {
		p.Cavitation, p.CavitationAt = &m.Cavitation.Margin, called(m)
	}
	if m := trim.LeastVentilation(r.Margins); m != nil {
		p.Ventilation, p.VentilationAt = &m.Ventilation.Margin, called(m)
	}
	return p
}

// steepest is the least upward part of a line's direction at which it has a
// place at a height.
const steepest = 0.1

// locate finds the foil that carries most over all states, and tells its
// load-weighted centre and its line of action at one height.
func (r *SweepResult) locate(states []*TowResult, height *float64) {
	var names []string
	var carried []float64
	for _, s := range states {
		if s == nil {
			continue
		}
		for i := range s.Centres {
			at := 0
			for at < len(names) && names[at] != s.Centres[i].Foil {
				at++
			}
			if at == len(names) {
				names, carried = append(names, s.Centres[i].Foil), append(carried, 0)
			}
			carried[at] += s.Centres[i].Force.Norm()
		}
	}
	most := 0.0
	for i := range names {
		if carried[i] > most {
			most, r.Foil = carried[i], names[i]
		}
	}
	sum, n := 0.0, 0
	centres := make([]*balance.Centre, len(states))
	for i, s := range states {
		if s == nil {
			continue
		}
		for k := range s.Centres {
			if c := &s.Centres[k]; c.Foil == r.Foil {
				centres[i], r.Points[i].Centre = c, c.Loaded
				if c.Loaded != nil {
					sum += c.Loaded.Z
					n++
				}
			}
		}
	}
	if n > 0 {
		r.LineHeight = sum / float64(n)
	}
	if height != nil {
		r.LineHeight = *height
	}
	for i, c := range centres {
		if c == nil || c.Line == nil || math.Abs(c.Line.Direction.Z) < steepest {
			continue
		}
		y := c.Line.Point.Y + (r.LineHeight-c.Line.Point.Z)*c.Line.Direction.Y/c.Line.Direction.Z
		leeward := -balance.Leeward(states[i].side) * y
		r.Points[i].LineLeeward = &leeward
	}
}

// note tells in each state what is out of the water: everything, a foil that is
// in it in another state, or the tip of one that is in.
func (r *SweepResult) note(states []*TowResult) {
	wet := map[string]struct{}{}
	for _, s := range states {
		if s != nil {
			for i := range s.Centres {
				wet[s.Centres[i].Foil] = struct{}{}
			}
		}
	}
	for i, s := range states {
		p := &r.Points[i]
		if s == nil {
			continue
		}
		if p.Forces == nil {
			p.Notes = append(p.Notes, "nothing is in the water")
			continue
		}
		for k := range s.foils {
			name := s.foils[k]
			if _, elsewhere := wet[name]; elsewhere && !down(s, name) {
				p.Notes = append(p.Notes, trim.ByWind(name, s.side)+" is out of the water")
			}
		}
		for k := range s.Margins {
			if m := &s.Margins[k]; m.Tip != nil && m.Tip.Depth < 0 {
				p.Notes = append(p.Notes, "the tip of "+trim.ByWind(m.Part, s.side)+" "+m.Piece+" is out")
			}
		}
	}
}

// down tells whether a foil is in the water.
func down(s *TowResult, name string) bool {
	for i := range s.Centres {
		if s.Centres[i].Foil == name {
			return true
		}
	}
	return false
}
