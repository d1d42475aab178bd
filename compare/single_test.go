package compare

import (
	"testing"

	"foilwright/fluid"
	"foilwright/frame"
	"foilwright/si"
	"foilwright/trim"
)

func TestFigureOf(t *testing.T) {
	load := func(part, item string, x, y, z float64) trim.Load {
		l := trim.Load{Part: part, Item: item}
		l.Force = frame.Vec[frame.Track]{X: x, Y: y, Z: z}
		return l
	}
	r := &trim.Result{Speed: 9, VMG: -5, Aim: trim.Leeward.String(), Loads: []trim.Load{
		load("starboard main", "lift", 0, 3, 7), load("starboard main", "lift", 0, 1, 2), load("main", "sail lift", 5, -4, 1),
	}}
	r.Conditions.Wind = fluid.Wind{Speed: 8, Angle: 50 * si.Degree} // from port: starboard is leeward
	for name, want := range map[string]float64{
		"speed": 9, "Progress": 5, "vmg": -5, "leeward main lift up": 9, "leeward  main lift to leeward": -4,
		"main sail lift forward": 5, "main sail lift to leeward": 4, "main induced drag forward": 0, "drag: waves": 0,
	} {
		f, ok := FigureOf(name)
		if !ok {
			t.Errorf("%s is not known", name)
			continue
		}
		if got, has := f.Read(r); !has || got != want {
			t.Errorf("%s is %v, %v, want %v", name, got, has, want)
		}
	}
	if f, _ := FigureOf("windward main lift up"); f.Read != nil {
		if _, has := f.Read(r); has {
			t.Error("a part that is not there has lift")
		}
	}
	for _, name := range []string{"", "lustre", "leeward main lift", "leeward main shine up", "up", "lift up"} {
		if f, ok := FigureOf(name); ok {
			t.Errorf("%q is taken as %s", name, f.Name)
		}
	}
	if f, ok := FigureOf("side force carried"); !ok || f.Unit != "N" {
		t.Errorf("side force carried: %+v", f)
	} else if _, has := f.Read(r); has {
		t.Error("an answer without a side force carried has one")
	}
}
