package balance

import (
	"math"
	"testing"

	"foilwright/boat"
	"foilwright/foil"
	"foilwright/frame"
	"foilwright/si"
)

// tee is a made-up boat: two weights and, on either side, a T: a strut 2 m to
// the side with a flat wing 1 m long on either hand of its foot, 1.5 m down.
func tee(t *testing.T) *boat.Boat {
	t.Helper()
	b := &boat.Boat{Name: "Tee", Length: 10, Model: boat.Defaults()}
	for _, w := range []struct {
		name string
		mass float64
		at   frame.Point[frame.Boat]
	}{{"hull", 900, frame.Point[frame.Boat]{Z: 0.5}}, {"crew", 100, frame.Point[frame.Boat]{Y: 1.5, Z: 1}}} {
		b.Weights = append(b.Weights, boat.Weight{Name: w.name, Mass: w.mass, At: w.at, Shift: [3]int{-1, -1, -1}, Swing: boat.Move{Control: -1}})
	}
	for _, side := range []boat.Side{boat.Port, boat.Starboard} {
		f := boat.Foil{Name: side.String() + " main", Kind: "main", Side: side, Root: frame.Point[frame.Boat]{Y: 2 * side.Sign()}}
		path := func(points ...frame.Point[boat.Local]) boat.Path {
			p, err := boat.NewPath(points, 0)
			if err != nil {
				t.Fatal(err)
			}
			return p
		}
		foot := frame.Point[boat.Local]{Z: -1.5}
		f.Pieces = []boat.Piece{
			{Name: "strut", From: -1, Path: path(frame.Point[boat.Local]{}, foot), Chord: boat.Even(0.3)},
			{Name: "port wing", From: 0, Path: path(foot, foot.Add(frame.Vec[boat.Local]{Y: 1})), Chord: boat.Even(0.2)},
			{Name: "starboard wing", From: 0, Path: path(foot, foot.Add(frame.Vec[boat.Local]{Y: -1})), Chord: boat.Even(0.2)},
		}
		b.Foils = append(b.Foils, f)
	}
	return b
}

// Closed form: upright, the lever is the foil's offset plus the centre of
// gravity's; heeled to leeward by an angle, heights enter by its sine.
func TestLeversInClosedForm(t *testing.T) {
	b := tee(t)
	for _, c := range []struct {
		windFrom  boat.Side
		heel      si.Angle // to leeward
		offset, z float64  // of the centre of gravity to windward, and its height
	}{{boat.Port, 0, 0.15, 0.55}, {boat.Port, 5 * si.Degree, 0.15, 0.55}, {boat.Starboard, 5 * si.Degree, -0.15, 0.55}} {
		s := boat.State{Attitude: boat.Attitude{Heel: c.heel * si.Angle(Leeward(c.windFrom)), Height: 0.5}}
		l := LeversOf(b, s, foil.Outlines(b, s), c.windFrom)
		if want := c.windFrom.Other().String() + " main"; l.Foil != want {
			t.Errorf("lever to %q, want %q", l.Foil, want)
		}
		want := (2+c.offset)*c.heel.Cos() - (-1.5-c.z)*-c.heel.Sin()
		if math.Abs(l.Lever-want) > 1e-9 {
			t.Errorf("wind from %v, heel %v: lever %v m, want %v", c.windFrom, c.heel.Degrees(), l.Lever, want)
		}
		if w := 1000 * si.Gravity; math.Abs(l.Weight-w) > 1e-9*w || math.Abs(l.RightingMoment-w*want) > 1e-9*w {
			t.Errorf("weight %v N, righting moment %v N·m", l.Weight, l.RightingMoment)
		}
	}
}

func TestLeversWithNothingWet(t *testing.T) {
	b := tee(t)
	s := boat.State{Attitude: boat.Attitude{Height: 5}}
	if l := LeversOf(b, s, foil.Outlines(b, s), boat.Port); l.Centre != nil || l.Foil != "" || l.Lever != 0 || l.Weight == 0 {
		t.Errorf("a dry boat has the levers %+v", l)
	}
}
