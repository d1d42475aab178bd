package foil

import (
	"testing"

	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/frame"
	"foilwright/section"
	"foilwright/si"
)

type point = frame.Point[boat.Local]

// straight is a chord or any figure that is the same all along.
func straight(v float64) boat.Along { return boat.Even(v) }

// tapered runs straight from one value to another.
func tapered(from, to float64) boat.Along {
	return boat.Along{Share: []float64{0, 1}, Value: []float64{from, to}}
}

func naca(t testing.TB, name string) section.Section {
	t.Helper()
	s, err := section.Parse(name)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func pathOf(t testing.TB, radius float64, points ...point) boat.Path {
	t.Helper()
	p, err := boat.NewPath(points, radius)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// inverted is a made-up foil on the centreline or off it: a strut of a length,
// with two equal wings that droop by an angle from its foot, and a rake about y
// as its only control (positive leading edge up). Zero droop is a T.
func inverted(t testing.TB, root frame.Point[frame.Boat], strut, wing float64, droop si.Angle, chord boat.Along) boat.Foil {
	t.Helper()
	foot := point{Z: -strut}
	port := point{Y: wing * droop.Cos(), Z: -strut - wing*droop.Sin()}
	starboard := port
	starboard.Y = -port.Y
	symmetric := naca(t, "naca 0012")
	return boat.Foil{
		Name: "foil", Kind: "foil", Root: root, Mass: 20, MassShare: 0.5,
		Moves: []boat.Move{{Name: "rake", Axis: frame.Vec[boat.Local]{Y: -1}, Control: 0}},
		Pieces: []boat.Piece{
			{Name: "strut", From: -1, Path: pathOf(t, 0, point{}, foot), Chord: straight(0.3), Section: symmetric, Upper: 1, Laminar: -1},
			{Name: "port wing", From: 0, Path: pathOf(t, 0, foot, port), Chord: chord, Section: symmetric, Upper: 1, Laminar: -1},
			{Name: "starboard wing", From: 0, Path: pathOf(t, 0, foot, starboard), Chord: chord, Section: symmetric, Upper: -1, Laminar: -1},
		},
	}
}

// carrying returns a boat that is nothing but foils, and the state in which it
// goes at a speed with its datum at a height and its one control at an angle.
func carrying(speed si.Speed, height float64, rake si.Angle, foils ...boat.Foil) (*boat.Boat, boat.State) {
	b := &boat.Boat{Name: "Test", Length: 10, Model: boat.Defaults(), Foils: foils,
		Controls: []boat.Control{{Name: "rake", Part: "foil", Label: "rake", Lower: -0.3, Upper: 0.3, Step: 0.01}}}
	return b, boat.State{Speed: speed, Attitude: boat.Attitude{Height: height}, Settings: []float64{rake.Radians()}}
}

// loadsOf sums the loads of a cause, about the track origin.
func loadsOf(t testing.TB, b *boat.Boat, s boat.State, w *Workspace, causes ...boat.Cause) frame.Load[frame.Track] {
	t.Helper()
	items, err := Loads(b, s, fluid.StandardSea(), w, nil)
	if err != nil {
		t.Fatal(err)
	}
	var total frame.Load[frame.Track]
	for _, it := range items {
		for _, c := range causes {
			if it.Cause == c {
				total = total.Plus(it.Load)
			}
		}
	}
	return total
}
