package figure

import (
	"encoding/json"
	"math"
	"testing"

	"foilwright/study"
)

// Live views tell what the front view tells, in the same words, and what they place
// lies where it lies there.
func TestSceneTellsTheFrontView(t *testing.T) {
	const file = "examples/which-foil/sorrel.yaml"
	result := ask(t, &study.View{Sailing: upwind(17)}, file)
	front, err := Of(FrontView, result)
	if err != nil {
		t.Fatal(err)
	}
	scene, err := Of(Scene, result)
	if err != nil {
		t.Fatal(err)
	}
	if scene.Title != front.Title || lookingForward+scene.Under != front.Under {
		t.Errorf("%q, and %q on the front view", scene.Title, front.Title)
	}
	f, s := front.Front, scene.Scene
	near := func(what string, at Place, as Spot) {
		if math.Hypot(at[0]+as[1], at[1]-as[2]) > 2e-4 {
			t.Errorf("%s is at %v, and %v on the front view", what, as, at)
		}
	}
	if len(f.Forces) != len(s.Forces) || len(f.Centres) != len(s.Centres) || len(f.Weights) != len(s.Weights) || len(s.Levers) != 1 {
		t.Fatalf("%d forces, %d centres, %d weights, %d levers", len(s.Forces), len(s.Centres), len(s.Weights), len(s.Levers))
	}
	for i, p := range f.Forces {
		q := s.Forces[i]
		near(p.Name, p.At, q.At)
		if p.Text != q.Front || p.Name != q.Name || math.Hypot(p.Force[0]+q.Force[1], p.Force[1]-q.Force[2]) > 1 {
			t.Errorf("%+v, and %+v on the front view", q, p)
		}
	}
	for i, m := range f.Centres {
		near(m.Name, m.At, s.Centres[i].At)
		if m.Text != s.Centres[i].Text {
			t.Errorf("%s: %s, and %s on the front view", m.Name, s.Centres[i].Text, m.Text)
		}
	}
	for i, m := range f.Weights {
		near(m.Name, m.At, s.Weights[i].At)
	}
	near("line of action", f.Line.At, s.Line.At)
	if f.Lever.Text != s.Levers[0].Text || len(s.Curves) < 4 || s.Way != "balanced" {
		t.Errorf("lever %v, %d curves, way %q", s.Levers, len(s.Curves), s.Way)
	}
	held := ask(t, &study.Held{States: []study.HeldState{s.Held}, Conditions: study.Standard()}, file)
	same, err := Of(Scene, held)
	if err != nil {
		t.Fatal(err)
	}
	for i, p := range s.Figures {
		if same.Scene.Figures[i] != p {
			t.Errorf("held in that state she has %v, at her best trim %v", same.Scene.Figures[i], p)
		}
	}
	if same.Scene.Astray == nil || same.Scene.Astray.Words != "in balance" {
		t.Errorf("held in the state of her best trim: %+v", same.Scene.Astray)
	}
	text, err := json.Marshal(same)
	if err != nil || len(text) > 64<<10 {
		t.Errorf("a scene takes %d bytes (%v)", len(text), err)
	}
}
