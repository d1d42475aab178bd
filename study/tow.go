package study

import (
	"context"
	"fmt"

	"foilwright/balance"
	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/foil"
	"foilwright/frame"
	"foilwright/quantity"
	"foilwright/si"
	"foilwright/trim"
	"foilwright/wave"
)

// Tow asks for all loads in the water in a fixed state, as in a towing tank.
type Tow struct {
	Stance
	Speed si.Speed `json:"speed_mps"`
	Only  string   `json:"only,omitempty"` // tow this part alone, the others out of the water
	Lattice
	Conditions
}

// Verb names the question.
func (*Tow) Verb() string { return "tow" }

// TowResult is what the water does to a boat that is held in one state.
type TowResult struct {
	Standing
	Speed       si.Speed            `json:"speed_mps"`
	Only        string              `json:"only,omitempty"`
	Weight      float64             `json:"weight_N"` // of the whole boat, for scale
	Loads       []trim.Load         `json:"loads"`
	Total       balance.Sums        `json:"total"` // of the water's loads and buoyancy
	Drag        balance.DragByCause `json:"drag_N"`
	NearField   float64             `json:"near_field_induced_drag_N"` // beside the far wake's, which counts: their gap is the lattice's error
	WettedArea  float64             `json:"wetted_area_m2"`
	Centres     []balance.Centre    `json:"centres"`
	Spans       []Span              `json:"spans"`
	Margins     []trim.Margin       `json:"margins"`
	Hinges      []trim.Hinge        `json:"hinge_moments"`
	Bending     []Bending           `json:"root_bending"`
	NotComputed []string            `json:"not_computed"`

	foils []string // every foil that is towed, in the water or not
}

// Span is the loading along one wet piece, outward.
type Span struct {
	Part   string  `json:"part"`
	Piece  string  `json:"piece"`
	Strips []Strip `json:"strips"`
}

// Strip is one strip of a span.
type Strip struct {
	Share       float64                  `json:"share"`   // of the piece's path
	Place       frame.Point[frame.Track] `json:"place_m"` // on the quarter chord
	Force       frame.Vec[frame.Track]   `json:"force_N"` // of the lattice
	Depth       float64                  `json:"depth_m"`
	Chord       float64                  `json:"chord_m"`
	Circulation float64                  `json:"circulation_m2ps"` // positive for a force towards the upper side
	Lift        float64                  `json:"lift_coefficient"`
	Largest     float64                  `json:"largest_lift_coefficient"` // to the side that it lifts to
	Cavitation  *float64                 `json:"cavitation_margin"`        // nil where the section's pressures are not known
}

// Bending is the moment of a foil's water loads about its root.
type Bending struct {
	Part   string  `json:"part"`
	Moment float64 `json:"root_bending_moment_Nm"`
}

// notComputed lists the margins that cannot be told.
func notComputed(all []trim.Margin) []string {
	list := []string{}
	for i := range all {
		if m := &all[i]; m.LargestLift != nil && m.Cavitation == nil {
			list = append(list, fmt.Sprintf("cavitation margin of %s %s: the pressures on its section are not known", m.Part, m.Piece))
		}
	}
	return list
}

func (q *Tow) ask(_ context.Context, d *desk) (any, Verdict, error) {
	t, err := q.tank(d)
	if err != nil {
		return nil, "", err
	}
	r, err := t.tow(q, t.workspace())
	if err != nil {
		return nil, "", err
	}
	if len(r.Loads) == 0 {
		return nil, "", t.dry()
	}
	return r, Answered, nil
}

// dry says that nothing of the boat is in the water.
func (t *tank) dry() error {
	return fmt.Errorf("%s: nothing of it is in the water in this attitude\nhint: lower the ride height, or cant a foil down", t.boat.Name)
}

// tank is what a boat is towed in.
type tank struct {
	boat    *boat.Boat
	water   fluid.Water
	air     fluid.Air
	options foil.Options
	kernel  *wave.Kernel // shared by all of the tank's workspaces
}

// tank reads what of a question does not depend on the state.
func (q *Tow) tank(d *desk) (*tank, error) {
	b, err := d.one(q.Verb())
	if err != nil {
		return nil, err
	}
	t := &tank{boat: b}
	if t.water, t.air, _, err = q.fluids(); err != nil {
		return nil, err
	}
	if t.options, err = q.options(); err != nil {
		return nil, err
	}
	if t.options.Waves == foil.WaveWash {
		t.kernel = wave.NewKernel()
	}
	return t, nil
}

func (t *tank) workspace() *foil.Workspace {
	return &foil.Workspace{Options: t.options, Kernel: t.kernel}
}

// tow tows the tank's boat in one state. Where nothing of her is wet there are
// no loads, which is no error.
func (t *tank) tow(q *Tow, w *foil.Workspace) (*TowResult, error) {
	if err := sane("speed", q.Speed.MetresPerSecond(), quantity.Speed); err != nil {
		return nil, fmt.Errorf("%s: %w", t.boat.Name, err)
	}
	st, err := q.of(t.boat)
	if err != nil {
		return nil, err
	}
	st.state.Speed = q.Speed
	only := trim.BySide(q.Only, st.side)
	b, err := alone(t.boat, only, st.side)
	if err != nil {
		return nil, err
	}
	items, err := foil.Loads(b, st.state, t.water, w, nil)
	if err != nil {
		return nil, &unsolved{fmt.Errorf("%s: %w", b.Name, err)}
	}
	strips := foil.Strips(b, st.state, t.water, w)
	foil.Cavitate(st.state, t.water, t.air.Pressure, w, strips)
	r := &TowResult{
		Standing: st, Speed: q.Speed, Only: only, Weight: t.boat.Weight(), Loads: []trim.Load{}, Total: balance.SumsOf(st.state, items),
		Centres: balance.Centres(b, st.state, strips, items), Spans: spans(b, strips), Bending: []Bending{},
		Margins: trim.MarginsOf(b, st.state, strips, foil.Piercings(b, st.state, w)), Hinges: trim.HingesOf(b, st.state, t.water, w),
	}
	for i := range b.Foils {
		r.foils = append(r.foils, b.Foils[i].Name)
	}
	r.Drag, r.NotComputed = r.Total.Drag, notComputed(r.Margins)
	near, err := w.NearField()
	if err != nil {
		return nil, &unsolved{fmt.Errorf("%s: %w", b.Name, err)}
	}
	r.NearField = near * t.water.Density * q.Speed.MetresPerSecond() * q.Speed.MetresPerSecond()
	for i := range items {
		it := &items[i]
		r.Loads = append(r.Loads, trim.Load{Part: it.Part, Piece: it.Piece, Item: it.Cause.String(), Load: it.Load})
	}
	for _, o := range foil.Outlines(b, st.state) {
		r.WettedArea += o.WetSurface
	}
	for _, i := range foil.Down(b, st.state) {
		r.Bending = append(r.Bending, Bending{Part: b.Foils[i].Name, Moment: foil.RootBending(b, st.state, i, items)})
	}
	return r, nil
}

// unsolved is a state whose lattice cannot be solved: two surfaces coincide.
type unsolved struct{ error }

// spans gathers strips by piece.
func spans(b *boat.Boat, strips []foil.Strip) []Span {
	all := []Span{}
	last := [2]int{-1, -1}
	for i := range strips {
		s := &strips[i]
		if at := [2]int{s.Foil, s.Piece}; at != last {
			last = at
			f := &b.Foils[s.Foil]
			all = append(all, Span{Part: f.Name, Piece: f.Pieces[s.Piece].Name})
		}
		row := Strip{Share: s.Share, Place: s.Place, Force: s.Force, Depth: s.Depth, Chord: s.Chord, Circulation: s.Circulation, Lift: s.Lift, Largest: s.Largest}
		if s.Lift < 0 {
			row.Largest = b.Foils[s.Foil].Pieces[s.Piece].Section.LargestDownLift
		}
		if s.Cavitation.Known {
			row.Cavitation = &s.Cavitation.Margin
		}
		span := &all[len(all)-1]
		span.Strips = append(span.Strips, row)
	}
	return all
}

// alone returns the boat with one part in the water and the others left ashore:
// a foil by its own name, both of a pair by what they are called, or a body.
func alone(b *boat.Boat, only string, windFrom boat.Side) (*boat.Boat, error) {
	if only == "" {
		return b, nil
	}
	c := *b
	c.Foils, c.Bodies = nil, nil
	moved := make([]int, len(b.Foils))
	var names []string
	for i := range b.Foils {
		f := &b.Foils[i]
		moved[i] = -1
		if f.Name == only || f.Kind == only {
			moved[i] = len(c.Foils)
			c.Foils = append(c.Foils, *f)
		}
		names = append(names, trim.ByWind(f.Name, windFrom))
	}
	for i := range b.Bodies {
		d := b.Bodies[i]
		switch {
		case d.Foil >= 0 && moved[d.Foil] >= 0:
			d.Foil = moved[d.Foil]
			c.Bodies = append(c.Bodies, d)
		case d.Name == only && d.Foil >= 0:
			// A body by itself keeps its place: it hangs on a foil that is not towed.
			return nil, fmt.Errorf("%s: %s hangs on the %s, and is towed with it\nhint: tow %q", b.Name, d.Name, b.Foils[d.Foil].Name, trim.ByWind(b.Foils[d.Foil].Name, windFrom))
		case d.Name == only:
			c.Bodies = append(c.Bodies, d)
		}
	}
	if len(c.Foils)+len(c.Bodies) == 0 {
		return nil, fmt.Errorf("%s: there is no part %q in the water\nhint: %s", b.Name, only, suggestion(only, names))
	}
	return &c, nil
}
