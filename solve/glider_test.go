package solve

import (
	"math"
	"math/rand/v2"
)

// glider is an invented steady-state problem with the shape of the ones this
// package is for: a speed and angles, loads that grow with speed squared, six
// sums that must vanish, limits on angles and on loads, and the speed to be
// made as large as it can be.
type glider struct {
	lift  [6][]float64 // slope of each sum with each angle
	share []float64    // quadratic drag of each angle
	sides [][]float64  // rows of the limits
	push  float64      // thrust times speed
}

func newGlider(n, limits int, drag float64, seed uint64) *glider {
	r := rand.New(rand.NewPCG(seed, 7))
	g := &glider{share: make([]float64, n), push: 1.5}
	for k := range g.lift {
		g.lift[k] = make([]float64, n)
		for i := 1; i < n; i++ {
			g.lift[k][i] = r.NormFloat64()
		}
	}
	for i := 1; i < n; i++ {
		g.share[i] = drag * (1 + r.Float64())
	}
	for range limits {
		row := make([]float64, n)
		for i := 1; i < n; i++ {
			row[i] = r.NormFloat64()
		}
		g.sides = append(g.sides, row)
	}
	return g
}

// sums are what the six loads at rest must be.
var sums = [6]float64{1, 0.4, 0, 0.1, -0.2, 0.05}

func (g *glider) problem() *Problem {
	n := len(g.share)
	p := &Problem{
		Lower: filledWith(n, -0.5), Upper: filledWith(n, 0.5), Scale: filledWith(n, 0.1),
		Equalities: 6, Inequalities: len(g.sides),
	}
	p.Lower[0], p.Upper[0], p.Scale[0] = 2, 40, 2
	p.Values = func(x []float64, v *Values) bool {
		g.values(x, v)
		return true
	}
	p.Slopes = g.slopes
	return p
}

func (g *glider) values(x []float64, v *Values) {
	press := x[0] * x[0] / 100
	v.F = -x[0] / 10
	for k := range g.lift {
		v.Equal[k] = press*(dot(g.lift[k], x)-g.lift[k][0]*x[0]) - sums[k]
	}
	// The third sum is drag against a thrust that falls with speed.
	drag := 0.02
	for i := 1; i < len(x); i++ {
		drag += g.share[i] * x[i] * x[i]
	}
	v.Equal[2] = press*drag - g.push/x[0]
	for j, row := range g.sides {
		if j%2 == 0 {
			v.Inequal[j] = 0.6 - dot(row[1:], x[1:])
		} else {
			v.Inequal[j] = 2 - press*sq(dot(row[1:], x[1:]))
		}
	}
}

func (g *glider) slopes(x []float64, v *Values, s *Slopes) {
	press, by := x[0]*x[0]/100, x[0]/50
	for i := range x {
		s.F[i] = 0
		for k := range g.lift {
			s.Equal[k][i] = press * g.lift[k][i]
		}
		s.Equal[2][i] = press * 2 * g.share[i] * x[i]
	}
	s.F[0] = -0.1
	drag := 0.02
	for i := 1; i < len(x); i++ {
		drag += g.share[i] * x[i] * x[i]
	}
	for k := range g.lift {
		s.Equal[k][0] = by * dot(g.lift[k][1:], x[1:])
	}
	s.Equal[2][0] = by*drag + g.push/sq(x[0])
	for j, row := range g.sides {
		along := dot(row[1:], x[1:])
		for i := 1; i < len(x); i++ {
			if j%2 == 0 {
				s.Inequal[j][i] = -row[i]
			} else {
				s.Inequal[j][i] = -press * 2 * along * row[i]
			}
		}
		s.Inequal[j][0] = 0
		if j%2 == 1 {
			s.Inequal[j][0] = -by * along * along
		}
	}
}

func (g *glider) start(seed uint64) []float64 {
	r := rand.New(rand.NewPCG(seed, 11))
	x := make([]float64, len(g.share))
	for i := range x {
		x[i] = 0.2 * (2*r.Float64() - 1)
	}
	x[0] = 6 + 14*r.Float64()
	return x
}

func spreadOf(v []float64) (least, most float64) {
	least, most = math.Inf(1), math.Inf(-1)
	for _, a := range v {
		least, most = math.Min(least, a), math.Max(most, a)
	}
	return least, most
}
