package lattice

import (
	"math"
	"testing"
)

const degree = math.Pi / 180

// side is a straight span across the stream from one (y, z) to another.
type side struct {
	from, to [2]float64
	surface  int
}

// cut appends the sides to p with strips each.
func cut(p *Panels, strips int, chord float64, spacing Spacing, sides ...side) {
	for k, s := range sides {
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
		way := spacing
		if k%2 == 1 && spacing == CosineStart {
			way = CosineEnd
		}
		AppendSpaced(p, span, 0, 1, strips, 1, way, s.surface, chord/4)
	}
}

// wing returns a straight rectangular wing of unit chord, swept by the angle of
// its halves, at depth under the plane z = 0.
func wing(aspect, sweep, depth float64) func(float64) Station {
	return func(s float64) Station {
		y := (s - 0.5) * aspect
		return Station{
			Quarter: [3]float64{-math.Abs(y) * math.Tan(sweep), y, -depth},
			Aft:     [3]float64{-1, 0, 0}, Chord: 1, Normal: [3]float64{0, 0, 1},
		}
	}
}

// vee is two arms that meet on the centreline at depth below the surface, with
// a projected span of one; positive dihedral lifts the tips.
func vee(dihedral, depth float64) []side {
	rise := 0.5 * math.Tan(dihedral)
	return []side{
		{from: [2]float64{-0.5, -depth + rise}, to: [2]float64{0, -depth}},
		{from: [2]float64{0, -depth}, to: [2]float64{0.5, -depth + rise}},
	}
}

// assembled returns the workspace of the panels.
func assembled(t *testing.T, p *Panels, b Boundary) *Workspace {
	t.Helper()
	w := new(Workspace)
	if err := w.Assemble(p, b, Options{}); err != nil {
		t.Fatal(err)
	}
	return w
}

// loads are a lattice's sums with the drag at its bound vortices.
type loads struct {
	Totals
	NearField float64
}

// loaded solves for a stream that meets every panel with the incidence of a
// rigid body: alpha up, beta from the starboard side.
func loaded(t *testing.T, p *Panels, b Boundary, alpha, beta float64) ([]float64, [][3]float64, loads) {
	t.Helper()
	w := assembled(t, p, b)
	g := make([]float64, p.Len())
	for i, n := range p.Normal {
		g[i] = -alpha*n[2] - beta*n[1]
	}
	if err := w.Solve(g, g); err != nil {
		t.Fatal(err)
	}
	force := make([][3]float64, p.Len())
	return g, force, summed(t, w, g, force)
}

// summed fills forces and sums the loads.
func summed(t *testing.T, w *Workspace, circulation []float64, force [][3]float64) loads {
	t.Helper()
	total := w.Forces(circulation, force)
	near, err := w.NearField(circulation)
	if err != nil {
		t.Fatal(err)
	}
	return loads{total, near}
}

// efficiency returns e = L²/(½ρV² πb² D) at the optimum of vertical force, and
// the strips' circulations for a force of one.
func efficiency(t *testing.T, p *Panels, b Boundary, span float64) (float64, []float64) {
	t.Helper()
	w := assembled(t, p, b)
	g := make([]float64, w.Strips())
	drag, err := w.Optimum([]Aim{{Direction: [3]float64{0, 0, 1}, Force: 1}}, g)
	if err != nil {
		t.Fatal(err)
	}
	return 2 / (math.Pi * span * span * drag), g
}
