package solve

import "math"

// benchmark is a problem of Hock and Schittkowski (1981), by its number there.
type benchmark struct {
	number         int
	start          []float64
	lower, upper   []float64 // nil: open
	scale          []float64
	equal, inequal int
	values         func(x []float64, v *Values)
}

func (b *benchmark) problem() *Problem {
	n := len(b.start)
	p := &Problem{Lower: b.lower, Upper: b.upper, Scale: b.scale, Equalities: b.equal, Inequalities: b.inequal}
	if p.Lower == nil {
		p.Lower = filledWith(n, math.Inf(-1))
	}
	if p.Upper == nil {
		p.Upper = filledWith(n, math.Inf(1))
	}
	p.Values = func(x []float64, v *Values) bool {
		b.values(x, v)
		return true
	}
	return p
}

func filledWith(n int, v float64) []float64 {
	s := make([]float64, n)
	for i := range s {
		s[i] = v
	}
	return s
}

func sq(v float64) float64 { return v * v }

var smallBenchmarks = []benchmark{
	{number: 6, start: []float64{-1.2, 1}, equal: 1, values: func(x []float64, v *Values) {
		v.F = sq(1 - x[0])
		v.Equal[0] = 10 * (x[1] - x[0]*x[0])
	}},
	{number: 7, start: []float64{2, 2}, equal: 1, values: func(x []float64, v *Values) {
		v.F = math.Log(1+x[0]*x[0]) - x[1]
		v.Equal[0] = sq(1+x[0]*x[0]) + x[1]*x[1] - 4
	}},
	{number: 21, start: []float64{-1, -1}, lower: []float64{2, -50}, upper: []float64{50, 50}, inequal: 1, values: func(x []float64, v *Values) {
		v.F = 0.01*x[0]*x[0] + x[1]*x[1] - 100
		v.Inequal[0] = 10*x[0] - x[1] - 10
	}},
	{number: 26, start: []float64{-2.6, 2, 2}, equal: 1, values: func(x []float64, v *Values) {
		v.F = sq(x[0]-x[1]) + sq(sq(x[1]-x[2]))
		v.Equal[0] = (1+x[1]*x[1])*x[0] + sq(sq(x[2])) - 3
	}},
	{number: 28, start: []float64{-4, 1, 1}, equal: 1, values: func(x []float64, v *Values) {
		v.F = sq(x[0]+x[1]) + sq(x[1]+x[2])
		v.Equal[0] = x[0] + 2*x[1] + 3*x[2] - 1
	}},
	{number: 35, start: []float64{0.5, 0.5, 0.5}, lower: []float64{0, 0, 0}, inequal: 1, values: func(x []float64, v *Values) {
		v.F = 9 - 8*x[0] - 6*x[1] - 4*x[2] + 2*x[0]*x[0] + 2*x[1]*x[1] + x[2]*x[2] + 2*x[0]*x[1] + 2*x[0]*x[2]
		v.Inequal[0] = 3 - x[0] - x[1] - 2*x[2]
	}},
	{number: 39, start: []float64{2, 2, 2, 2}, equal: 2, values: func(x []float64, v *Values) {
		v.F = -x[0]
		v.Equal[0] = x[1] - x[0]*x[0]*x[0] - x[2]*x[2]
		v.Equal[1] = x[0]*x[0] - x[1] - x[3]*x[3]
	}},
	{number: 43, start: []float64{0, 0, 0, 0}, inequal: 3, values: func(x []float64, v *Values) {
		a, b, c, d := x[0], x[1], x[2], x[3]
		v.F = a*a + b*b + 2*c*c + d*d - 5*a - 5*b - 21*c + 7*d
		v.Inequal[0] = 8 - a*a - b*b - c*c - d*d - a + b - c + d
		v.Inequal[1] = 10 - a*a - 2*b*b - c*c - 2*d*d + a + d
		v.Inequal[2] = 5 - 2*a*a - b*b - c*c - 2*a + b + d
	}},
	{number: 48, start: []float64{3, 5, -3, 2, -2}, equal: 2, values: func(x []float64, v *Values) {
		v.F = sq(x[0]-1) + sq(x[1]-x[2]) + sq(x[3]-x[4])
		v.Equal[0] = x[0] + x[1] + x[2] + x[3] + x[4] - 5
		v.Equal[1] = x[2] - 2*(x[3]+x[4]) + 3
	}},
	{number: 51, start: []float64{2.5, 0.5, 2, -1, 0.5}, equal: 3, values: func(x []float64, v *Values) {
		v.F = sq(x[0]-x[1]) + sq(x[1]+x[2]-2) + sq(x[3]-1) + sq(x[4]-1)
		v.Equal[0] = x[0] + 3*x[1] - 4
		v.Equal[1] = x[2] + x[3] - 2*x[4]
		v.Equal[2] = x[1] - x[4]
	}},
	{number: 63, start: []float64{2, 2, 2}, lower: []float64{0, 0, 0}, equal: 2, values: func(x []float64, v *Values) {
		v.F = 1000 - x[0]*x[0] - 2*x[1]*x[1] - x[2]*x[2] - x[0]*x[1] - x[0]*x[2]
		v.Equal[0] = 8*x[0] + 14*x[1] + 7*x[2] - 56
		v.Equal[1] = x[0]*x[0] + x[1]*x[1] + x[2]*x[2] - 25
	}},
	{number: 64, start: []float64{1, 1, 1}, lower: []float64{1e-5, 1e-5, 1e-5}, inequal: 1, values: func(x []float64, v *Values) {
		v.F = 5*x[0] + 50000/x[0] + 20*x[1] + 72000/x[1] + 10*x[2] + 144000/x[2]
		v.Inequal[0] = 1 - 4/x[0] - 32/x[1] - 120/x[2]
	}},
	{number: 65, start: []float64{-5, 5, 0}, lower: []float64{-4.5, -4.5, -5}, upper: []float64{4.5, 4.5, 5}, inequal: 1, values: func(x []float64, v *Values) {
		v.F = sq(x[0]-x[1]) + sq(x[0]+x[1]-10)/9 + sq(x[2]-5)
		v.Inequal[0] = 48 - x[0]*x[0] - x[1]*x[1] - x[2]*x[2]
	}},
	{number: 71, start: []float64{1, 5, 5, 1}, lower: []float64{1, 1, 1, 1}, upper: []float64{5, 5, 5, 5}, equal: 1, inequal: 1, values: func(x []float64, v *Values) {
		v.F = x[0]*x[3]*(x[0]+x[1]+x[2]) + x[2]
		v.Inequal[0] = x[0]*x[1]*x[2]*x[3] - 25
		v.Equal[0] = x[0]*x[0] + x[1]*x[1] + x[2]*x[2] + x[3]*x[3] - 40
	}},
	{number: 76, start: []float64{0.5, 0.5, 0.5, 0.5}, lower: []float64{0, 0, 0, 0}, inequal: 3, values: func(x []float64, v *Values) {
		a, b, c, d := x[0], x[1], x[2], x[3]
		v.F = a*a + 0.5*b*b + c*c + 0.5*d*d - a*c + c*d - a - 3*b + c - d
		v.Inequal[0] = 5 - a - 2*b - c - d
		v.Inequal[1] = 4 - 3*a - b - 2*c + d
		v.Inequal[2] = b + 4*c - 1.5
	}},
	{number: 77, start: []float64{2, 2, 2, 2, 2}, equal: 2, values: func(x []float64, v *Values) {
		v.F = sq(x[0]-1) + sq(x[0]-x[1]) + sq(x[2]-1) + sq(sq(x[3]-1)) + sq(sq(x[4]-1))*sq(x[4]-1)
		v.Equal[0] = x[0]*x[0]*x[3] + math.Sin(x[3]-x[4]) - 2*math.Sqrt2
		v.Equal[1] = x[1] + sq(sq(x[2]))*x[3]*x[3] - 8 - math.Sqrt2
	}},
}
