package foil

import (
	"math"

	"foilwright/boat"
	"foilwright/frame"
	"foilwright/si"
)

// Piercing is where a wet piece comes out of the water, and how it stands there
// against ventilation. All is read at one place of the path, ventilationChords of
// a chord under the surface along it, between strips: what is told does not
// depend on how many there are.
type Piercing struct {
	Foil, Piece int
	Share       float64                  // of the piece's path, where it is read
	Place       frame.Point[frame.Track] // quarter chord there, m
	Depth       float64                  // of it, m
	Incidence   si.Angle                 // above zero lift, as thin-aerofoil theory reads it off the lift there
	Boundary    si.Angle                 // at the depth Froude number there
	Margin      si.Angle                 // Boundary less Incidence; negative where air may be drawn down
}

// MostPiercings is how many piercings of one piece are looked at: both ends of
// two wet intervals.
const MostPiercings = 4

// The boundary of ventilation: the incidence above zero lift beyond which a
// surface that pierces the water may draw air down. It falls with the depth
// Froude number V/√(gh) from the stalling angle of a slow strut towards a few
// degrees. Judgement: towing tanks find onset by stall near 15 to 20° at depth
// Froude numbers of 1 to 3 (Harwood, Young and Ceccio 2016, from memory), and
// practice keeps fast struts below 5 to 6°; no published line covers the speeds of
// foiling yachts. Model.Ventilation scales it.
const (
	ventilationSlow   = 18 * float64(si.Degree)
	ventilationFast   = 5 * float64(si.Degree)
	ventilationFroude = 4.0 // depth Froude number halfway between
)

// ventilationChords is how far under the surface, along the path and over the
// chord at the surface, incidence and depth are read: air finds its way down
// through the low pressure and the slowed water of the first chord, and half a
// chord is its middle. Higher up the depth Froude number grows without bound while
// the lift of a high-speed surface fades to nothing, so that a reading at the
// surface itself tells of neither. Judgement. A piece that reaches less than a chord
// down is read at half of what is wet.
const ventilationChords = 0.5

func ventilationBoundary(froude float64) float64 {
	f := froude / ventilationFroude
	return ventilationFast + (ventilationSlow-ventilationFast)/(1+f*f)
}

// Piercings returns every place where a foil comes out of the water in the state
// that Loads saw last.
func Piercings(b *boat.Boat, s boat.State, w *Workspace) []Piercing {
	var all []Piercing
	for i := range w.pieces {
		for end := range 2 {
			if at, ok := w.piercing(&w.pieces[i], end, &b.Model, s.Speed); ok {
				all = append(all, at)
			}
		}
	}
	return all
}

// VentilationMargins writes the ventilation margins, rad, of the piercings of one
// piece in the state that Loads saw last, and NoMargin where there are fewer than
// margins asked for.
func VentilationMargins(b *boat.Boat, s boat.State, foil, piece int, w *Workspace, margins []float64) {
	for i := range margins {
		margins[i] = NoMargin
	}
	n := 0
	for i := range w.pieces {
		p := &w.pieces[i]
		if p.foil != foil || p.piece != piece {
			continue
		}
		for end := range 2 {
			if at, ok := w.piercing(p, end, &b.Model, s.Speed); ok && n < len(margins) {
				margins[n] = at.Margin.Radians()
				n++
			}
		}
	}
}

// piercing reads one end of a wet piece; false where it is not at the surface.
// Where a free tip comes out its incidence counts in with the spray, over one
// chord of dry length.
func (w *Workspace) piercing(p *wetPiece, end int, model *boat.Model, speed si.Speed) (Piercing, bool) {
	if !p.interval.Pierces[end] {
		return Piercing{}, false
	}
	cut := [2]float64{p.interval.From, p.interval.To}[end]
	chord := p.placed.piece.Chord.At(cut)
	counted := risen(p.interval.DryBeyond[end] / chord)
	if counted == 0 {
		return Piercing{}, false
	}
	wet := p.interval.To - p.interval.From
	down := math.Min(ventilationChords*chord/p.placed.piece.Path.Length(), wet/2)
	share := cut + down
	if end == 1 {
		share = cut - down
	}
	place := p.placed.point(share)
	depth := math.Max(-place.Z, 1e-9)
	incidence := counted * math.Abs(w.liftAt(p, share)) / (2 * math.Pi)
	boundary := model.Ventilation * ventilationBoundary(speed.MetresPerSecond()/math.Sqrt(si.Gravity*depth))
	return Piercing{
		Foil: p.foil, Piece: p.piece, Share: share, Place: place, Depth: depth,
		Incidence: si.Angle(incidence), Boundary: si.Angle(boundary), Margin: si.Angle(boundary - incidence),
	}, true
}

// mostNodes is how many strips a figure between them is read from.
const mostNodes = 4

// liftAt returns the lift coefficient of a wet piece at a share of its path: the
// polynomial through the nearest strips in the angle that strips are even in, in
// which loading is smooth.
func (w *Workspace) liftAt(p *wetPiece, share float64) float64 {
	along := (share - p.interval.From) / (p.interval.To - p.interval.From)
	at := math.Acos(1-2*math.Min(1, math.Max(0, along)))/math.Pi*float64(p.n) - 0.5 // in strips
	n := min(mostNodes, p.n)
	first := min(max(int(math.Floor(at))-n/2+1, 0), p.n-n)
	sum := 0.0
	for i := first; i < first+n; i++ {
		weight, _ := w.lift(&w.strips[p.first+i])
		for j := first; j < first+n; j++ {
			if j != i {
				weight *= (at - float64(j)) / float64(i-j)
			}
		}
		sum += weight
	}
	return sum
}
