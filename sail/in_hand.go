package sail

import "math"

// StripsOf returns how many strips the workspace cuts each sail into.
func StripsOf(w *Workspace) int {
	if w.Strips > 0 {
		return w.Strips
	}
	return defaultStrips
}

// InHand returns by how much the lift coefficient asked of one strip of a sail,
// foot to head, stays below the largest that the sail can give, after [Loads] or
// [Explain]; negative past it. The sail is counted in the set's order.
func InHand(w *Workspace, sail, strip int) float64 {
	s := &w.sections[w.sails[sail].first+strip]
	return s.largest - math.Abs(s.asked)
}

// Lift returns the lift coefficient asked of one strip of a sail, as [InHand]
// counts them, positive to leeward.
func Lift(w *Workspace, sail, strip int) float64 { return w.sections[w.sails[sail].first+strip].asked }
