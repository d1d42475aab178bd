package odds

import (
	"cmp"
	"math"
	"slices"
)

// Basis tells which terms a surrogate may have.
type Basis struct {
	Degree   int // highest degree in one unknown
	Together int // highest sum of degrees of a product of two unknowns; below 2 for no products
	Among    int // products are of this many unknowns at most, those with most effect of their own
	Terms    int // most terms that are kept
}

// DefaultBasis is the basis of the answers' indices: best trims are smooth and
// nearly straight over the spread of one boat file, with kinks where a limit or a
// way of sailing changes.
func DefaultBasis() Basis { return Basis{Degree: 3, Together: 2, Among: 24, Terms: 80} }

// term is a product of polynomials of one or two unknowns. Its own polynomial's
// mean is 0 and its square's is 1.
type term struct{ first, degree, second, secondDegree int } // second is −1 where there is none

// surrogate is a sparse polynomial in the unknowns, orthonormal over their
// distributions (a polynomial chaos: Ghanem and Spanos 1991), so that variances
// follow from its coefficients alone (Sudret 2008).
type surrogate struct {
	of          []*polynomials
	terms       []term
	coefficient []float64
	// unexplained is the share of the figure's variance that the polynomial misses
	// in samples that it was not fitted to: leave-one-out cross-validation.
	unexplained float64
	variance    float64     // of the polynomial
	columns     [][]float64 // of the terms, at the samples
	figure      []float64
}

// candidates returns every term of the basis, products among the leading unknowns
// alone.
func (b Basis) candidates(of []*polynomials, leading []int) []term {
	var all []term
	for i, p := range of {
		for d := 1; d <= min(b.Degree, p.degree()); d++ {
			all = append(all, term{i, d, -1, 0})
		}
	}
	for k, i := range leading {
		for _, j := range leading[:k] {
			for d := 1; d < b.Together; d++ {
				for e := 1; d+e <= b.Together; e++ {
					if d <= of[i].degree() && e <= of[j].degree() {
						all = append(all, term{i, d, j, e})
					}
				}
			}
		}
	}
	return all
}

// column returns a term at every sample, from the polynomials of each unknown
// there: tables[unknown][degree][sample].
func (t term) column(tables [][][]float64) []float64 {
	out := slices.Clone(tables[t.first][t.degree])
	if t.second >= 0 {
		for s, v := range tables[t.second][t.secondDegree] {
			out[s] *= v
		}
	}
	return out
}

// tabulate returns the polynomials of every unknown at every sample.
func tabulate(of []*polynomials, values [][]float64, degree int) [][][]float64 {
	tables := make([][][]float64, len(of))
	at := make([]float64, degree+1)
	for i, p := range of {
		tables[i] = make([][]float64, p.degree()+1)
		for d := range tables[i] {
			tables[i][d] = make([]float64, len(values))
		}
		for s := range values {
			p.at(values[s][i], at[:p.degree()+1], nil)
			for d := range tables[i] {
				tables[i][d][s] = at[d]
			}
		}
	}
	return tables
}

// leadingOf returns the unknowns whose polynomials follow the figure most
// closely, at most so many, in rising order.
func leadingOf(tables [][][]float64, figure []float64, most int) []int {
	mean := average(figure)
	order := make([]int, len(tables))
	follows := make([]float64, len(tables))
	for i := range tables {
		order[i] = i
		for _, column := range tables[i][1:] {
			sum := 0.0
			for s, v := range column {
				sum += v * (figure[s] - mean)
			}
			follows[i] += sum * sum
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(follows[b], follows[a]) })
	order = order[:min(len(order), max(most, 0))]
	slices.Sort(order)
	return order
}

// fit returns the surrogate of a figure from its values at samples of the
// unknowns. Terms are taken one after the other, each time the one that follows
// most closely what is left (orthogonal matching pursuit: Pati, Rezaiifar and
// Krishnaprasad 1993); as many stay as give the least leave-one-out error.
func (b Basis) fit(of []*polynomials, values [][]float64, figure []float64) *surrogate {
	tables := tabulate(of, values, b.Degree)
	candidates := b.candidates(of, leadingOf(tables, figure, b.Among))
	s := &surrogate{of: of, figure: figure}
	columns := make([][]float64, len(candidates))
	for c := range candidates {
		columns[c] = candidates[c].column(tables)
	}
	chosen, kept, missed := pursue(columns, figure, min(b.Terms, len(figure)/3, len(candidates)))
	for _, c := range chosen[:kept] {
		s.terms = append(s.terms, candidates[c])
		s.columns = append(s.columns, columns[c])
	}
	s.solve()
	s.unexplained = 0
	if total := varianceOf(figure); total > 0 {
		s.unexplained = missed / total
	}
	return s
}

// solve sets the coefficients by least squares over all samples.
func (s *surrogate) solve() {
	g := gramOf(s.columns, s.figure, func(int) int { return 0 }, 1)[0]
	s.coefficient = g.solve()[1:]
	s.variance = 0
	for _, c := range s.coefficient {
		s.variance += c * c
	}
}

// pursue chooses columns in the order in which they explain the figure, and
// returns how many to keep and the mean square that is then missed,
// leave-one-out. An orthonormal basis of what is chosen (with the constant first)
// is kept by Gram and Schmidt, twice over for its rounding.
func pursue(columns [][]float64, figure []float64, most int) (chosen []int, kept int, missed float64) {
	n := len(figure)
	constant := make([]float64, n)
	for s := range constant {
		constant[s] = 1 / math.Sqrt(float64(n))
	}
	basis := [][]float64{constant}
	left, hat := slices.Clone(figure), make([]float64, n)
	used := make([]bool, len(columns))
	norms := make([]float64, len(columns))
	for c := range columns {
		norms[c] = math.Sqrt(dot(columns[c], columns[c]))
	}
	project := func(q []float64) {
		share := dot(q, left)
		for s := range left {
			left[s] -= share * q[s]
			hat[s] += q[s] * q[s]
		}
	}
	project(constant)
	missed = leftOut(left, hat, 1)
	floor := 1e-28 * dot(figure, figure)
	for len(chosen) < most && dot(left, left) > floor {
		next, best := -1, 0.0
		for c := range columns {
			if used[c] || norms[c] == 0 {
				continue
			}
			if follows := math.Abs(dot(columns[c], left)) / norms[c]; follows > best {
				next, best = c, follows
			}
		}
		if next < 0 {
			break
		}
		used[next] = true
		q := orthogonal(columns[next], basis)
		if q == nil {
			continue
		}
		project(q)
		basis, chosen = append(basis, q), append(chosen, next)
		if now := leftOut(left, hat, len(basis)); now < missed {
			missed, kept = now, len(chosen)
		}
	}
	return chosen, kept, missed
}

// orthogonal returns the part of a column that is orthogonal to a basis, of unit
// length; nil where nothing is left.
func orthogonal(column []float64, basis [][]float64) []float64 {
	q := slices.Clone(column)
	whole := dot(q, q)
	for range 2 {
		for _, e := range basis {
			share := dot(e, q)
			for s := range q {
				q[s] -= share * e[s]
			}
		}
	}
	rest := dot(q, q)
	if !(rest > 1e-12*whole) {
		return nil
	}
	for s := range q {
		q[s] /= math.Sqrt(rest)
	}
	return q
}

// leftOut is the mean square of leave-one-out residuals, from residuals and the
// diagonal of the hat matrix (Allen 1974), times n/(n − terms), which makes up
// for terms having been chosen with the sample in view (Chapelle, Vapnik and
// Bengio 2002, equation 8 without its last factor).
func leftOut(left, hat []float64, terms int) float64 {
	n := len(left)
	if terms >= n {
		return math.Inf(1)
	}
	sum := 0.0
	for s, r := range left {
		away := r / max(1-hat[s], 1e-6)
		sum += away * away
	}
	return sum / float64(n) * float64(n) / float64(n-terms)
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i, v := range a {
		sum += v * b[i]
	}
	return sum
}

func average(values []float64) float64 {
	sum := 0.0
	for _, v := range values {
		sum += v
	}
	return sum / float64(max(1, len(values)))
}

// varianceOf is the mean square about the mean.
func varianceOf(values []float64) float64 {
	mean, sum := average(values), 0.0
	for _, v := range values {
		sum += (v - mean) * (v - mean)
	}
	return sum / float64(max(1, len(values)))
}
