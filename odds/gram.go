package odds

import (
	"gonum.org/v1/gonum/mat"
)

// gram is the normal equations of a least-squares fit with a constant first.
type gram struct {
	size   int
	matrix []float64 // size × size
	right  []float64
}

func newGram(size int) *gram {
	return &gram{size: size, matrix: make([]float64, size*size), right: make([]float64, size)}
}

// gramOf returns the normal equations of each group of samples.
func gramOf(columns [][]float64, figure []float64, group func(sample int) int, groups int) []*gram {
	size := len(columns) + 1
	all := make([]*gram, groups)
	for g := range all {
		all[g] = newGram(size)
	}
	row := make([]float64, size)
	row[0] = 1
	for s, y := range figure {
		for c := range columns {
			row[c+1] = columns[c][s]
		}
		g := all[group(s)]
		for i, v := range row {
			g.right[i] += v * y
			to := g.matrix[i*size : i*size+i+1]
			for j := range to {
				to[j] += v * row[j]
			}
		}
	}
	return all
}

// without returns the equations less those of a group.
func (g *gram) without(other *gram) *gram {
	rest := newGram(g.size)
	for i := range rest.matrix {
		rest.matrix[i] = g.matrix[i] - other.matrix[i]
	}
	for i := range rest.right {
		rest.right[i] = g.right[i] - other.right[i]
	}
	return rest
}

// plus adds the equations of a group.
func (g *gram) plus(other *gram) {
	for i := range g.matrix {
		g.matrix[i] += other.matrix[i]
	}
	for i := range g.right {
		g.right[i] += other.right[i]
	}
}

// solve returns the constant and the coefficients. Where the equations do not
// settle them, which too few samples may do, a small multiple of the diagonal is
// added until they do.
func (g *gram) solve() []float64 {
	full := mat.NewSymDense(g.size, nil)
	largest := 0.0
	for i := range g.size {
		largest = max(largest, g.matrix[i*g.size+i])
		for j := range i + 1 {
			full.SetSym(i, j, g.matrix[i*g.size+j])
		}
	}
	solution := mat.NewVecDense(g.size, nil)
	var c mat.Cholesky
	for more := 1e-12; more < 1; more *= 100 {
		if c.Factorize(full) && c.Cond() < 1e12 && c.SolveVecTo(solution, mat.NewVecDense(g.size, g.right)) == nil {
			return solution.RawVector().Data
		}
		for i := range g.size {
			full.SetSym(i, i, full.At(i, i)+more*largest)
		}
	}
	return make([]float64, g.size)
}
