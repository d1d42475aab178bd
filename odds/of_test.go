package odds

import (
	"context"
	"encoding/json"
	"errors"
	"math"
	"slices"
	"strings"
	"sync/atomic"
	"testing"

	"foilwright/batch"
)

// plain is two boats that differ a little, with an input of each and a shared one.
func plain(t testing.TB) *Plan {
	unknowns := []Unknown{own(t, 0, "foil.span", "1.01 ± 0.02"), own(t, 1, "foil.span", "1 ± 0.02"), shared(t, "friction", "0.9 to 1.1", 0, 1)}
	return standIn(unknowns,
		func(x []float64) float64 { return race{x[0], 1, x[2], 1}.progress() },
		func(x []float64) float64 { return race{x[1], 1, x[2], 1}.progress() })
}

func text(t *testing.T, r *Result) string {
	t.Helper()
	data, err := json.Marshal(r)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// One goroutine or many, with a folder or without, taken up or not: the same bits;
// and another seed draws others.
func TestSameBits(t *testing.T) {
	p := plain(t)
	p.Samples, p.Tornado = 200, WithTornado
	var answers []string
	for _, workers := range []int{1, 2, 5} {
		cores := batch.Cores(workers)
		r, err := Of(t.Context(), p, Runners{cores, cores}, Watch{})
		if err != nil {
			t.Fatal(err)
		}
		answers = append(answers, text(t, r))
	}
	folder := batch.Folder(t.TempDir())
	kept := Runners{batch.Kept(batch.Cores(2), folder, "samples", "id"), batch.Kept(batch.Cores(2), folder, "tornado", "id")}
	ctx, kill := context.WithCancel(t.Context())
	_, err := Of(ctx, p, kept, Watch{Done: func(samples, _ int) {
		if samples >= 80 {
			kill()
		}
	}})
	if !errors.Is(err, context.Canceled) {
		t.Fatalf("a run that was interrupted ends with %v", err)
	}
	evaluate, count := p.Evaluate, atomic.Int64{}
	p.Evaluate = func(ctx context.Context, x []float64, columns int) ([]Outcome, error) {
		count.Add(1)
		return evaluate(ctx, x, columns)
	}
	kept = Runners{batch.Kept(batch.Cores(1), folder, "samples", "id"), batch.Kept(batch.Cores(1), folder, "tornado", "id")}
	r, err := Of(t.Context(), p, kept, Watch{})
	if err != nil {
		t.Fatal(err)
	}
	if answers = append(answers, text(t, r)); int(count.Load()) > 200-80+2*len(p.Unknowns)+1 {
		t.Errorf("%d evaluations after the run was taken up", count.Load())
	}
	for _, a := range answers[1:] {
		if a != answers[0] {
			t.Errorf("answers differ:\n%s\n%s", answers[0], a)
		}
	}
	p.Seed = 2
	if text(t, answered(t, p)) == answers[0] {
		t.Error("another seed draws the same samples")
	}
}

// Until stops at a power of two, the first that is enough; Samples is the most.
func TestUntilStopsAtPowersOfTwo(t *testing.T) {
	for _, c := range []struct {
		until   float64
		samples int
	}{{0.5, 64}, {0.03, 256}, {0.011, 2048}, {0.0001, 3000}} {
		p := plain(t)
		p.Samples, p.Until = 3000, c.until
		var of []int
		table, _, err := p.sample(t.Context(), batch.Cores(2), Watch{Done: func(_, total int) { of = append(of, total) }})
		if err != nil {
			t.Fatal(err)
		}
		if n := len(table.Outcomes); n != c.samples {
			t.Errorf("until %g: %d samples, want %d", c.until, n, c.samples)
		}
		if !slices.IsSorted(of) || of[0] != 64 {
			t.Errorf("until %g: totals on the way %v", c.until, of)
		}
	}
	p := plain(t)
	p.Boats, p.Unknowns[1].Boats, p.Unknowns[2].Boats, p.Until = p.Boats[:1], nil, []int{0}, 0.01
	if r := answered(t, p); r.Samples != 64 || len(r.Pairs) != 0 || r.Inputs[0].Of != "Sorrel" {
		t.Errorf("one boat: %d samples, %d pairs, inputs of %s", r.Samples, len(r.Pairs), r.Inputs[0].Of)
	}
}

// A boat that cannot sail in a sample loses it; both is neither's; and all are
// counted.
func TestFailuresLose(t *testing.T) {
	p := plain(t)
	first := func(x []float64) float64 {
		if x[2] > 1.05 { // a quarter of the samples
			return math.Inf(-1)
		}
		return 9.5
	}
	second := func(x []float64) float64 {
		if x[2] > 1.08 { // a tenth
			return math.Inf(-1)
		}
		return 9
	}
	p.Evaluate = standIn(p.Unknowns, first, second).Evaluate
	p.Samples = 1000
	r := answered(t, p)
	pair := r.Pairs[0]
	if r.Failed != 250 || r.Boats[0].Failed != 250 || r.Boats[1].Failed != 100 || pair.Compared != 750 {
		t.Errorf("failed %d, %d and %d, compared %d", r.Failed, r.Boats[0].Failed, r.Boats[1].Failed, pair.Compared)
	}
	near(t, "first faster", &pair.FirstFaster, 0.75, 1e-12)
	near(t, "second faster", &pair.SecondFaster, 0.15, 1e-12)
	near(t, "neither", &pair.Neither, 0.10, 1e-12)
	if pair.Difference.P5 != nil || pair.Difference.P10 != nil || r.Boats[0].Progress.P10 != nil {
		t.Error("a quantile among samples that do not sail is a figure")
	}
	near(t, "median difference", pair.Difference.P50, 0.5, 1e-12)
	if pair.Call != TooClose {
		t.Errorf("called %s at 75 %%", pair.Call)
	}
	never := func([]float64) float64 { return math.Inf(-1) }
	p.Evaluate = standIn(p.Unknowns, never, never).Evaluate
	r = answered(t, p)
	if r.Pairs[0].Call != CallNeither || r.Boats[0].Progress != (Distribution{}) || len(r.Surrogates) != 0 || r.Inputs[0].Total != 0 {
		t.Errorf("boats that never sail: %+v", r.Pairs[0])
	}
	text(t, r)
}

// Equal boats are as likely to win, and nothing is known of a difference of none.
func TestEqualBoats(t *testing.T) {
	p := plain(t)
	same := func(x []float64) float64 { return 9 * x[2] }
	p.Evaluate = standIn(p.Unknowns, same, same).Evaluate
	r := answered(t, p)
	near(t, "first faster", &r.Pairs[0].FirstFaster, 0.5, 0)
	near(t, "difference", r.Pairs[0].Difference.P90, 0, 0)
	if r.Pairs[0].Call != TooClose || r.Pairs[0].Settle != nil {
		t.Errorf("%s, %+v", r.Pairs[0].Call, r.Pairs[0].Settle)
	}
}

// The input that is named for a close call is the one with most of the spread, and
// the narrowing that it promises comes true when it is known.
func TestSettling(t *testing.T) {
	p := plain(t)
	p.Unknowns[2].Kind = OfModel
	p.Unknowns[0].Quantity = says(t, "1.001 ± 0.03")
	p.Samples = 4096
	r := answered(t, p)
	s := r.Pairs[0].Settle
	if s == nil || s.Input != p.Unknowns[0].Name || s.Measure != "" {
		t.Fatalf("settled by %+v", s)
	}
	// Known exactly at one of many values, on average over them.
	mean := 0.0
	const looks = 9
	for k := range looks {
		known := plain(t)
		known.Unknowns[0].Quantity = says(t, "1")
		known.Unknowns[0].Quantity.Likely = p.Unknowns[0].Quantity.At((float64(k) + 0.5) / looks)
		known.Samples = 1024
		d := *sampled(t, known).Pairs[0].Difference.Deviation
		mean += d * d / looks
	}
	if got := math.Sqrt(mean); math.Abs(got-s.Left) > 0.03*s.Left {
		t.Errorf("left by knowing it: %g, promised %g", got, s.Left)
	}
	p.Unknowns[0].Kind = OfModel
	if s := answered(t, p).Pairs[0].Settle; s.Measure != p.Unknowns[1].Name || s.MeasureLeft == nil || *s.MeasureLeft <= s.Left {
		t.Errorf("what can be measured: %+v", s)
	}
}

// A tornado of a straight function has its slopes, and its bars stand in order.
func TestTornado(t *testing.T) {
	p := standIn([]Unknown{own(t, 0, "a.a", "0 to 1"), own(t, 0, "b.b", "0 to 1"), own(t, 1, "c.c", "0 to 1")},
		func(x []float64) float64 { return 9 + x[0] - 3*x[1] }, func(x []float64) float64 { return 9 + 0.5*x[2] })
	p.Tornado, p.Samples = WithTornado, 16
	bars := answered(t, p).Tornado
	if len(bars) != 9 || bars[0].Input != "boat0.yaml: b.b" || bars[0].Of != "Sorrel less Tansy" {
		t.Fatalf("%+v", bars)
	}
	near(t, "low end", bars[0].Low, 1.2, 1e-12)
	near(t, "high end", bars[0].High, -1.2, 1e-12)
	near(t, "last", bars[2].High, -0.2, 1e-12)
	near(t, "the boat's own", bars[3].High, -1.2, 1e-12)
}

// Bands answer each wind as if it were asked about alone.
func TestBands(t *testing.T) {
	p := plain(t)
	one := p.Evaluate
	p.Evaluate = func(ctx context.Context, x []float64, columns int) ([]Outcome, error) {
		out, err := one(ctx, x, 2)
		for k := 1; len(out) < columns; k++ {
			for i := range 2 {
				o := out[i]
				o.Progress *= 1 + float64(k)/10
				out = append(out, o)
			}
		}
		return out[:columns], err
	}
	alone := answered(t, p)
	p.Bands = append(p.Bands, 8, 10)
	r := answered(t, p)
	if len(r.Bands) != 2 || r.Bands[1].Wind != 10 {
		t.Fatalf("%+v", r.Bands)
	}
	near(t, "median", r.Bands[1].Boats[1].Progress.P50, *alone.Boats[1].Progress.P50*1.2, 1e-12)
	near(t, "difference", r.Bands[0].Pairs[0].Difference.P90, *alone.Pairs[0].Difference.P90*1.1, 1e-12)
}

// What cannot be asked is refused with what would do.
func TestRefused(t *testing.T) {
	for want, change := range map[string]func(*Plan){
		"samples: 1 are too few":     func(p *Plan) { p.Samples = 1 },
		"are more than":              func(p *Plan) { p.Samples = 1 << 25 },
		"confidence":                 func(p *Plan) { p.Confidence = 1 },
		"until":                      func(p *Plan) { p.Until = 1 },
		"nothing about these boats":  func(p *Plan) { p.Unknowns = nil },
		"internal error: odds of no": func(p *Plan) { p.Boats = nil },
		"internal error: 0 outcomes": func(p *Plan) {
			p.Evaluate = func(context.Context, []float64, int) ([]Outcome, error) { return nil, nil }
		},
		"internal error: an outcome is": func(p *Plan) {
			nan := func([]float64) float64 { return math.NaN() }
			p.Evaluate = standIn(p.Unknowns, nan, nan).Evaluate
		},
	} {
		p := plain(t)
		change(p)
		_, err := Of(t.Context(), p, Runners{batch.Cores(1), batch.Cores(1)}, Watch{})
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
	if _, err := decode(make([]byte, 7), 2); err == nil {
		t.Error("a torn piece is read")
	}
}
