package boatfile

import (
	"math"
	"os"
	"testing"
)

// Every figure of the examples can be moved, and moves something of the boat.
func TestEveryFigureMovesTheBoat(t *testing.T) {
	for _, name := range []string{"which-foil/sorrel.yaml", "which-foil/tansy.yaml", "dinghy/sloe.yaml", "catamaran/bramble.yaml"} {
		file := "../examples/" + name
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		sheet, err := Read(file, text, os.ReadFile)
		if err != nil {
			t.Fatal(err)
		}
		figures := sheet.Figures()
		if len(figures) < 40 {
			t.Errorf("%s: %d figures, a boat has more", name, len(figures))
		}
		for _, f := range figures {
			by := 1e-4 * math.Max(math.Abs(f.Quantity.Likely), 1e-3)
			_, up := sheet.Nudged(f.Path, by)
			_, down := sheet.Nudged(f.Path, -by)
			if up != nil && down != nil { // one way may lead out of a range
				t.Errorf("%s: %s: %v; %v", name, f.Path, up, down)
			}
		}
		if _, err := sheet.Nudged("weights.nobody.mass", 1); err == nil {
			t.Errorf("%s: a figure that is not there is moved", name)
		}
		heavier, err := sheet.Nudged(figures[indexOf(figures, ".mass")].Path, 2)
		if err != nil {
			t.Fatal(err)
		}
		likely, err := sheet.Boat(nil)
		if err != nil {
			t.Fatal(err)
		}
		if d := heavier.Mass() - likely.Mass(); d < 2-1e-9 {
			t.Errorf("%s: a mass moved by 2 kg makes the boat %g kg heavier", name, d)
		}
	}
}

func indexOf(figures []Figure, suffix string) int {
	for i := range figures {
		if p := figures[i].Path; len(p) > len(suffix) && p[len(p)-len(suffix):] == suffix {
			return i
		}
	}
	return 0
}
