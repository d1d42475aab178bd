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
	even    bool // sections all along stand alike: no bend, one twist
	flap    section.Flap
	effect  section.FlapEffect // of the flap, as it was last asked for
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
	nose, up := across(p, t, share)
	return localSection{share: share, quarter: q, nose: nose, up: up, chord: p.Chord.At(share)}
}

// at brings a section to what localAt has of the remembered piece.
func (m *memory) at(p *boat.Piece, share float64, l *localSection) {
	if !m.even {
		*l = localAt(p, share)
		return
	}
	l.share, l.nose, l.up, l.chord = share, m.whole[0].nose, m.whole[0].up, p.Chord.At(share)
	l.quarter, _ = p.Path.At(share)
}

// flapOf returns the flap of the remembered piece as it stands under settings, and what it
// does where it covers a strip; nothing where there is none.
func (m *memory) flapOf(p *boat.Piece, settings []float64, lossFactor float64) (section.Flap, section.FlapEffect) {
	flap := flapAt(p, settings)
	if flap != m.flap {
		m.flap, m.effect = flap, flap.Effect(lossFactor)
	}
	return flap, m.effect
}

// across returns the directions of a section that stands across a tangent.
func across(p *boat.Piece, tangent frame.Vec[boat.Local], share float64) (nose, up frame.Vec[boat.Local]) {
	forward := frame.Vec[boat.Local]{X: 1}
	n := forward.Cross(tangent).Unit().Times(p.Upper)
	sin, cos := 0.0, 1.0
	if twist := p.Twist.At(share); twist != 0 {
		sin, cos = math.Sincos(twist)
	}
	return forward.Times(cos).Plus(n.Times(sin)), n.Times(cos).Minus(forward.Times(sin))
}

// flatten lays the middles of strips on the lines between their ends, where a path bends: what
// flows through a strip is then what flows through its part of the bend.
func flatten(p *boat.Piece, sections []localSection) {
	if p.Path.Straight() {
		return
	}
	for k := 1; k < len(sections); k += 2 {
		a, l, c := &sections[k-1], &sections[k], &sections[k+1]
		line := c.quarter.From(a.quarter)
		if !(line.Norm() > 0) {
			continue
		}
		l.quarter = a.quarter.Add(line.Times((l.share - a.share) / (c.share - a.share)))
		l.nose, l.up = across(p, line.Unit(), l.share)
	}
}

// remember returns the memory of one piece of a foil that is cut into strips.
func remember(f *boat.Foil, piece, strips int) *memory {
	p := &f.Pieces[piece]
	m := &memory{
		samples: samplesOf(p, nil), shares: lattice.CosineBoth.AppendShares(nil, strips), tip: tipOf(f, piece),
		even: p.Path.Straight() && p.Twist.Even(),
	}
	for _, share := range m.shares {
		m.whole = append(m.whole, localAt(p, share))
	}
	flatten(p, m.whole)
	for g, share := range gaussPlace {
		m.dry[g] = localAt(p, share)
	}
	return m
}

// strips returns how many strips a wet interval of the piece has.
func (m *memory) strips() int { return len(m.shares) / 2 }
