package polar

import (
	"os"
	"path"
	"testing"

	"foilwright/boat"
	"foilwright/boatfile"
	"foilwright/fluid"
	"foilwright/si"
	"foilwright/trim"
)

// dinghy reads the example's dinghy, or a variant of it.
func dinghy(t testing.TB, variant string) *boat.Boat {
	t.Helper()
	const folder = "../examples/dinghy"
	open := func(name string) ([]byte, error) { return os.ReadFile(path.Join(folder, name)) }
	name, text := "variant.yaml", []byte(variant)
	if variant == "" {
		var err error
		name = "sloe.yaml"
		if text, err = open(name); err != nil {
			t.Fatal(err)
		}
	}
	sheet, err := boatfile.Read(name, text, open)
	if err != nil {
		t.Fatal(err)
	}
	b, err := sheet.Boat(nil)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func base() trim.Request {
	return trim.Request{Profile: fluid.OpenSea(), Water: fluid.StandardSea(), Air: fluid.StandardAir()}
}

func knots(v ...float64) []si.Speed {
	all := make([]si.Speed, len(v))
	for i := range v {
		all[i] = si.Speed(v[i]) * si.Knot
	}
	return all
}

func degrees(v ...float64) []si.Angle {
	all := make([]si.Angle, len(v))
	for i := range v {
		all[i] = si.Angle(v[i]) * si.Degree
	}
	return all
}
