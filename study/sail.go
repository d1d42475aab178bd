package study

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"sync/atomic"

	"foilwright/balance"
	"foilwright/boat"
	"foilwright/compare"
	"foilwright/foil"
	"foilwright/frame"
	"foilwright/quantity"
	"foilwright/si"
	"foilwright/trim"
)

// Sailing is the wind and what is asked of boats that sail in it. Every wind
// speed is asked with every wind angle.
type Sailing struct {
	WindSpeeds []si.Speed `json:"true_wind_speeds_mps"`
	WindAngles []si.Angle `json:"true_wind_angles_rad,omitempty"` // off the track; empty for best progress
	Aim        trim.Aim   `json:"-"`                              // where WindAngles is empty
	Aimed      string     `json:"aim"`                            // filled in: the aim in words
	WindFrom   string     `json:"wind_from"`                      // port or starboard; empty is port
	Mode       string     `json:"mode,omitempty"`                 // empty: the best of all
	Set        string     `json:"set,omitempty"`                  // of sails; empty: the best of all
	Holds      []Setting  `json:"holds,omitempty"`
	Relaxed    []string   `json:"relaxed,omitempty"`      // names of limits that do not hold
	CarriedAt  float64    `json:"carried_at_m,omitempty"` // 0: see trim and compare
	Lattice
	Waves
	Conditions
}

// Trim asks for the best trim of one boat.
type Trim struct {
	Sailing
	About *Across `json:"about_m,omitempty"` // the point of the budget; nil: on the line of action
	Per   bool    `json:"per,omitempty"`     // also what each figure of the file is worth

	// Afloat keeps the hulls' lowest point in the water, whatever the limits say.
	Afloat bool `json:"afloat,omitempty"`
}

// Across is a point in the transverse plane of the track frame.
type Across struct {
	Y float64 `json:"y"` // to port of the track, m
	Z float64 `json:"z"` // above the undisturbed water, m
}

// Compare asks for boats side by side, each at her best trim.
type Compare struct {
	Sailing
	Base string `json:"base,omitempty"` // name or file of the boat that changes are taken from; empty: the first
}

// Verb names the question.
func (*Trim) Verb() string { return "trim" }

// Verb names the question.
func (*Compare) Verb() string { return "compare" }

// Trims returns how many winds and angles are asked about.
func (q *Sailing) Trims() int { return len(q.WindSpeeds) * max(1, len(q.WindAngles)) }

// requests returns one request for each wind speed and angle.
func (q *Sailing) requests() ([]trim.Request, error) {
	water, air, profile, err := q.fluids()
	if err != nil {
		return nil, err
	}
	side, err := sideOf(q.WindFrom)
	if err != nil {
		return nil, err
	}
	q.WindFrom = side.String()
	lattice, err := q.options()
	if err != nil {
		return nil, err
	}
	sea, err := q.sea()
	if err != nil {
		return nil, err
	}
	base := trim.Request{
		Sea:  sea,
		Foil: lattice, Profile: profile, Water: water, Air: air, Aim: q.Aim, WindFrom: side, Mode: q.Mode, Set: q.Set,
		CarriedAt: q.CarriedAt,
	}
	if len(q.WindAngles) > 0 {
		base.Aim = trim.AtAngle
	}
	q.Aimed = base.Aim.String()
	var all []trim.Request
	for _, speed := range q.WindSpeeds {
		base.WindSpeed = speed
		if base.Aim != trim.AtAngle {
			all = append(all, base)
		}
		for _, angle := range q.WindAngles {
			base.WindAngle = angle
			all = append(all, base)
		}
	}
	if len(all) == 0 {
		return nil, fmt.Errorf("no wind is given\nhint: say the true wind, such as 17 kn")
	}
	return all, nil
}

// forBoat puts a request to a boat: names are looked up, values read.
func (q *Sailing) forBoat(b *boat.Boat, r trim.Request) (trim.Request, error) {
	var modes, sets []string
	for i := range b.Modes {
		modes = append(modes, b.Modes[i].Name)
	}
	for i := range b.Sets {
		sets = append(sets, b.Sets[i].Name)
	}
	if err := named(b, "mode", q.Mode, modes); err != nil {
		return r, err
	}
	if err := named(b, "set of sails", q.Set, sets); err != nil {
		return r, err
	}
	r.Relaxed = nil
	for _, name := range q.Relaxed {
		known, err := limitOf(b, name, r.WindFrom)
		if err != nil {
			return r, err
		}
		r.Relaxed = append(r.Relaxed, known)
	}
	r.Holds = nil
	for _, s := range q.Holds {
		h, err := holdOf(b, s, r.WindFrom)
		if err != nil {
			return r, err
		}
		r.Holds = append(r.Holds, h)
	}
	return r, nil
}

func named(b *boat.Boat, what, name string, names []string) error {
	if name == "" {
		return nil
	}
	for _, n := range names {
		if n == name {
			return nil
		}
	}
	return fmt.Errorf("%s: there is no %s %q\nhint: %s", b.Name, what, name, suggestion(name, names))
}

// limitOf returns the name, as package trim has it, of a limit or of a control
// whose range is one.
func limitOf(b *boat.Boat, name string, windFrom boat.Side) (string, error) {
	var names []string
	add := func(limits []boat.Limit) {
		for _, l := range limits {
			if !slices.Contains(names, l.Name()) {
				names = append(names, l.Name())
			}
		}
	}
	add(b.Limits)
	for i := range b.Modes {
		add(b.Modes[i].Limits)
	}
	names = append(append(names, trim.SeaLimits()...), trim.TheSea)
	for i := range b.Sails {
		names = append(names, b.Sails[i].Name+" largest lift", b.Sails[i].Name+" load to leeward")
	}
	for i := range b.Controls {
		if !b.Controls[i].Fixed() {
			names = append(names, trim.ByWind(b.Controls[i].Name, windFrom))
		}
	}
	for _, n := range names {
		if n == name || trim.BySide(n, windFrom) == name {
			return trim.BySide(n, windFrom), nil
		}
	}
	return "", fmt.Errorf("%s: there is no limit %q to relax\nhint: %s", b.Name, name, suggestion(name, names))
}

// holdOf reads what is to be held.
func holdOf(b *boat.Boat, s Setting, windFrom boat.Side) (trim.Hold, error) {
	want := quantity.Angle
	switch s.Name {
	case "speed":
		want = quantity.Speed
	case "ride height":
		want = quantity.Length
	case "heel", "pitch", "leeway":
	default:
		index, value, err := settingOf(b, s, windFrom)
		if err != nil {
			return trim.Hold{}, err
		}
		return trim.Hold{Name: b.Controls[index].Name, Value: value}, nil
	}
	text, sign := pointed(s)
	v, err := quantity.Parse(text, want)
	if err != nil {
		return trim.Hold{}, fmt.Errorf("hold %s: %w", s.Name, err)
	}
	if err := sane(s.Name, v.Likely, want); err != nil {
		return trim.Hold{}, fmt.Errorf("%s: %w", b.Name, err)
	}
	return trim.Hold{Name: s.Name, Value: sign * v.Likely}, nil
}

// pointed cuts the words for the way that an angle of attitude points off its
// value: "5 deg to windward" is minus 5 deg.
func pointed(s Setting) (text string, sign float64) {
	plus, minus := " to leeward", " to windward"
	if s.Name == "pitch" {
		plus, minus = " bow down", " bow up"
	}
	if s.Name != "pitch" && s.Name != "heel" && s.Name != "leeway" {
		return s.Value, 1
	}
	if text, ok := strings.CutSuffix(s.Value, minus); ok {
		return text, -1
	}
	return strings.TrimSuffix(s.Value, plus), 1
}

func (q *Trim) ask(ctx context.Context, d *desk) (any, Verdict, error) {
	b, err := d.one(q.Verb())
	if err != nil {
		return nil, "", err
	}
	requests, err := q.requests()
	if err != nil {
		return nil, "", err
	}
	jobs := make([]trim.Job, len(requests))
	for i, r := range requests {
		if r, err = q.forBoat(b, r); err != nil {
			return nil, "", err
		}
		if q.Afloat {
			r.Branch = trim.Afloat
		}
		jobs[i] = trim.Job{Boat: b, Request: r}
	}
	results, err := d.each(ctx, jobs, d.counter(len(jobs)))
	if err != nil {
		return nil, "", err
	}
	verdict := HonestNo
	for _, r := range results {
		if q.About != nil {
			if err := budgetAbout(b, r, *q.About); err != nil {
				return nil, "", err
			}
		}
		if r.Answer == trim.Found {
			verdict = Answered
			if q.Per {
				if r.Per, err = worths(ctx, d.sheets[0], r); err != nil {
					return nil, "", err
				}
			}
		}
	}
	return results, verdict, nil
}

// budgetAbout takes an answer's budget about another point.
func budgetAbout(b *boat.Boat, r *trim.Result, about Across) error {
	w := balance.Workspace{Foil: foil.Workspace{Options: r.Foil}}
	loads, err := balance.At(b, r.State, r.SetIndex, r.Conditions, &w)
	if err != nil {
		return err
	}
	r.Budget = balance.BudgetAbout(loads.Items, frame.Point[frame.Track]{Y: about.Y, Z: about.Z}, r.Conditions.WindFrom())
	r.RightingMoment, r.HeelingMoment = r.Budget.Righting, r.Budget.Heeling
	return nil
}

func (q *Compare) ask(ctx context.Context, d *desk) (any, Verdict, error) {
	if len(d.boats) < 2 {
		return nil, "", fmt.Errorf("compare takes two boat files or more, and %d is named\nhint: for one boat there is foilwright trim", len(d.boats))
	}
	base, err := d.base(q.Base)
	if err != nil {
		return nil, "", err
	}
	requests, err := q.requests()
	if err != nil {
		return nil, "", err
	}
	results, verdict := []*compare.Result{}, HonestNo
	count := d.counter(len(requests) * len(d.boats))
	for _, r := range requests {
		jobs := make([]trim.Job, len(d.boats))
		for k, b := range d.boats {
			own, err := q.forBoat(b, r)
			if err != nil {
				return nil, "", err
			}
			jobs[k] = trim.Job{Boat: b, Request: own}
		}
		answers, err := d.each(ctx, jobs, count)
		if err != nil {
			return nil, "", err
		}
		c, err := compare.Of(jobs, base, answers)
		if err != nil {
			return nil, "", err
		}
		if c.Fastest >= 0 {
			verdict = Answered
		}
		results = append(results, c)
	}
	return results, verdict, nil
}

// base returns the index of the boat that changes are taken from.
func (d *desk) base(name string) (int, error) {
	if name == "" {
		return 0, nil
	}
	var names []string
	for i, b := range d.boats {
		if b.Name == name || d.request.Boats[i] == name {
			return i, nil
		}
		names = append(names, b.Name)
	}
	return 0, fmt.Errorf("base: none of the boats is %q\nhint: %s", name, suggestion(name, names))
}

// counter returns what counts finished parts, nil where nobody listens.
func (d *desk) counter(of int) func(int) {
	if d.request.Progress == nil || of < 2 {
		return nil
	}
	var done atomic.Int64
	return func(int) { d.request.Progress(int(done.Add(1)), of) }
}
