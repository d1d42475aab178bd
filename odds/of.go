package odds

import (
	"context"
	"fmt"
	"math"
	"math/bits"

	"foilwright/batch"
)

// Runners are the ways of doing the two kinds of work: an anchor or a tornado
// must not be kept under the names of samples. Either may be the same runner
// where nothing is kept.
type Runners struct{ Samples, Tornado batch.Runner }

// fewest is how many samples a run with Until begins with: fewer say nothing
// about a chance.
const fewest = 64

// Watch is told how work goes on. Either function may be nil.
type Watch struct {
	Done    func(samples, of int) // of may grow where a plan has Until
	Running func(*Result)         // now and then: the answer so far, without what takes long
}

// Of answers a plan. The same plan gives the same bits with any runner. Errors are
// those of the plan, its evaluation and the context.
func Of(ctx context.Context, p *Plan, run Runners, watch Watch) (*Result, error) {
	table, likely, err := p.sample(ctx, run.Samples, watch)
	if err != nil {
		return nil, err
	}
	r := p.answer(table, likely)
	r.Table = table
	p.explain(r)
	if p.Tornado == WithTornado {
		if r.Tornado, err = p.tornado(ctx, run.Tornado, likely); err != nil {
			return nil, err
		}
	}
	return r, nil
}

// sample evaluates the likely boats and as many samples as the plan asks for.
func (p *Plan) sample(ctx context.Context, run batch.Runner, watch Watch) (*Table, []Outcome, error) {
	if err := p.check(); err != nil {
		return nil, nil, err
	}
	points, err := p.points()
	if err != nil {
		return nil, nil, err
	}
	table := &Table{Unknowns: p.Unknowns, Columns: p.Columns()}
	width := len(table.Columns)
	likely, err := p.Evaluate(ctx, likelyValues(p.Unknowns), width)
	if err == nil {
		err = sound(likely, width)
	}
	if err != nil {
		return nil, nil, err
	}
	draw := func(sample int) []float64 { return p.draw(points, sample) }
	due, until := 2*perPiece, p.Samples
	if p.Until > 0 {
		until = min(fewest, p.Samples)
	}
	take := func(row []Outcome) {
		table.Values = append(table.Values, draw(len(table.Outcomes)))
		table.Outcomes = append(table.Outcomes, row)
		n := len(table.Outcomes)
		if watch.Running != nil && n >= due {
			so := p.answer(table, likely)
			held := *table // what is there does not change; the next samples go behind it
			so.Table = &held
			watch.Running(so)
			due = n + max(perPiece, n/20)
		}
		if watch.Done != nil && (n%perPiece == 0 || n == until) {
			watch.Done(n, until)
		}
	}
	for {
		if err := p.rowsOf(ctx, run, len(table.Outcomes), until, width, draw, take); err != nil {
			return nil, nil, err
		}
		if until >= p.Samples || p.settled(p.answer(table, likely)) {
			return table, likely, nil
		}
		until = min(2*until, p.Samples)
	}
}

// check refuses plans that mean nothing.
func (p *Plan) check() error {
	switch {
	case len(p.Boats) == 0:
		return fmt.Errorf("internal error: odds of no boat")
	case p.Samples < 2:
		return fmt.Errorf("samples: %d are too few\nhint: 2 are the least, 1024 are usual; powers of two are spread most evenly", p.Samples)
	case p.Samples > 1<<24:
		return fmt.Errorf("samples: %d are more than %d\nhint: the error of a chance is 0.01 %% with far fewer", p.Samples, 1<<24)
	case !(p.Confidence > 0.5 && p.Confidence < 1):
		return fmt.Errorf("confidence: %g is not between 50 and 100 %%\nhint: 80 %% is usual", p.Confidence)
	case p.Until < 0 || p.Until >= 1:
		return fmt.Errorf("until: %g is not between 0 and 100 %%\nhint: 1 %% is usual", p.Until)
	case len(p.Unknowns) == 0:
		return fmt.Errorf("nothing about these boats is uncertain, so that there are no odds\nhint: give figures a spread, such as 5.20 m ± 0.05 m; foilwright compare tells the difference as it stands")
	case p.Anchor != nil && !(p.Anchor.Deviation > 0):
		return fmt.Errorf("anchor: an observed speed needs its own uncertainty\nhint: write 25.1 kn ± 0.4 kn")
	}
	return nil
}

// settled tells whether errors are as small as Until asks: of every chance, or,
// of one boat alone, of her mean over that mean.
func (p *Plan) settled(r *Result) bool {
	for i := range r.Pairs {
		if r.Pairs[i].ChanceError > p.Until {
			return false
		}
	}
	if len(r.Pairs) > 0 {
		return true
	}
	d := r.Boats[0].Progress
	return d.MeanError != nil && *d.MeanError <= p.Until*math.Abs(*d.Mean)
}

// answer tells what samples say, but for where it comes from.
func (p *Plan) answer(table *Table, likely []Outcome) *Result {
	r := &Result{
		Seed: p.Seed, Samples: len(table.Outcomes), Aim: p.Aim, Wind: p.Wind, Confidence: p.Confidence, Until: p.Until,
		Inputs: []Input{}, Surrogates: []Fit{}, Warnings: []string{},
	}
	v := &view{plan: p, rows: table.Outcomes, likely: likely}
	if p.Anchor != nil {
		r.Anchor, v.weights = p.condition(table, v)
		table.Weights = v.weights
	}
	r.Failed, r.Boats, r.Pairs = v.failed(), v.figures(), v.pairs()
	for k, wind := range p.Bands {
		at := *v
		at.from = (k + 1) * len(p.Boats)
		r.Bands = append(r.Bands, Band{Wind: wind, Failed: at.failed(), Boats: at.figures(), Pairs: at.pairs()})
	}
	r.warn()
	return r
}

// warn says what a reader should not overlook.
func (r *Result) warn() {
	say := func(format string, args ...any) { r.Warnings = append(r.Warnings, fmt.Sprintf(format, args...)) }
	if least := WilksSize(0.9, 0.95, TwoSided); r.Samples < least {
		say("%d samples do not hold 90 %% of what may be with 95 %% confidence: %d would (Wilks 1941)", r.Samples, least)
	}
	if bits.OnesCount(uint(r.Samples)) != 1 {
		say("%d samples are no power of two: Sobol points are most even at powers of two", r.Samples)
	}
	if a := r.Anchor; a != nil && a.Used == TooFar {
		say("the anchor is not used: only %.0f independent samples' worth come near %s; take more samples, or look for what is wrong with the boat's figures or the observation", a.Effective, a.Words)
	}
}
