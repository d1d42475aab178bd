package why

import (
	"os"
	"testing"

	"foilwright/boat"
	"foilwright/boatfile"
	"foilwright/fluid"
	"foilwright/trim"
)

// eight differs from the example's Sorrel in eight causes.
const eight = `foilwright: 1
name: Eight
like: sorrel.yaml
weights: {hull and deck: {mass: 1120 kg}}
hulls: {canoe: {windage: {area: 4.6 m²}}}
foils:
  main:
    root: {y: 1.95 m}
    pieces:
      arm: {section: naca 63-012 at 11 %}
      inner wing: {path: [{y: 0 m, z: 0 m}, {y: -0.95 m, z: -0.30 m}]}
  rudder: {pieces: {blade: {chord: {0 %: 0.32 m}}}}
sails: {main: {area: 67 m²}}
`

// Sorrel and Tansy differ in three causes, 6 mixed boats; eight causes are 254. Each
// is trimmed from two neighbours. On one goroutine; the time of one trim is told
// beside, the two from all starts counted in.
func BenchmarkWhy(b *testing.B) {
	first := sheet(b, "which-foil/sorrel.yaml")
	second, err := boatfile.Read("which-foil/eight.yaml", []byte(eight), func(name string) ([]byte, error) { return os.ReadFile("../examples/" + name) })
	if err != nil {
		b.Fatal(err)
	}
	request := trim.Request{WindSpeed: 8.75, Profile: fluid.OpenSea(), Water: fluid.StandardSea(), Air: fluid.StandardAir(), Aim: trim.Windward}
	for _, c := range []struct {
		name   string
		second *boatfile.Sheet
		causes int
	}{{"three", sheet(b, "which-foil/tansy.yaml"), 3}, {"eight", second, 8}} {
		b.Run(c.name, func(b *testing.B) {
			r := Request{First: first, Second: c.second, Figure: progress, Ask: func(*boat.Boat) (trim.Request, error) { return request, nil }}
			trims := 0
			for b.Loop() {
				res, err := Run(b.Context(), r, 1, nil)
				if err != nil {
					b.Fatal(err)
				}
				if len(res.Causes) != c.causes || len(res.CannotSail) > 0 {
					b.Fatalf("%d causes, %v", len(res.Causes), res.CannotSail)
				}
				trims += res.Work.Trims
			}
			b.ReportMetric(float64(trims)/float64(b.N), "trims")
			b.ReportMetric(b.Elapsed().Seconds()*1e3/float64(trims), "ms/trim")
		})
	}
}
