package solve

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// RankTolerance is the share of the largest singular value of a scaled
// Jacobian below which a singular value counts as zero. Jacobians by finite
// differences carry errors of about a hundredth of it.
const RankTolerance = 1e-6

// SelectColumns chooses, from a wide scaled Jacobian (rows: equations;
// columns: variables over their typical step), want columns that between them
// move the equations as independently as can be.
//
// The choice begins greedily, by the column with the most length not yet
// spanned (Householder QR with column pivoting: Golub and Van Loan, Matrix
// Computations, 4th ed., section 5.4.2), and is then improved by exchanges as
// long as one enlarges the volume spanned by a tenth (after Gu and Eisenstat
// 1996, SIAM Journal on Scientific Computing 17, 848–869).
//
// It returns the columns in ascending order; the rank of the whole Jacobian
// within [RankTolerance]; the condition number of the chosen columns (the
// largest over the smallest singular value, +Inf where they are dependent);
// and, where the rank is less than the number of rows, the combination of rows, of
// unit length with its largest entry positive, that no column moves. That is
// nil where every combination can be moved. Fewer than want columns are
// returned where the rank does not reach it. Rows must be equally long; where
// they are not, or a number is not finite, nothing is chosen and the rank
// is 0.
func SelectColumns(jac [][]float64, want int) (chosen []int, rank int, condition float64, nullRow []float64) {
	rows := len(jac)
	if rows == 0 || !rectangular(jac) {
		return nil, 0, math.Inf(1), nil
	}
	columns := len(jac[0])
	whole := mat.NewDense(rows, max(columns, 1), nil)
	for j, row := range jac {
		for i, v := range row {
			whole.Set(j, i, v)
		}
	}
	rank, nullRow = rankOf(whole)
	chosen = greedyColumns(jac, min(want, rank))
	if len(chosen) == 0 {
		return nil, rank, math.Inf(1), nullRow
	}
	if len(chosen) == rank {
		exchangeColumns(jac, chosen)
	}
	return chosen, rank, conditionOf(jac, chosen), nullRow
}

func rectangular(jac [][]float64) bool {
	for _, row := range jac {
		if len(row) != len(jac[0]) {
			return false
		}
		for _, v := range row {
			if !finite(v) {
				return false
			}
		}
	}
	return true
}

// rankOf returns the rank of a and, where it is less than the number of rows,
// the left singular vector of the smallest singular value.
func rankOf(a *mat.Dense) (rank int, nullRow []float64) {
	rows, _ := a.Dims()
	var svd mat.SVD
	if !svd.Factorize(a, mat.SVDFullU) {
		return 0, nil
	}
	values := svd.Values(nil)
	for _, v := range values {
		if v > RankTolerance*values[0] && v > 0 {
			rank++
		}
	}
	if rank == rows {
		return rank, nil
	}
	var u mat.Dense
	svd.UTo(&u)
	nullRow = mat.Col(nil, rows-1, &u)
	most := 0.0
	for _, v := range nullRow {
		if math.Abs(v) > math.Abs(most)*(1+1e-9) {
			most = v
		}
	}
	if most < 0 {
		scaleBy(nullRow, -1)
	}
	return rank, nullRow
}

// greedyColumns takes want columns by QR with column pivoting, in ascending
// order.
func greedyColumns(jac [][]float64, want int) []int {
	rows, columns := len(jac), len(jac[0])
	left := make([][]float64, columns)
	for i := range left {
		left[i] = make([]float64, rows)
		for j := range rows {
			left[i][j] = jac[j][i]
		}
	}
	taken := make([]bool, columns)
	for range want {
		best, most := -1, 0.0
		for i, c := range left {
			if length := dot(c, c); !taken[i] && length > most*(1+1e-9) {
				best, most = i, length
			}
		}
		if best < 0 {
			break
		}
		taken[best] = true
		// Twice is enough for the remainders to be orthogonal to rounding.
		for range 2 {
			for i, c := range left {
				if !taken[i] {
					axpy(c, -dot(left[best], c)/most, left[best])
				}
			}
		}
	}
	var chosen []int
	for i, t := range taken {
		if t {
			chosen = append(chosen, i)
		}
	}
	return chosen
}

// exchangeColumns swaps chosen columns for others while that enlarges the
// volume by a tenth. With other = chosen·w in the least-squares sense, putting
// other in the place of chosen column k multiplies the volume by at least |w k|.
func exchangeColumns(jac [][]float64, chosen []int) {
	rows, columns := len(jac), len(jac[0])
	for range 20 * columns {
		basis := mat.NewDense(rows, len(chosen), nil)
		whole := mat.NewDense(rows, columns, nil)
		for j, row := range jac {
			whole.SetRow(j, row)
			for k, i := range chosen {
				basis.Set(j, k, row[i])
			}
		}
		var w mat.Dense
		if err := w.Solve(basis, whole); err != nil {
			return
		}
		from, to, most := -1, -1, 1.1
		for k := range chosen {
			for i := range columns {
				if gain := math.Abs(w.At(k, i)); gain > most {
					from, to, most = k, i, gain
				}
			}
		}
		if from < 0 {
			return
		}
		copy(chosen[from:], chosen[from+1:])
		chosen = chosen[:len(chosen)-1]
		at := 0
		for at < len(chosen) && chosen[at] < to {
			at++
		}
		chosen = append(chosen, 0)
		copy(chosen[at+1:], chosen[at:])
		chosen[at] = to
	}
}

func conditionOf(jac [][]float64, chosen []int) float64 {
	a := mat.NewDense(len(jac), len(chosen), nil)
	for j, row := range jac {
		for k, i := range chosen {
			a.Set(j, k, row[i])
		}
	}
	var svd mat.SVD
	if !svd.Factorize(a, mat.SVDNone) {
		return math.Inf(1)
	}
	values := svd.Values(nil)
	least := values[len(values)-1]
	if !(least > 0) {
		return math.Inf(1)
	}
	return values[0] / least
}
