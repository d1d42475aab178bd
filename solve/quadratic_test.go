package solve

import (
	"math"
	"math/rand/v2"
	"testing"
)

// randomQuadratic fills a programme that has a feasible point, with sparse and
// repeated rows and degenerate vertices, and returns its curvature.
func randomQuadratic(r *rand.Rand, p *quadratic) (curvature, factor []float64) {
	n := 1 + r.IntN(12)
	equal := r.IntN(n + 1)
	rows := equal + r.IntN(25)
	p.reserve(n, equal, rows)
	p.slack, p.dependent = 1e-10, 1e-9
	root := make([]float64, n*n)
	for i := range root {
		root[i] = r.NormFloat64()
	}
	curvature, factor = make([]float64, n*n), make([]float64, n*n)
	for i := range n {
		for j := range n {
			curvature[i*n+j] = dot(root[i*n:(i+1)*n], root[j*n:(j+1)*n])
		}
		curvature[i*n+i] += 1e-3
	}
	cholesky(factor, curvature, n)
	inside := make([]float64, n)
	for i := range inside {
		inside[i] = min(max(r.NormFloat64(), -2), 2)
		p.g[i], p.low[i], p.high[i] = 3*r.NormFloat64(), -2, 2
	}
	for j := range rows {
		row := p.row[j*n : (j+1)*n]
		for i := range row {
			row[i] = r.NormFloat64() * float64(min(1, r.IntN(3)))
		}
		if j > 0 && r.IntN(8) == 0 {
			copy(row, p.row[(j-1)*n:j*n])
		}
		p.offset[j] = -dot(row, inside)
		if j >= equal && r.IntN(2) == 0 {
			p.offset[j] += r.ExpFloat64()
		}
	}
	return curvature, factor
}

// The optimum of a convex programme is where the Karush–Kuhn–Tucker conditions
// hold: nothing else needs to be known about it.
func TestQuadraticOptimality(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	const trials = 5000
	unsolved := 0
	var p quadratic
	for trial := range trials {
		curvature, factor := randomQuadratic(r, &p)
		p.begin(factor)
		if p.run() != quadraticSolved {
			unsolved++
			continue
		}
		if worst := optimality(&p, curvature); worst > 1e-6 {
			t.Errorf("trial %d: conditions missed by %g", trial, worst)
		}
	}
	// A vertex pinned down by equalities alone may miss a further row by the
	// rounding of a badly conditioned solution; it then counts as inconsistent
	// and the caller relaxes.
	if unsolved > trials/500 {
		t.Errorf("%d of %d not solved", unsolved, trials)
	}
}

// optimality is the largest miss of the Karush–Kuhn–Tucker conditions.
func optimality(p *quadratic, curvature []float64) float64 {
	worst := stationaryWithin(p, curvature)
	for j := range p.rows {
		c, _ := p.excess(j)
		worst = math.Max(worst, violation(c, j < p.equal))
		if j >= p.equal {
			worst = math.Max(worst, math.Max(-p.price[j], math.Abs(p.price[j]*c)))
		}
	}
	return worst
}

// stationaryWithin is the largest slope that no row and no bound holds, or miss of a
// bound.
func stationaryWithin(p *quadratic, curvature []float64) float64 {
	n, worst := p.n, 0.0
	for i := range n {
		left := p.g[i] + dot(curvature[i*n:(i+1)*n], p.q)
		for j := range p.rows {
			left -= p.price[j] * p.row[j*n+i]
		}
		if (p.q[i] < p.low[i]+1e-9 && left > 0) || (p.q[i] > p.high[i]-1e-9 && left < 0) {
			left = 0
		}
		worst = math.Max(worst, math.Abs(left))
		worst = math.Max(worst, math.Max(p.low[i]-p.q[i], p.q[i]-p.high[i]))
	}
	return worst
}

// With a large enough penalty the relaxed programme has the same optimum.
func TestElasticIsExact(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	var p, soft quadratic
	for trial := range 500 {
		_, factor := randomQuadratic(r, &p)
		p.begin(factor)
		if p.run() != quadraticSolved || largest(p.price) > 300 {
			continue
		}
		want := append([]float64(nil), p.q...)
		reach := filledWith(p.rows, 1)
		soft.elastic(&p, factor, reach, 1000)
		if soft.run() != quadraticSolved {
			t.Fatalf("trial %d: relaxed programme not solved", trial)
		}
		for i, q := range want {
			if math.Abs(q-soft.q[i]) > 1e-6 {
				t.Fatalf("trial %d: q[%d] %g, relaxed %g", trial, i, q, soft.q[i])
			}
		}
	}
}

// Without any feasible point the relaxed programme still has an optimum, the
// l1 best fit of the rows: three values for one variable give the median.
func TestElasticContradiction(t *testing.T) {
	var p, soft quadratic
	p.reserve(1, 3, 3)
	p.slack, p.dependent = 1e-10, 1e-9
	copy(p.row, []float64{1, 1, 1})
	copy(p.offset, []float64{-1, -2, -7})
	p.g[0], p.low[0], p.high[0] = 0, math.Inf(-1), math.Inf(1)
	p.begin([]float64{1e-3})
	if end := p.run(); end != quadraticInconsistent {
		t.Fatalf("end %d", end)
	}
	soft.elastic(&p, []float64{1e-3}, []float64{1, 1, 1}, 1)
	if end := soft.run(); end != quadraticSolved || math.Abs(soft.q[0]-2) > 1e-3 {
		t.Errorf("end %d at %g, median 2", end, soft.q[0])
	}
}

// The relaxed programme of contradicting rows is solved where the conditions of its
// dual hold: prices within their caps, at a cap where a row is missed, and between
// where it is met.
func TestElasticOptimality(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	var p, soft quadratic
	missed := 0
	for trial := range 5000 {
		curvature, factor := randomQuadratic(r, &p)
		for j := range p.offset {
			p.offset[j] += r.NormFloat64() * float64(r.IntN(2))
		}
		reach := make([]float64, p.rows)
		for j := range reach {
			reach[j] = 1 + r.ExpFloat64()
		}
		penalty := math.Exp(3 * r.NormFloat64())
		soft.elastic(&p, factor, reach, penalty)
		if soft.run() != quadraticSolved {
			t.Fatalf("trial %d: relaxed programme not solved", trial)
		}
		worst := stationaryWithin(&soft, curvature)
		for j := range soft.rows {
			value, _ := soft.excess(j)
			most, least := penalty/reach[j], 0.0
			if j < soft.equal {
				least = -most
			}
			price := soft.price[j]
			worst = math.Max(worst, math.Max(price-most, least-price))
			worst = math.Max(worst, math.Min(math.Max(0, -value), most-price))
			worst = math.Max(worst, math.Min(math.Max(0, value), price-least))
			if value < -1e-6 {
				missed++
			}
		}
		if worst > 1e-6*(1+penalty) {
			t.Errorf("trial %d: conditions missed by %g at a penalty of %g", trial, worst, penalty)
		}
	}
	if missed < 1000 {
		t.Errorf("%d rows were missed in all: the test says little", missed)
	}
}
