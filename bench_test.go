package foilwright_test

import (
	"context"
	"testing"

	"foilwright/balance"
	"foilwright/compare"
	"foilwright/trim"
)

// All loads in one state of the first example: lattice, sails, weights. The
// geometry changes each time, so that nothing is kept from the last.
func BenchmarkLoads(b *testing.B) {
	sorrel := example(b, sailed[0])
	res, err := trim.Best(context.Background(), sorrel, oneStart(), nil)
	if err != nil {
		b.Fatal(err)
	}
	var w balance.Workspace
	s := res.State.Clone()
	b.ReportAllocs()
	for b.Loop() {
		s.Attitude.Heel += 1e-7
		if _, err := balance.At(sorrel, s, res.SetIndex, res.Conditions, &w); err != nil {
			b.Fatal(err)
		}
	}
}

// The same with only speed and sheets changing: the lattice is kept.
func BenchmarkLoadsAtOneGeometry(b *testing.B) {
	sorrel := example(b, sailed[0])
	res, err := trim.Best(context.Background(), sorrel, oneStart(), nil)
	if err != nil {
		b.Fatal(err)
	}
	var w balance.Workspace
	s := res.State.Clone()
	b.ReportAllocs()
	for b.Loop() {
		s.Speed += 1e-7
		if _, err := balance.At(sorrel, s, res.SetIndex, res.Conditions, &w); err != nil {
			b.Fatal(err)
		}
	}
}

func oneStart() trim.Request {
	r := request(17)
	r.Mode, r.Set, r.Starts = "one foil", "working", 1
	return r
}

// One best trim of the first example: all modes and sets, all starts.
func BenchmarkTrim(b *testing.B) {
	sorrel := example(b, sailed[0])
	for b.Loop() {
		if _, err := trim.Best(context.Background(), sorrel, request(17), nil); err != nil {
			b.Fatal(err)
		}
	}
}

// One comparison of the two examples on two workers.
func BenchmarkCompare(b *testing.B) {
	jobs := []trim.Job{{Boat: example(b, sailed[0]), Request: request(17)}, {Boat: example(b, sailed[1]), Request: request(17)}}
	for b.Loop() {
		if _, err := compare.Run(context.Background(), jobs, 0, 2, nil); err != nil {
			b.Fatal(err)
		}
	}
}
