package lattice

import (
	"fmt"
	"testing"
	"time"
)

// bladed fills three connected spans, a strut that pierces the water and two
// wings at its foot, and a rudder wing behind them.
func bladed(p *Panels, strips int) {
	p.Reset()
	along := func(from, to [3]float64, chord float64, normal [3]float64) func(float64) Station {
		return func(s float64) Station {
			q := from
			for k := range 3 {
				q[k] += s * (to[k] - from[k])
			}
			return Station{Quarter: q, Aft: [3]float64{-1, 0, 0}, Chord: chord, Normal: normal}
		}
	}
	up, port := [3]float64{0, 0, 1}, [3]float64{0, 1, 0}
	foot := [3]float64{0, 0, -1}
	AppendSpan(p, along([3]float64{0, 0, 0}, foot, 0.4, port), 0, 1, strips, 1, 0, 0.1)
	AppendSpan(p, along(foot, [3]float64{-0.2, 1, -1}, 0.3, up), 0, 1, strips, 1, 0, 0.075)
	AppendSpan(p, along(foot, [3]float64{-0.2, -1, -1}, 0.3, up), 0, 1, strips, 1, 0, 0.075)
	AppendSpan(p, along([3]float64{-6, 0.5, -0.9}, [3]float64{-6, -0.5, -0.9}, 0.2, up), 0, 1, strips, 1, 1, 0.05)
}

// BenchmarkState times one state: influence, factors, a right-hand side and
// forces, under a free surface. The least time of a single state is what the
// processor can do where other work disturbs it.
func BenchmarkState(b *testing.B) {
	for _, panels := range []int{24, 48, 72, 96, 144} {
		b.Run(fmt.Sprintf("%d panels", panels), func(b *testing.B) {
			var p Panels
			var w Workspace
			bladed(&p, panels/4)
			wash := make([]float64, panels)
			circulation := make([]float64, panels)
			force := make([][3]float64, panels)
			for i := range wash {
				wash[i] = -0.05 * p.Normal[i][2]
			}
			state := func() {
				if err := w.Assemble(&p, FreeSurface, Options{}); err != nil {
					b.Fatal(err)
				}
				if err := w.Solve(wash, circulation); err != nil {
					b.Fatal(err)
				}
				w.Forces(circulation, force)
			}
			state()
			least := time.Hour
			b.ReportAllocs()
			for b.Loop() {
				start := time.Now()
				state()
				least = min(least, time.Since(start))
			}
			b.ReportMetric(float64(least.Nanoseconds()), "least-ns")
		})
	}
}
