package solve

import "math"

// quadratic is a strictly convex quadratic programme, solved by the dual
// active-set method of Goldfarb and Idnani (1983), algorithm of section 3:
//
//	minimise  ½ q'Bq + g'q
//	subject to  row j · q + offset j  = 0 for j < equal, >= 0 for equal <= j < rows,
//	            low <= q <= high.
//
// At the optimum Bq + g is the sum of price times row, the bounds included.
// Constraints are numbered rows first, then lower bounds, then upper bounds. Rows
// whose prices are capped may be missed, see elastic.
type quadratic struct {
	n, equal, rows int
	g              []float64
	row            []float64 // rows × n, one after another
	offset         []float64
	low, high      []float64
	// slack is how far a dependent constraint may be missed and still count
	// as met; dependent is the share of a normal, in the metric of the
	// curvature, that must stand clear of the active ones for it to count as
	// independent.
	slack, dependent float64

	q     []float64
	price []float64 // of the rows

	// The factors: column k of J = B^(-1/2)·Q stored as row k of jt, and the
	// triangle R of the active normals, column k at r[k*n:].
	jt, r     []float64
	active    []int
	sign      []float64 // -1 for an equality whose row was turned round
	u         []float64 // prices of the active constraints, as turned
	state     []int8    // of each constraint: idle, held, ignored or capped
	caps      []float64 // largest prices of the rows; empty where they have none
	pinned    []float64 // prices of the rows that are capped
	d, z, rd  []float64
	normal    []float64
	changes   int
	changeCap int
}

const (
	idle int8 = iota
	held
	ignored
	capped // missed, its price at its largest
)

// quadraticEnd says how a quadratic programme ended.
type quadraticEnd int

const (
	quadraticSolved quadraticEnd = iota
	quadraticInconsistent
	quadraticCapped
)

// reserve sets the size of the programme and makes room for it.
func (p *quadratic) reserve(n, equal, rows int) {
	p.n, p.equal, p.rows = n, equal, rows
	all := rows + 2*n
	for _, s := range []*[]float64{&p.g, &p.low, &p.high, &p.q, &p.d, &p.z, &p.rd, &p.normal} {
		*s = resized(*s, n)
	}
	p.row = resized(p.row, rows*n)
	p.offset = resized(p.offset, rows)
	p.price = resized(p.price, rows)
	p.jt = resized(p.jt, n*n)
	p.r = resized(p.r, n*n)
	p.u = resized(p.u, n+1)
	p.sign = resized(p.sign, n+1)
	if cap(p.active) < n {
		p.active = make([]int, 0, n)
	}
	if cap(p.state) < all {
		p.state = make([]int8, all)
	}
	p.state = p.state[:all]
}

func resized(s []float64, n int) []float64 {
	if cap(s) < n {
		return make([]float64, n)
	}
	return s[:n]
}

// clear forgets the active set, leaving the factors to the caller.
func (p *quadratic) clear() {
	p.active, p.caps = p.active[:0], p.caps[:0]
	for k := range p.state {
		p.state[k] = idle
	}
	p.changes = 0
	p.changeCap = 50 + 10*(p.rows+2*p.n)
}

// begin starts from the unconstrained optimum, given the lower triangle l of
// B = l·l', n × n.
func (p *quadratic) begin(l []float64) {
	p.clear()
	n := p.n
	invertLower(p.jt, l, n)
	unconstrained(p.q, p.jt, p.g, p.d, n)
}

// invertLower sets inverse to the inverse of the lower triangle l.
func invertLower(inverse, l []float64, n int) {
	for i := range n {
		ri := inverse[i*n : (i+1)*n]
		for j := range ri {
			ri[j] = 0
		}
		ri[i] = 1
		for k := range i {
			axpy(ri[:k+1], -l[i*n+k], inverse[k*n:k*n+k+1])
		}
		scaleBy(ri[:i+1], 1/l[i*n+i])
	}
}

// unconstrained sets q to -J·J'·g.
func unconstrained(q, jt, g, d []float64, n int) {
	for i := range q {
		q[i] = 0
	}
	for k := range n {
		row := jt[k*n : (k+1)*n]
		d[k] = dot(row, g)
		axpy(q, -d[k], row)
	}
}

// run takes the programme from its start to its optimum.
func (p *quadratic) run() quadraticEnd {
	for j := range p.equal {
		if end := p.meet(j); end != quadraticSolved {
			return end
		}
	}
	for p.changes <= p.changeCap {
		j := p.worst()
		if j < 0 {
			p.settle()
			return quadraticSolved
		}
		if end := p.meet(j); end != quadraticSolved {
			return end
		}
	}
	return quadraticCapped
}

// settle writes out the prices of the rows.
func (p *quadratic) settle() {
	for j := range p.price {
		p.price[j] = 0
		if p.state[j] == capped {
			p.price[j] = p.pinned[j]
		}
	}
	for k, j := range p.active {
		if j < p.rows {
			p.price[j] = p.sign[k] * p.u[k]
		}
	}
}

// excess is how far constraint j stands clear of its limit, with the size of
// the terms it is a difference of.
func (p *quadratic) excess(j int) (value, size float64) {
	n := p.n
	switch {
	case j < p.rows:
		row := p.row[j*n : (j+1)*n]
		value, size = p.offset[j], math.Abs(p.offset[j])
		for i, a := range row {
			t := a * p.q[i]
			value += t
			size += math.Abs(t)
		}
		return value, size
	case j < p.rows+n:
		i := j - p.rows
		return p.q[i] - p.low[i], math.Abs(p.q[i]) + math.Abs(p.low[i])
	default:
		i := j - p.rows - n
		return p.high[i] - p.q[i], math.Abs(p.q[i]) + math.Abs(p.high[i])
	}
}

// worst finds the inequality that is missed most, or -1.
func (p *quadratic) worst() int {
	n, found, most := p.n, -1, 0.0
	first := p.equal
	if len(p.caps) > 0 {
		first = 0
	}
	for j := first; j < p.rows; j++ {
		if p.state[j] != idle && p.state[j] != capped {
			continue
		}
		value, size := p.excess(j)
		if p.state[j] == capped && p.pinned[j] > 0 {
			value = -value // met by more than it is to be, at a price
		}
		if value >= -1e-13*size {
			continue
		}
		row := p.row[j*n : (j+1)*n]
		if miss := -value / math.Sqrt(dot(row, row)+1e-30); miss > most {
			found, most = j, miss
		}
	}
	for i := range n {
		if miss := p.low[i] - p.q[i]; miss > most && p.state[p.rows+i] == idle && miss > 1e-13*math.Abs(p.low[i]) {
			found, most = p.rows+i, miss
		}
		if miss := p.q[i] - p.high[i]; miss > most && p.state[p.rows+n+i] == idle && miss > 1e-13*math.Abs(p.high[i]) {
			found, most = p.rows+n+i, miss
		}
	}
	return found
}

// meet brings constraint j into the active set, dropping others on the way as
// the signs of their prices demand.
func (p *quadratic) meet(j int) quadraticEnd {
	p.changes++
	miss, _ := p.excess(j)
	turn, price := 1.0, 0.0
	if miss > 0 {
		turn = -1
	}
	if p.state[j] == capped {
		price = turn * p.pinned[j]
	}
	p.setNormal(j, turn)
	_, most := p.priceRange(j, turn)
	for ; p.changes <= p.changeCap; p.changes++ {
		miss, size := p.excess(j)
		clear, whole := p.directions()
		held := len(p.active)
		drop, dual, end := p.firstToDrop()
		primal := math.Inf(1)
		if clear > p.dependent*p.dependent*whole {
			primal = math.Max(0, -turn*miss) / clear
		}
		if math.IsInf(primal, 1) && math.IsInf(dual, 1) && math.IsInf(most, 1) {
			if math.Abs(miss) <= p.slack+1e-12*size {
				p.state[j] = ignored
				return quadraticSolved
			}
			return quadraticInconsistent
		}
		t := math.Min(math.Min(primal, dual), most-price)
		for k := range held {
			p.u[k] -= t * p.rd[k]
		}
		price += t
		if !math.IsInf(primal, 1) {
			axpy(p.q, t, p.z)
		}
		switch {
		case primal <= t:
			p.hold(j, turn, price)
			return quadraticSolved
		case dual <= t:
			p.drop(drop, end)
		default:
			p.pin(j, turn*most)
			return quadraticSolved
		}
	}
	return quadraticCapped
}

func (p *quadratic) setNormal(j int, turn float64) {
	n := p.n
	for i := range p.normal {
		p.normal[i] = 0
	}
	switch {
	case j < p.rows:
		axpy(p.normal, turn, p.row[j*n:(j+1)*n])
	case j < p.rows+n:
		p.normal[j-p.rows] = 1
	default:
		p.normal[j-p.rows-n] = -1
	}
}

// directions sets d = J'·normal, z the primal and rd the dual direction. It
// returns the squared length of the part of d clear of the active set, and of
// the whole.
func (p *quadratic) directions() (clear, whole float64) {
	n, held := p.n, len(p.active)
	for i := range p.z {
		p.z[i] = 0
	}
	for k := range n {
		row := p.jt[k*n : (k+1)*n]
		dk := dot(row, p.normal)
		p.d[k] = dk
		whole += dk * dk
		if k >= held {
			clear += dk * dk
			axpy(p.z, dk, row)
		}
	}
	copy(p.rd[:held], p.d[:held])
	for k := held - 1; k >= 0; k-- {
		column := p.r[k*n : k*n+k+1]
		p.rd[k] /= column[k]
		axpy(p.rd[:k], -p.rd[k], column[:k])
	}
	return clear, whole
}

// firstToDrop finds the active constraint whose price is the first to reach an end
// of its range along the dual direction, that end as it is turned, and the step at
// which it does.
func (p *quadratic) firstToDrop() (drop int, step, end float64) {
	drop, step = -1, math.Inf(1)
	grain := 1e-12 * largest(p.rd[:len(p.active)])
	for k, j := range p.active {
		least, most := p.priceRange(j, p.sign[k])
		if p.rd[k] > grain {
			if t := math.Max(0, p.u[k]-least) / p.rd[k]; t < step {
				drop, step, end = k, t, least
			}
		} else if p.rd[k] < -grain {
			if t := math.Max(0, most-p.u[k]) / -p.rd[k]; t < step {
				drop, step, end = k, t, most
			}
		}
	}
	return drop, step, end
}

// hold adds constraint j to the active set; d is J'·normal.
func (p *quadratic) hold(j int, turn, price float64) {
	n, k := p.n, len(p.active)
	for m := n - 1; m > k; m-- {
		c, s, length := rotation(p.d[m-1], p.d[m])
		if s == 0 {
			continue
		}
		p.d[m-1], p.d[m] = length, 0
		rotate(p.jt[(m-1)*n:m*n], p.jt[m*n:(m+1)*n], c, s)
	}
	copy(p.r[k*n:k*n+k+1], p.d[:k+1])
	p.active = append(p.active, j)
	p.sign[k], p.u[k] = turn, price
	p.state[j] = held
}

// drop takes the active constraint at position k out again, its price at an end of
// its range, as it is turned.
func (p *quadratic) drop(k int, end float64) {
	n, last := p.n, len(p.active)-1
	p.pin(p.active[k], p.sign[k]*end)
	for m := k; m < last; m++ {
		p.active[m], p.sign[m], p.u[m] = p.active[m+1], p.sign[m+1], p.u[m+1]
		copy(p.r[m*n:m*n+m+2], p.r[(m+1)*n:(m+1)*n+m+2])
	}
	p.active = p.active[:last]
	for m := k; m < last; m++ {
		c, s, length := rotation(p.r[m*n+m], p.r[m*n+m+1])
		p.r[m*n+m], p.r[m*n+m+1] = length, 0
		for j := m + 1; j < last; j++ {
			a, b := p.r[j*n+m], p.r[j*n+m+1]
			p.r[j*n+m], p.r[j*n+m+1] = c*a+s*b, c*b-s*a
		}
		rotate(p.jt[m*n:(m+1)*n], p.jt[(m+1)*n:(m+2)*n], c, s)
	}
	// What was ignored as dependent may no longer be.
	for m := range p.state {
		if p.state[m] == ignored && m >= p.equal {
			p.state[m] = idle
		}
	}
}

// rotation gives the cosine and sine that turn (a, b) into (length, 0).
func rotation(a, b float64) (c, s, length float64) {
	if b == 0 {
		return 1, 0, a
	}
	length = math.Hypot(a, b)
	return a / length, b / length, length
}

func rotate(a, b []float64, c, s float64) {
	b = b[:len(a)]
	for i, ai := range a {
		bi := b[i]
		a[i], b[i] = c*ai+s*bi, c*bi-s*ai
	}
}

func dot(a, b []float64) float64 {
	b = b[:len(a)]
	sum := 0.0
	for i, v := range a {
		sum += v * b[i]
	}
	return sum
}

func axpy(y []float64, a float64, x []float64) {
	x = x[:len(y)]
	for i, v := range x {
		y[i] += a * v
	}
}

func scaleBy(y []float64, a float64) {
	for i := range y {
		y[i] *= a
	}
}
