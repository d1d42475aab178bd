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

// Eight causes are 254 mixed boats, each trimmed from two neighbours. On one
// goroutine; the time of one trim from a neighbour is told beside.
func BenchmarkEightCauses(b *testing.B) {
	first := sheet(b, "which-foil/sorrel.yaml")
	second, err := boatfile.Read("which-foil/eight.yaml", []byte(eight), func(name string) ([]byte, error) { return os.ReadFile("../examples/" + name) })
	if err != nil {
		b.Fatal(err)
	}
	request := trim.Request{WindSpeed: 8.75, Profile: fluid.OpenSea(), Water: fluid.StandardSea(), Air: fluid.StandardAir(), Aim: trim.Windward}
	r := Request{First: first, Second: second, Figure: progress, Ask: func(*boat.Boat) (trim.Request, error) { return request, nil }}
	for b.Loop() {
		res, err := Run(b.Context(), r, 1, nil)
		if err != nil {
			b.Fatal(err)
		}
		if len(res.Causes) != 8 || len(res.CannotSail) > 0 {
			b.Fatalf("%d causes, %v", len(res.Causes), res.CannotSail)
		}
		b.ReportMetric(float64(b.Elapsed().Milliseconds())/float64(b.N)/float64(res.Work.Trims), "ms/trim")
		b.ReportMetric(float64(res.Work.Mended), "mended")
	}
}
