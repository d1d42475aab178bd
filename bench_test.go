package foilwright_test

import (
	"context"
	"strconv"
	"testing"
	"time"

	"foilwright/balance"
	"foilwright/compare"
	"foilwright/foil"
	"foilwright/polar"
	"foilwright/si"
	"foilwright/trim"
)

// All loads in one state of the first example, on so many strips over all surfaces:
// lattice, sails, weights. The geometry changes each time, so that nothing is kept
// from the last. The least of many times is told too, which other work on the
// machine does not disturb.
func BenchmarkLoads(b *testing.B) {
	sorrel := example(b, sailed[0])
	res, err := trim.Best(context.Background(), sorrel, oneStart(), nil)
	if err != nil {
		b.Fatal(err)
	}
	for _, strips := range []int{72, 96} {
		b.Run(strconv.Itoa(strips), func(b *testing.B) {
			var w balance.Workspace
			w.Foil.Options = foil.DefaultOptions()
			w.Foil.Options.Strips = strips / 6 // pieces are wet
			s := res.State.Clone()
			least := time.Hour
			b.ReportAllocs()
			for b.Loop() {
				s.Attitude.Heel += 1e-7
				start := time.Now()
				if _, err := balance.At(sorrel, s, res.SetIndex, res.Conditions, &w); err != nil {
					b.Fatal(err)
				}
				least = min(least, time.Since(start))
			}
			b.ReportMetric(1e6*least.Seconds(), "least-µs")
		})
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

// One best trim with nothing known before: one mode and set, one start.
func BenchmarkTrimOneStart(b *testing.B) {
	sorrel := example(b, sailed[0])
	var w trim.Workspace
	for b.Loop() {
		if _, err := trim.Best(context.Background(), sorrel, oneStart(), &w); err != nil {
			b.Fatal(err)
		}
	}
}

// One best trim from the answer in a third of a knot less wind: told in full, without the side
// force carried, and the state alone, as samples are.
func BenchmarkTrimFromNeighbour(b *testing.B) {
	sorrel := example(b, sailed[0])
	var w trim.Workspace
	res, err := trim.Best(context.Background(), sorrel, request(17), &w)
	if err != nil {
		b.Fatal(err)
	}
	for _, c := range []struct {
		name string
		tell trim.Tell
	}{{"in full", trim.InFull}, {"without carried", trim.WithoutCarried}, {"state alone", trim.StateAlone}} {
		b.Run(c.name, func(b *testing.B) {
			r := request(17.3)
			r.From, r.Starts, r.Tell = res, trim.OnlyFrom, c.tell
			for b.Loop() {
				if _, err := trim.Best(context.Background(), sorrel, r, &w); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// Three boats compared at one wind on two workers.
func BenchmarkCompareThree(b *testing.B) {
	var jobs []trim.Job
	for _, name := range []string{sailed[0], sailed[1], "examples/catamaran/bramble.yaml"} {
		jobs = append(jobs, trim.Job{Boat: example(b, name), Request: request(17)})
	}
	for b.Loop() {
		if _, err := compare.Run(context.Background(), jobs, 0, 2, nil); err != nil {
			b.Fatal(err)
		}
	}
}

// A polar of 8 winds and 15 angles with best angles, on two workers.
func BenchmarkPolar(b *testing.B) {
	sorrel := example(b, sailed[0])
	r := polar.Request{Base: request(17)}
	for k := range 8 {
		r.Winds = append(r.Winds, si.Speed(10+2*k)*si.Knot)
	}
	for k := range 15 {
		r.Angles = append(r.Angles, si.Angle(45+7*k)*si.Degree)
	}
	for b.Loop() {
		if _, err := polar.Run(context.Background(), sorrel, r, 2, nil); err != nil {
			b.Fatal(err)
		}
	}
}

// One best trim on more and more strips a piece: how cost grows with panels.
func BenchmarkTrimByStrips(b *testing.B) {
	sorrel := example(b, sailed[0])
	for _, strips := range []int{6, 12, 18, 24} {
		b.Run(strconv.Itoa(strips), func(b *testing.B) {
			r := oneStart()
			r.Foil = foil.DefaultOptions()
			r.Foil.Strips = strips
			var w trim.Workspace
			for b.Loop() {
				if _, err := trim.Best(context.Background(), sorrel, r, &w); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
