package lattice

import (
	"math"
	"testing"
)

// side is a straight span across the stream from one (y, z) to another.
type side struct {
	from, to [2]float64
	spacing  Spacing
	surface  int
}

// cut appends the sides to p with strips each.
func cut(p *Panels, strips int, chord float64, sides ...side) {
	for _, s := range sides {
		dy, dz := s.to[0]-s.from[0], s.to[1]-s.from[1]
		length := math.Hypot(dy, dz)
		normal := [3]float64{0, -dz / length, dy / length}
		span := func(share float64) Station {
			y, z := s.from[0]+share*dy, s.from[1]+share*dz
			if share == 1 {
				y, z = s.to[0], s.to[1]
			}
			return Station{Quarter: [3]float64{0, y, z}, Aft: [3]float64{-1, 0, 0}, Chord: chord, Normal: normal}
		}
		AppendSpaced(p, span, 0, 1, strips, 1, s.spacing, s.surface, chord/4)
	}
}

// efficiency returns e = L²/(½ρV² πb² D) at the optimum of vertical force,
// and the strips' circulations.
func efficiency(t *testing.T, p *Panels, b Boundary, span float64) (float64, []float64) {
	t.Helper()
	var w Workspace
	if err := w.Assemble(p, b, Options{}); err != nil {
		t.Fatal(err)
	}
	g := make([]float64, w.Strips())
	drag, err := w.Optimum([]Aim{{Direction: [3]float64{0, 0, 1}, Force: 1}}, g)
	if err != nil {
		t.Fatal(err)
	}
	return 2 / (math.Pi * span * span * drag), g
}

// vee is two arms that meet on the centreline at depth below the surface, with
// a projected span of one; positive dihedral lifts the tips.
func vee(dihedral, depth float64, spacing Spacing) []side {
	rise := 0.5 * math.Tan(dihedral)
	other := CosineBoth
	switch spacing {
	case CosineStart:
		other = CosineEnd
	}
	return []side{
		{[2]float64{-0.5, -depth + rise}, [2]float64{0, -depth}, spacing, 0},
		{[2]float64{0, -depth}, [2]float64{0.5, -depth + rise}, other, 0},
	}
}
