package lattice

import "math"

// factors is a square matrix as the product of a lower and an upper triangle with
// rows exchanged, PA = LU: right-looking, by partial pivoting, in strips of rank
// columns (Golub and Van Loan 1996, sec. 3.2 and 3.4). Every element loses its
// products one by one in the order of the columns, whatever the kernel: the bits
// are those of the plain algorithm.
//
// Row j holds what source j does to all targets, so that A is the transpose of
// the system to be solved, and every loop runs along rows.
type factors struct {
	n, stride int
	a         []float64 // n rows of stride values; past n they are zero
	pivot     []int     // row that step k exchanged row k with
	above     []float64 // rows of U above the rest, eight columns at a time
}

// rank is how many columns are eliminated before the rest of the matrix is
// brought up to date.
const rank = 8

// padded returns the stride of rows of n values.
func padded(n int) int { return (n + rank - 1) / rank * rank }

// singular and regular are what factorise finds.
type regularity int

const (
	regular regularity = iota
	singular
)

// factorise replaces a, whose rows of n values are padded, by its factors. The
// matrix is kept, not copied.
func (f *factors) factorise(a []float64, n int) regularity {
	f.n, f.stride, f.a = n, padded(n), a
	f.pivot = sized(f.pivot, n)
	f.above = sized(f.above, f.stride*rank)
	for from := 0; from < n; from += rank {
		to := min(from+rank, n)
		largest := math.Inf(1) // below the diagonal of column k, or more
		for k := from; k < to; k++ {
			if f.exchange(k, largest) == singular {
				return singular
			}
			row := f.a[k*f.stride : (k+1)*f.stride]
			inverse := 1 / row[k]
			var right [rank]float64 // of the pivot, zero up to it
			copy(right[k+1-from:], row[k+1:from+rank])
			if k+1 < n {
				largest = eliminate(f.a[(k+1)*f.stride:n*f.stride], f.stride, from, k-from, inverse, &right)
			}
		}
		if to < n {
			f.update(from, to)
		}
	}
	return regular
}

// exchange brings the largest element of column k, on or below the diagonal, to
// the diagonal; below it none is larger than the size given.
func (f *factors) exchange(k int, below float64) regularity {
	if size := math.Abs(f.a[k*f.stride+k]); size >= below && size > 0 {
		f.pivot[k] = k
		return regular
	}
	at, largest := k, 0.0
	for i, p := k, k*f.stride+k; i < f.n; i, p = i+1, p+f.stride {
		if size := math.Abs(f.a[p]); size > largest {
			at, largest = i, size
		}
	}
	f.pivot[k] = at
	if !(largest > 0) {
		return singular
	}
	if at != k {
		x, y := f.a[k*f.stride:(k+1)*f.stride], f.a[at*f.stride:(at+1)*f.stride]
		for j := range x {
			x[j], y[j] = y[j], x[j]
		}
	}
	return regular
}

// update takes what the columns from one to before another eliminate off the
// columns that follow them: first in their own rows, then below.
func (f *factors) update(from, to int) {
	above := f.above[:(f.stride-to)*rank]
	settle(f.a[from*f.stride:to*f.stride], f.stride, from, above)
	takeProducts(f.a[to*f.stride:f.n*f.stride], f.stride, from, above)
}

// solve replaces the sides right-hand sides of the transposed system, value k of
// row i at i·sides + k, by its solutions.
func (f *factors) solve(x []float64, sides int) {
	if sides == 1 {
		f.solveOne(x)
		return
	}
	one := f.above[:0]
	one = sized(one, f.n)
	for k := range sides {
		for i := range one {
			one[i] = x[i*sides+k]
		}
		f.solveOne(one)
		for i := range one {
			x[i*sides+k] = one[i]
		}
	}
	f.above = one
}

func (f *factors) solveOne(x []float64) {
	n, stride := f.n, f.stride
	var less [rank]float64 // minus what a strip of columns has found
	for from := 0; from < n; from += rank {
		to := min(from+rank, n)
		for k := from; k < to; k++ {
			row := f.a[k*stride : k*stride+to]
			x[k] /= row[k]
			for j := k + 1; j < to; j++ {
				x[j] -= row[j] * x[k]
			}
			less[k-from] = -x[k]
		}
		addProducts(x[to:], f.a[min(from*stride+to, len(f.a)):], stride, less[:to-from])
	}
	for from := (n - 1) / rank * rank; from >= 0; from -= rank {
		to := min(from+rank, n)
		for k := to - 1; k >= from; k-- {
			row := f.a[k*stride : k*stride+k]
			for j := from; j < k; j++ {
				x[j] -= row[j] * x[k]
			}
			less[k-from] = -x[k]
		}
		addProducts(x[:from], f.a[from*stride:], stride, less[:to-from])
	}
	for k := n - 1; k >= 0; k-- {
		x[k], x[f.pivot[k]] = x[f.pivot[k]], x[k]
	}
}

// eliminateScalar makes the factors of column from+k in the rows of a and takes
// them times right off the strip of columns from from on. It returns the largest size
// that is left in the next column of the strip.
func eliminateScalar(a []float64, stride, from, k int, inverse float64, right *[rank]float64) (largest float64) {
	u0, u1, u2, u3, u4, u5, u6, u7 := right[0], right[1], right[2], right[3], right[4], right[5], right[6], right[7]
	k &= rank - 1 // as it is: it spares checks
	next := (k + 1) & (rank - 1)
	for i := from; i+rank <= len(a); i += stride {
		r := (*[rank]float64)(a[i:])
		l := r[k] * inverse
		r[0] -= l * u0
		r[1] -= l * u1
		r[2] -= l * u2
		r[3] -= l * u3
		r[4] -= l * u4
		r[5] -= l * u5
		r[6] -= l * u6
		r[7] -= l * u7
		if size := math.Abs(r[next]); size > largest {
			largest = size
		}
		r[k] = l
	}
	return largest
}

// settleScalar makes the rows of U of a strip at from out of its rows of a, past
// the strip, and copies them to above.
func settleScalar(a []float64, stride, from int, above []float64) {
	for r := range rank {
		l := (*[rank]float64)(a[r*stride+from:])
		row, u := a[r*stride+from+rank:(r+1)*stride], above
		for len(row) >= rank && len(u) >= rank*rank {
			v, up := (*[rank]float64)(row), (*[rank * rank]float64)(u)
			v0, v1, v2, v3, v4, v5, v6, v7 := v[0], v[1], v[2], v[3], v[4], v[5], v[6], v[7]
			for s := range r {
				by, x := l[s&(rank-1)], (*[rank]float64)(up[(s&(rank-1))*rank:])
				v0 -= by * x[0]
				v1 -= by * x[1]
				v2 -= by * x[2]
				v3 -= by * x[3]
				v4 -= by * x[4]
				v5 -= by * x[5]
				v6 -= by * x[6]
				v7 -= by * x[7]
			}
			*v = [rank]float64{v0, v1, v2, v3, v4, v5, v6, v7}
			*(*[rank]float64)(up[r*rank:]) = *v
			row, u = row[rank:], u[rank*rank:]
		}
	}
}

// takeProductsScalar takes from each row of a, past the strip of columns at from,
// the strip's factors in that row times the rows above.
func takeProductsScalar(a []float64, stride, from int, above []float64) {
	for ; len(a) >= stride; a = a[stride:] {
		l := (*[rank]float64)(a[from:])
		l0, l1, l2, l3, l4, l5, l6, l7 := l[0], l[1], l[2], l[3], l[4], l[5], l[6], l[7]
		row, u := a[from+rank:stride], above
		for len(row) >= rank && len(u) >= rank*rank {
			r, up := (*[rank]float64)(row), (*[rank * rank]float64)(u)
			// Four at a time, so that none waits for the one before.
			for j := 0; j+4 <= rank; j += 4 {
				v, x := (*[4]float64)(r[j:]), (*[rank*rank - 4]float64)(up[j:])
				v0, v1, v2, v3 := v[0], v[1], v[2], v[3]
				v0 -= l0 * x[0*rank+0]
				v1 -= l0 * x[0*rank+1]
				v2 -= l0 * x[0*rank+2]
				v3 -= l0 * x[0*rank+3]
				v0 -= l1 * x[1*rank+0]
				v1 -= l1 * x[1*rank+1]
				v2 -= l1 * x[1*rank+2]
				v3 -= l1 * x[1*rank+3]
				v0 -= l2 * x[2*rank+0]
				v1 -= l2 * x[2*rank+1]
				v2 -= l2 * x[2*rank+2]
				v3 -= l2 * x[2*rank+3]
				v0 -= l3 * x[3*rank+0]
				v1 -= l3 * x[3*rank+1]
				v2 -= l3 * x[3*rank+2]
				v3 -= l3 * x[3*rank+3]
				v0 -= l4 * x[4*rank+0]
				v1 -= l4 * x[4*rank+1]
				v2 -= l4 * x[4*rank+2]
				v3 -= l4 * x[4*rank+3]
				v0 -= l5 * x[5*rank+0]
				v1 -= l5 * x[5*rank+1]
				v2 -= l5 * x[5*rank+2]
				v3 -= l5 * x[5*rank+3]
				v0 -= l6 * x[6*rank+0]
				v1 -= l6 * x[6*rank+1]
				v2 -= l6 * x[6*rank+2]
				v3 -= l6 * x[6*rank+3]
				v0 -= l7 * x[7*rank+0]
				v1 -= l7 * x[7*rank+1]
				v2 -= l7 * x[7*rank+2]
				v3 -= l7 * x[7*rank+3]
				*v = [4]float64{v0, v1, v2, v3}
			}
			row, u = row[rank:], u[rank*rank:]
		}
	}
}
