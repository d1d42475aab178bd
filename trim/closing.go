package trim

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"foilwright/balance"
	"foilwright/solve"
)

// closing is the set of six variables that close the six equations at an
// answer, picked for the condition of their slopes.
type closing struct {
	chosen    []int // of the search's variables
	condition float64
	stuck     string // what nothing moves, in words; empty where the rank is six
}

// insideBy is how far, over its range, a variable must lie from its bounds to
// take part in closing the equations.
const insideBy = 1e-6

// close picks the closing set at x, where slopes are known.
func (p *problem) close(x []float64) closing {
	var free []int
	for i := range p.variables {
		vr := &p.variables[i]
		if vr.kind == angleVariable || vr.lower == vr.upper {
			continue
		}
		margin := insideBy * (vr.upper - vr.lower)
		if x[i] > vr.lower+margin && x[i] < vr.upper-margin {
			free = append(free, i)
		}
	}
	jacobian := make([][]float64, 6)
	for j := range jacobian {
		jacobian[j] = make([]float64, len(free))
		for k, i := range free {
			jacobian[j][k] = p.sumSlopes[j][i] * p.variables[i].scale
		}
	}
	chosen, rank, condition, null := solve.SelectColumns(jacobian, 6)
	c := closing{condition: condition}
	for _, k := range chosen {
		c.chosen = append(c.chosen, free[k])
	}
	if rank < 6 {
		c.stuck = stuckIn(null)
	}
	return c
}

// stuckIn puts a combination of equations that no variable moves into words.
func stuckIn(null []float64) string {
	var names []string
	for i, share := range null {
		if math.Abs(share) > 0.3 {
			names = append(names, balance.Equation(i))
		}
	}
	return fmt.Sprintf("nothing that is free moves the boat's %s", strings.Join(names, " and "))
}

// polishIterations bounds Newton's method at an answer: the search leaves it
// within 1e-9, from where two steps reach rounding.
const polishIterations = 5

// polish closes the equations at x to rounding by Newton's method on the
// closing set. It returns x where that does not help.
func (p *problem) polish(x []float64, c closing, v *solve.Values) []float64 {
	if len(c.chosen) != 6 {
		return x
	}
	full := append([]float64(nil), x...)
	lower, upper, scale, start := make([]float64, 6), make([]float64, 6), make([]float64, 6), make([]float64, 6)
	for k, i := range c.chosen {
		vr := &p.variables[i]
		lower[k], upper[k], scale[k], start[k] = vr.lower, vr.upper, vr.scale, x[i]
	}
	begun := math.Inf(1) // the largest residual at x, where Newton's method begins
	residual := func(y, r []float64) bool {
		for k, i := range c.chosen {
			full[i] = y[k]
		}
		if !p.values(full, v) {
			return false
		}
		copy(r, v.Equal[:6])
		if slices.Equal(y, start) {
			begun = largest(r)
		}
		return true
	}
	slopes := make([][]float64, 6)
	for j := range slopes {
		for _, i := range c.chosen {
			slopes[j] = append(slopes[j], p.sumSlopes[j][i])
		}
	}
	out := solve.Newton(residual, start, lower, upper, scale, solve.RootOptions{Iterations: polishIterations, Residual: 1e-13, Slopes: slopes})
	for k, i := range c.chosen {
		full[i] = out.X[k]
	}
	if out.Worst > begun {
		return x
	}
	return full
}

// largest returns the largest size of what is in r.
func largest(r []float64) float64 {
	most := 0.0
	for _, v := range r {
		most = math.Max(most, math.Abs(v))
	}
	return most
}
