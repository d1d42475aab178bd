package section

import (
	"fmt"
	"math"
)

// thicknessForm is a fit to the half-thickness of a 6-series family:
// y/t = s·(1−x)·Σ (c_k + d_k·10(t − 0.12))·T_k(2s−1), s = √x, T_k Chebyshev
// polynomials of the first kind.
type thicknessForm struct {
	level  []float64 // c, at 12 % thickness
	growth []float64 // d
}

func thicknessForms() [7]thicknessForm {
	return [7]thicknessForm{
		3: {
			[]float64{1.03934, -0.29136, -0.27042, -0.19407, -0.04536, -0.02270, -0.01068, -0.00681, -0.00540},
			[]float64{-0.05273, -0.02207, -0.06199, 0.00797, -0.00112},
		},
		4: {
			[]float64{1.04066, -0.24865, -0.25056, -0.21286, -0.05912, -0.02048, -0.02008, -0.00867, -0.01265},
			[]float64{-0.03723, -0.03170, -0.03924, 0.00025, 0.01032},
		},
		5: {
			[]float64{1.05762, -0.13213, -0.20942, -0.23845, -0.06989, -0.03063, -0.01465, -0.00285, -0.01249, -0.00242},
			[]float64{-0.04647, -0.02919, -0.04831, -0.00587, 0.00826},
		},
		6: {
			[]float64{1.11801, 0.01318, -0.14103, -0.26203, -0.11687, -0.06168, -0.01966, 0.01062, -0.00245},
			[]float64{-0.05740, -0.04293, -0.06674, -0.02412, -0.00647},
		},
	}
}

func (f thicknessForm) half(x, t float64) float64 {
	s := math.Sqrt(x)
	z := 2*s - 1
	sum, before, now := 0.0, z, 1.0 // T₋₁ = T₁
	for k, c := range f.level {
		if k < len(f.growth) {
			c += f.growth[k] * 10 * (t - 0.12)
		}
		sum += c * now
		before, now = now, 2*z*now-before
	}
	return t * s * (1 - x) * sum
}

// sixSeries returns a section of the families 63 to 66 of a design lift, a
// thickness t, 0.06 to 0.21, and a mean line a.
//
// The thickness forms are this package's own fit, linear in thickness, to the
// published ordinates (Abbott, von Doenhoff, Stivers 1945, NACA Report 824)
// and nose radii, the latter and the ordinates of 66-009 and 66-012 from
// memory. Against the ordinates of the open section data base of the
// University of Illinois they are within 0.0003 chords for 63-209, 63-415,
// 64-110, 64-210, 64-012, 64-015, 65-410, 65-212, 65-412 and 65-415, 0.0005
// for 63-412, 0.0012 for 66-018 and 0.0016 for 66-021; nose radii come within
// 4 % of those remembered for 9 to 15 %.
func sixSeries(name string, family int, designLift, t, a float64) (Section, error) {
	const lowest, highest = 0.06, 0.21
	if !(t >= lowest && t <= highest) {
		return Section{}, fmt.Errorf("section %q: thickness %g %%, the 6-series is known from %g to %g %%\nhint: scale one, as in naca 64-209 at 5 %%",
			name, 100*t, 100*lowest, 100*highest)
	}
	form := thicknessForms()[family]
	largest := 0.0
	for i := range 400 {
		largest = max(largest, form.half(float64(i)/400, t))
	}
	half := func(x float64) float64 { return form.half(x, t) * t / (2 * largest) }
	if designLift == 0 {
		s, err := symmetric(half)
		if err != nil {
			return Section{}, fmt.Errorf("section %q: %w", name, err)
		}
		return build(name, s, nominal{thickness: t})
	}
	return cambered(name, t, uniformLoadLine(designLift, a), half, uniformLoadTheory(designLift, a))
}

// uniformLoadLine is the mean line whose load is uniform from the nose to x = a
// and falls in a straight line to none at the trailing edge, for a design lift
// c_li (Abbott, von Doenhoff, Stivers 1945, p. 17). Its slope is infinite at the
// nose, and for a = 1 at the trailing edge: there, as in that report, it is held
// at the slope of 0.5 % of the chord.
func uniformLoadLine(designLift, a float64) camber {
	return func(x float64) (y, slope float64) {
		y, _ = uniformLoad(designLift, a, x)
		_, slope = uniformLoad(designLift, a, min(max(x, 0.005), 0.995))
		return y, slope
	}
}

func uniformLoad(designLift, a, x float64) (y, slope float64) {
	xlog := func(v float64) float64 {
		if v <= 0 {
			return 0
		}
		return v * math.Log(v)
	}
	if a > 1-1e-9 {
		k := designLift / (4 * math.Pi)
		return -k * (xlog(1-x) + xlog(x)), k * (math.Log(1-x) - math.Log(x))
	}
	g, h := uniformLoadConstants(a)
	k := designLift / (2 * math.Pi * (a + 1))
	u, v := math.Abs(a-x), 1-x
	// ½u²ln u − ½v²ln v + ¼v² − ¼u², over 1 − a, and its slope.
	bracket := (u*xlog(u)-v*xlog(v))/2 + (v*v-u*u)/4
	signed := math.Copysign(1, a-x)
	bracketSlope := -signed*xlog(u) + xlog(v)
	y = k * (bracket/(1-a) - xlog(x) + g - h*x)
	slope = k * (bracketSlope/(1-a) - math.Log(x) - 1 - h)
	return y, slope
}

func uniformLoadConstants(a float64) (g, h float64) {
	logA := 0.0
	if a > 0 {
		logA = a * a * math.Log(a)
	}
	b := 1 - a
	g = -(logA/2 - a*a/4 + 0.25) / b
	h = (b*b*math.Log(b)/2-b*b/4)/b + g
	return g, h
}

// uniformLoadTheory returns the closed forms behind that mean line: the angle of
// design lift is −c_li·h/(2π(a+1)), and the moment is that of the load.
func uniformLoadTheory(designLift, a float64) meanLine {
	if a > 1-1e-9 {
		return meanLine{zeroLift: -designLift / (2 * math.Pi), moment: -0.25 * designLift, idealLift: designLift}
	}
	_, h := uniformLoadConstants(a)
	alpha := -designLift * h / (2 * math.Pi * (a + 1))
	centre := (a*a/2 + (1.0/6-a*a/2+a*a*a/3)/(1-a)) / ((1 + a) / 2)
	return meanLine{zeroLift: alpha - designLift/(2*math.Pi), moment: -designLift * (centre - 0.25), idealLift: designLift}
}
