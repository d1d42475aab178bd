package foil

import (
	"math"

	"foilwright/boat"
	"foilwright/frame"
)

// Interval is a stretch of a piece's path between two shares of it.
type Interval struct {
	From, To  float64
	Pierces   [2]bool    // whether From, To is where the path crosses the surface
	DryBeyond [2]float64 // path length that is dry beyond such a crossing, m; +Inf where another piece goes on
}

// node returns the share of the path at k of n equal parts of the cosine's half
// circle over the interval: strips end where k is whole.
func (i Interval) node(k float64, n int) float64 {
	return i.From + (i.To-i.From)*(1-math.Cos(math.Pi*k/float64(n)))/2
}

// placed is a piece in the track frame.
type placed struct {
	piece  *boat.Piece
	pose   frame.Pose[frame.Track, boat.Local]
	memory *memory // nil where shares do not come again
}

// place returns where a foil's own frame stands in the track frame.
func place(b *boat.Boat, foil int, s *boat.State) frame.Pose[frame.Track, boat.Local] {
	trackFromBoat := s.Attitude.Pose()
	boatFromFoil := b.Foils[foil].Pose(s.Settings)
	return frame.Pose[frame.Track, boat.Local]{
		Turn:   frame.Then(trackFromBoat.Turn, boatFromFoil.Turn),
		Origin: trackFromBoat.Point(boatFromFoil.Origin),
	}
}

// height returns the height of the quarter-chord line above the surface, m.
func (p *placed) height(share float64) float64 {
	if p.memory != nil {
		return p.pose.Point(p.memory.at(p.piece, share).quarter).Z
	}
	q, _ := p.piece.Path.At(share)
	return p.pose.Point(q).Z
}

// arcSamples is into how many parts the lengths between two breaks of a path are
// cut in the search for crossings: a bend of up to 180° then cannot dip in and
// out between two samples by more than 1/8 of its radius unseen.
const arcSamples = 4

// wet appends the intervals of a piece's path that lie under water, outward.
// freeTip tells that nothing begins at the piece's tip.
func (p *placed) wet(breaks []float64, tip freedom, into []Interval) []Interval {
	last, lastHeight := 0.0, p.height(0)
	inside, entry, entryPierces := lastHeight < 0, 0.0, false
	exit := math.Inf(-1) // share at which the path last left the water
	length := p.piece.Path.Length()
	for i := 0; i <= len(breaks); i++ {
		end := 1.0
		if i < len(breaks) {
			end = breaks[i]
		}
		begin := last
		for k := 1; k <= arcSamples; k++ {
			share := begin + (end-begin)*float64(k)/arcSamples
			h := p.height(share)
			if (h < 0) != inside {
				cross := p.crossing(last, lastHeight, share, h)
				if inside {
					into = append(into, Interval{From: entry, To: cross, Pierces: [2]bool{entryPierces, true}, DryBeyond: [2]float64{dryBefore(entry, exit, entryPierces, length), 0}})
					exit = cross
				}
				inside, entry, entryPierces = !inside, cross, true
			}
			last, lastHeight = share, h
		}
	}
	if inside && entry < 1 {
		into = append(into, Interval{From: entry, To: 1, Pierces: [2]bool{entryPierces, false}, DryBeyond: [2]float64{dryBefore(entry, exit, entryPierces, length), 0}})
	}
	for i := range into {
		if !into[i].Pierces[1] {
			continue
		}
		switch {
		case i+1 < len(into):
			into[i].DryBeyond[1] = (into[i+1].From - into[i].To) * length
		case tip == free:
			into[i].DryBeyond[1] = (1 - into[i].To) * length
		default:
			into[i].DryBeyond[1] = math.Inf(1)
		}
	}
	return into
}

// freedom tells whether something begins where a piece ends.
type freedom int

const (
	joined freedom = iota
	free
)

// dryBefore returns how much of the path is dry before a wet interval's start, m:
// back to where it last left the water, or to the piece's own start.
func dryBefore(entry, exit float64, pierces bool, length float64) float64 {
	if !pierces {
		return 0
	}
	return (entry - math.Max(exit, 0)) * length
}

// crossing returns the share between a and b at which the path crosses the
// surface, by bisection held to the last bit that matters (a straight line
// meets it at the first, secant, guess).
func (p *placed) crossing(a, ha, b, hb float64) float64 {
	direct := *p
	direct.memory = nil
	for range 60 {
		c := a - ha*(b-a)/(hb-ha)
		if !(c > a && c < b) {
			c = (a + b) / 2
		}
		hc := direct.height(c)
		if math.Abs(hc) < 1e-15 || b-a < 1e-15 {
			return c
		}
		// Illinois: halve the kept end so that neither end sticks.
		if (hc < 0) == (ha < 0) {
			a, ha, hb = c, hc, hb/2
		} else {
			b, hb, ha = c, hc, ha/2
		}
	}
	return (a + b) / 2
}

// tipOf tells whether a piece's tip is free: no other piece begins there.
func tipOf(f *boat.Foil, piece int) freedom {
	for i := range f.Pieces {
		if f.Pieces[i].From == piece {
			return joined
		}
	}
	return free
}
