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
// variables that share no group has none but the objective's. Second derivatives are
// kept for every sum and row, so that they serve at other prices too.
type sketch struct {
	*problem
	rowOf  []int   // of the problem it serves: its own row that tells the most alike
	kin    *sketch // of the same mode with other sails, whose water serves too; nil where there is none
	values solve.Values
	point  []float64
	groups [balance.GroupCount][]int // variables of each group, those that change the lattice last

	// By figure: the six sums of each group, then the rows.
	figures [balance.GroupCount][]int // of each group
	second  [][]float64               // variables × variables; nil until they are taken
	prices  []float64
	middle  []float64   // at the point
	both    []float64   // one step away in two variables
	ahead   [][]float64 // one step away in each
}

// sum returns which figure is one of the six sums of a group of loads, and rows where
// the rows begin.
func sum(g balance.Group, equation int) int { return 6*int(g) + equation }

const firstRow = 6 * int(balance.GroupCount)

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
	n, figures := len(drawn.variables), firstRow+len(drawn.rows)
	k := &sketch{
		problem: drawn, values: drawn.blank(), point: make([]float64, n), rowOf: make([]int, len(p.rows)),
		prices: make([]float64, figures), middle: make([]float64, figures), both: make([]float64, figures), ahead: make([][]float64, n),
	}
	for i := range p.rows {
		k.rowOf[i] = drawn.rowLike(&p.rows[i], p.strips())
	}
	for i := range k.ahead {
		k.ahead[i] = make([]float64, figures)
	}
	for g := range balance.GroupCount {
		for j := range 6 {
			k.figures[g] = append(k.figures[g], sum(g, j))
		}
		for pass := keepsWater; pass <= changesGeometry; pass++ {
			for i := range drawn.variables {
				if v := &drawn.variables[i]; v.moves == pass && v.lower < v.upper && v.touches[g] && bends(g, v.kind) {
					k.groups[g] = append(k.groups[g], i)
				}
			}
		}
	}
	for i := range drawn.rows {
		g := drawn.rows[i].figure.group()
		k.figures[g] = append(k.figures[g], firstRow+i)
	}
	return k, nil
}

// rowLike returns which row tells the most alike what another problem's row does, of
// pieces cut into so many strips; -1 where none does.
func (p *problem) rowLike(r *row, strips int) int {
	return slices.IndexFunc(p.rows, func(own row) bool { return own.like(r, p.strips(), strips) })
}

// curvature is the sketch's, which is made when it is first asked for afresh: a search
// from an answer that has learnt never does.
func (p *problem) curvature(x, price []float64, afresh bool, h []float64) bool {
	if p.sketch == nil && afresh {
		var err error
		if p.sketch, err = sketchOf(p, p.drawn); err != nil {
			return false
		}
		p.sketch.kin = p.kin
	}
	return p.sketch != nil && p.sketch.curvature(x, price, afresh, h)
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
func (k *sketch) curvature(x, price []float64, afresh bool, h []float64) bool {
	if afresh && !k.bend(x) || k.second == nil {
		return false
	}
	clear(k.prices)
	for g := range balance.GroupCount {
		copy(k.prices[sum(g, 0):], price[:6])
	}
	for i, own := range k.rowOf {
		if own >= 0 {
			k.prices[firstRow+own] += price[6+i]
		}
	}
	clear(h)
	k.bendObjective(x, h)
	for f, price := range k.prices {
		if price != 0 {
			for i, v := range k.second[f] {
				h[i] -= price * v
			}
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

// bend takes the second differences of all figures at x.
func (k *sketch) bend(x []float64) bool {
	copy(k.point, x)
	second := make([][]float64, len(k.prices))
	for f := range second {
		second[f] = make([]float64, len(x)*len(x))
	}
	k.second = nil
	if !k.problem.values(k.point, &k.values) {
		return false
	}
	for g := range balance.GroupCount {
		if g != balance.Aloft && k.kin.known() {
			k.borrow(g, second)
		} else if !k.bendGroup(g, x, second) {
			return false
		}
	}
	k.second = second
	return true
}

// known tells whether second differences were taken.
func (k *sketch) known() bool { return k != nil && k.second != nil }

// borrow takes the second differences of one group's figures from the kin.
func (k *sketch) borrow(g balance.Group, second [][]float64) {
	n, theirs := len(k.variables), len(k.kin.variables)
	like := make([]int, n)
	for _, i := range k.groups[g] {
		like[i] = k.kin.variableLike(&k.variables[i])
	}
	for _, f := range k.figures[g] {
		known := f
		if f >= firstRow {
			known = firstRow + k.kin.rowLike(&k.rows[f-firstRow], k.strips())
		}
		if known < firstRow && f >= firstRow {
			continue
		}
		for at, i := range k.groups[g] {
			for _, j := range k.groups[g][:at+1] {
				if like[i] >= 0 && like[j] >= 0 {
					bent := k.kin.second[known][like[i]*theirs+like[j]]
					second[f][i*n+j], second[f][j*n+i] = bent, bent
				}
			}
		}
	}
}

// variableLike returns which variable is what another problem's is; -1 where none is.
func (p *problem) variableLike(v *variable) int {
	return slices.IndexFunc(p.variables, func(own variable) bool { return own.kind == v.kind && own.control == v.control })
}

// bendGroup takes the second differences of one group's figures.
func (k *sketch) bendGroup(g balance.Group, x []float64, second [][]float64) bool {
	n := len(x)
	if !k.look(g, k.middle) {
		return false
	}
	step := func(i int) float64 { return sketchStep * k.variables[i].scale }
	for at, i := range k.groups[g] {
		behind, ahead := k.both, k.ahead[i]
		k.point[i] = x[i] - step(i)
		ok := k.look(g, behind)
		k.point[i] = x[i] + step(i)
		if !k.look(g, ahead) || !ok {
			return false
		}
		for _, f := range k.figures[g] {
			second[f][i*n+i] = (ahead[f] - 2*k.middle[f] + behind[f]) / (step(i) * step(i))
		}
		// Those that keep the lattice come first and find it as this variable left it.
		for _, j := range k.groups[g][:at] {
			k.point[j] = x[j] + step(j)
			if !k.look(g, k.both) {
				return false
			}
			k.point[j] = x[j]
			for _, f := range k.figures[g] {
				cross := (k.both[f] - ahead[f] - k.ahead[j][f] + k.middle[f]) / (step(i) * step(j))
				second[f][i*n+j], second[f][j*n+i] = cross, cross
			}
		}
		k.point[i] = x[i]
	}
	return true
}

// look fills in the figures of one group at the point.
func (k *sketch) look(g balance.Group, figures []float64) bool {
	var only balance.Groups
	only[g] = true
	if !k.evaluate(k.point, only, &k.state1, k.here, &k.beside, &k.values) {
		return false
	}
	var sums balance.Loads
	sums.Sum = k.beside.sums[g]
	balance.Residual(k.boat, sums, figures[sum(g, 0):sum(g, 6)])
	for i := range k.rows {
		if r := &k.rows[i]; r.figure.group() == g {
			figures[firstRow+i] = r.over(k.beside.rows[i])
		}
	}
	return true
}
