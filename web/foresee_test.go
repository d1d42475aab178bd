package web

import (
	"context"
	"encoding/json"
	"fmt"
	"testing"

	"foilwright/figure"
)

// What a page asks about as it opens has been looked for: its first question is answered
// with the best trim.
func TestOpeningIsForeseen(t *testing.T) {
	d, err := Open("../examples/which-foil")
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close()
	d.foresee(context.Background())
	ask := func(file string, wind float64) *figure.ScenePart {
		t.Helper()
		question := fmt.Sprintf(`{"true_wind_speeds_mps":[%v],"wind_from":%q,"aim":"best progress to windward","holds":[],"near":false,"first":true}`, wind, opening.WindFrom)
		told := d.answer(context.Background(), &Asked{Verb: "view", Boats: []string{file}, Question: json.RawMessage(question), Want: []string{string(figure.Scene)}})
		if told.Error != "" || len(told.Charts) != 1 {
			t.Fatal(told.Error, told.Missing)
		}
		return told.Charts[0].Scene
	}
	boats := d.boats()
	for _, b := range boats[:opening.Boats] {
		if s := ask(b.File, float64(opening.WindSpeed)); s.Way != "balanced" {
			t.Errorf("%s was not looked for: %s", b.File, s.Says)
		}
	}
	if s := ask(boats[0].File, 7); s.Way != "first answer" {
		t.Errorf("in another wind: %s", s.Says)
	}
}
