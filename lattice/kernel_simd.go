//go:build goexperiment.simd && amd64

package lattice

import "simd/archsimd"

// Kernel names the arithmetic that sums the vortices' influences: by what the
// processor has "avx512" or "avx2", eight or four numbers at a time, else
// "scalar". All give the same bits.
func Kernel() string {
	switch lanes() {
	case width8:
		return "avx512"
	case width4:
		return "avx2"
	}
	return "scalar"
}

// lanes returns how many numbers the processor takes at once.
func lanes() int {
	switch {
	case archsimd.X86.AVX512():
		return width8
	case archsimd.X86.AVX2():
		return width4
	}
	return 1
}

func influence(steps []step, t *targets, from, to int, own bool, mirror float64, into []float64, stride int) {
	see, width := influenceScalar, 1
	switch n := lanes(); {
	case n >= width8 && to-from >= width8:
		see, width = influence8, width8
	case n >= width4 && to-from >= width4:
		see, width = influence4, width4
	}
	last := from + (to-from)/width*width
	see(steps, t, from, last, own, mirror, into, stride)
	if last == to {
		return
	}
	// The rest is the last full width, some of it for a second time.
	if width == width8 && to-last <= width4 {
		see, width = influence4, width4
	}
	see(steps, t, to-width, to, own, mirror, into, stride)
}

func far(steps []step, t *targets, from, to int, own bool, mirror float64, into, image []float64, stride int) {
	switch n := lanes(); {
	case n >= width8 && to-from >= width8:
		far8(steps, t, from, to, own, mirror, into, image, stride)
	case n >= width4 && to-from >= width4:
		far4(steps, t, from, to, own, mirror, into, image, stride)
	default:
		farScalar(steps, t, from, to, own, mirror, into, image, stride)
	}
}

func lines(nodes []lineNode, t *strips, from, to int, own bool, thin, wall float64, into, scaled []float64, stride int) {
	switch n := lanes(); {
	case n >= width8 && to-from >= width8:
		lines8(nodes, t, from, to, own, thin, wall, into, scaled, stride)
	case n >= width4 && to-from >= width4:
		lines4(nodes, t, from, to, own, thin, wall, into, scaled, stride)
	default:
		linesScalar(nodes, t, from, to, own, thin, wall, into, scaled, stride)
	}
}

func addProducts(into, matrix []float64, stride int, by []float64) {
	switch lanes() {
	case width8:
		addProducts8(into, matrix, stride, by)
	case width4:
		addProducts4(into, matrix, stride, by)
	default:
		addProductsScalar(into, matrix, stride, by)
	}
}

func eliminate(a []float64, stride, from, k int, inverse float64, right *[rank]float64) (largest float64) {
	switch lanes() {
	case width8:
		return eliminate8(a, stride, from, k, inverse, right)
	case width4:
		return eliminate4(a, stride, from, k, inverse, right)
	}
	return eliminateScalar(a, stride, from, k, inverse, right)
}

func settle(a []float64, stride, from int, above []float64) {
	switch lanes() {
	case width8:
		settle8(a, stride, from, above)
	case width4:
		settle4(a, stride, from, above)
	default:
		settleScalar(a, stride, from, above)
	}
}

func takeProducts(a []float64, stride, from int, above []float64) {
	switch lanes() {
	case width8:
		takeProducts8(a, stride, from, above)
	case width4:
		takeProducts4(a, stride, from, above)
	default:
		takeProductsScalar(a, stride, from, above)
	}
}

// widest is how many numbers the widest vector holds, and spread one vector of them.
const widest = 8

type spread [widest]float64

// block is a vector of targets with their reflections, and what they see of a step and
// the one before: see influenceScalar.
type block struct {
	x, y, u, v, core4       spread
	ways                    [2]way // in turn from the step before and from this one
	along, across, flat, cz spread
	direct, mirrored        half
}

// way is what targets and reflections share of the way from a step.
type way struct{ x, y, side spread }

// half is what is the targets' alone, or their reflections': height and direction, and
// of a step the height over it, the way's length and what the leg does.
type half struct{ height, w, z, r, leg spread }

// kept is what targets keep for this kernel.
type kept struct{ scratch *block }

// ready makes room for it.
func (k *kept) ready() {
	if k.scratch == nil {
		k.scratch = new(block)
	}
}

// one is 1, as often as it is used; thin and nearly are axis and between.
var (
	one    = [4]spread{all(1), all(1), all(1), all(1)}
	thin   = all(axis)
	nearly = all(between)
)

func all(x float64) (s spread) {
	for k := range s {
		s[k] = x
	}
	return s
}
