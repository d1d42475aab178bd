package report

import (
	"context"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"foilwright/batch"
	"foilwright/boatfile"
	"foilwright/odds"
	"foilwright/quantity"
)

// oddsOf is odds of two stand-in boats whose progress differs by a figure of
// each, in m/s, and a factor that they share.
func oddsOf(t *testing.T, lead float64, sinks float64) *odds.Result {
	t.Helper()
	var unknowns []odds.Unknown
	for i, text := range []string{"0 ± 0.1", "0 ± 0.2", "1 ± 0.05"} {
		q, err := quantity.Parse(text, quantity.Number)
		if err != nil {
			t.Fatal(err)
		}
		u := odds.Unknown{Identity: boatfile.Identity{File: "f", Name: string(rune('a' + i))}, Quantity: q, Boats: []int{0, 1}, Kind: odds.OfFigure}
		if i == 2 {
			u.Kind = odds.OfModel
		}
		u.Name = u.Identity.String()
		unknowns = append(unknowns, u)
	}
	p := &odds.Plan{
		Boats: []string{"Sorrel", "Tansy"}, Aim: "best progress to windward", Wind: 8.7, Seed: 3, Samples: 512, Confidence: 0.8, Unknowns: unknowns,
		Evaluate: func(_ context.Context, x []float64, columns int) ([]odds.Outcome, error) {
			out := []odds.Outcome{{Progress: 8*x[2] + lead + x[0]}, {Progress: 8*x[2] + x[1]}}
			if x[0] < sinks {
				out[0] = odds.Outcome{State: odds.CannotSail}
			}
			return out[:columns], nil
		},
	}
	cores := batch.Cores(1)
	r, err := odds.Of(t.Context(), p, odds.Runners{Samples: cores, Tornado: cores}, odds.Watch{})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// figure reads the first figure of a sentence after some words.
func figureAfter(t *testing.T, said, words string) float64 {
	t.Helper()
	m := regexp.MustCompile(words + ` ([-+]?[0-9.]+)`).FindStringSubmatch(said)
	if m == nil {
		t.Fatalf("%q does not tell a figure after %q", said, words)
	}
	v, err := strconv.ParseFloat(m[1], 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

const knot = 1852.0 / 3600

// The sentence at the top is true of its numbers.
func TestCallIsTrue(t *testing.T) {
	for _, lead := range []float64{-0.6, -0.3, -0.05, 0, 0.05, 0.15, 0.3, 0.6} {
		for _, sinks := range []float64{math.Inf(-1), -0.05, 1} {
			r := oddsOf(t, lead, sinks)
			said, pair := Call(r), r.Pairs[0]
			chance, other, sign, faster, slower := pair.FirstFaster, pair.SecondFaster, 1.0, "Sorrel", "Tansy"
			if other > chance {
				chance, other, sign, faster, slower = other, chance, -1, "Tansy", "Sorrel"
			}
			if !strings.Contains(said, faster+" is faster than "+slower) {
				t.Errorf("chances %g and %g: %q", pair.FirstFaster, pair.SecondFaster, said)
			}
			if close := strings.HasPrefix(said, "Too close to call"); close != (chance < 0.8) {
				t.Errorf("chance %g: %q", chance, said)
			}
			if got := figureAfter(t, said, "(?:is|chance)"); math.Abs(got-100*chance) > 0.051 && strings.Contains(said, "chance ") {
				t.Errorf("chance %g: %q", chance, said)
			}
			if got := figureAfter(t, said, "sampling error of"); math.Abs(got-100*pair.ChanceError) > 0.051 {
				t.Errorf("error %g: %q", pair.ChanceError, said)
			}
			d := pair.Difference
			if d.Mean == nil {
				if !strings.Contains(said, "no sample in which both sail") {
					t.Errorf("no difference: %q", said)
				}
				continue
			}
			mean := 0.0
			if !strings.Contains(said, "On average she gains nothing") {
				mean = figureAfter(t, said, "On average she makes")
			}
			if strings.Contains(said, "kn less") {
				mean = -mean
			}
			if math.Abs(mean*knot-sign**d.Mean) > 0.0051*knot {
				t.Errorf("mean %g: %q", *d.Mean, said)
			}
			low, high := d.P10, d.P90
			if sign < 0 {
				low, high = d.P90, d.P10
			}
			if low == nil || high == nil {
				if strings.Contains(said, "between") {
					t.Errorf("a band without an end: %q", said)
				}
				continue
			}
			if got := figureAfter(t, said, "with 80 % between"); math.Abs(got*knot-sign**low) > 0.0051*knot {
				t.Errorf("low end %g: %q", *low, said)
			}
			if got := figureAfter(t, said, "between [-+0-9.]+ and"); math.Abs(got*knot-sign**high) > 0.0051*knot {
				t.Errorf("high end %g: %q", *high, said)
			}
			settled(t, said, pair)
		}
	}
}

// settled holds what is said of measuring against its numbers.
func settled(t *testing.T, said string, pair odds.Pair) {
	t.Helper()
	if pair.Settle == nil {
		if strings.Contains(said, "would settle") {
			t.Errorf("nothing settles it: %q", said)
		}
		return
	}
	if !strings.Contains(said, "Knowing "+pair.Settle.Input+" would settle most") {
		t.Errorf("%s: %q", pair.Settle.Input, said)
	}
	if got := figureAfter(t, said, "expected to narrow by"); math.Abs(got-100*(1-pair.Settle.Left/pair.Settle.Deviation)) > 0.051 {
		t.Errorf("narrows from %g to %g: %q", pair.Settle.Deviation, pair.Settle.Left, said)
	}
}

// Every part of the page is there, fits, and shows no raw number.
func TestOddsPage(t *testing.T) {
	r := oddsOf(t, 0.05, -0.15)
	var p page
	p.odds(r)
	text := p.String()
	for _, want := range []string{ // wherever lines break
		"512 samples (seed 3) of 3 inputs", "a boat cannot sail (Sorrel in", "Sorrel less Tansy", "were nothing shared between them",
		"Where the spread of Sorrel less Tansy comes from", "it misses", "What matters most",
	} {
		if !strings.Contains(strings.Join(strings.Fields(text), " "), want) {
			t.Errorf("the page does not say %q:\n%s", want, text)
		}
	}
	if strings.Contains(text, "NaN") || strings.Contains(text, "%!") || regexp.MustCompile(`[0-9]\.[0-9]{5}`).MatchString(text) {
		t.Errorf("a raw number:\n%s", text)
	}
	for line := range strings.Lines(text) {
		if n := len([]rune(strings.TrimRight(line, "\n"))); n > width {
			t.Errorf("%d columns: %s", n, line)
		}
	}
	if got := running(r); !regexp.MustCompile(`^Sorrel faster: [0-9.]+ % ± [0-9.]+ %$`).MatchString(got) {
		t.Errorf("running: %q", got)
	}
}
