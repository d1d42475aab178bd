package odds

import (
	"context"
	"fmt"
	"testing"
)

// manyInputs is three boats with two dozen inputs whose progress is quick to find.
func manyInputs(b *testing.B, samples int) *Plan {
	var unknowns []Unknown
	for i := range 24 {
		u := shared(b, fmt.Sprintf("factor %02d", i), "1 ± 0.05", 0, 1, 2)
		unknowns = append(unknowns, u)
	}
	p := &Plan{Boats: []string{"one", "two", "three"}, Aim: "best progress to windward", Unknowns: unknowns, Wind: 9, Seed: 1, Samples: samples, Confidence: 0.8}
	p.Evaluate = func(_ context.Context, x []float64, columns int) ([]Outcome, error) {
		out := make([]Outcome, columns)
		for k := range out {
			drag := 0.0
			for i, v := range x {
				drag += v * v / float64(1+(i+k)%7)
			}
			out[k].Progress = 9 * race{x[k], 1, drag / 12, 1}.progress() / 9
		}
		return out, nil
	}
	return p
}

// BenchmarkIndices is what indices cost beside the trims of 2,000 samples of three
// boats: six figures, twenty-four inputs.
func BenchmarkIndices(b *testing.B) {
	p := manyInputs(b, 2000)
	r := answered(b, p)
	for b.Loop() {
		r.Inputs, r.Surrogates = nil, nil
		p.explain(r)
	}
}

// BenchmarkAnswer is everything else that is made of 2,000 samples.
func BenchmarkAnswer(b *testing.B) {
	p := manyInputs(b, 2000)
	r := answered(b, p)
	for b.Loop() {
		p.answer(r.Table, r.Table.Outcomes[0])
	}
}

// BenchmarkDraw is one draw of two dozen unknowns.
func BenchmarkDraw(b *testing.B) {
	p := manyInputs(b, 2000)
	points, err := p.points()
	if err != nil {
		b.Fatal(err)
	}
	sample := 0
	for b.Loop() {
		p.draw(points, sample)
		sample++
	}
}
