package boatfile

import (
	"fmt"

	"foilwright/boat"
	"foilwright/quantity"
)

// Figure is one figure of a boat file that goes into the boat: what it is called,
// where it stands, and what it says. Ranges and limits are no figures.
type Figure struct {
	Path     string // "weights.rig.mass"
	Where    Place
	Quantity quantity.Quantity
}

// Figures returns the figures that the boat is made of, in the order in which they
// are used, those that are not written and have a default left out.
func (s *Sheet) Figures() []Figure { return append([]Figure(nil), s.figures...) }

// Nudged returns the likely boat with one of its figures moved by an amount, SI.
// The error is [Faults] where that makes no boat, or says that there is no such
// figure.
func (s *Sheet) Nudged(path string, by float64) (*boat.Boat, error) {
	known := false
	for i := range s.figures {
		known = known || s.figures[i].Path == path
	}
	if !known {
		return nil, fmt.Errorf("%s: no figure %q stands in the file", s.file, path)
	}
	b := newBuilder(s, nil)
	b.nudged, b.by = path, by
	built := b.build()
	if err := b.faults.err(); err != nil {
		return nil, err
	}
	b.peaks(built)
	return built, nil
}

// list keeps a figure that is written, each once.
func (b *builder) list(f *figure) {
	if !b.reading() || !f.given() {
		return
	}
	for i := range b.figures {
		if b.figures[i].Path == f.path {
			return
		}
	}
	b.figures = append(b.figures, Figure{Path: f.path, Where: f.node.place, Quantity: f.quantity})
}
