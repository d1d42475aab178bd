package solve

import "math"

// elastic sets up the l1 relaxation of the programme from: every row may be missed
// at a price of penalty for each unit of its reach. In the dual method that is a cap
// on the row's price, penalty over reach, and no more variables than there were: a
// row whose price comes to its cap is let go there and missed, and taken back where
// the step comes to meet it after all. So the programme is never inconsistent.
//
// It starts from the triangle l of the curvature, n × n.
func (p *quadratic) elastic(from *quadratic, l, reach []float64, penalty float64) {
	p.reserve(from.n, from.equal, from.rows)
	p.slack, p.dependent = from.slack, from.dependent
	copy(p.g, from.g)
	copy(p.row, from.row)
	copy(p.offset, from.offset)
	copy(p.low, from.low)
	copy(p.high, from.high)
	p.begin(l)
	p.caps, p.pinned = resized(p.caps, p.rows), resized(p.pinned, p.rows)
	for j := range p.caps {
		p.caps[j] = penalty / reach[j]
	}
}

// priceRange returns the range of a constraint's price, as it is turned.
func (p *quadratic) priceRange(j int, turn float64) (least, most float64) {
	most = math.Inf(1)
	if j < len(p.caps) {
		most = p.caps[j]
	}
	switch {
	case j < p.equal:
		return -most, most
	case turn < 0:
		return -most, 0
	}
	return 0, most
}

// pin lets a constraint go with its price at an end of its range: nothing, or its cap.
func (p *quadratic) pin(j int, price float64) {
	p.state[j] = idle
	if price != 0 {
		p.state[j], p.pinned[j] = capped, price
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
