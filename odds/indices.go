package odds

import "math"

// Share is how far one figure's spread comes from one input. First-order and
// total indices and Shapley effects are shares of the variance of the surrogate.
type Share struct {
	Of         string  `json:"of"`              // the figure: a boat, or "A less B"
	FirstOrder float64 `json:"first_order"`     // Sobol' index of the input alone
	FirstLow   float64 `json:"first_order_low"` // 90 % interval
	FirstHigh  float64 `json:"first_order_high"`
	Total      float64 `json:"total"` // with all that it does together with others
	TotalLow   float64 `json:"total_low"`
	TotalHigh  float64 `json:"total_high"`
	Shapley    float64 `json:"shapley"`    // its Shapley effect: what is done together is shared evenly; they sum to 1
	Effect     float64 `json:"effect_mps"` // on average, of one standard deviation of the input
}

// Fit tells what the indices of one figure rest on.
type Fit struct {
	Of          string  `json:"of"`
	Samples     int     `json:"samples"`     // that have the figure
	Terms       int     `json:"terms"`       // of the surrogate, its constant not counted
	Unexplained float64 `json:"unexplained"` // share of the figure's variance that the surrogate misses in samples that it was not fitted to
}

// groups is how many groups of samples are left out, one at a time, to find the
// error of an index.
const groups = 32

// normal90 is the deviation of a normal distribution that 90 % lie within.
const normal90 = 1.6448536269514722

// shares returns the shares of every unknown, with intervals by the delete-a-group
// jackknife (Kott 2001).
func (s *surrogate) shares(of string) []Share {
	first, total, shapley := s.split(s.coefficient)
	all := make([]Share, len(s.of))
	firstError, totalError := s.errors()
	for i := range all {
		all[i] = Share{
			Of: of, FirstOrder: first[i], Total: total[i], Shapley: shapley[i], Effect: s.effect(i),
			FirstLow: max(0, first[i]-normal90*firstError[i]), FirstHigh: min(1, first[i]+normal90*firstError[i]),
			TotalLow: max(0, total[i]-normal90*totalError[i]), TotalHigh: min(1, total[i]+normal90*totalError[i]),
		}
	}
	return all
}

// split returns the indices that coefficients stand for: Sudret (2008), equations
// 36 and 38, and for independent inputs the Shapley effect as the sum of every
// term's variance over the number of its inputs (Owen 2014, theorem 1).
func (s *surrogate) split(coefficient []float64) (first, total, shapley []float64) {
	first, total, shapley = make([]float64, len(s.of)), make([]float64, len(s.of)), make([]float64, len(s.of))
	sum := 0.0
	for k, t := range s.terms {
		v := coefficient[k] * coefficient[k]
		sum += v
		total[t.first] += v
		if t.second < 0 {
			first[t.first] += v
			shapley[t.first] += v
			continue
		}
		total[t.second] += v
		shapley[t.first] += v / 2
		shapley[t.second] += v / 2
	}
	if !(sum > 0) {
		return first, total, shapley
	}
	for i := range first {
		first[i], total[i], shapley[i] = first[i]/sum, total[i]/sum, shapley[i]/sum
	}
	return first, total, shapley
}

// errors returns the standard errors of the first-order and the total indices.
func (s *surrogate) errors() (first, total []float64) {
	first, total = make([]float64, len(s.of)), make([]float64, len(s.of))
	count := min(groups, len(s.figure))
	if count < 2 || len(s.terms) == 0 {
		return first, total
	}
	parts := gramOf(s.columns, s.figure, func(sample int) int { return sample % count }, count)
	whole := newGram(len(s.terms) + 1)
	for _, p := range parts {
		whole.plus(p)
	}
	firsts, totals := make([][]float64, len(s.of)), make([][]float64, len(s.of))
	for _, p := range parts {
		f, t, _ := s.split(whole.without(p).solve()[1:])
		for i := range f {
			firsts[i], totals[i] = append(firsts[i], f[i]), append(totals[i], t[i])
		}
	}
	for i := range first {
		first[i] = math.Sqrt(float64(count-1) * varianceOf(firsts[i]))
		total[i] = math.Sqrt(float64(count-1) * varianceOf(totals[i]))
	}
	return first, total
}

// effect returns the mean slope of the surrogate in one unknown, times the
// unknown's standard deviation. Terms of two unknowns have none on average.
func (s *surrogate) effect(unknown int) float64 {
	p := s.of[unknown]
	if p.degree() == 0 {
		return 0
	}
	sum := 0.0
	for k, t := range s.terms {
		if t.second < 0 && t.first == unknown {
			sum += s.coefficient[k] * p.meanSlope(t.degree)
		}
	}
	return sum * p.deviation
}
