package lattice

import (
	"math"
	"testing"
)

// The image of the boundary against a second lattice that is really there, at
// −z: of the same circulation for the free surface, of the opposite one for
// the wall. Circulations and far-wake drags must agree, by different code.
func TestImageAsLattice(t *testing.T) {
	flip := func(v [3]float64) [3]float64 { return [3]float64{v[0], v[1], -v[2]} }
	for _, c := range configurations {
		for b, normalSign := range map[Boundary]float64{FreeSurface: -1, Wall: 1} {
			var p, both Panels
			c.fill(&p, 10)
			for i := range p.Len() {
				// Across z = 0 the free surface keeps the vertical part of a
				// normal velocity and turns the rest round; the wall the reverse.
				m := p.Normal[i]
				normal := [3]float64{normalSign * m[0], normalSign * m[1], -normalSign * m[2]}
				q := Panel{flip(p.A[i]), flip(p.B[i]), flip(p.Mid[i]), flip(p.Control[i]), normal, p.Chord[i], p.Strip[i], p.Surface[i], p.Core[i]}
				if normalSign > 0 {
					q.A, q.B = q.B, q.A
				}
				both.Append(q)
			}
			strips := p.Len()
			for i := range strips {
				both.Append(Panel{p.A[i], p.B[i], p.Mid[i], p.Control[i], p.Normal[i], p.Chord[i], p.Strip[i] + strips, p.Surface[i], p.Core[i]})
			}
			solve := func(p *Panels, b Boundary) ([]float64, loads) {
				var w Workspace
				if err := w.Assemble(p, b, Options{Depth: LumpedDepth}); err != nil {
					t.Fatal(err)
				}
				g := make([]float64, p.Len())
				for i := range g {
					g[i] = -0.05*p.Normal[i%strips+p.Len()-strips][2] - 0.02*p.Normal[i%strips+p.Len()-strips][1]
				}
				if err := w.Solve(g, g); err != nil {
					t.Fatal(err)
				}
				return g, summed(t, &w, g, make([][3]float64, p.Len()))
			}
			image, one := solve(&p, b)
			real, two := solve(&both, Unbounded)
			for i := range strips {
				for _, g := range []float64{real[i], real[strips+i]} {
					if math.Abs(g-image[i]) > 1e-11 {
						t.Fatalf("%s, %v: panel %d has %g by its image, %g by a lattice", c.name, b, i, image[i], g)
					}
				}
			}
			if math.Abs(two.Induced/one.Induced-2) > 1e-10 || math.Abs(two.NearField/one.NearField-2) > 1e-10 {
				t.Errorf("%s, %v: drag %g of one, %g of both; near field %g, %g", c.name, b, one.Induced, two.Induced, one.NearField, two.NearField)
			}
		}
	}
}

// A tip piece that the water is about to cover appears without a jump.
func TestPieceAppears(t *testing.T) {
	total := func(length float64) loads {
		var p Panels
		cut(&p, 18, 0.2, CosineBoth, side{from: [2]float64{-0.5, -0.4}, to: [2]float64{0.5, -0.4}})
		if length > 0 {
			cut(&p, 6, 0.2, CosineBoth, side{from: [2]float64{0.5, -0.4}, to: [2]float64{0.5, -0.4 + length}})
		}
		_, _, sum := loaded(t, &p, FreeSurface, 0.05, 0.01)
		return sum
	}
	none := total(0)
	for _, length := range []float64{1e-9, 1e-6, 1e-4} {
		s := total(length)
		gap := math.Abs(s.Induced/none.Induced - 1)
		for k := 1; k < 3; k++ {
			gap = max(gap, math.Abs(s.Force[k]-none.Force[k])/none.Force[2])
		}
		t.Logf("a winglet of %g m moves loads by %.2e", length, gap)
		if gap > 10*length+1e-9 {
			t.Errorf("a winglet of %g m moves loads by %.2e", length, gap)
		}
	}
}
