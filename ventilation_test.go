package foilwright_test

import (
	"bytes"
	"fmt"
	"math"
	"testing"

	"foilwright/foil"
	"foilwright/trim"
)

// What a limit on the ventilation margin costs does not depend on the strips that
// foils are cut into: read at the shallowest strip, Sorrel's progress fell from
// 16.55 kn on six strips to 15.9 on twelve and 10.8 on 24 under the same limit.
func TestVentilationLimitCostsTheSameOnAnyStrips(t *testing.T) {
	const degrees = 6.55
	free := example(t, "examples/which-foil/sorrel.yaml")
	held, err := fetched(t, "examples/which-foil/sorrel.yaml", func(_ string, text []byte) []byte {
		return bytes.ReplaceAll(text, []byte("  sheet load: at most 24 kN"), fmt.Appendf(nil, "  sheet load: at most 24 kN\n  ventilation margin: at least %g deg", degrees))
	})
	if err != nil {
		t.Fatal(err)
	}
	var costs []float64
	for _, strips := range []int{6, 12} {
		r := request(16)
		r.Foil, r.Mode, r.Set, r.Why = foil.DefaultOptions(), "one foil", "working", trim.Shortfalls
		r.Foil.Strips = strips
		all, limited := best(t, free, r), best(t, held, r)
		if all.Answer != trim.Found || limited.Answer != trim.Found {
			t.Fatalf("%d strips: no answer", strips)
		}
		margin := trim.LeastVentilation(limited.Margins).Ventilation.Margin.Degrees()
		cost := 1 - float64(limited.Progress()/all.Progress())
		t.Logf("%d strips: %.4f m/s, with the limit %.4f: %.3f %% less, margin %.4f°", strips, all.Progress(), limited.Progress(), 100*cost, margin)
		if math.Abs(margin-degrees) > 1e-3 {
			t.Errorf("%d strips: margin %.4f° under a limit of %g°", strips, margin, degrees)
		}
		costs = append(costs, cost)
	}
	for i, c := range costs[1:] {
		if math.Abs(c-costs[i]) > 1e-3 || !(c > 1e-3) {
			t.Errorf("the limit costs %.3f %% and, on twice the strips, %.3f %%", 100*costs[i], 100*c)
		}
	}
}
