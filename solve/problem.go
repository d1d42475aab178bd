package solve

import (
	"fmt"
	"math"
	"slices"
)

// Problem is a smooth constrained minimisation:
//
//	minimise F(x) subject to Equal(x) = 0, Inequal(x) >= 0, Lower <= x <= Upper.
//
// Constraints are to be given in their own natural size, so that a value of
// one is large and [Options.Feasibility] is small for all of them alike: a
// force over a weight, not a force in newtons.
type Problem struct {
	// Lower and Upper hold one bound for each variable. Equal values pin the
	// variable; infinite values leave that side open. The functions are never
	// called outside the bounds.
	Lower, Upper []float64
	// Scale is the typical size of a step in each variable, above zero. It
	// sets the first step, the step limit, the differences and the terms in
	// which the tolerances are meant. Nil means ones.
	Scale []float64
	// Equalities and Inequalities are the numbers of constraints.
	Equalities, Inequalities int
	// Values fills the objective and the constraints at x. It returns false,
	// or leaves a value that is not finite, where x has none; the search then
	// steps back. It must not keep or change x.
	Values func(x []float64, v *Values) (ok bool)
	// Slopes fills the derivatives at x. Values was last called, and
	// succeeded, at this same x. The rows arrive at their full length with
	// whatever they held before. Nil means finite differences inside the
	// bounds.
	Slopes func(x []float64, v *Values, s *Slopes)
	// Curvature fills h, variables × variables, with the second derivatives of the
	// Lagrangian, F less the sum of price times constraint, equalities first, per unit of
	// the variables: with those of each function at x where they are to be taken
	// afresh, else with those that it was last asked for, at these prices. They need not
	// be exact: the search learns on from them, and is right in the end whatever they
	// are. It returns false where it has none. It is asked for them afresh once in a
	// search, never in one that begins with what another has learnt, and at every step
	// from there on. Nil means that slopes alone teach the search.
	Curvature func(x, price []float64, afresh bool, h []float64) (ok bool)
}

// Values are the objective and the constraints at one point.
type Values struct {
	F              float64
	Equal, Inequal []float64
}

// Slopes are the derivatives at one point: F has a column for each variable;
// Equal and Inequal have a row for each constraint and in it a column for each
// variable. They are per unit of the variable, not per Scale.
type Slopes struct {
	F              []float64
	Equal, Inequal [][]float64
}

// Options are the tolerances and limits of [Minimise]. Zero values take the
// stated defaults.
type Options struct {
	// Iterations is the largest number of steps; default 200.
	Iterations int
	// Feasibility is the largest constraint violation accepted; default 1e-9.
	Feasibility float64
	// Stationarity is the largest accepted [Outcome.Stationarity]; default 1e-6.
	Stationarity float64
	// StepLimit is the largest change of a variable in one step, in units of
	// its Scale; default 10.
	StepLimit float64
	// Noise is the relative error of Values; default 1e-15. It sets the size
	// of finite differences and how small a gain of the merit function counts.
	Noise float64
	// From begins with what an earlier search has learnt about the curvature,
	// as [Outcome.Learnt] gives it: along a chain of problems that differ
	// little it saves steps. It is left aside where the free variables or
	// their scales are not the same. Nil begins afresh.
	From *Learnt
	// Known is asked at every point that the search reaches with a violation of at
	// most 0.01: where it returns true the search ends as Joined. It serves searches
	// from many starts, that need not be finished beside an end that is known. Nil
	// asks nobody.
	Known func(x []float64) bool
	// Worth is what F has to come down to for the search to be worth its while: it ends as
	// Outdone where the constraints are nearly met and many times the gain that the
	// programme promises would not bring F there. It takes second derivatives to tell, so
	// no search does without Curvature or From. Zero says that any end is worth it.
	Worth float64
	// Enough is the gain of F that [Follow] leaves lying: where its programme on fresh
	// slopes promises no more, it takes the step and no further slopes. What is left after
	// the step is smaller by as much as the curvature is known. Zero asks for slopes that are
	// stationary.
	Enough float64
	// Differences chooses the finite differences where Slopes is nil.
	Differences Differences
}

// Differences says how slopes are taken where a problem supplies none.
type Differences int

const (
	// Adaptive takes forward differences, and central ones once the search
	// stops getting on with them. The zero value.
	Adaptive Differences = iota
	// Forward takes one extra evaluation for each free variable.
	Forward
	// Central takes two extra evaluations for each free variable.
	Central
)

// Status says how a search ended.
type Status int

const (
	// Refused: the problem is not well formed; Outcome.Err says where.
	Refused Status = iota
	// Converged: feasible and stationary within the tolerances.
	Converged
	// Stalled: no step makes progress and the tolerances are not met.
	Stalled
	// IterationLimit: stopped by Options.Iterations.
	IterationLimit
	// Infeasible: no nearby point reduces the violation, which is above the
	// tolerance.
	Infeasible
	// Cancelled: the context was cancelled.
	Cancelled
	// NoValue: the functions have no finite value at the start, or no finite
	// slope at a point reached.
	NoValue
	// Joined: Options.Known knew a point on the way.
	Joined
	// Outdone: Options.Worth is out of reach.
	Outdone
)

// String gives the status in plain words.
func (s Status) String() string {
	switch s {
	case Refused:
		return "refused"
	case Converged:
		return "converged"
	case Stalled:
		return "stalled"
	case IterationLimit:
		return "iteration limit reached"
	case Infeasible:
		return "no feasible point nearby"
	case Cancelled:
		return "cancelled"
	case NoValue:
		return "no finite value"
	case Joined:
		return "joined a known end"
	case Outdone:
		return "left as outdone"
	}
	return fmt.Sprintf("status %d", int(s))
}

// Learnt is what a search has found out about the curvature of its Lagrangian.
// It is immutable.
type Learnt struct {
	free      []int
	scale     []float64
	curvature []float64

	// The optimum, the slopes there of F and, row by row, of the constraints.
	x, slope, jacobian []float64
	equalities         int
}

// Elsewhere returns what is learnt of the curvature alone, for a search that begins at some
// other place than the optimum: [Follow] then takes slopes there first.
func (l *Learnt) Elsewhere() *Learnt {
	return &Learnt{free: l.free, scale: l.scale, curvature: l.curvature}
}

// Moved returns what is learnt for a search that begins at x, where so many times the way from
// this optimum to each of others leads: slopes are moved as x is, right to first order. Where
// another's problem has other free variables or constraints, or its slopes are not known, it is
// [Learnt.Elsewhere].
func (l *Learnt) Moved(x []float64, others []*Learnt, times []float64) *Learnt {
	moved := l.Elsewhere()
	moved.equalities = l.equalities
	slope, jacobian := slices.Clone(l.slope), slices.Clone(l.jacobian)
	for k, o := range others {
		if !l.isLike(o) {
			return l.Elsewhere()
		}
		for i := range slope {
			slope[i] += times[k] * (o.slope[i] - l.slope[i])
		}
		for i := range jacobian {
			jacobian[i] += times[k] * (o.jacobian[i] - l.jacobian[i])
		}
	}
	moved.x, moved.slope, moved.jacobian = slices.Clone(x), slope, jacobian
	return moved
}

// isLike tells whether another has the slopes of a problem with the same free variables, their
// scales and constraints.
func (l *Learnt) isLike(o *Learnt) bool {
	return l.equalities == o.equalities && len(l.jacobian) == len(o.jacobian) && len(l.jacobian) > 0 &&
		slices.Equal(l.free, o.free) && slices.Equal(l.scale, o.scale)
}

// For returns what is learnt of the curvature for a problem of which variable i is variable
// index[i] of the known one, −1 for one that it does not have, and whose F is so many times as
// large. Variables that were not free get a curvature of their own, per usual change squared,
// until the search learns better. Where nothing differs it is l itself.
func (l *Learnt) For(p *Problem, index []int, times, own float64) *Learnt {
	var free, at []int
	for i, known := range index {
		if p.Lower[i] < p.Upper[i] {
			free, at = append(free, i), append(at, slices.Index(l.free, known))
		}
	}
	n, m := len(l.free), len(free)
	fitted := &Learnt{free: free, scale: make([]float64, m), curvature: make([]float64, m*m)}
	same := times == 1 && slices.Equal(free, l.free)
	for a, i := range free {
		fitted.scale[a] = 1
		if p.Scale != nil {
			fitted.scale[a] = p.Scale[i]
		}
		same = same && fitted.scale[a] == l.scale[a]
		if at[a] < 0 {
			fitted.curvature[a*m+a] = own
			continue
		}
		for b := range a + 1 {
			if at[b] < 0 {
				continue
			}
			c := times * l.curvature[at[a]*n+at[b]] * fitted.scale[a] / l.scale[at[a]] * fitted.scale[b] / l.scale[at[b]]
			fitted.curvature[a*m+b], fitted.curvature[b*m+a] = c, c
		}
	}
	if same {
		return l
	}
	return fitted
}

// Active lists by index what holds the answer: variables on their lower and
// upper bounds (pinned ones are in neither), and inequalities whose value is
// no more than 1e-7 above zero.
type Active struct {
	Lower, Upper, Inequal []int
}

// Outcome is the end of a [Minimise]: the last point accepted, with its values
// evaluated afresh.
//
// A price is the change of the least F with the thing it belongs to:
// EqualPrice[j] is dF/dt for the constraint Equal[j] = t, InequalPrice[j] >= 0
// is dF/dt for Inequal[j] >= t, and BoundPrice[i] is dF/dLower[i] (positive)
// or dF/dUpper[i] (negative), zero off the bounds. The slope of F is then the
// price-weighted sum of the slopes of the constraints, plus BoundPrice. A
// pinned variable has a price only where the problem supplies Slopes.
//
// Where Status is Infeasible the prices are instead those of the sum of all
// violations: they show which constraints and bounds stand in each other's
// way.
type Outcome struct {
	X                                    []float64
	Values                               Values
	BoundPrice, EqualPrice, InequalPrice []float64
	// Violation is the largest of |Equal| and -Inequal at X, not below zero.
	Violation float64
	// Stationarity is the largest component, per Scale, of the slope of the
	// Lagrangian that no bound holds, or the largest product of a price and
	// its slack if larger; over the largest component of the slope of F where
	// that is above one.
	Stationarity float64
	// Iterations counts steps, Evaluations calls of Values, Gradients sets of
	// slopes.
	Iterations, Evaluations, Gradients int
	Status                             Status
	Active                             Active
	// Learnt can be passed on to the search of a neighbouring problem; nil
	// where this one has neither converged nor been outdone.
	Learnt *Learnt
	// Err says what is wrong with the problem where Status is Refused.
	Err error
}

// Broken lists the constraints that are violated by more than tolerance, by
// index.
func (o *Outcome) Broken(tolerance float64) (equal, inequal []int) {
	for j, c := range o.Values.Equal {
		if !(math.Abs(c) <= tolerance) {
			equal = append(equal, j)
		}
	}
	for j, c := range o.Values.Inequal {
		if !(c >= -tolerance) {
			inequal = append(inequal, j)
		}
	}
	return equal, inequal
}

func (o Options) filled() Options {
	if o.Iterations <= 0 {
		o.Iterations = 200
	}
	o.Feasibility = positiveOr(o.Feasibility, 1e-9)
	o.Stationarity = positiveOr(o.Stationarity, 1e-6)
	o.StepLimit = positiveOr(o.StepLimit, 10)
	o.Noise = math.Max(positiveOr(o.Noise, 1e-15), 2.3e-16)
	return o
}

func positiveOr(v, otherwise float64) float64 {
	if v > 0 && !math.IsInf(v, 0) {
		return v
	}
	return otherwise
}

// check returns an error that names the first field that is not well formed.
func (p *Problem) check(start []float64) error {
	n := len(start)
	switch {
	case p.Values == nil:
		return fmt.Errorf("problem: Values is nil, a function is needed")
	case p.Equalities < 0 || p.Inequalities < 0:
		return fmt.Errorf("problem: %d equalities and %d inequalities, neither may be negative", p.Equalities, p.Inequalities)
	}
	return checkBox(n, start, p.Lower, p.Upper, p.Scale)
}

func checkBox(n int, start, lower, upper, scale []float64) error {
	if len(lower) != n || len(upper) != n || (scale != nil && len(scale) != n) {
		return fmt.Errorf("problem: start has %d variables, Lower %d, Upper %d, Scale %d: all must agree (a nil Scale means ones)",
			n, len(lower), len(upper), len(scale))
	}
	for i := range start {
		if !finite(start[i]) {
			return fmt.Errorf("start[%d]: %v, a finite number is needed", i, start[i])
		}
		if !(lower[i] <= upper[i]) || math.IsInf(lower[i], 1) || math.IsInf(upper[i], -1) {
			return fmt.Errorf("bounds[%d]: lower %v, upper %v, lower may not be above upper", i, lower[i], upper[i])
		}
		if scale != nil && (!(scale[i] > 0) || !finite(scale[i])) {
			return fmt.Errorf("scale[%d]: %v, a finite number above zero is needed", i, scale[i])
		}
	}
	return nil
}

func finite(v float64) bool { return v-v == 0 }
