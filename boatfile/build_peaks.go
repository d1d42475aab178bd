package boatfile

import (
	"sync"

	"foilwright/boat"
	"foilwright/section"
)

// peakShelf keeps what the ideal flow past a section says, which takes tenths of
// a second to find: a boat drawn a thousand times has it found once. The zero
// value is empty; it may be shared between goroutines.
type peakShelf struct {
	mutex sync.Mutex
	flows []*shelvedFlow
}

// shelvedFlow is what is known of one section with one flap; nil where it was
// not asked for, or cannot be found. Its own lock is held while that is found, so
// that two draws with sections of their own do not wait for each other.
type shelvedFlow struct {
	mutex   sync.Mutex
	section section.Section
	flap    float64 // share of the chord
	peaks   *section.PeakTable
	hinge   *section.HingeTable
	laminar *section.LaminarTable
}

// mostFlows bounds what is kept: sections of uncertain thickness are new ones
// with every draw.
const mostFlows = 64

// give sets a piece's tables.
func (s *peakShelf) give(p *boat.Piece) {
	f := s.of(p.Section, p.Flap.Share)
	f.mutex.Lock()
	defer f.mutex.Unlock()
	if f.peaks == nil && f.hinge == nil && p.Flap.Share > 0 {
		if peaks, hinge, err := p.Section.FlapTables(p.Flap.Share); err == nil {
			f.peaks, f.hinge = &peaks, &hinge
		}
	}
	if f.peaks == nil {
		if table, err := p.Section.PeakTable(p.Flap.Share); err == nil {
			f.peaks = &table
		}
	}
	if f.hinge == nil && p.Flap.Share > 0 {
		if table, err := p.Section.HingeTable(p.Flap.Share); err == nil {
			f.hinge = &table
		}
	}
	if f.laminar == nil && p.Transition == boat.ComputedTransition {
		if table, err := p.Section.LaminarTable(p.Flap.Share); err == nil {
			f.laminar = &table
		}
	}
	p.Peaks, p.Hinge = f.peaks, f.hinge
	if p.Transition == boat.ComputedTransition {
		p.LaminarShares = f.laminar
	}
}

// of returns what is kept of a section with a flap, new where there is nothing.
func (s *peakShelf) of(sec section.Section, flap float64) *shelvedFlow {
	s.mutex.Lock()
	defer s.mutex.Unlock()
	for _, f := range s.flows {
		if f.flap == flap && f.section.Equal(sec) {
			return f
		}
	}
	if len(s.flows) == mostFlows {
		s.flows = s.flows[1:]
	}
	f := &shelvedFlow{section: sec, flap: flap}
	s.flows = append(s.flows, f)
	return f
}

// peaks gives every piece what the ideal flow past its section says. Where it
// cannot be found the piece has none, and nothing is said of it.
func (b *builder) peaks(built *boat.Boat) {
	for i := range built.Foils {
		for j := range built.Foils[i].Pieces {
			b.shelf.peaks.give(&built.Foils[i].Pieces[j])
		}
	}
}
