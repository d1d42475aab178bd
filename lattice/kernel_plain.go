//go:build !(goexperiment.simd && amd64)

package lattice

// Kernel names the arithmetic that sums the vortices' influences: here one
// number at a time.
func Kernel() string { return "scalar" }

func influence(steps []step, t *targets, from, to int, own bool, mirror float64, into []float64, stride int) {
	influenceScalar(steps, t, from, to, own, mirror, into, stride)
}

func far(steps []step, t *targets, from, to int, own bool, mirror float64, into, image []float64, stride int) {
	farScalar(steps, t, from, to, own, mirror, into, image, stride)
}

func lines(nodes []lineNode, t *strips, from, to int, own bool, thin, wall float64, into, scaled []float64, stride int) {
	linesScalar(nodes, t, from, to, own, thin, wall, into, scaled, stride)
}

func addProducts(into, matrix []float64, stride int, by []float64) {
	addProductsScalar(into, matrix, stride, by)
}

func eliminate(a []float64, stride, from, k int, inverse float64, right *[rank]float64) (largest float64) {
	return eliminateScalar(a, stride, from, k, inverse, right)
}

func settle(a []float64, stride, from int, above []float64) { settleScalar(a, stride, from, above) }

func takeProducts(a []float64, stride, from int, above []float64) {
	takeProductsScalar(a, stride, from, above)
}

// kept is nothing here: memory of a vector kernel.
type kept struct{}

func (kept) ready() {}
