package lattice

import (
	"math"
	"math/rand/v2"
	"testing"
)

// cutLines returns two lifting lines of several strips each that lean over a wall, the
// second in the plane of the first's wake.
func cutLines(several int) *Lines {
	random := rand.New(rand.NewPCG(5, 6))
	l := &Lines{}
	l.Reset(0.1)
	for surface := range 2 {
		at := func(k float64) [2]float64 {
			return [2]float64{0.05*k*float64(surface) + 1e-3*random.Float64(), 0.3 + k + 0.2*float64(surface)}
		}
		for k := range several + 1 {
			p := at(float64(k))
			l.AddNode(p[0], p[1], 0.2+0.1*random.Float64(), surface)
		}
		for k := range several {
			lean := 0.3 * random.Float64()
			l.AddStrip(surface*(several+1)+k, at(float64(k)+0.5), [2]float64{math.Cos(lean), -math.Sin(lean)}, 1+random.Float64(), surface)
		}
	}
	return l
}

// What strips do to one another is what two vortices and their images do (Biot and
// Savart, half of it; Scully 1975 on another surface), and circulations hold Prandtl's
// equation.
func TestLines(t *testing.T) {
	for _, several := range []int{1, 3, 8, 11, 16} {
		l := cutLines(several)
		n := 2 * several
		flow, circulation, downwash := make([]float64, n), make([]float64, n), make([]float64, n)
		for i := range flow {
			flow[i] = 0.5 + math.Sin(float64(i))
		}
		if !l.Factorise() {
			t.Fatal("singular")
		}
		l.Solve(flow, circulation, downwash)
		s := &l.strips
		vortex := func(i int, y, z, core2 float64) float64 {
			dy, dz := s.y[i]-y, s.z[i]-z
			return (dz*s.v[i] - dy*s.w[i]) / (4 * math.Pi * (dy*dy + dz*dz + core2))
		}
		for i := range n {
			sum := 0.0
			for j := range n {
				lower, own := j+j/several, i/several == j/several
				want := 0.0
				for end, sign := range []float64{1, -1} {
					p := &l.nodes[lower+end]
					core2 := p.core2
					if own {
						core2 = 0
					}
					want += sign * (vortex(i, p.y, p.z, core2) - vortex(i, p.y, 2*0.1-p.z, core2))
				}
				if got := l.Influence(i, j); math.Abs(got-want) > 1e-12*(1+math.Abs(want)) {
					t.Fatalf("%d strips: strip %d feels %v of strip %d, want %v", several, i, got, j, want)
				}
				sum += want * circulation[j]
			}
			if d := s.half[i]*(flow[i]-sum) - circulation[i]; math.Abs(d) > 1e-12*math.Abs(circulation[i]) || math.Abs(sum-downwash[i]) > 1e-12*(1+math.Abs(sum)) {
				t.Fatalf("%d strips: strip %d has a circulation off by %v, a downwash of %v and not %v", several, i, d, downwash[i], sum)
			}
		}
	}
}
