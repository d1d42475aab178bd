package study

import (
	"os"
	"slices"
	"testing"
)

// What a crew may do is what the boat file says, by the wind.
func TestWaysOfSorrel(t *testing.T) {
	const sorrel = "../examples/which-foil/sorrel.yaml"
	var shelf Shelf
	all, err := shelf.Ways([]string{sorrel, "nowhere.yaml"}, "port", os.ReadFile)
	if err != nil || len(all) != 1 {
		t.Fatalf("%d boats, %v", len(all), err)
	}
	w := all[0]
	if w.Boat != "Sorrel" || !slices.Equal(w.Sets, []string{"reaching", "working"}) && !slices.Equal(w.Sets, []string{"working", "reaching"}) {
		t.Errorf("%s with %v", w.Boat, w.Sets)
	}
	i := slices.IndexFunc(w.Modes, func(m WaysMode) bool { return m.Name == "both foils" })
	if i < 0 || !slices.Equal(w.Modes[i].Sets, []string{"working"}) {
		t.Errorf("modes %v", w.Modes)
	}
	if !slices.Contains(w.Controls, WaysControl{"leeward main cant", "-15 to 110 deg"}) {
		t.Errorf("controls %v", w.Controls)
	}
	if _, err := shelf.Ways([]string{sorrel}, "north", os.ReadFile); err == nil {
		t.Error("a side that is none is taken")
	}
}
