package odds

import (
	"context"
	"encoding/csv"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"foilwright/batch"
	"foilwright/boatfile"
	"foilwright/quantity"
)

// published returns the values of a line of a file in testdata/published.
func published(t testing.TB, file, id string) []float64 {
	t.Helper()
	for _, line := range lines(t, file)[1:] {
		if line[0] != id {
			continue
		}
		var values []float64
		for _, text := range strings.Split(line[3], " ; ") {
			v, err := strconv.ParseFloat(text, 64)
			if err != nil {
				t.Fatal(err)
			}
			values = append(values, v)
		}
		return values
	}
	t.Fatalf("%s has no line %s", file, id)
	return nil
}

func lines(t testing.TB, file string) [][]string {
	t.Helper()
	f, err := os.Open(filepath.Join("testdata", "published", file))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// says reads a plain number with its spread.
func says(t testing.TB, text string) quantity.Quantity {
	t.Helper()
	q, err := quantity.Parse(text, quantity.Number)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

// own, shared and model are unknowns of stand-in boats.
func own(t testing.TB, boat int, name, text string) Unknown {
	return stand(t, OfFigure, fmt.Sprintf("boat%d.yaml", boat), name, text, boat)
}

func shared(t testing.TB, name, text string, boats ...int) Unknown {
	return stand(t, OfShared, "shared.yaml", name, text, boats...)
}

func stand(t testing.TB, kind Kind, file, name, text string, boats ...int) Unknown {
	id := boatfile.Identity{File: file, Name: name}
	return Unknown{Identity: id, Name: id.String(), Kind: kind, Quantity: says(t, text), Boats: boats}
}

// standIn is a plan of two boats whose progress is a function of the unknowns.
func standIn(unknowns []Unknown, first, second func(x []float64) float64) *Plan {
	p := &Plan{
		Boats: []string{"Sorrel", "Tansy"}, Aim: "best progress to windward", Unknowns: unknowns, Wind: 9,
		Seed: 1, Samples: 1024, Confidence: 0.8,
	}
	p.Evaluate = func(_ context.Context, x []float64, columns int) ([]Outcome, error) {
		a, b := first(x), second(x)
		out := []Outcome{{Progress: a, Speed: a}, {Progress: b, Speed: b}, {Progress: a, Speed: a}}
		for i := range out {
			if math.IsInf(out[i].Progress, -1) {
				out[i] = Outcome{State: CannotSail}
			}
		}
		return out[:columns], nil
	}
	return p
}

// answered is the whole answer to a plan.
func answered(t testing.TB, p *Plan) *Result {
	t.Helper()
	r, err := Of(context.Background(), p, Runners{batch.Cores(2), batch.Cores(2)}, Watch{})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// sampled is the answer without what explains it, from one goroutine.
func sampled(t testing.TB, p *Plan) *Result {
	t.Helper()
	table, likely, err := p.sample(context.Background(), batch.Cores(1), Watch{})
	if err != nil {
		t.Fatal(err)
	}
	return p.answer(table, likely)
}

// near fails where a figure is missing or off by more than a tolerance.
func near(t *testing.T, what string, got *float64, want, tolerance float64) {
	t.Helper()
	switch {
	case got == nil:
		t.Errorf("%s is missing, want %g", what, want)
	case !(math.Abs(*got-want) <= tolerance):
		t.Errorf("%s: %g, want %g within %g", what, *got, want, tolerance)
	}
}

// random is a source of truths, and of nothing else.
func random(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 17)) }

func parseSpeed(text string) (quantity.Quantity, error) { return quantity.Parse(text, quantity.Speed) }
