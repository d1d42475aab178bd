package solve

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mat"
)

// RootOptions are the tolerances and limits of [Newton]. Zero values take the
// stated defaults.
type RootOptions struct {
	// Iterations is the largest number of steps; default 50.
	Iterations int
	// Residual is the largest residual accepted; default 1e-10.
	Residual float64
	// StepLimit is the largest change of a variable in one step, in units of
	// its scale; default 10.
	StepLimit float64
	// Noise is the relative error of the function; default 1e-15. It sets the
	// size of the finite differences.
	Noise float64
	// Slopes are derivatives of the residuals (rows) in the variables (columns),
	// per unit, at or near the start: they stand in for the first finite
	// differences. Nil means that those are taken.
	Slopes [][]float64
}

// RootStatus says how a search for a root ended.
type RootStatus int

const (
	// RootRefused: the problem is not well formed; RootOutcome.Err says where.
	RootRefused RootStatus = iota
	// RootFound: every residual is within the tolerance.
	RootFound
	// RootStalled: no step brings the residuals down, no bound being in the way.
	RootStalled
	// RootAtBound: no step brings the residuals down, and a variable is on a
	// bound that the step would have to cross.
	RootAtBound
	// RootIterationLimit: stopped by RootOptions.Iterations.
	RootIterationLimit
	// RootNoValue: the function has no finite value at the start, or around a
	// point reached.
	RootNoValue
)

// String gives the status in plain words.
func (s RootStatus) String() string {
	switch s {
	case RootRefused:
		return "refused"
	case RootFound:
		return "found"
	case RootStalled:
		return "stalled"
	case RootAtBound:
		return "held by a bound"
	case RootIterationLimit:
		return "iteration limit reached"
	case RootNoValue:
		return "no finite value"
	}
	return "unknown"
}

// RootOutcome is the end of a [Newton]: the best point found and its
// residuals, evaluated afresh there.
type RootOutcome struct {
	X, Residual []float64
	// Worst is the largest |Residual|, and WorstRow the equation it is in, -1
	// where there is none.
	Worst    float64
	WorstRow int
	// AtLower and AtUpper list the variables on their bounds, by index.
	AtLower, AtUpper []int
	// Rank is the number of independent equations in the last Jacobian, as far
	// as the variables that are not pinned can tell.
	Rank                    int
	Iterations, Evaluations int
	Status                  RootStatus
	Err                     error
}

// Newton solves f(x) = 0 with as many equations as variables, inside bounds.
// f fills the residuals r at x and returns false where x has none; residuals
// are to be given in their natural size, and scale (nil for ones) is the
// typical size of a step in each variable.
//
// Each step solves the Jacobian, given or taken by forward differences, for the Newton
// direction by singular value decomposition, leaving out directions whose
// singular value is below 1e-9 of the largest, and halves it until the sum of
// squares falls (Nocedal and Wright 2006, section 11.2). Variables that the
// step would take over a bound are held there and the rest is solved again.
// Between fresh Jacobians Broyden's rank-one update (1965, Mathematics of
// Computation 19, 577–593) is used as long as it at least quarters the largest
// residual.
func Newton(f func(x, r []float64) bool, x0, lower, upper, scale []float64, o RootOptions) RootOutcome {
	n := len(x0)
	if err := checkBox(n, x0, lower, upper, scale); err != nil {
		return RootOutcome{X: append([]float64(nil), x0...), WorstRow: -1, Err: err}
	}
	if f == nil {
		return RootOutcome{X: append([]float64(nil), x0...), WorstRow: -1, Err: errors.New("newton: f is nil, a function is needed")}
	}
	if o.Iterations <= 0 {
		o.Iterations = 50
	}
	o.Residual = positiveOr(o.Residual, 1e-10)
	o.StepLimit = positiveOr(o.StepLimit, 10)
	o.Noise = math.Max(positiveOr(o.Noise, 1e-15), 2.3e-16)
	r := &rootSearch{f: f, n: n, lower: lower, upper: upper, o: o, scale: scale}
	if scale == nil {
		r.scale = make([]float64, n)
		for i := range r.scale {
			r.scale[i] = 1
		}
	}
	r.x, r.now = append([]float64(nil), x0...), make([]float64, n)
	for i := range r.x {
		r.x[i] = min(max(r.x[i], lower[i]), upper[i])
	}
	r.trial, r.then, r.step = make([]float64, n), make([]float64, n), make([]float64, n)
	r.held = make([]int8, n)
	r.jacobian = mat.NewDense(max(n, 1), max(n, 1), nil)
	status := r.iterate()
	return r.outcome(status)
}

type rootSearch struct {
	f                   func(x, r []float64) bool
	n                   int
	lower, upper, scale []float64
	o                   RootOptions

	x, now, trial, then, step []float64
	jacobian                  *mat.Dense // of residual by variable over scale
	held                      []int8     // 1 where held at a bound
	rank                      int
	iterations, evaluations   int
}

func (r *rootSearch) evaluate(x, into []float64) bool {
	r.evaluations++
	if !r.f(x, into) {
		return false
	}
	sum := 0.0
	for _, v := range into {
		sum += v - v
	}
	return sum == 0
}

func (r *rootSearch) iterate() RootStatus {
	if !r.evaluate(r.x, r.now) {
		return RootNoValue
	}
	fresh := r.given()
	for ; ; r.iterations++ {
		before := largest(r.now)
		if before <= r.o.Residual {
			return RootFound
		}
		if r.iterations >= r.o.Iterations {
			return RootIterationLimit
		}
		if !fresh && !r.difference() {
			return RootNoValue
		}
		updated := fresh
		blocked := r.direction()
		tries := 14
		if updated {
			tries = 3 // a fresh Jacobian is the better remedy
		}
		if !r.search(tries) {
			switch {
			case updated:
				fresh = false
				continue
			case blocked:
				return RootAtBound
			}
			return RootStalled
		}
		r.move()
		fresh = largest(r.now) <= 0.25*before
	}
}

// given takes over the slopes that were given, and tells whether there were any.
func (r *rootSearch) given() bool {
	if len(r.o.Slopes) != r.n || r.n == 0 {
		return false
	}
	for j, row := range r.o.Slopes {
		for i := range r.n {
			d := row[i] * r.scale[i]
			if !finite(d) {
				return false
			}
			r.jacobian.Set(j, i, d)
		}
	}
	return true
}

// difference takes the Jacobian by forward differences, backward at an upper
// bound or where there is no value ahead.
func (r *rootSearch) difference() bool {
	copy(r.trial, r.x)
	for i := range r.n {
		if r.lower[i] == r.upper[i] {
			for j := range r.n {
				r.jacobian.Set(j, i, 0)
			}
			continue
		}
		step := 4 * math.Sqrt(r.o.Noise) * math.Max(r.scale[i], 1e-3*math.Abs(r.x[i]))
		step = math.Min(step, 0.5*(r.upper[i]-r.lower[i]))
		done := false
		for try := 0; try < 4 && !done; try++ {
			h := step
			if try%2 == 1 {
				h = -h
			}
			if to := r.x[i] + h; to <= r.upper[i] && to >= r.lower[i] {
				r.trial[i] = to
				done = r.evaluate(r.trial, r.then)
			}
			if try == 1 {
				step /= 16
			}
		}
		if !done {
			return false
		}
		run := (r.trial[i] - r.x[i]) / r.scale[i]
		r.trial[i] = r.x[i]
		for j := range r.n {
			r.jacobian.Set(j, i, (r.then[j]-r.now[j])/run)
		}
	}
	return true
}

// direction sets step, in units of scale, and reports whether a bound stands
// in its way.
func (r *rootSearch) direction() (blocked bool) {
	clear(r.held)
	for range r.n + 1 {
		r.leastSquares()
		again := false
		for i, q := range r.step {
			if r.held[i] != 0 || r.lower[i] == r.upper[i] {
				continue
			}
			to := r.x[i] + q*r.scale[i]
			if (r.x[i] == r.lower[i] && to < r.lower[i]) || (r.x[i] == r.upper[i] && to > r.upper[i]) {
				r.held[i], again, blocked = 1, true, true
			}
		}
		if !again {
			break
		}
	}
	if long := largest(r.step); long > r.o.StepLimit {
		scaleBy(r.step, r.o.StepLimit/long)
	}
	return blocked
}

// leastSquares solves the Jacobian's free columns for the Newton step.
func (r *rootSearch) leastSquares() {
	var free []int
	for i := range r.n {
		r.step[i] = 0
		if r.held[i] == 0 && r.lower[i] != r.upper[i] {
			free = append(free, i)
		}
	}
	r.rank = 0
	if len(free) == 0 {
		return
	}
	a := mat.NewDense(r.n, len(free), nil)
	for k, i := range free {
		for j := range r.n {
			a.Set(j, k, r.jacobian.At(j, i))
		}
	}
	var svd mat.SVD
	if !svd.Factorize(a, mat.SVDThin) {
		return
	}
	values := svd.Values(nil)
	var u, v mat.Dense
	svd.UTo(&u)
	svd.VTo(&v)
	for k, value := range values {
		if !(value > 1e-9*values[0]) {
			break
		}
		r.rank++
		along := 0.0
		for j := range r.n {
			along -= u.At(j, k) * r.now[j]
		}
		for m, i := range free {
			r.step[i] += v.At(m, k) * along / value
		}
	}
}

// search halves the step until the sum of squares falls enough, and moves x.
func (r *rootSearch) search(tries int) bool {
	before := dot(r.now, r.now)
	share := 1.0
	for range tries {
		copy(r.trial, r.x)
		moved := false
		for i, q := range r.step {
			r.trial[i] = min(max(r.x[i]+share*q*r.scale[i], r.lower[i]), r.upper[i])
			moved = moved || r.trial[i] != r.x[i]
		}
		if !moved {
			return false
		}
		if r.evaluate(r.trial, r.then) && dot(r.then, r.then) <= (1-2e-4*share)*before {
			return true
		}
		share *= 0.5
	}
	return false
}

// move makes the trial the new x and corrects the Jacobian by the step taken.
func (r *rootSearch) move() {
	for i := range r.step {
		r.step[i] = (r.trial[i] - r.x[i]) / r.scale[i]
	}
	if length := dot(r.step, r.step); length > 0 {
		for j := range r.n {
			off := r.then[j] - r.now[j]
			for i, q := range r.step {
				off -= r.jacobian.At(j, i) * q
			}
			for i, q := range r.step {
				r.jacobian.Set(j, i, r.jacobian.At(j, i)+off*q/length)
			}
		}
	}
	r.x, r.trial = r.trial, r.x
	r.now, r.then = r.then, r.now
}

func (r *rootSearch) outcome(status RootStatus) RootOutcome {
	out := RootOutcome{
		X: append([]float64(nil), r.x...), Residual: make([]float64, r.n), WorstRow: -1,
		Rank: r.rank, Iterations: r.iterations, Status: status,
	}
	if r.evaluate(out.X, r.then) {
		copy(out.Residual, r.then)
	} else {
		out.Status = RootNoValue
	}
	for j, v := range out.Residual {
		if math.Abs(v) > out.Worst {
			out.Worst, out.WorstRow = math.Abs(v), j
		}
	}
	if out.Status == RootFound && out.Worst > r.o.Residual {
		out.Status = RootStalled
	}
	for i, v := range out.X {
		if r.lower[i] == r.upper[i] {
			continue
		}
		if v == r.lower[i] {
			out.AtLower = append(out.AtLower, i)
		}
		if v == r.upper[i] {
			out.AtUpper = append(out.AtUpper, i)
		}
	}
	out.Evaluations = r.evaluations
	return out
}
