package trim

import (
	"foilwright/balance"
	"foilwright/foil"
	"foilwright/solve"
	"foilwright/wave"
)

// Workspace is what one goroutine needs to trim boats. The zero value is ready.
type Workspace struct {
	fine, coarse, drawn level
	solve               solve.Workspace
}

// level is one fineness of the foils: scratch memory for a state and for points
// beside it, which keep their lattices apart.
type level struct{ here, aside balance.Workspace }

// cut says how finely the level's foils are cut.
func (l *level) cut(o foil.Options) {
	l.here.Foil.Options, l.aside.Foil.Options = o, o
	if o.Waves == foil.WaveWash && l.here.Foil.Kernel == nil {
		l.here.Foil.Kernel = wave.NewKernel()
	}
	l.aside.Foil.Kernel = l.here.Foil.Kernel
	l.aside.LeanOn(&l.here)
}

// tolerances are what a search goes on to.
type tolerances struct {
	feasible, stationary float64
	iterations           int // at most
}

// tight are the tolerances of an answer. Slopes are differences good to about
// 3e-7 of a natural unit.
func tight() tolerances {
	return tolerances{feasible: feasible, stationary: 2e-6, iterations: mostIterations}
}

// rough are those of the survey: optima lie within 1e-5 of
// their progress. A search that takes more than 60 steps is mostly one that gets
// nowhere.
func rough() tolerances { return tolerances{feasible: 1e-5, stationary: 1e-4, iterations: 60} }

// The survey looks for optima on foils of surveyStrips strips a piece: measured on
// the examples, progress is within 1 % of that on 12 and optima keep their order
// but for near ties. What comes within near of its best is searched on the strips
// that were asked for.
const (
	surveyStrips = 4
	near         = 0.02
)

// coarsely returns the request of the survey, and whether there is anything to
// gain from one.
func (r *Request) coarsely() (Request, bool) {
	c := *r
	c.Foil = r.cut()
	c.Foil.Strips, c.Foil.Rows = surveyStrips, 1
	if c.Foil.Waves == foil.WaveWash {
		c.Foil.Waves = foil.WaveDrag
	}
	return c, r.strips()*max(1, r.Foil.Rows) > surveyStrips
}

// cut returns how finely foils are cut, the default where nothing is said.
func (r *Request) cut() foil.Options {
	if r.Foil == (foil.Options{}) {
		return foil.DefaultOptions()
	}
	return r.Foil
}

// strips returns how many strips a piece is cut into.
func (r *Request) strips() int {
	if strips := r.cut().Strips; strips > 0 {
		return strips
	}
	return foil.DefaultOptions().Strips
}
