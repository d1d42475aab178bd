package trim

import (
	"testing"

	"foilwright/boat"
	"foilwright/frame"
	"foilwright/sail"
	"foilwright/section"
	"foilwright/si"
)

// monohull is a made-up 12 m canting-foil boat of 2.5 t for the tests of this
// package, built without a file. Every figure is invented.
func monohull(t testing.TB) *boat.Boat {
	t.Helper()
	b := &boat.Boat{Name: "Alder", Length: 12, Model: boat.Defaults()}
	deg := float64(si.Degree)
	control := func(name, part, label string, side boat.Side, low, high, start, step float64) int {
		b.Controls = append(b.Controls, boat.Control{Name: name, Part: part, Label: label, Side: side, Lower: low, Upper: high, Start: start, Step: step})
		return len(b.Controls) - 1
	}
	b.Weights = []boat.Weight{
		{Name: "hull and deck", Mass: 1180, At: frame.Point[frame.Boat]{X: -0.3, Z: 0.55}},
		{Name: "rig", Mass: 240, At: frame.Point[frame.Boat]{X: -0.1, Z: 8.2}},
		{Name: "crew", Mass: 528, At: frame.Point[frame.Boat]{X: -3.4, Z: 1.1}},
	}
	for i := range b.Weights {
		b.Weights[i].Shift = [3]int{-1, -1, -1}
		b.Weights[i].Swing.Control = -1
	}
	b.Weights[2].Shift[1] = control("crew y", "crew", "y", boat.Centre, -1.35, 1.35, 0, 0.3)
	wing := parsed(t, "naca 64-412")
	for _, side := range []boat.Side{boat.Port, boat.Starboard} {
		b.Foils = append(b.Foils, mainFoil(t, side, wing, control))
	}
	b.Foils = append(b.Foils, rudder(t, control))
	b.Hulls = []boat.Hull{{Name: "canoe", Sections: []boat.HullSection{
		{X: 5.8, Points: [][2]float64{{0, 0.4}, {0.05, 1.2}}},
		{X: 0, Points: [][2]float64{{0, 0}, {1.45, 0.3}, {1.8, 1.1}}},
		{X: -6, Points: [][2]float64{{0, 0.15}, {1.75, 0.45}, {1.8, 1.05}}},
	}}}
	b.Windages = []boat.Windage{
		{Name: "hull windage", Area: 9.5, Coefficient: 0.5, Bottom: frame.Point[frame.Boat]{Z: 0.3}, Top: frame.Point[frame.Boat]{Z: 1.4}, Follows: -1},
		{Name: "mast", Area: 7, Coefficient: 0.35, Bottom: frame.Point[frame.Boat]{Z: 1.2}, Top: frame.Point[frame.Boat]{Z: 19.8}, Follows: -1},
	}
	b.Sails = []boat.Sail{
		{Name: "mainsail", Luff: 17.2, Foot: 5.0, Area: 60, Tack: frame.Point[frame.Boat]{X: -0.15, Z: 2.05}, Coefficients: coefficients(t, "fully battened main")},
		{Name: "jib", Luff: 13.4, Foot: 3.6, Area: 27, Tack: frame.Point[frame.Boat]{X: 4.9, Z: 1.25}, Lean: 18 * si.Degree, Coefficients: coefficients(t, "jib")},
	}
	for i := range b.Sails {
		s := &b.Sails[i]
		s.Sheet = control(s.Name+" sheet", s.Name, "sheet", boat.Centre, 0, 25*deg, 6*deg, 2*deg)
		s.Twist = control(s.Name+" twist", s.Name, "twist", boat.Centre, 0, 30*deg, 5*deg, 4*deg)
		s.Flatten = -1
	}
	b.Sets = []boat.Set{{Name: "working", Sails: []int{0, 1}}}
	b.Modes = []boat.Mode{{Name: "one foil", Ranges: []boat.ModeRange{
		{Bearing: boat.Leeward, Part: "main", Label: "cant", Lower: 12 * deg, Upper: 32 * deg},
		{Bearing: boat.Windward, Part: "main", Label: "cant", Lower: 110 * deg, Upper: 110 * deg},
	}}}
	b.Limits = []boat.Limit{
		{Kind: boat.LimitHeel, Lower: -5 * deg, Upper: 4 * deg},
		{Kind: boat.LimitPitch, Lower: -1.5 * deg, Upper: 1.5 * deg},
		{Kind: boat.LimitRideHeight, Lower: 0.45, Upper: 1.1},
		{Kind: boat.LimitTipDepth, Lower: 0.15, Upper: 1e9},
	}
	return b
}

type controls func(name, part, label string, side boat.Side, low, high, start, step float64) int

// mainFoil is one side's arm with two wings in an inverted V.
func mainFoil(t testing.TB, side boat.Side, wing section.Section, control controls) boat.Foil {
	deg := float64(si.Degree)
	y := side.Sign()
	name := side.String() + " main"
	f := boat.Foil{Name: name, Kind: "main", Side: side, Root: frame.Point[frame.Boat]{X: 0.6, Y: 1.9 * y, Z: 0.75}, Mass: 165, MassShare: 0.6}
	f.Moves = []boat.Move{
		{Name: "cant", Axis: frame.Vec[boat.Local]{X: y}, Control: control(name+" cant", "main", "cant", side, -15*deg, 110*deg, 20*deg, 2*deg)},
		{Name: "rake", Axis: frame.Vec[boat.Local]{Y: -1}, Control: control(name+" rake", "main", "rake", side, -2*deg, 5*deg, 1*deg, 0.5*deg)},
	}
	flap := boat.Flap{Share: 0.3, To: 1, Control: control(name+" flap", "main", "flap", side, -8*deg, 14*deg, 2*deg, 1*deg), Sign: 1}
	at := func(yy, z float64) frame.Point[boat.Local] { return frame.Point[boat.Local]{Y: yy * y, Z: z} }
	arm := piece(t, "arm", -1, -y, []frame.Point[boat.Local]{at(0, 0), at(0.8, -1.7), at(0.55, -3.05)}, boat.Along{Share: []float64{0, 1}, Value: []float64{0.42, 0.36}}, wing)
	tip := arm.Path.End()
	chord := boat.Along{Share: []float64{0, 0.6, 1}, Value: []float64{0.30, 0.26, 0.11}}
	inner := piece(t, "inner wing", 0, -y, []frame.Point[boat.Local]{tip, {Y: tip.Y - 0.78*y, Z: tip.Z - 0.29}}, chord, wing)
	outer := piece(t, "outer wing", 0, y, []frame.Point[boat.Local]{tip, {Y: tip.Y + 0.78*y, Z: tip.Z - 0.29}}, chord, wing)
	inner.Flap, outer.Flap = flap, flap
	f.Pieces = []boat.Piece{arm, inner, outer}
	return f
}

func rudder(t testing.TB, control controls) boat.Foil {
	deg := float64(si.Degree)
	f := boat.Foil{Name: "rudder", Kind: "rudder", Root: frame.Point[frame.Boat]{X: -6.05, Z: 0.6}, Mass: 40, MassShare: 0.5}
	f.Moves = []boat.Move{
		{Name: "rudder", Axis: frame.Vec[boat.Local]{Z: 1}, Control: control("rudder", "rudder", "turn", boat.Centre, -6*deg, 6*deg, 0, 0.5*deg)},
		{Name: "rudder rake", Axis: frame.Vec[boat.Local]{Y: -1}, Control: control("rudder rake", "rudder", "rake", boat.Centre, -3*deg, 3*deg, 0, 0.5*deg)},
	}
	blade := piece(t, "blade", -1, 1, []frame.Point[boat.Local]{{}, {Z: -2.6}}, boat.Along{Share: []float64{0, 1}, Value: []float64{0.34, 0.24}}, parsed(t, "naca 0012"))
	tip := blade.Path.End()
	chord := boat.Along{Share: []float64{0, 1}, Value: []float64{0.2, 0.09}}
	port := piece(t, "port wing", 0, 1, []frame.Point[boat.Local]{tip, {Y: 0.72, Z: tip.Z - 0.05}}, chord, parsed(t, "naca 64-209"))
	starboard := piece(t, "starboard wing", 0, -1, []frame.Point[boat.Local]{tip, {Y: -0.72, Z: tip.Z - 0.05}}, chord, parsed(t, "naca 64-209"))
	f.Pieces = []boat.Piece{blade, port, starboard}
	return f
}

// piece builds a piece whose upper side is given by the sign upper.
func piece(t testing.TB, name string, from int, upper float64, path []frame.Point[boat.Local], chord boat.Along, s section.Section) boat.Piece {
	t.Helper()
	p, err := boat.NewPath(path, 0)
	if err != nil {
		t.Fatal(err)
	}
	return boat.Piece{Name: name, From: from, Path: p, Chord: chord, Section: s, Upper: upper, Laminar: -1}
}

func parsed(t testing.TB, name string) section.Section {
	t.Helper()
	s, err := section.Parse(name)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func coefficients(t testing.TB, name string) boat.SailCoefficients {
	t.Helper()
	c, err := sail.Coefficients(name)
	if err != nil {
		t.Fatal(err)
	}
	return c
}
