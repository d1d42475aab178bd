package solve

import "math"

// softness is the curvature given to each slack of an elastic programme, as a
// share of its penalty. It keeps the programme strictly convex; the penalty
// of a violation of one is then 5 parts in 10 000 above linear.
const softness = 1e-3

// elastic sets up the l1 relaxation of the programme from: every row may be
// missed at a price of penalty for each unit of its reach, by slacks that are
// variables behind the others, two for an equality and one for an inequality.
// It starts from the triangle l of the curvature (n × n), all slacks zero, which is dual
// feasible, so the programme is never inconsistent.
func (p *quadratic) elastic(from *quadratic, l, reach []float64, penalty float64) {
	n, slacks := from.n, from.equal+from.rows
	whole := n + slacks
	p.reserve(whole, from.equal, from.rows)
	p.clear()
	p.slack, p.dependent = from.slack, from.dependent
	copy(p.g, from.g)
	copy(p.low, from.low)
	copy(p.high, from.high)
	for i := n; i < whole; i++ {
		p.g[i], p.low[i], p.high[i] = penalty, 0, math.Inf(1)
	}
	copy(p.offset, from.offset)
	for i := range p.row {
		p.row[i] = 0
	}
	for j := range from.rows {
		row := p.row[j*whole : (j+1)*whole]
		copy(row, from.row[j*n:(j+1)*n])
		if j < from.equal {
			row[n+2*j], row[n+2*j+1] = reach[j], -reach[j]
		} else {
			row[n+from.equal+j] = reach[j]
		}
	}
	// The free factor goes through q and d as scratch, into the last n rows.
	inverse := from.jt
	invertLower(inverse, l, n)
	for i := range p.jt {
		p.jt[i] = 0
	}
	for i := range p.r {
		p.r[i] = 0
	}
	root := math.Sqrt(softness * penalty)
	for t := range slacks {
		p.jt[t*whole+n+t] = 1 / root
		p.r[t*whole+t] = 1 / root
		j := p.rows + n + t
		p.active = append(p.active, j)
		p.sign[t], p.u[t] = 1, penalty
		p.state[j] = held
	}
	for k := range n {
		copy(p.jt[(slacks+k)*whole:], inverse[k*n:(k+1)*n])
	}
	unconstrained(p.q[:n], inverse, p.g, p.d, n)
	for i := n; i < whole; i++ {
		p.q[i] = 0
	}
}

// missed is the sum over the rows of their violation over their reach, at the
// step q.
func (p *quadratic) missed(q, reach []float64) float64 {
	n, sum := p.n, 0.0
	for j := range p.rows {
		sum += violation(p.offset[j]+dot(p.row[j*n:(j+1)*n], q[:n]), j < p.equal) / reach[j]
	}
	return sum
}

// violation is how far a constraint value misses its limit.
func violation(value float64, equality bool) float64 {
	if equality {
		return math.Abs(value)
	}
	return math.Max(0, -value)
}
