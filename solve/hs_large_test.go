package solve

import "math"

var ring = func(x []float64, v *Values) {
	v.Equal[0] = x[0]*x[0] + x[1]*x[1] + x[2]*x[2] + x[3]*x[3] + x[4]*x[4] - 10
	v.Equal[1] = x[1]*x[2] - 5*x[3]*x[4]
	v.Equal[2] = x[0]*x[0]*x[0] + x[1]*x[1]*x[1] + 1
}

var largeBenchmarks = []benchmark{
	{number: 78, start: []float64{-2, 1.5, 2, -1, -1}, equal: 3, values: func(x []float64, v *Values) {
		v.F = x[0] * x[1] * x[2] * x[3] * x[4]
		ring(x, v)
	}},
	{number: 79, start: []float64{2, 2, 2, 2, 2}, equal: 3, values: func(x []float64, v *Values) {
		v.F = sq(x[0]-1) + sq(x[0]-x[1]) + sq(x[1]-x[2]) + sq(sq(x[2]-x[3])) + sq(sq(x[3]-x[4]))
		v.Equal[0] = x[0] + x[1]*x[1] + x[2]*x[2]*x[2] - 2 - 3*math.Sqrt2
		v.Equal[1] = x[1] - x[2]*x[2] + x[3] + 2 - 2*math.Sqrt2
		v.Equal[2] = x[0]*x[4] - 2
	}},
	{number: 80, start: []float64{-2, 2, 2, -1, -1}, equal: 3,
		lower: []float64{-2.3, -2.3, -3.2, -3.2, -3.2}, upper: []float64{2.3, 2.3, 3.2, 3.2, 3.2},
		values: func(x []float64, v *Values) {
			v.F = math.Exp(x[0] * x[1] * x[2] * x[3] * x[4])
			ring(x, v)
		}},
	{number: 81, start: []float64{-2, 2, 2, -1, -1}, equal: 3,
		lower: []float64{-2.3, -2.3, -3.2, -3.2, -3.2}, upper: []float64{2.3, 2.3, 3.2, 3.2, 3.2},
		values: func(x []float64, v *Values) {
			ring(x, v)
			v.F = math.Exp(x[0]*x[1]*x[2]*x[3]*x[4]) - 0.5*sq(v.Equal[2])
		}},
	{number: 93, start: []float64{5.54, 4.4, 12.02, 11.82, 0.702, 0.852}, lower: []float64{0, 0, 0, 0, 0, 0}, inequal: 2,
		values: func(x []float64, v *Values) {
			a := x[0] * x[3] * (x[0] + x[1] + x[2])
			b := x[1] * x[2] * (x[0] + 1.57*x[1] + x[3])
			v.F = 0.0204*a + 0.0187*b + 0.0607*a*x[4]*x[4] + 0.0437*b*x[5]*x[5]
			v.Inequal[0] = 0.001*x[0]*x[1]*x[2]*x[3]*x[4]*x[5] - 2.07
			v.Inequal[1] = 1 - 0.00062*a*x[4]*x[4] - 0.00058*b*x[5]*x[5]
		}},
	{number: 100, start: []float64{1, 2, 0, 4, 0, 1, 1}, inequal: 4, values: func(x []float64, v *Values) {
		v.F = sq(x[0]-10) + 5*sq(x[1]-12) + sq(sq(x[2])) + 3*sq(x[3]-11) + 10*sq(sq(x[4]))*sq(x[4]) +
			7*x[5]*x[5] + sq(sq(x[6])) - 4*x[5]*x[6] - 10*x[5] - 8*x[6]
		v.Inequal[0] = 127 - 2*x[0]*x[0] - 3*sq(sq(x[1])) - x[2] - 4*x[3]*x[3] - 5*x[4]
		v.Inequal[1] = 282 - 7*x[0] - 3*x[1] - 10*x[2]*x[2] - x[3] + x[4]
		v.Inequal[2] = 196 - 23*x[0] - x[1]*x[1] - 6*x[5]*x[5] + 8*x[6]
		v.Inequal[3] = -4*x[0]*x[0] - x[1]*x[1] + 3*x[0]*x[1] - 2*x[2]*x[2] - 5*x[5] + 11*x[6]
	}},
	{number: 106, start: []float64{5000, 5000, 5000, 200, 350, 150, 225, 425}, inequal: 6,
		lower: []float64{100, 1000, 1000, 10, 10, 10, 10, 10},
		upper: []float64{10000, 10000, 10000, 1000, 1000, 1000, 1000, 1000},
		scale: []float64{1000, 1000, 1000, 100, 100, 100, 100, 100},
		values: func(x []float64, v *Values) {
			v.F = x[0] + x[1] + x[2]
			v.Inequal[0] = 1 - 0.0025*(x[3]+x[5])
			v.Inequal[1] = 1 - 0.0025*(x[4]+x[6]-x[3])
			v.Inequal[2] = 1 - 0.01*(x[7]-x[4])
			v.Inequal[3] = x[0]*x[5] - 833.33252*x[3] - 100*x[0] + 83333.333
			v.Inequal[4] = x[1]*x[6] - 1250*x[4] - x[1]*x[3] + 1250*x[3]
			v.Inequal[5] = x[2]*x[7] - 1250000 - x[2]*x[4] + 2500*x[4]
		}},
	{number: 111, start: filledWith(10, -2.3), lower: filledWith(10, -100), upper: filledWith(10, 100), equal: 3, values: func(x []float64, v *Values) {
		var e [10]float64
		sum := 0.0
		for j := range e {
			e[j] = math.Exp(x[j])
			sum += e[j]
		}
		v.F = 0
		for j := range e {
			v.F += e[j] * (gibbs[j] + x[j] - math.Log(sum))
		}
		v.Equal[0] = e[0] + 2*e[1] + 2*e[2] + e[5] + e[9] - 2
		v.Equal[1] = e[3] + 2*e[4] + e[5] + e[6] - 1
		v.Equal[2] = e[2] + e[6] + e[7] + 2*e[8] + e[9] - 1
	}},
	{number: 113, start: []float64{2, 3, 5, 5, 1, 2, 7, 3, 6, 10}, inequal: 8, values: func(x []float64, v *Values) {
		v.F = x[0]*x[0] + x[1]*x[1] + x[0]*x[1] - 14*x[0] - 16*x[1] + sq(x[2]-10) + 4*sq(x[3]-5) + sq(x[4]-3) +
			2*sq(x[5]-1) + 5*x[6]*x[6] + 7*sq(x[7]-11) + 2*sq(x[8]-10) + sq(x[9]-7) + 45
		v.Inequal[0] = 105 - 4*x[0] - 5*x[1] + 3*x[6] - 9*x[7]
		v.Inequal[1] = -10*x[0] + 8*x[1] + 17*x[6] - 2*x[7]
		v.Inequal[2] = 8*x[0] - 2*x[1] - 5*x[8] + 2*x[9] + 12
		v.Inequal[3] = -3*sq(x[0]-2) - 4*sq(x[1]-3) - 2*x[2]*x[2] + 7*x[3] + 120
		v.Inequal[4] = -5*x[0]*x[0] - 8*x[1] - sq(x[2]-6) + 2*x[3] + 40
		v.Inequal[5] = -0.5*sq(x[0]-8) - 2*sq(x[1]-4) - 3*x[4]*x[4] + x[5] + 30
		v.Inequal[6] = -x[0]*x[0] - 2*sq(x[1]-2) + 2*x[0]*x[1] - 14*x[4] + 6*x[5]
		v.Inequal[7] = 3*x[0] - 6*x[1] - 12*sq(x[8]-8) + 7*x[9]
	}},
}

// gibbs are the coefficients of problem 111.
var gibbs = [10]float64{-6.089, -17.164, -34.054, -5.914, -24.721, -14.986, -24.100, -10.708, -26.662, -22.179}
