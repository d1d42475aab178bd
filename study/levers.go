package study

import (
	"context"
	"math"

	"foilwright/balance"
	"foilwright/boat"
	"foilwright/compare"
	"foilwright/foil"
	"foilwright/frame"
)

// Levers asks for the geometry of boats in one attitude, with nothing solved.
type Levers struct {
	Stance
	Base string `json:"base,omitempty"` // name or file of the boat that changes are taken from; empty: the first
}

// Verb names the question.
func (*Levers) Verb() string { return "levers" }

// LeversResult is the geometry of every boat, and the differences.
type LeversResult struct {
	BaseIndex   int                  `json:"base_index"`
	Base        string               `json:"base"`
	Boats       []BoatLevers         `json:"boats"`
	Differences []compare.Difference `json:"differences"` // empty for one boat
}

// BoatLevers is the geometry of one boat in her stance.
type BoatLevers struct {
	Standing
	Pieces     []PieceGeometry `json:"pieces"`
	WettedArea float64         `json:"wetted_area_m2"` // skin of all that is wet
	balance.Levers
}

// PieceGeometry is one piece of a foil in an attitude.
type PieceGeometry struct {
	Part       string                    `json:"part"`
	Piece      string                    `json:"piece"`
	WetPlan    float64                   `json:"wet_plan_area_m2"` // chord times span under the undisturbed surface
	DryPlan    float64                   `json:"dry_plan_area_m2"`
	WettedArea float64                   `json:"wetted_area_m2"`      // skin round the section, both faces
	WetSpan    float64                   `json:"wet_span_m"`          // along the piece
	Centroid   *frame.Point[frame.Track] `json:"wet_area_centroid_m"` // on the quarter chord; nil where all is dry
	TipDepth   *float64                  `json:"tip_depth_m"`         // under the undisturbed surface, negative above it; nil where another piece begins at the tip
	Role       string                    `json:"role"`                // wing (its tip is free) or strut
}

func (q *Levers) ask(_ context.Context, d *desk) (any, Verdict, error) {
	base, err := d.base(q.Base)
	if err != nil {
		return nil, "", err
	}
	res := &LeversResult{BaseIndex: base, Base: d.boats[base].Name, Differences: []compare.Difference{}}
	for _, b := range d.boats {
		st, err := q.of(b)
		if err != nil {
			return nil, "", err
		}
		res.Boats = append(res.Boats, leversOf(b, st))
	}
	if len(res.Boats) > 1 {
		res.Differences = leverDifferences(res)
	}
	return res, Answered, nil
}

// leversOf gathers the geometry of one boat.
func leversOf(b *boat.Boat, st Standing) BoatLevers {
	outlines := foil.Outlines(b, st.state)
	l := BoatLevers{Standing: st, Levers: balance.LeversOf(b, st.state, outlines, st.side), Pieces: []PieceGeometry{}}
	for i := range outlines {
		o := &outlines[i]
		f := &b.Foils[o.Foil]
		row := PieceGeometry{
			Part: f.Name, Piece: f.Pieces[o.Piece].Name, WetPlan: o.WetPlan, DryPlan: o.DryPlan,
			WettedArea: o.WetSurface, WetSpan: o.WetSpan, Role: "strut",
		}
		if o.WetPlan > 0 {
			row.Centroid = &o.WetCentroid
		}
		if o.FreeTip == foil.FreeTip {
			depth := o.Depth()
			row.TipDepth, row.Role = &depth, "wing"
		}
		l.WettedArea += o.WetSurface
		l.Pieces = append(l.Pieces, row)
	}
	return l
}

// leverDifferences sets the figures of all boats side by side.
func leverDifferences(r *LeversResult) []compare.Difference {
	row := func(figure, unit string, scale compare.Scale, read func(*BoatLevers) (float64, bool)) compare.Difference {
		values := make([]*float64, len(r.Boats))
		for i := range r.Boats {
			if v, ok := read(&r.Boats[i]); ok {
				values[i] = &v
			}
		}
		return compare.Differ(figure, unit, scale, r.BaseIndex, values)
	}
	always := func(read func(*BoatLevers) float64) func(*BoatLevers) (float64, bool) {
		return func(l *BoatLevers) (float64, bool) { return read(l), true }
	}
	withFoil := func(read func(*BoatLevers) float64) func(*BoatLevers) (float64, bool) {
		return func(l *BoatLevers) (float64, bool) {
			if l.Centre == nil {
				return 0, false
			}
			return read(l), true
		}
	}
	return []compare.Difference{
		row("weight", "N", compare.Ratio, always(func(l *BoatLevers) float64 { return l.Weight })),
		row("lever", "m", compare.Ratio, withFoil(func(l *BoatLevers) float64 { return l.Lever })),
		row("righting moment", "N·m", compare.Ratio, withFoil(func(l *BoatLevers) float64 { return l.RightingMoment })),
		row("height of the rule-of-thumb centre", "m", compare.Direction, withFoil(func(l *BoatLevers) float64 { return l.Centre.Z })),
		row("height of the centre of gravity", "m", compare.Direction, always(func(l *BoatLevers) float64 { return l.CentreOfGravity.Z })),
		row("wetted area", "m²", compare.Ratio, always(func(l *BoatLevers) float64 { return l.WettedArea })),
		row("wet wing area of the leeward foil", "m²", compare.Ratio, withFoil(wingArea)),
		row("shallowest wet tip", "m", compare.Direction, shallowest),
	}
}

func wingArea(l *BoatLevers) float64 {
	sum := 0.0
	for i := range l.Pieces {
		if p := &l.Pieces[i]; p.Part == l.Foil && p.TipDepth != nil {
			sum += p.WetPlan
		}
	}
	return sum
}

// shallowest returns the depth of the shallowest free tip of a piece that is wet.
func shallowest(l *BoatLevers) (float64, bool) {
	least := math.Inf(1)
	for i := range l.Pieces {
		if p := &l.Pieces[i]; p.TipDepth != nil && p.WetPlan > 0 {
			least = math.Min(least, *p.TipDepth)
		}
	}
	return least, !math.IsInf(least, 1)
}
