package solve

import "math"

// SmoothMax is the positive part of x with its corner rounded over a band of
// about width on either side of zero: ½(x + √(x² + width²)), the hyperbola
// that has zero and x for asymptotes. It is positive, ascending and convex,
// exceeds max(0, x) by ½·width at zero, where the slope is ½, and by less
// than ¼·width²/|x| elsewhere. A width of zero, or one that is no positive
// number, gives max(0, x) itself, with a slope of ½ at zero. A value or slope
// that is not a number comes out as 0.
func SmoothMax(x, width float64) (value, slope float64) {
	if !(width > 0) || math.IsInf(width, 0) || !finite(x) {
		switch {
		case x > 0:
			return math.Min(x, math.MaxFloat64), 1
		case x == 0:
			return 0, 0.5
		}
		return 0, 0
	}
	root := math.Hypot(x, width)
	if x > 0 {
		return 0.5*x + 0.5*root, 0.5 + 0.5*x/root
	}
	// The same without the loss of figures in x + root.
	value = 0.5 * width * (width / (root - x))
	return value, value / root
}
