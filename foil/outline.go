package foil

import (
	"math"
	"slices"

	"foilwright/boat"
	"foilwright/frame"
)

// Outline is the geometry of one piece of a foil in a state: what of it is wet
// and what dry. Areas and centroids count the parts under and over the
// undisturbed surface, cut at the quarter-chord line.
type Outline struct {
	Foil, Piece      int
	WetPlan, DryPlan float64                  // chord times span, m²
	WetSurface       float64                  // skin, both faces round the section, m²
	WetCentroid      frame.Point[frame.Track] // of the wet plan area, on the quarter chord, m
	WetSpan          float64                  // length of the wet path, m
	FreeTip          Tip
	Tip              frame.Point[frame.Track] // where the path ends, m
}

// Tip tells whether another piece begins where a piece ends.
type Tip int

// The kinds of tip.
const (
	JoinedTip Tip = iota
	FreeTip
)

// Depth returns how deep the piece's outer end is under the undisturbed
// surface, m; negative above it.
func (o *Outline) Depth() float64 { return -o.Tip.Z }

// Outlines returns the outline of every piece of every foil in a state.
func Outlines(b *boat.Boat, s boat.State) []Outline {
	var all []Outline
	for i := range b.Foils {
		pose := place(b, i, &s)
		for j := range b.Foils[i].Pieces {
			p := placed{piece: &b.Foils[i].Pieces[j], pose: pose}
			o := Outline{Foil: i, Piece: j, FreeTip: JoinedTip, Tip: pose.Point(p.piece.Path.End())}
			tip := tipOf(&b.Foils[i], j)
			if tip == free {
				o.FreeTip = FreeTip
			}
			var moment frame.Vec[frame.Track]
			for _, wet := range p.wet(samplesOf(p.piece, nil), tip, nil) {
				area, m := p.plan(wet.From, wet.To)
				o.WetPlan += area
				moment = moment.Plus(m)
				o.WetSpan += (wet.To - wet.From) * p.piece.Path.Length()
			}
			whole, _ := p.plan(0, 1)
			o.DryPlan = math.Max(0, whole-o.WetPlan)
			o.WetSurface = o.WetPlan * p.piece.Section.Perimeter
			if o.WetPlan > 0 {
				o.WetCentroid = frame.Point[frame.Track](moment.Times(1 / o.WetPlan))
			}
			all = append(all, o)
		}
	}
	return all
}

// plan returns the plan area between two shares of the path, m², and its moment
// about the track origin, m³: three Gauss points between every two kinks, exact
// for chords in straight lines along a straight path.
func (p *placed) plan(from, to float64) (area float64, moment frame.Vec[frame.Track]) {
	cuts := []float64{from}
	for _, c := range append(p.piece.Path.AppendBreaks(nil), p.piece.Chord.Share...) {
		if c > from && c < to {
			cuts = append(cuts, c)
		}
	}
	slices.Sort(cuts)
	cuts = append(cuts, to)
	length := p.piece.Path.Length()
	for i := 1; i < len(cuts); i++ {
		for g := range gaussPlace {
			share := cuts[i-1] + (cuts[i]-cuts[i-1])*gaussPlace[g]
			q, t := p.piece.Path.At(share)
			across := math.Hypot(t.Y, t.Z)
			a := p.piece.Chord.At(share) * across * length * (cuts[i] - cuts[i-1]) * gaussWeight[g]
			area += a
			moment = moment.Plus(frame.Vec[frame.Track](p.pose.Point(q)).Times(a))
		}
	}
	return area, moment
}

// RuleCentre returns the rule of the trade's centre of lift of a foil (common
// practice): the midpoint between the area centroids of its wings, wet parts
// only. Wings are the pieces whose tips are free. Where none is wet the foil
// has no centre and ok is false.
func RuleCentre(outlines []Outline, foil int) (centre frame.Point[frame.Track], ok bool) {
	var sum frame.Vec[frame.Track]
	n := 0.0
	for i := range outlines {
		o := &outlines[i]
		if o.Foil == foil && o.FreeTip == FreeTip && o.WetPlan > 0 {
			sum = sum.Plus(frame.Vec[frame.Track](o.WetCentroid))
			n++
		}
	}
	if n == 0 {
		return centre, false
	}
	return frame.Point[frame.Track](sum.Times(1 / n)), true
}

// Down tells which foils reach into the water.
func Down(b *boat.Boat, s boat.State) []int {
	var down []int
	for i := range b.Foils {
		pose := place(b, i, &s)
		for j := range b.Foils[i].Pieces {
			p := placed{piece: &b.Foils[i].Pieces[j], pose: pose}
			if p.height(1) < 0 || p.height(0) < 0 {
				down = append(down, i)
				break
			}
		}
	}
	return down
}

// TipHeight returns the height of a piece's outer end above the undisturbed
// surface, m, and notes in the workspace where foils stand.
func TipHeight(b *boat.Boat, s *boat.State, foil, piece int, w *Workspace) float64 {
	w.stand(b, s)
	for i := range w.standing {
		if p := &w.standing[i]; p.foil == foil && p.index == piece {
			return p.pose.Z(p.memory.samples[len(p.memory.samples)-1].place)
		}
	}
	return math.NaN()
}

// FreeTips returns the pieces of a foil whose tips are free.
func FreeTips(f *boat.Foil) []int {
	var tips []int
	for i := range f.Pieces {
		if tipOf(f, i) == free {
			tips = append(tips, i)
		}
	}
	return tips
}
