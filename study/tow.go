package study

import (
	"context"
	"fmt"
	"math"

	"foilwright/balance"
	"foilwright/boat"
	"foilwright/foil"
	"foilwright/quantity"
	"foilwright/si"
	"foilwright/trim"
)

// Tow asks for all loads in the water in a fixed state, as in a towing tank.
type Tow struct {
	Stance
	Speed si.Speed `json:"speed_mps"`
	Only  string   `json:"only,omitempty"` // tow this part alone, the others out of the water
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
	Bending     []Bending           `json:"root_bending"`
	NotComputed []string            `json:"not_computed"`
}

// Span is the loading along one wet piece, outward.
type Span struct {
	Part        string  `json:"part"`
	Piece       string  `json:"piece"`
	LargestLift float64 `json:"largest_lift_margin"` // least over its strips of largest usable lift coefficient less lift
	// Cavitation is the least margin over its strips, cavitation number less
	// pressure peak, and First the speed at which the first of them would cavitate
	// with its present force. Nil where the section's pressures are not known.
	Cavitation *float64  `json:"cavitation_margin"`
	First      *si.Speed `json:"first_cavitation_mps"`
	Strips     []Strip   `json:"strips"`
}

// Strip is one strip of a span.
type Strip struct {
	Share       float64  `json:"share"` // of the piece's path
	Depth       float64  `json:"depth_m"`
	Chord       float64  `json:"chord_m"`
	Circulation float64  `json:"circulation_m2ps"` // positive for a force towards the upper side
	Lift        float64  `json:"lift_coefficient"`
	Largest     float64  `json:"largest_lift_coefficient"` // to the side that it lifts to
	Cavitation  *float64 `json:"cavitation_margin"`        // nil where the section's pressures are not known
}

// Bending is the moment of a foil's water loads about its root.
type Bending struct {
	Part   string  `json:"part"`
	Moment float64 `json:"root_bending_moment_Nm"`
}

// notComputed lists the margins that are left out.
func notComputed(all []Span) []string {
	list := []string{"ventilation margin: not computed yet"}
	for i := range all {
		if all[i].Cavitation == nil {
			list = append(list, fmt.Sprintf("cavitation margin of %s %s: the pressures on its section are not known", all[i].Part, all[i].Piece))
		}
	}
	return list
}

func (q *Tow) ask(_ context.Context, d *desk) (any, Verdict, error) {
	b, err := d.one(q.Verb())
	if err != nil {
		return nil, "", err
	}
	if err := sane("speed", q.Speed.MetresPerSecond(), quantity.Speed); err != nil {
		return nil, "", fmt.Errorf("%s: %w", b.Name, err)
	}
	st, err := q.of(b)
	if err != nil {
		return nil, "", err
	}
	st.state.Speed = q.Speed
	only, weight := trim.BySide(q.Only, st.side), b.Weight()
	if b, err = alone(b, only, st.side); err != nil {
		return nil, "", err
	}
	water, air, _, err := q.fluids()
	if err != nil {
		return nil, "", err
	}
	var w foil.Workspace
	items, err := foil.Loads(b, st.state, water, &w, nil)
	if err != nil {
		return nil, "", fmt.Errorf("%s: %w", b.Name, err)
	}
	strips := foil.Strips(b, st.state, water, &w)
	foil.Cavitate(st.state, water, air.Pressure, &w, strips)
	if len(items) == 0 {
		return nil, "", fmt.Errorf("%s: nothing of it is in the water in this attitude\nhint: lower the ride height, or cant a foil down", b.Name)
	}
	return towed(b, st, q, only, weight, items, strips, water.Density, &w), Answered, nil
}

// towed tells what was found.
func towed(b *boat.Boat, st Standing, q *Tow, only string, weight float64, items []boat.Item, strips []foil.Strip, density float64, w *foil.Workspace) *TowResult {
	r := &TowResult{
		Standing: st, Speed: q.Speed, Only: only, Weight: weight, Total: balance.SumsOf(st.state, items), Centres: balance.Centres(b, st.state, strips, items),
		Spans: spans(b, strips), Bending: []Bending{},
	}
	r.Drag, r.NotComputed = r.Total.Drag, notComputed(r.Spans)
	r.NearField = w.Totals().NearField * density * q.Speed.MetresPerSecond() * q.Speed.MetresPerSecond()
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
	return r
}

// spans gathers strips by piece.
func spans(b *boat.Boat, strips []foil.Strip) []Span {
	all := []Span{}
	last := [2]int{-1, -1}
	for i := range strips {
		s := &strips[i]
		if at := [2]int{s.Foil, s.Piece}; at != last {
			last = at
			f := &b.Foils[s.Foil]
			all = append(all, Span{Part: f.Name, Piece: f.Pieces[s.Piece].Name, LargestLift: math.Inf(1)})
		}
		span := &all[len(all)-1]
		largest := s.Largest
		margin := largest - s.Lift
		if s.Lift < 0 {
			largest = b.Foils[s.Foil].Pieces[s.Piece].Section.LargestDownLift
			margin = s.Lift - largest
		}
		span.LargestLift = math.Min(span.LargestLift, margin)
		row := Strip{Share: s.Share, Depth: s.Depth, Chord: s.Chord, Circulation: s.Circulation, Lift: s.Lift, Largest: largest}
		if s.Cavitation.Known {
			row.Cavitation = &s.Cavitation.Margin
			span.cavitate(s.Cavitation)
		}
		span.Strips = append(span.Strips, row)
	}
	return all
}

// cavitate takes a strip into a span's margins.
func (span *Span) cavitate(c foil.Cavitation) {
	if span.Cavitation == nil || c.Margin < *span.Cavitation {
		span.Cavitation = &c.Margin
	}
	if first := c.First; !math.IsInf(float64(first), 0) && (span.First == nil || first < *span.First) {
		span.First = &first
	}
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
