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

// whole tells that the interval is all of the piece.
func (i *Interval) whole() bool { return i.From == 0 && i.To == 1 }

// node returns the share of the path at a share of the interval, to the last bit
// at its ends.
func (i *Interval) node(share float64) float64 {
	if share == 1 {
		return i.To
	}
	return i.From + (i.To-i.From)*share
}

// placed is a piece in the track frame.
type placed struct {
	piece  *boat.Piece
	pose   frame.Pose[frame.Track, boat.Local]
	memory *memory
}

// place returns where a foil's own frame stands in the track frame.
func place(b *boat.Boat, foil int, s *boat.State) frame.Pose[frame.Track, boat.Local] {
	return placeOn(s.Attitude.Pose(), b, foil, s)
}

// placeOn is place on a boat that stands in the track frame.
func placeOn(trackFromBoat frame.Pose[frame.Track, frame.Boat], b *boat.Boat, foil int, s *boat.State) frame.Pose[frame.Track, boat.Local] {
	boatFromFoil := b.Foils[foil].Pose(s.Settings)
	return frame.Pose[frame.Track, boat.Local]{
		Turn:   frame.Then(trackFromBoat.Turn, boatFromFoil.Turn),
		Origin: trackFromBoat.Point(boatFromFoil.Origin),
	}
}

// point returns a place on the quarter-chord line.
func (p *placed) point(share float64) frame.Point[frame.Track] {
	q, _ := p.piece.Path.At(share)
	return p.pose.Point(q)
}

// height returns the height of the quarter-chord line above the surface, m.
func (p *placed) height(share float64) float64 { return p.point(share).Z }

// arcSamples is into how many parts the lengths between two breaks of a path are
// cut in the search for crossings: a bend of up to 180° then cannot dip in and
// out between two samples by more than 1/8 of its radius unseen.
const arcSamples = 4

// sample is a place of a path at which its height is looked at.
type sample struct {
	share float64
	place frame.Point[boat.Local]
}

// samplesOf appends the samples of a piece's path, its start first.
func samplesOf(p *boat.Piece, into []sample) []sample {
	add := func(share float64) {
		q, _ := p.Path.At(share)
		into = append(into, sample{share, q})
	}
	add(0)
	begin := 0.0
	for _, end := range append(p.Path.AppendBreaks(nil), 1) {
		for k := 1; k <= arcSamples; k++ {
			add(begin + (end-begin)*float64(k)/arcSamples)
		}
		begin = end
	}
	return into
}

// wet appends the intervals of a piece's path that lie under water, outward, from
// its samples. A free tip has nothing that begins there.
func (p *placed) wet(samples []sample, tip freedom, into []Interval) []Interval {
	first := len(into)
	last, lastHeight := 0.0, p.pose.Point(samples[0].place).Z
	inside, entry, entryPierces := lastHeight < 0, 0.0, false
	exit := math.Inf(-1) // share at which the path last left the water
	length := p.piece.Path.Length()
	for i := range samples[1:] {
		s := &samples[1+i]
		h := p.pose.Point(s.place).Z
		if (h < 0) != inside {
			cross := p.crossing(last, lastHeight, s.share, h)
			if inside {
				into = append(into, Interval{From: entry, To: cross, Pierces: [2]bool{entryPierces, true}, DryBeyond: [2]float64{dryBefore(entry, exit, entryPierces, length), 0}})
				exit = cross
			}
			inside, entry, entryPierces = !inside, cross, true
		}
		last, lastHeight = s.share, h
	}
	if inside && entry < 1 {
		into = append(into, Interval{From: entry, To: 1, Pierces: [2]bool{entryPierces, false}, DryBeyond: [2]float64{dryBefore(entry, exit, entryPierces, length), 0}})
	}
	for i := first; i < len(into); i++ {
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
	for range 60 {
		c := a - ha*(b-a)/(hb-ha)
		if !(c > a && c < b) {
			c = (a + b) / 2
		}
		hc := p.height(c)
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
