package web

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"sync"
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

// Answers that share best trims, asked all at once, are those of a desk that asks for one
// after the other.
func TestSharedTrimsStayWhole(t *testing.T) {
	wind := json.RawMessage(`{"true_wind_speeds_mps":[8.7],"strips":4}`)
	both := []string{"sorrel.yaml", "tansy.yaml"}
	asked := []*Asked{
		{Verb: "compare", Boats: both, Question: wind, Want: []string{"answer", "budget", "drag", "result"}},
		{Verb: "trim", Boats: both[:1], Question: wind, Want: []string{"answer", "limits", "result"}},
		{Verb: "trim", Boats: both[1:], Question: json.RawMessage(`{"true_wind_speeds_mps":[8.7],"strips":4,"about_m":{"y":0,"z":1}}`), Want: []string{"text", "result"}},
		{Verb: "view", Boats: both[:1], Question: wind, Want: []string{string(figure.Scene), "result"}},
		{Verb: "compare", Boats: []string{both[1], both[0]}, Question: wind, Want: []string{"answer", "text"}},
	}
	answers := func(together bool) [][]byte {
		d, err := Open("../examples/which-foil")
		if err != nil {
			t.Fatal(err)
		}
		defer d.Close()
		texts := make([][]byte, len(asked))
		var group sync.WaitGroup
		for i, a := range asked {
			ask := func() {
				told := d.answer(context.Background(), a)
				if told.Error != "" || len(told.Missing) > 0 {
					t.Error(a.Verb, told.Error, told.Missing)
				}
				text, err := json.Marshal(told)
				if err != nil {
					t.Error(err)
				}
				texts[i] = text
			}
			if together {
				group.Go(ask)
			} else {
				ask()
			}
		}
		group.Wait()
		return texts
	}
	alone, together := answers(false), answers(true)
	for i := range asked {
		if !bytes.Equal(alone[i], together[i]) {
			t.Errorf("%s of %v is another when asked beside others", asked[i].Verb, asked[i].Boats)
		}
	}
}
