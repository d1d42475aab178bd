package sail

import "math"

// Margin is what a sail has in hand, for use as constraints.
type Margin struct {
	Sail        string
	LargestLift float64 // least over strips of largest less asked lift coefficient; negative past it
	Loading     float64 // least over strips of Γ/c over its root mean square by area; negative where a strip pulls to windward
	LeastLift   float64 // least lift coefficient asked of a strip; negative where it pulls to windward
	SheetLoad   float64 // N, as in Report
}

// Margins returns what each sail of the set has in hand after [Loads] or
// [Explain], in the set's order. The workspace owns the slice: the next call
// overwrites it.
func Margins(w *Workspace) []Margin { return w.margins }

// margin writes what one sail has in hand.
func (w *Workspace) margin(sail int) {
	r, m := &w.sails[sail], &w.margins[sail]
	*m = Margin{
		Sail: r.sail.Name, LargestLift: math.Inf(1), Loading: math.Inf(1), LeastLift: math.Inf(1),
		SheetLoad: r.sheetLoad,
	}
	r.hardest = r.first
	squares, area := 0.0, 0.0
	for i := r.first; i < r.last; i++ {
		t, s := &w.strips[i], &w.sections[i]
		loading := w.circulation[i] / t.chord
		squares += loading * loading * t.area
		area += t.area
		m.Loading = min(m.Loading, loading)
		if inHand := s.largest - math.Abs(s.asked); inHand < m.LargestLift {
			m.LargestLift, r.hardest = inHand, i
		}
		m.LeastLift = min(m.LeastLift, s.asked)
	}
	if mean := math.Sqrt(squares / area); mean > 0 {
		m.Loading /= mean
	}
}
