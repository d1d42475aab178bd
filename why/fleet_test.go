package why

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"foilwright/boat"
	"foilwright/si"
	"foilwright/trim"
)

// standIn is a boat that is nothing but its coalition over the causes at the outset.
func standIn(c Coalition) (*boat.Boat, error) {
	return &boat.Boat{Name: strconv.FormatUint(uint64(c), 10)}, nil
}

func coalitionOf(b *boat.Boat) Coalition {
	n, err := strconv.ParseUint(b.Name, 10, 64)
	if err != nil {
		panic(err)
	}
	return Coalition(n)
}

// sailedAt returns stand-in trims whose speed is a worth; a NaN cannot sail.
func sailedAt(worth func(Coalition) float64) trimmer {
	return func(ctx context.Context, b *boat.Boat, _ *trim.Result, _ search, _ *trim.Workspace) (*trim.Result, error) {
		return result(b.Name, worth(coalitionOf(b))), ctx.Err()
	}
}

func result(name string, speed float64) *trim.Result {
	r := &trim.Result{Boat: name, Answer: trim.Found, Aim: trim.AtAngle.String(), Speed: si.Speed(speed)}
	if math.IsNaN(speed) {
		r.Answer, r.Speed, r.Reason = trim.NoAnswer, 0, &trim.Reason{Words: "drive is short"}
	}
	return r
}

func named(n int) []Cause {
	var causes []Cause
	for i := range n {
		causes = append(causes, Cause{Name: fmt.Sprintf("c%d", i)})
	}
	return causes
}

var speed = Figure{"speed", "m/s", func(r *trim.Result) (float64, bool) { return r.Speed.MetresPerSecond(), true }}

// splitStandIn splits the speed of stand-in boats.
func splitStandIn(t *testing.T, n int, build builder, worth func(Coalition) float64, r Request, workers int) *Result {
	t.Helper()
	if r.Orders == 0 {
		r.Orders = DefaultOrders
	}
	r.Figure = speed
	f, err := assemble(t.Context(), named(n), build, sampling{r.Orders, r.Seed}, workers)
	if err != nil {
		t.Fatal(err)
	}
	e := &ends{trims: [2]*trim.Result{result("first", worth(0)), result("second", worth(All(n)))}}
	res := e.result(&r)
	v, err := f.sail(t.Context(), sailedAt(worth), e.trims[0], e.trims[1], workers, func() {})
	if err != nil {
		t.Fatal(err)
	}
	res.tell(&r, v)
	return res
}

func adding(n int) func(Coalition) float64 {
	return func(s Coalition) float64 {
		sum := 10.0
		for i := range n {
			if s.Has(i) {
				sum += float64(i+1) / 8
			}
		}
		return sum
	}
}

func holdsTogether(t *testing.T, r *Result) {
	t.Helper()
	if off := r.Whole() - *r.Difference; math.Abs(off) > 1e-9 {
		t.Errorf("parts add up to %v, the difference is %v", r.Whole(), *r.Difference)
	}
	if d := *r.Second.Value - *r.First.Value; d != *r.Difference {
		t.Errorf("difference %v, second less first %v", *r.Difference, d)
	}
	rows := slices.Clone(r.Figures)
	if r.Ledger != nil {
		rows = append(rows, r.Ledger.Rows...)
	}
	for _, row := range rows {
		sum := 0.0
		for _, p := range row.Parts {
			sum += p
		}
		if math.Abs(sum-row.Difference) > 1e-9*math.Max(1, math.Abs(row.First)) || row.Second-row.First != row.Difference {
			t.Errorf("%s: parts add up to %v, the difference is %v", row.Figure, sum, row.Difference)
		}
	}
}

// Causes that add up get what each adds, from one cause to more than are counted in
// full, where the error stated is nothing.
func TestStandInThatAddsUp(t *testing.T) {
	for _, n := range []int{1, 2, 5, 8, 12, 13, 20} {
		r := splitStandIn(t, n, standIn, adding(n), Request{}, 2)
		holdsTogether(t, r)
		for i, c := range r.Causes {
			if want := float64(i+1) / 8; math.Abs(c.Part-want) > 1e-12 || c.Error > 1e-12 {
				t.Errorf("%d causes: %s is %v ± %v, want %v", n, c.Name, c.Part, c.Error, want)
			}
		}
		if exact := n <= ExactCauses; exact != (r.Work.Orders == 0) || exact && r.Work.Mixed != 1<<n-2 {
			t.Errorf("%d causes: %+v", n, r.Work)
		}
		if want := 2 + 2*r.Work.Mixed; r.Work.Trims != want || r.Work.Mended != 0 {
			t.Errorf("%d causes: %d trims, %d mended, want %d and none", n, r.Work.Trims, r.Work.Mended, want)
		}
	}
}

// With many causes of a wild game the parts still add up, the bits are the same on
// one goroutine and on three, and another seed gives other orders.
func TestSampledIsTheSameOnOneAndMany(t *testing.T) {
	const n = 15
	worth := func(s Coalition) float64 { return 20 + wild(3)(s) }
	one := splitStandIn(t, n, standIn, worth, Request{Seed: 5}, 1)
	holdsTogether(t, one)
	if d := cmp.Diff(one.Causes, splitStandIn(t, n, standIn, worth, Request{Seed: 5}, 3).Causes); d != "" {
		t.Errorf("one goroutine and three differ:\n%s", d)
	}
	if cmp.Equal(one.Causes, splitStandIn(t, n, standIn, worth, Request{Seed: 6}, 3).Causes) {
		t.Error("the seed does nothing")
	}
	for _, c := range one.Causes {
		if !(c.Error > 0) {
			t.Errorf("%s of a wild game has the error %v", c.Name, c.Error)
		}
	}
}

// A boat that has cause 1 without cause 3 cannot be built: the two are told as one,
// and the others are as they would be.
func TestCausesMerge(t *testing.T) {
	build := func(c Coalition) (*boat.Boat, error) {
		if c.Has(1) && !c.Has(3) {
			return nil, errors.New("mixed.yaml:1:1: a tip without its wing\nhint: add the wing")
		}
		return standIn(c)
	}
	r := splitStandIn(t, 5, build, adding(5), Request{Depth: InPairs}, 2)
	holdsTogether(t, r)
	want := []Merged{{Name: "c1 + c3", Causes: []string{"c1", "c3"}, Why: "mixed.yaml:1:1: a tip without its wing; hint: add the wing"}}
	if d := cmp.Diff(want, r.Merged); d != "" {
		t.Errorf("merged:\n%s", d)
	}
	parts := ""
	for _, c := range r.Causes {
		parts += fmt.Sprintf("%s %.4f ", c.Name, c.Part)
	}
	if parts != "c0 0.1250 c1 + c3 0.7500 c2 0.3750 c4 0.6250 " {
		t.Errorf("parts %s", parts)
	}
	if len(r.Pairs) != 6 {
		t.Errorf("%d pairs of four causes", len(r.Pairs))
	}
	// Three that only go together merge one after the other.
	build = func(c Coalition) (*boat.Boat, error) {
		if k := c & 0b10101; k != 0 && k != 0b10101 {
			return nil, errors.New("no")
		}
		return standIn(c)
	}
	r = splitStandIn(t, 5, build, adding(5), Request{}, 1)
	holdsTogether(t, r)
	if len(r.Merged) != 1 || strings.Join(r.Merged[0].Causes, " ") != "c0 c2 c4" || len(r.Causes) != 3 {
		t.Errorf("merged %+v, causes %+v", r.Merged, r.Causes)
	}
	// Merged, many become few enough to count in full.
	build = func(c Coalition) (*boat.Boat, error) {
		if c.Has(12) != c.Has(13) {
			return nil, errors.New("no")
		}
		return standIn(c)
	}
	if r = splitStandIn(t, 14, build, adding(14), Request{}, 2); len(r.Causes) != 13 || r.Work.Orders == 0 {
		t.Errorf("%d causes, %+v", len(r.Causes), r.Work)
	}
	whole := func(c Coalition) (*boat.Boat, error) {
		if c == All(3) {
			return nil, errors.New("the second boat cannot be built")
		}
		return standIn(c)
	}
	if _, err := assemble(t.Context(), named(3), whole, sampling{}, 1); err == nil || !strings.Contains(err.Error(), "second boat") {
		t.Errorf("a whole boat that cannot be built: %v", err)
	}
}

// Boats that cannot sail count for the slowest that can, or as asked, and are told.
func TestBoatsThatCannotSail(t *testing.T) {
	worth := func(s Coalition) float64 {
		if s == 0b011 || s == 0b100 {
			return math.NaN()
		}
		return adding(3)(s)
	}
	r := splitStandIn(t, 3, standIn, worth, Request{}, 2)
	holdsTogether(t, r)
	if len(r.CannotSail) != 2 {
		t.Fatalf("cannot sail: %+v", r.CannotSail)
	}
	s := r.CannotSail[0]
	if d := cmp.Diff(StandIn{Causes: []string{"c0", "c1"}, Why: "drive is short", Value: 10, Of: "first"}, s); d != "" {
		t.Errorf("stands in:\n%s", d)
	}
	filled := func(c Coalition) float64 {
		if v := worth(c); !math.IsNaN(v) {
			return v
		}
		return 10
	}
	for i, want := range Shapley(3, game(3, filled)) {
		if math.Abs(r.Causes[i].Part-want) > 1e-14 {
			t.Errorf("cause %d: %v, want %v", i, r.Causes[i].Part, want)
		}
	}
	nothing := 0.0
	r = splitStandIn(t, 3, standIn, worth, Request{CannotSail: &nothing}, 1)
	holdsTogether(t, r)
	if s := r.CannotSail[1]; s.Value != 0 || s.Of != "as asked" {
		t.Errorf("as asked: %+v", s)
	}
}

// A trim that is stuck is mended from the other side: the better answer counts.
func TestTheBetterNeighbourCounts(t *testing.T) {
	f, err := assemble(t.Context(), named(3), standIn, sampling{}, 1)
	if err != nil {
		t.Fatal(err)
	}
	worth := adding(3)
	stuck := func(_ context.Context, b *boat.Boat, from *trim.Result, _ search, _ *trim.Workspace) (*trim.Result, error) {
		c := coalitionOf(b)
		if c == 0b010 && from.Boat == "first" {
			return result(b.Name, 1), nil
		}
		return result(b.Name, worth(c)), nil
	}
	v, err := f.sail(t.Context(), stuck, result("first", worth(0)), result("second", worth(All(3))), 2, func() {})
	if err != nil {
		t.Fatal(err)
	}
	if got := v.answers[0b010].trim.Speed.MetresPerSecond(); got != worth(0b010) || v.mended != 1 {
		t.Errorf("speed %v, want %v; %d mended, want 1", got, worth(0b010), v.mended)
	}
}

func TestSailIsInterrupted(t *testing.T) {
	f, err := assemble(t.Context(), named(4), standIn, sampling{}, 1)
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	_, err = f.sail(ctx, sailedAt(adding(4)), result("first", 10), result("second", 11), 2, cancel)
	if !errors.Is(err, context.Canceled) {
		t.Errorf("interrupted: %v", err)
	}
}

// A boat that none of her neighbours matches in modes is searched from all starts, on
// the way up; the others from the best neighbour that can be sailed in the same ways.
func TestNewWaysAreSearchedFromAllStarts(t *testing.T) {
	build := func(c Coalition) (*boat.Boat, error) {
		b, err := standIn(c)
		if b.Modes = []boat.Mode{{Name: "one foil"}}; c.Has(1) {
			b.Modes = append(b.Modes, boat.Mode{Name: "tip out"})
		}
		return b, err
	}
	f, err := assemble(t.Context(), named(3), build, sampling{}, 1)
	if err != nil {
		t.Fatal(err)
	}
	worth := adding(3)
	var up []string
	tell := func(_ context.Context, b *boat.Boat, from *trim.Result, how search, _ *trim.Workspace) (*trim.Result, error) {
		if how != sameWay {
			up = append(up, fmt.Sprintf("%s from %s %d", b.Name, from.Boat, how))
		}
		return result(b.Name, worth(coalitionOf(b))), nil
	}
	if _, err := f.sail(t.Context(), tell, result("first", worth(0)), result("second", worth(All(3))), 1, func() {}); err != nil {
		t.Fatal(err)
	}
	want := "1 from first 0, 2 from first 2, 4 from first 0, 3 from 2 0, 5 from 4 0, 6 from 2 0"
	if got := strings.Join(up, ", "); got != want {
		t.Errorf("on the way up: %s\nwant %s", got, want)
	}
}
