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

func (w *Workspace) margin(sail int) Margin {
	r := &w.sails[sail]
	m := Margin{Sail: r.sail.Name, LargestLift: math.Inf(1), Loading: math.Inf(1), LeastLift: math.Inf(1), SheetLoad: r.sheetLoad}
	squares, area := 0.0, 0.0
	for i := r.first; i < r.last; i++ {
		t := &w.strips[i]
		loading := w.circulation[i] / t.chord
		squares += loading * loading * t.area
		area += t.area
		m.Loading = math.Min(m.Loading, loading)
		lift := w.liftCoefficient(i)
		m.LargestLift = math.Min(m.LargestLift, r.largest-math.Abs(lift))
		m.LeastLift = math.Min(m.LeastLift, lift)
	}
	if mean := math.Sqrt(squares / area); mean > 0 {
		m.Loading /= mean
	}
	return m
}
