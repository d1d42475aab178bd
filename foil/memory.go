package foil

import (
	"math"

	"foilwright/boat"
	"foilwright/frame"
	"foilwright/lattice"
	"foilwright/section"
)

// memory is what was found along the path of one piece, in the foil's own frame,
// where no attitude and no setting changes it.
type memory struct {
	samples []sample        // where the path is looked at for crossings
	shares  []float64       // of a wet interval: where strips begin, have their middles and end
	whole   []localSection  // at those of the whole piece
	dry     [3]localSection // at the Gauss points of the whole piece
	tip     freedom
	// peaks are the pressure peaks on strips without and with the flap, at the
	// deflection last asked for.
	peaks [2]section.PeakLine
}

// localSection is a piece's section at a share of its path in the foil's own frame.
type localSection struct {
	share    float64
	quarter  frame.Point[boat.Local] // quarter-chord point, m
	nose, up frame.Vec[boat.Local]   // unit: forward along the chord, towards the upper side
	chord    float64                 // m
}

// localAt returns the section of a piece at a share of its path.
func localAt(p *boat.Piece, share float64) localSection {
	q, t := p.Path.At(share)
	forward := frame.Vec[boat.Local]{X: 1}
	n := forward.Cross(t).Unit().Times(p.Upper)
	sin, cos := 0.0, 1.0
	if twist := p.Twist.At(share); twist != 0 {
		sin, cos = math.Sincos(twist)
	}
	return localSection{
		share: share, quarter: q,
		nose:  forward.Times(cos).Plus(n.Times(sin)),
		up:    n.Times(cos).Minus(forward.Times(sin)),
		chord: p.Chord.At(share),
	}
}

// remember returns the memory of one piece of a foil that is cut into strips.
func remember(f *boat.Foil, piece, strips int) *memory {
	p := &f.Pieces[piece]
	m := &memory{samples: samplesOf(p, nil), shares: lattice.CosineBoth.AppendShares(nil, strips), tip: tipOf(f, piece)}
	for _, share := range m.shares {
		m.whole = append(m.whole, localAt(p, share))
	}
	for g, share := range gaussPlace {
		m.dry[g] = localAt(p, share)
	}
	return m
}

// strips returns how many strips a wet interval of the piece has.
func (m *memory) strips() int { return len(m.shares) / 2 }
