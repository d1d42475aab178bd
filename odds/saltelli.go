package odds

import "fmt"

// Indices are first-order and total Sobol' indices of a function, one of each for
// every input, found from its values alone.
type Indices struct {
	First, Total []float64
	Variance     float64 // of the function
	Evaluations  int
}

// Estimate finds the indices of a function of independent inputs, uniform on
// (0, 1), from samples × (inputs + 2) of its values: the design of Saltelli
// (2002), two sets of points A and B and, for each input, A with that input
// taken from B; the estimators of Jansen (1999) as Saltelli et al. (2010), table
// 2 (b and f), have them. The points are scrambled Sobol points of twice the
// dimensions.
func Estimate(f func(u []float64) float64, inputs, samples int, seed uint64) (Indices, error) {
	var out Indices
	if inputs < 1 || samples < 2 {
		return out, fmt.Errorf("indices of %d inputs from %d samples cannot be found\nhint: one input and two samples are the least", inputs, samples)
	}
	names := make([]string, 2*inputs)
	for i := range names {
		names[i] = fmt.Sprintf("input %d", i)
	}
	points, err := NewPoints(seed, names)
	if err != nil {
		return out, err
	}
	out.First, out.Total = make([]float64, inputs), make([]float64, inputs)
	a, b, mixed := make([]float64, inputs), make([]float64, inputs), make([]float64, inputs)
	var values []float64
	for s := range samples {
		for i := range inputs {
			a[i], b[i] = points.At(uint32(s), i), points.At(uint32(s), inputs+i)
		}
		fa, fb := f(a), f(b)
		values = append(values, fa, fb)
		for i := range inputs {
			copy(mixed, a)
			mixed[i] = b[i]
			fm := f(mixed)
			out.First[i] += (fb - fm) * (fb - fm)
			out.Total[i] += (fa - fm) * (fa - fm)
		}
	}
	out.Variance, out.Evaluations = varianceOf(values), samples*(inputs+2)
	for i := range inputs {
		half := 2 * float64(samples) * out.Variance
		if !(half > 0) {
			out.First[i], out.Total[i] = 0, 0
			continue
		}
		out.First[i], out.Total[i] = 1-out.First[i]/half, out.Total[i]/half
	}
	return out, nil
}
