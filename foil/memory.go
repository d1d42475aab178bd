package foil

import (
	"math"

	"foilwright/boat"
	"foilwright/frame"
)

// memory is what was found along the path of one piece, in the foil's own frame,
// where no attitude and no setting changes it: sections at the shares that are asked
// for again and again.
type memory struct {
	known []localSection
	next  int // where the last was found, plus one
}

// localSection is a piece's section at a share of its path in the foil's own frame.
type localSection struct {
	share    float64
	quarter  frame.Point[boat.Local] // quarter-chord point, m
	nose, up frame.Vec[boat.Local]   // unit: forward along the chord, towards the upper side
	chord    float64                 // m
}

// mostKnown bounds a memory: shares at which the surface cuts a piece never come
// again and would fill it.
const mostKnown = 128

// localAt returns the section of a piece at a share of its path.
func localAt(p *boat.Piece, share float64) localSection {
	q, t := p.Path.At(share)
	forward := frame.Vec[boat.Local]{X: 1}
	n := forward.Cross(t).Unit().Times(p.Upper)
	sin, cos := math.Sincos(p.Twist.At(share))
	return localSection{
		share: share, quarter: q,
		nose:  forward.Times(cos).Plus(n.Times(sin)),
		up:    n.Times(cos).Minus(forward.Times(sin)),
		chord: p.Chord.At(share),
	}
}

// at is localAt, remembered: shares mostly come in the order of the last time.
func (m *memory) at(p *boat.Piece, share float64) localSection {
	for k := range m.known {
		i := m.next + k
		if i >= len(m.known) {
			i -= len(m.known)
		}
		if m.known[i].share == share {
			m.next = i + 1
			return m.known[i]
		}
	}
	s := localAt(p, share)
	if len(m.known) < mostKnown {
		m.known = append(m.known, s)
		m.next = len(m.known)
	}
	return s
}

// memoryOf returns the memory of a piece of a boat.
func (w *Workspace) memoryOf(b *boat.Boat, foil, piece int) *memory {
	if w.remembered != b || w.rememberedStrips != w.Options.Strips {
		w.remembered, w.rememberedStrips = b, w.Options.Strips
		w.memories = w.memories[:0]
		for i := range b.Foils {
			w.memories = append(w.memories, make([]memory, len(b.Foils[i].Pieces)))
		}
	}
	return &w.memories[foil][piece]
}

// local returns the section at a share of the path; remembered where the share is
// one that comes again.
func (p *placed) local(share float64) localSection {
	if p.memory == nil {
		return localAt(p.piece, share)
	}
	return p.memory.at(p.piece, share)
}
