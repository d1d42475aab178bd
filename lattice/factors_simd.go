//go:build goexperiment.simd && amd64

package lattice

import "simd/archsimd"

// eliminate8 is eliminateScalar by eight.
func eliminate8(a []float64, stride, from, k int, inverse float64, right *[rank]float64) (largest float64) {
	u := load8(right[:])
	var most, least lanes8
	for i := from; i+rank <= len(a); i += stride {
		r := (*[rank]float64)(a[i:])
		l := r[k&(rank-1)] * inverse
		left := load8(r[:]).Sub(each8(l).Mul(u))
		most, least = most.Max(left), least.Min(left)
		left.StoreSlice(r[:])
		r[k&(rank-1)] = l
	}
	var ends [2][rank]float64
	most.StoreSlice(ends[0][:])
	least.StoreSlice(ends[1][:])
	archsimd.ClearAVXUpperBits()
	next := (k + 1) & (rank - 1)
	return max(ends[0][next], -ends[1][next])
}

// eliminate4 is eliminateScalar by four.
func eliminate4(a []float64, stride, from, k int, inverse float64, right *[rank]float64) (largest float64) {
	u, v := load4(right[:4]), load4(right[4:])
	var most, least, mostV, leastV lanes4
	for i := from; i+rank <= len(a); i += stride {
		r := (*[rank]float64)(a[i:])
		l := r[k&(rank-1)] * inverse
		factor := each4(l)
		left, leftV := load4(r[:4]).Sub(factor.Mul(u)), load4(r[4:]).Sub(factor.Mul(v))
		most, least, mostV, leastV = most.Max(left), least.Min(left), mostV.Max(leftV), leastV.Min(leftV)
		left.StoreSlice(r[:4])
		leftV.StoreSlice(r[4:])
		r[k&(rank-1)] = l
	}
	var ends [2][rank]float64
	most.StoreSlice(ends[0][:4])
	mostV.StoreSlice(ends[0][4:])
	least.StoreSlice(ends[1][:4])
	leastV.StoreSlice(ends[1][4:])
	archsimd.ClearAVXUpperBits()
	next := (k + 1) & (rank - 1)
	return max(ends[0][next], -ends[1][next])
}

// settle8 is settleScalar by eight.
func settle8(a []float64, stride, from int, above []float64) {
	for r := range rank {
		l := (*[rank]float64)(a[r*stride+from:])
		row, u := a[r*stride+from+rank:(r+1)*stride], above
		for len(row) >= rank && len(u) >= rank*rank {
			up := (*[rank * rank]float64)(u)
			v := load8(row)
			for s := range r {
				v = v.Sub(each8(l[s&(rank-1)]).Mul(load8(up[(s&(rank-1))*rank:])))
			}
			v.StoreSlice(row)
			v.StoreSlice(up[r*rank:])
			row, u = row[rank:], u[rank*rank:]
		}
	}
	archsimd.ClearAVXUpperBits()
}

// settle4 is settleScalar by twice four.
func settle4(a []float64, stride, from int, above []float64) {
	for r := range rank {
		l := (*[rank]float64)(a[r*stride+from:])
		row, u := a[r*stride+from+rank:(r+1)*stride], above
		for len(row) >= rank && len(u) >= rank*rank {
			up := (*[rank * rank]float64)(u)
			v, w := load4(row), load4(row[4:])
			for s := range r {
				factor := each4(l[s&(rank-1)])
				v = v.Sub(factor.Mul(load4(up[(s&(rank-1))*rank:])))
				w = w.Sub(factor.Mul(load4(up[(s&(rank-1))*rank+4:])))
			}
			v.StoreSlice(row)
			w.StoreSlice(row[4:])
			v.StoreSlice(up[r*rank:])
			w.StoreSlice(up[r*rank+4:])
			row, u = row[rank:], u[rank*rank:]
		}
	}
	archsimd.ClearAVXUpperBits()
}

// takeProducts8 is takeProductsScalar by eight.
func takeProducts8(a []float64, stride, from int, above []float64) {
	for ; len(a) >= stride; a = a[stride:] {
		l := (*[rank]float64)(a[from:])
		l0, l1, l2, l3, l4, l5, l6, l7 := each8(l[0]), each8(l[1]), each8(l[2]), each8(l[3]), each8(l[4]), each8(l[5]), each8(l[6]), each8(l[7])
		row, u := a[from+rank:stride], above
		for len(row) >= rank && len(u) >= rank*rank {
			up := (*[rank * rank]float64)(u)
			v := load8(row)
			v = v.Sub(l0.Mul(load8(up[0*rank:])))
			v = v.Sub(l1.Mul(load8(up[1*rank:])))
			v = v.Sub(l2.Mul(load8(up[2*rank:])))
			v = v.Sub(l3.Mul(load8(up[3*rank:])))
			v = v.Sub(l4.Mul(load8(up[4*rank:])))
			v = v.Sub(l5.Mul(load8(up[5*rank:])))
			v = v.Sub(l6.Mul(load8(up[6*rank:])))
			v = v.Sub(l7.Mul(load8(up[7*rank:])))
			v.StoreSlice(row)
			row, u = row[rank:], u[rank*rank:]
		}
	}
	archsimd.ClearAVXUpperBits()
}

// takeProducts4 is takeProductsScalar by twice four.
func takeProducts4(a []float64, stride, from int, above []float64) {
	for ; len(a) >= stride; a = a[stride:] {
		l := (*[rank]float64)(a[from:])
		l0, l1, l2, l3, l4, l5, l6, l7 := each4(l[0]), each4(l[1]), each4(l[2]), each4(l[3]), each4(l[4]), each4(l[5]), each4(l[6]), each4(l[7])
		row, u := a[from+rank:stride], above
		for len(row) >= rank && len(u) >= rank*rank {
			up := (*[rank * rank]float64)(u)
			v, w := load4(row), load4(row[4:])
			v, w = v.Sub(l0.Mul(load4(up[0*rank:]))), w.Sub(l0.Mul(load4(up[0*rank+4:])))
			v, w = v.Sub(l1.Mul(load4(up[1*rank:]))), w.Sub(l1.Mul(load4(up[1*rank+4:])))
			v, w = v.Sub(l2.Mul(load4(up[2*rank:]))), w.Sub(l2.Mul(load4(up[2*rank+4:])))
			v, w = v.Sub(l3.Mul(load4(up[3*rank:]))), w.Sub(l3.Mul(load4(up[3*rank+4:])))
			v, w = v.Sub(l4.Mul(load4(up[4*rank:]))), w.Sub(l4.Mul(load4(up[4*rank+4:])))
			v, w = v.Sub(l5.Mul(load4(up[5*rank:]))), w.Sub(l5.Mul(load4(up[5*rank+4:])))
			v, w = v.Sub(l6.Mul(load4(up[6*rank:]))), w.Sub(l6.Mul(load4(up[6*rank+4:])))
			v, w = v.Sub(l7.Mul(load4(up[7*rank:]))), w.Sub(l7.Mul(load4(up[7*rank+4:])))
			v.StoreSlice(row)
			w.StoreSlice(row[4:])
			row, u = row[rank:], u[rank*rank:]
		}
	}
	archsimd.ClearAVXUpperBits()
}
