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
	Depth     float64    // of the lowest place, m
}

// belly tells that the path dips into the water and comes out again.
func (i *Interval) belly() bool { return i.Pierces[0] && i.Pierces[1] }

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
	trackFromBoat, boatFromFoil := s.Attitude.Pose(), b.Foils[foil].Pose(s.Settings)
	return placeOn(&trackFromBoat, &boatFromFoil)
}

// placeOn is place of a foil that stands in the frame of a boat that stands in the track
// frame.
func placeOn(trackFromBoat *frame.Pose[frame.Track, frame.Boat], boatFromFoil *frame.Pose[frame.Boat, boat.Local]) frame.Pose[frame.Track, boat.Local] {
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

// arcSamples is into how many parts each bend of a path is cut in the search for
// crossings. Between two samples a bend may dip in and out, or out and in: its lowest or
// highest place is looked at too.
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
	for _, share := range p.Path.AppendSteps(arcSamples, nil) {
		add(share)
	}
	return into
}

// wet appends the intervals of a piece's path that lie under water, outward, from
// its samples. A free tip has nothing that begins there.
func (p *placed) wet(samples []sample, tip freedom, into []Interval) []Interval {
	first, length := len(into), p.piece.Path.Length()
	w := p.walkFrom(p.pose.Z(samples[0].place), into)
	var room [4]float64
	turns := p.piece.Path.AppendTurns(p.up(), room[:0])
	for i := range samples[1:] {
		s := &samples[1+i]
		height := p.pose.Z(s.place)
		lowest := height
		if len(turns) > 0 && turns[0] < s.share {
			turn := p.height(turns[0])
			if (turn < 0) != w.inside && (height < 0) == w.inside {
				w.goTo(turns[0], turn, turn)
			}
			lowest, turns = math.Min(height, turn), turns[1:]
		}
		w.goTo(s.share, height, lowest)
	}
	if w.inside && w.open.From < 1 {
		w.leave(1, false)
	}
	for i := first; i < len(w.found); i++ {
		if !w.found[i].Pierces[1] {
			continue
		}
		switch {
		case i+1 < len(w.found):
			w.found[i].DryBeyond[1] = (w.found[i+1].From - w.found[i].To) * length
		case tip == free:
			w.found[i].DryBeyond[1] = (1 - w.found[i].To) * length
		default:
			w.found[i].DryBeyond[1] = math.Inf(1)
		}
	}
	return w.found
}

// walk goes along a path and notes where it is in the water.
type walk struct {
	placed        *placed
	share, height float64 // of the last place
	inside        bool    // that place is in the water
	open          Interval
	exit          float64 // share at which the path last left the water
	found         []Interval
}

func (p *placed) walkFrom(height float64, found []Interval) walk {
	return walk{placed: p, height: height, inside: height < 0, open: Interval{Depth: -height}, exit: math.Inf(-1), found: found}
}

// goTo goes on to a place, with the lowest height between the last one and there.
func (w *walk) goTo(share, height, lowest float64) {
	if w.inside {
		w.open.Depth = math.Max(w.open.Depth, -lowest)
	}
	if (height < 0) != w.inside {
		cross := w.placed.crossing(w.share, w.height, share, height)
		if w.inside {
			w.leave(cross, true)
		} else {
			w.open = Interval{From: cross, Pierces: [2]bool{true, false}, Depth: -lowest}
		}
		w.inside = !w.inside
	}
	w.share, w.height = share, height
}

// leave notes the interval that ends at a share.
func (w *walk) leave(at float64, pierces bool) {
	i := w.open
	i.To, i.Pierces[1] = at, pierces
	i.DryBeyond[0] = dryBefore(i.From, w.exit, i.Pierces[0], w.placed.piece.Path.Length())
	w.found = append(w.found, i)
	w.exit = at
}

// up returns the vertical in the foil's own frame.
func (p *placed) up() frame.Vec[boat.Local] {
	m := p.pose.Turn.Matrix()
	return frame.Vec[boat.Local]{X: m[2][0], Y: m[2][1], Z: m[2][2]}
}

// sunk returns how far a wet interval counts as in the water, 0 to 1. The water meets a
// section and not a line: a belly whose lowest place is less than a section's thickness
// under the surface is wet on part of it. Without this its wet length, and all that goes
// with it, would grow as the root of its depth, which no slope tells. Judgement.
func (p *placed) sunk(i *Interval) float64 {
	if !i.belly() {
		return 1
	}
	return risen(i.Depth / (p.piece.Section.Thickness * p.piece.Chord.At((i.From+i.To)/2)))
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
