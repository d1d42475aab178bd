// Package solve holds the numerical methods: smooth constrained minimisation,
// square systems of equations, a well-conditioned choice of unknowns, and
// curves through tables. There are no boats in here.
//
// What goes in: plain functions of a vector, with bounds, typical step sizes
// and the number of constraints. What comes out: the best point found, its
// values recomputed, the price of every constraint there, and a status that
// is judged from those figures. A search that fails says how far it came and
// what stood in its way; it neither panics nor returns a number that is not
// one.
//
// Everything here is deterministic, runs on the calling goroutine and has a
// bound on every loop. A [Workspace] carries the scratch memory from one call
// to the next; each goroutine needs its own.
//
// For quadrature use gonum's integrate/quad, which needs nothing added.
//
// The package refuses to know: units, what a variable means, files, and
// where its answers are shown.
//
// # Sources
//
// Sequential quadratic programming and the l1 merit function: Powell, M. J. D.
// (1978), A fast algorithm for nonlinearly constrained optimization
// calculations, Lecture Notes in Mathematics 630, 144–157; Nocedal, J. and
// Wright, S. J. (2006), Numerical Optimization, 2nd ed., chapter 18. The
// quadratic subproblem: Goldfarb, D. and Idnani, A. (1983), A numerically
// stable dual method for solving strictly convex quadratic programs,
// Mathematical Programming 27, 1–33. Penalty steering: Byrd, R. H., Nocedal,
// J. and Waltz, R. A. (2008), Steering exact penalty methods for nonlinear
// programming, Optimization Methods and Software 23, 197–213. Monotone
// curves: Fritsch, F. N. and Carlson, R. E. (1980), Monotone piecewise cubic
// interpolation, SIAM Journal on Numerical Analysis 17, 238–246.
package solve
