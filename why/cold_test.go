package why

import (
	"flag"
	"math"
	"os"
	"testing"

	"foilwright/boat"
	"foilwright/boatfile"
	"foilwright/fluid"
	"foilwright/si"
	"foilwright/trim"
)

var cold = flag.Int("cold", 0, "how many mixed boats of each pair of examples are searched again from all starts")

// Mixed boats of the examples, trimmed from neighbours, are not better from all starts
// by more than 0.05 %: of progress, and of the wind to fly in. It takes minutes:
//
//	go test -run TestMixedBoatsFromAllStarts -cold 20 -timeout 1h ./why
func TestMixedBoatsFromAllStarts(t *testing.T) {
	if *cold <= 0 {
		t.Skip("a long test, asked for with -cold")
	}
	base := trim.Request{WindSpeed: 17 * si.Knot, Profile: fluid.OpenSea(), Water: fluid.StandardSea(), Air: fluid.StandardAir(), Why: trim.Shortfalls}
	fly := base
	fly.Aim, fly.WindSpeed, fly.Starts = trim.LeastWind, 5, 8
	for _, c := range []struct {
		first, second string
		request       trim.Request
	}{
		{"which-foil/sorrel", "which-foil/tansy", base},
		{"which-foil/sorrel", "which-foil/tansy", fly},
		{"too-close-to-call/bryony", "too-close-to-call/privet", base},
		{"too-close-to-call/bryony", "too-close-to-call/privet", fly},
	} {
		lookAgain(t, read(t, c.first), read(t, c.second), c.request)
	}
}

func read(t *testing.T, name string) *boatfile.Sheet {
	t.Helper()
	file := "../examples/" + name + ".yaml"
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	s, err := boatfile.Read(file, text, os.ReadFile)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// lookAgain searches mixed boats of two, evenly over all of them, from all starts.
func lookAgain(t *testing.T, first, second *boatfile.Sheet, request trim.Request) {
	t.Helper()
	r := Request{First: first, Second: second, Figure: progress, Ask: func(*boat.Boat) (trim.Request, error) { return request, nil }}
	causes, err := Causes(boatfile.DiffOfPoints(first, second), nil)
	if err != nil {
		t.Fatal(err)
	}
	e, err := r.ends(t.Context(), 2)
	if err != nil {
		t.Fatal(err)
	}
	f, err := assemble(t.Context(), causes, mixing(first, causes), sampling{}, 2)
	if err != nil {
		t.Fatal(err)
	}
	v, err := f.sail(t.Context(), trimming(r.Ask, e.carriedAt), e.trims[0], e.trims[1], 2, func() {})
	if err != nil {
		t.Fatal(err)
	}
	worst, count := 0.0, min(*cold, len(f.needed))
	for k := range count {
		c := f.needed[k*len(f.needed)/count]
		full, err := trim.Best(t.Context(), f.boats[c], request, nil)
		if err != nil {
			t.Fatal(err)
		}
		near := v.answers[c]
		if !near.sails() || full.Answer != trim.Found {
			if full.Answer == trim.Found {
				t.Errorf("%s, %v: sails from all starts only", request.Aim, f.names(c))
			}
			continue
		}
		gain := merit(full)/merit(near.trim) - 1
		if request.Aim == trim.LeastWind {
			gain = -gain
		}
		if worst = math.Max(worst, gain); gain > agreement {
			t.Errorf("%s, %v: %.4f m/s from neighbours, %.4f from all starts, %.3f %% better", request.Aim, f.names(c), merit(near.trim), merit(full), 100*gain)
		}
	}
	t.Logf("%s and %s, %s: of %d mixed boats %d are searched again, better by %.3f %% at most; the second neighbour mended %d",
		first.Name(), second.Name(), request.Aim, len(f.needed), count, 100*worst, v.mended)
}
