package trim

import (
	"math"
	"slices"

	"foilwright/balance"
	"foilwright/foil"
	"foilwright/solve"
)

// sketch is a problem whose foils are cut into few strips and make no waves: it
// tells the curvature of the Lagrangian, which steers the search and need not be
// exact. The groups of loads enter the Lagrangian each for itself, so that the
// curvature of each is taken over the variables that it sees, and a pair of
// variables that share no group has none but the objective's.
type sketch struct {
	*problem
	rowOf  []int // of the problem it serves: its own row that tells the most alike
	prices []float64
	values solve.Values
	point  []float64
	groups [balance.GroupCount][]int // variables of each group, those that change the lattice last
	ahead  []float64                 // a group's Lagrangian one step ahead in each of its variables
	price  []float64
}

// sketchStrips is how many strips a piece of a sketch has.
const sketchStrips = 3

// sketchStep is the step of second differences over a variable's scale: the
// functions carry 1e-13 of rounding, which leaves 1e-7 of a natural unit.
const sketchStep = 3e-3

// sketchOf returns the sketch that serves a problem.
func sketchOf(p *problem, l *level) (*sketch, error) {
	r := *p.request
	r.Foil = foil.Options{Strips: min(sketchStrips, p.strips()), Rows: 1, Boundary: r.cut().Boundary, Waves: foil.NoWaves}
	l.cut(r.Foil)
	drawn, err := newProblem(p.boat, &r, p.way, l)
	if err != nil {
		return nil, err
	}
	k := &sketch{problem: drawn, rowOf: make([]int, len(p.rows)), prices: make([]float64, len(drawn.rows)), values: drawn.blank(), price: make([]float64, 6)}
	for i := range p.rows {
		k.rowOf[i] = slices.IndexFunc(drawn.rows, func(own row) bool { return own.like(&p.rows[i], drawn.strips(), p.strips()) })
	}
	k.point, k.ahead = make([]float64, len(drawn.variables)), make([]float64, len(drawn.variables))
	for g := range balance.GroupCount {
		for pass := keepsWater; pass <= changesGeometry; pass++ {
			for i := range drawn.variables {
				if v := &drawn.variables[i]; v.moves == pass && v.lower < v.upper && v.touches[g] && bends(g, v.kind) {
					k.groups[g] = append(k.groups[g], i)
				}
			}
		}
	}
	return k, nil
}

// curvature is the sketch's, which is made at its first need: a search from an answer
// that has learnt never asks.
func (p *problem) curvature(x []float64, v *solve.Values, price, h []float64) bool {
	if p.sketch == nil {
		var err error
		if p.sketch, err = sketchOf(p, p.drawn); err != nil {
			return false
		}
	}
	return p.sketch.curvature(x, v, price, h)
}

// bends tells whether the curvature of a group's loads in a variable is worth its
// price: the wind on dry foils is small, and sails are incidence, so that they
// hardly see the small angles and the height of the boat.
func bends(g balance.Group, k kind) bool {
	switch g {
	case balance.Dry:
		return false
	case balance.Aloft:
		return k != leewayVariable && k != pitchVariable && k != heightVariable
	}
	return true
}

// like tells whether a row among so many strips a piece says what another does
// among theirs.
func (r *row) like(o *row, strips, theirs int) bool {
	return r.figure == o.figure && r.limit == o.limit && r.foil == o.foil && r.piece == o.piece && r.point == o.point && r.sail == o.sail &&
		math.IsInf(r.upper, 1) == math.IsInf(o.upper, 1) && r.strip == o.strip*strips/theirs
}

// curvature fills h with second differences of the Lagrangian at x; see
// solve.Problem.
func (k *sketch) curvature(x []float64, _ *solve.Values, price, h []float64) bool {
	clear(h)
	clear(k.prices)
	copy(k.price, price[:6])
	for i, own := range k.rowOf {
		if own >= 0 {
			k.prices[own] += price[6+i]
		}
	}
	copy(k.point, x)
	if !k.problem.values(k.point, &k.values) {
		return false
	}
	k.bendObjective(x, h)
	for g := range balance.GroupCount {
		if !k.bend(g, x, h) {
			return false
		}
	}
	return true
}

// bendObjective adds the second derivatives of minus progress over the unit: of
// speed and the true wind angle alone.
func (k *sketch) bendObjective(x []float64, h []float64) {
	if k.request.Aim == LeastWind {
		return // the wind itself: straight
	}
	n := len(x)
	speed, angle := -1, -1
	for i := range k.variables {
		switch v := &k.variables[i]; {
		case v.lower == v.upper:
		case v.kind == speedVariable:
			speed = i
		case v.kind == angleVariable:
			angle = i
		}
	}
	if speed < 0 || angle < 0 {
		return
	}
	f := func(ds, da float64) float64 {
		return -k.request.progress(x[speed]+ds, x[angle]+da) / k.request.unit()
	}
	s, a := sketchStep*k.variables[speed].scale, sketchStep*k.variables[angle].scale
	cross := (f(s, a) - f(s, -a) - f(-s, a) + f(-s, -a)) / (4 * s * a)
	h[speed*n+angle] += cross
	h[angle*n+speed] += cross
	h[angle*n+angle] += (f(0, a) - 2*f(0, 0) + f(0, -a)) / (a * a)
}

// bend adds the curvature of one group.
func (k *sketch) bend(g balance.Group, x, h []float64) bool {
	n := len(x)
	here, ok := k.lagrange(g, k.point)
	if !ok {
		return false
	}
	step := func(i int) float64 { return sketchStep * k.variables[i].scale }
	for at, i := range k.groups[g] {
		k.point[i] = x[i] - step(i)
		behind, ok1 := k.lagrange(g, k.point)
		k.point[i] = x[i] + step(i)
		ahead, ok2 := k.lagrange(g, k.point)
		if !ok1 || !ok2 {
			return false
		}
		k.ahead[i] = ahead
		h[i*n+i] += (ahead - 2*here + behind) / (step(i) * step(i))
		// Those that keep the lattice come first and find it as this variable left it.
		for _, j := range k.groups[g][:at] {
			k.point[j] = x[j] + step(j)
			both, ok := k.lagrange(g, k.point)
			if !ok {
				return false
			}
			k.point[j] = x[j]
			cross := (both - ahead - k.ahead[j] + here) / (step(i) * step(j))
			h[i*n+j] += cross
			h[j*n+i] += cross
		}
		k.point[i] = x[i]
	}
	return true
}

// lagrange returns one group's share of the Lagrangian at x.
func (k *sketch) lagrange(g balance.Group, x []float64) (float64, bool) {
	var only balance.Groups
	only[g] = true
	if !k.evaluate(x, only, &k.state1, k.here, &k.beside, &k.values) {
		return 0, false
	}
	var sums balance.Loads
	sums.Sum = k.beside.sums[g]
	var six [6]float64
	balance.Residual(k.boat, sums, six[:])
	total := 0.0
	for j, r := range six {
		total -= k.price[j] * r
	}
	for i := range k.rows {
		if r := &k.rows[i]; k.prices[i] != 0 && r.figure.group() == g {
			total -= k.prices[i] * r.over(k.beside.rows[i])
		}
	}
	return total, true
}
