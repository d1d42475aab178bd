package trim

import (
	"math"
	"testing"
	"time"

	"foilwright/solve"
)

// The loads at the best trim of the first example and one set of slopes there, and
// with -v what each variable's slope takes of it: the least of many times, which
// other work on the machine does not disturb.
func BenchmarkSlopes(b *testing.B) {
	sorrel, r := readExample(b, referenceBoat), referenceRequest()
	best, _ := searched(b, sorrel, &r)
	p := best.problem
	sp := p.solve()
	x := best.outcome.X
	n, m := sp.Equalities, sp.Inequalities
	v := solve.Values{Equal: make([]float64, n), Inequal: make([]float64, m)}
	s := solve.Slopes{F: make([]float64, len(x)), Equal: make([][]float64, n), Inequal: make([][]float64, m)}
	for i := range s.Equal {
		s.Equal[i] = make([]float64, len(x))
	}
	for i := range s.Inequal {
		s.Inequal[i] = make([]float64, len(x))
	}
	least := make([]float64, len(x)+3)
	for i := range least {
		least[i] = math.Inf(1)
	}
	take := func(i int, do func()) {
		begin := time.Now()
		do()
		least[i] = math.Min(least[i], 1e6*time.Since(begin).Seconds())
	}
	b.ReportAllocs()
	away := append([]float64(nil), x...)
	for b.Loop() {
		for i := range away {
			away[i] += 1e-9 // new geometry, so that nothing is kept
		}
		take(len(x), func() { p.values(away, &v) })
		take(len(x)+1, func() { p.slopes(away, &v, &s) })
		p.values(away, &v)
		take(len(x)+2, func() {
			if err := p.here.Hold(); err != nil {
				b.Fatal(err)
			}
		})
		for i := range x {
			w := p.here
			if p.variables[i].moves == changesGeometry {
				w = p.aside
			}
			copy(p.shiftedX, away)
			take(i, func() { p.slope(i, away, &v, &s, w) })
		}
		p.here.Release()
	}
	b.ReportMetric(least[len(x)], "loads-µs")
	b.ReportMetric(least[len(x)+1], "slopes-µs")
	b.ReportMetric(least[len(x)+2], "hold-µs")
	for i := range x {
		b.Logf("%-24s %7.1f µs", p.variables[i].name, least[i])
	}
}
