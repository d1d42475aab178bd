package web

import (
	"context"
	"encoding/json"
	"strings"
	"testing"

	"foilwright/figure"
	"foilwright/study"
)

// Figures beside a boat are those of the command line's trim, digit for digit; held in
// that state, and when found from the last answer alone, they are the same.
func TestReadingsAreTheCommandLines(t *testing.T) {
	d, err := Open("../examples/which-foil")
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close()
	ask := func(verb string, question any, want ...string) *Told {
		t.Helper()
		text, err := json.Marshal(question)
		if err != nil {
			t.Fatal(err)
		}
		told := d.answer(context.Background(), &Asked{Verb: verb, Boats: []string{"sorrel.yaml"}, Question: text, Want: want})
		if told.Error != "" || len(told.Missing) > 0 {
			t.Fatal(told.Error, told.Missing)
		}
		return told
	}
	wind := map[string]any{"true_wind_speeds_mps": []float64{8.7456}}
	text := ask("trim", wind, "text").Text
	view := ask("view", wind, string(figure.Scene)).Charts[0].Scene
	told := 0
	for _, name := range []string{"speed", "progress to windward", "righting moment", "side force carried", "drag in the water", "wetted area of foils"} {
		for _, f := range view.Figures {
			if f.Name != name {
				continue
			}
			told++
			numeral, _, _ := strings.Cut(f.Text, " ")
			if !strings.Contains(text, numeral) {
				t.Errorf("%s is %s on the desk, and the command line says nothing of %s:\n%s", name, f.Text, numeral, text)
			}
		}
	}
	if told != 6 {
		t.Errorf("%d of 6 figures are told", told)
	}
	held := ask("hold", map[string]any{"states": []study.HeldState{view.Held}}, string(figure.Scene)).Charts[0].Scene
	wind["near"] = true
	near := ask("view", wind, string(figure.Scene)).Charts[0].Scene
	for i, f := range view.Figures {
		if held.Figures[i] != f {
			t.Errorf("held: %v, best trim: %v", held.Figures[i], f)
		}
	}
	dragged := ask("hold", map[string]any{"states": []study.HeldState{view.Held}, "dragged": true}, string(figure.Scene)).Charts[0].Scene
	for i, f := range dragged.Figures {
		if want := view.Figures[i]; f.Name != want.Name || f.Text != want.Text && !f.Later || f.Later != (f.Name == "side force carried") {
			t.Errorf("held and dragged: %v, best trim: %v", f, want)
		}
	}
	if near.Figures[0] != view.Figures[0] || near.Figures[1] != view.Figures[1] {
		t.Errorf("from the last answer: %v, best trim: %v", near.Figures[:2], view.Figures[:2])
	}
}
