package boatfile

import (
	"sync"

	"foilwright/boat"
	"foilwright/section"
)

// peakShelf keeps the pressure peaks of sections, which take tenths of a second
// to find: a boat drawn a thousand times has them found once. The zero value is
// empty; it may be shared between goroutines.
type peakShelf struct {
	mutex  sync.Mutex
	tables []shelvedPeaks
}

type shelvedPeaks struct {
	section section.Section
	flap    float64 // share of the chord
	table   *section.PeakTable
}

// of returns the peaks of a section with a flap of a share of the chord, nil
// where the flow past it cannot be found.
func (s *peakShelf) of(sec section.Section, flap float64) *section.PeakTable {
	s.mutex.Lock()
	defer s.mutex.Unlock()
	for i := range s.tables {
		if t := &s.tables[i]; t.flap == flap && t.section.Equal(sec) {
			return t.table
		}
	}
	found := shelvedPeaks{section: sec, flap: flap}
	if table, err := sec.PeakTable(flap); err == nil {
		found.table = &table
	}
	s.tables = append(s.tables, found)
	return found.table
}

// peaks gives every piece the pressure peaks of its section. Where they cannot
// be found the piece has none, and nothing is said of its cavitation.
func (b *builder) peaks(built *boat.Boat) {
	for i := range built.Foils {
		for j := range built.Foils[i].Pieces {
			p := &built.Foils[i].Pieces[j]
			p.Peaks = b.shelf.peaks.of(p.Section, p.Flap.Share)
		}
	}
}
