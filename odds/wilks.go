package odds

import "math"

// Sides tells whether a tolerance interval is open at one end.
type Sides int

// One end, or both.
const (
	OneSided Sides = 1
	TwoSided Sides = 2
)

// WilksSize returns the least number of independent samples whose extremes hold a
// share of the distribution with a confidence, whatever the distribution is:
// 1 − γⁿ for one side, 1 − γⁿ − n(1 − γ)γⁿ⁻¹ for two (Wilks 1941). Share and
// confidence lie between 0 and 1, without the ends; else it is 0.
func WilksSize(share, confidence float64, sides Sides) int {
	if !(share > 0 && share < 1 && confidence > 0 && confidence < 1) {
		return 0
	}
	const most = 1 << 24
	for n := 1; n < most; n++ {
		reached := 1 - math.Pow(share, float64(n))
		if sides == TwoSided {
			reached -= float64(n) * (1 - share) * math.Pow(share, float64(n-1))
		}
		if reached >= confidence {
			return n
		}
	}
	return most
}
