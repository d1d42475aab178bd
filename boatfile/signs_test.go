package boatfile

import (
	"math"
	"testing"

	"foilwright/boat"
	"foilwright/frame"
	"foilwright/si"
)

const degree = float64(si.Degree)

// posed returns a foil of a boat and its pose with one control set.
func posed(t *testing.T, b *boat.Boat, foil, control string, setting float64) (*boat.Foil, frame.Pose[frame.Boat, boat.Local]) {
	t.Helper()
	settings := b.Starts()
	if control != "" {
		i, err := b.Control(control)
		if err != nil {
			t.Fatal(err)
		}
		settings[i] = setting
	}
	for i := range b.Foils {
		if b.Foils[i].Name == foil {
			return &b.Foils[i], b.Foils[i].Pose(settings)
		}
	}
	t.Fatalf("no foil is called %s", foil)
	return nil, frame.Pose[frame.Boat, boat.Local]{}
}

// A positive cant lifts the tip outboard and up, a positive rake raises the
// leading edge, on either side.
func TestCantAndRakeMeanTheSameOnBothSides(t *testing.T) {
	b, err := example(t, "which-foil/sorrel.yaml").Boat(nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, side := range []boat.Side{boat.Port, boat.Starboard} {
		name := side.String() + " main"
		f, before := posed(t, b, name, "", 0)
		_, after := posed(t, b, name, name+" cant", 20*degree)
		tip := f.Pieces[0].Path.End()
		moved := after.Point(tip).From(before.Point(tip))
		if moved.Y*side.Sign() <= 0 || moved.Z <= 0 {
			t.Errorf("%s cant moves the tip by %v, want outboard and up", name, moved)
		}
		_, after = posed(t, b, name, name+" rake", 2*degree)
		if nose := after.Vec(frame.Vec[boat.Local]{X: 1}); nose.Z <= 0 {
			t.Errorf("%s rake points the leading edge to %v, want up", name, nose)
		}
	}
}

// A boat that is its own mirror image stays so when both sides are set alike:
// paths, and the suction sides of every piece.
func TestPairsAreMirrorImages(t *testing.T) {
	for _, file := range []string{"which-foil/sorrel.yaml", "catamaran/bramble.yaml", "keelboat/guelder.yaml"} {
		b, err := example(t, file).Boat(nil)
		if err != nil {
			t.Fatal(err)
		}
		settings := b.Starts()
		for i := range b.Controls {
			if c := &b.Controls[i]; c.Side != boat.Centre {
				settings[i] = c.Lower + 0.3*(c.Upper-c.Lower)
			}
		}
		for i := range b.Foils {
			p := &b.Foils[i]
			for j := range b.Foils {
				if s := &b.Foils[j]; p.Side == boat.Port && s.Kind == p.Kind && s.Side == boat.Starboard {
					mirrorImages(t, p, s, settings)
				}
			}
		}
	}
}

func mirrorImages(t *testing.T, p, s *boat.Foil, settings []float64) {
	t.Helper()
	port, starboard := p.Pose(settings), s.Pose(settings)
	if d := port.Point(p.Pieces[p.MassPiece].Path.End()).From(mirrored(starboard.Point(s.Pieces[s.MassPiece].Path.End()))).Norm(); d > 1e-12 {
		t.Errorf("%s: masses are %g m from being mirror images", p.Kind, d)
	}
	for k := range p.Pieces {
		for _, share := range []float64{0, 0.35, 1} {
			a, along := p.Pieces[k].Path.At(share)
			c, other := s.Pieces[k].Path.At(share)
			if d := port.Point(a).From(mirrored(starboard.Point(c))).Norm(); d > 1e-12 {
				t.Errorf("%s %s at %g: %g m from being mirror images", p.Kind, p.Pieces[k].Name, share, d)
			}
			nose := frame.Vec[boat.Local]{X: 1}
			up := port.Vec(nose.Cross(along).Times(p.Pieces[k].Upper))
			image := starboard.Vec(nose.Cross(other).Times(s.Pieces[k].Upper))
			image.Y = -image.Y
			if up.Minus(image).Norm() > 1e-12 {
				t.Errorf("%s %s: suction side %v, mirror image %v", p.Kind, p.Pieces[k].Name, up, image)
			}
		}
	}
}

// Where the suction side is unless the file says so: up on wings, inboard on
// struts of a pair, up at the foot of an L and inboard at its shaft.
func TestUpperSides(t *testing.T) {
	for _, c := range []struct {
		file, foil, piece string
		share             float64
		want              frame.Vec[boat.Local]
	}{
		{"which-foil/sorrel.yaml", "port main", "inner wing", 0.5, frame.Vec[boat.Local]{Z: 1}},
		{"which-foil/sorrel.yaml", "port main", "outer wing", 0.5, frame.Vec[boat.Local]{Z: 1}},
		{"which-foil/sorrel.yaml", "starboard main", "outer wing", 0.5, frame.Vec[boat.Local]{Z: 1}},
		{"which-foil/sorrel.yaml", "port main", "arm", 0.5, frame.Vec[boat.Local]{Y: -1}},
		{"which-foil/sorrel.yaml", "starboard main", "arm", 0.5, frame.Vec[boat.Local]{Y: 1}},
		{"which-foil/sorrel.yaml", "rudder", "blade", 0.5, frame.Vec[boat.Local]{Y: 1}},
		{"catamaran/bramble.yaml", "port board", "board", 0.95, frame.Vec[boat.Local]{Z: 1}},
		{"catamaran/bramble.yaml", "port board", "board", 0.1, frame.Vec[boat.Local]{Y: -1}},
		{"dinghy/sloe.yaml", "rudder", "starboard wing", 0.5, frame.Vec[boat.Local]{Z: 1}},
	} {
		b, err := example(t, c.file).Boat(nil)
		if err != nil {
			t.Fatal(err)
		}
		p := piece(t, b, c.foil, c.piece)
		_, along := p.Path.At(c.share)
		suction := frame.Vec[boat.Local]{X: 1}.Cross(along).Times(p.Upper)
		if suction.Dot(c.want) < 0.9 {
			t.Errorf("%s %s %s: suction side towards %v, want %v", b.Name, c.foil, c.piece, suction, c.want)
		}
	}
}

// Rudders that work together turn the same way, their leading edges to port;
// wings raked apart are set one by one.
func TestRuddersTogetherAndApart(t *testing.T) {
	for _, file := range []string{"catamaran/bramble.yaml", "keelboat/guelder.yaml"} {
		b, err := example(t, file).Boat(nil)
		if err != nil {
			t.Fatal(err)
		}
		var noses [2]frame.Vec[frame.Boat]
		for i, side := range []string{"port", "starboard"} {
			_, pose := posed(t, b, side+" rudder", "rudder", 4*degree)
			if noses[i] = pose.Vec(frame.Vec[boat.Local]{X: 1}); noses[i].Y <= 0 {
				t.Errorf("%s: %s rudder points its leading edge to %v, want to port", b.Name, side, noses[i])
			}
		}
		near(t, b.Name+" rudders' angles", noses[0].Y, noses[1].Y, 1e-12)
		near(t, b.Name+" rudders' rakes are opposite", noses[0].Z, -noses[1].Z, 1e-12)
	}
	b, err := example(t, "catamaran/bramble.yaml").Boat(nil)
	if err != nil {
		t.Fatal(err)
	}
	_, port := posed(t, b, "port rudder", "port rudder rake", 2*degree)
	_, other := posed(t, b, "starboard rudder", "port rudder rake", 2*degree)
	if port.Vec(frame.Vec[boat.Local]{X: 1}).Z <= 0 || other.Vec(frame.Vec[boat.Local]{X: 1}).Z != 0 {
		t.Error("the port rudder rake does not work on the port rudder alone")
	}
}

// A board slides along its first direction; a keel swings its bulb to port; a
// flap follows its law, and a mode's range for a weight changes sides.
func TestSlidesSwingsAndLaws(t *testing.T) {
	b, err := example(t, "catamaran/bramble.yaml").Boat(nil)
	if err != nil {
		t.Fatal(err)
	}
	f, down := posed(t, b, "starboard board", "starboard board drop", 1)
	_, up := posed(t, b, "starboard board", "starboard board drop", 0)
	tip := f.Pieces[0].Path.End()
	near(t, "travel of a board", up.Point(tip).From(down.Point(tip)).Norm(), 2.4, 1e-12)
	near(t, "a board comes up", up.Point(tip).Z-down.Point(tip).Z, 2.4*math.Cos(math.Atan(0.06/1.7)), 1e-12)

	b, err = example(t, "keelboat/guelder.yaml").Boat(nil)
	if err != nil {
		t.Fatal(err)
	}
	settings := b.Starts()
	if at := b.BodyPlace(0, settings); at.Y <= 2.5 || math.Abs(math.Hypot(at.Y, at.Z-0.10)-4.2) > 1e-12 {
		t.Errorf("with the keel canted to port the bulb is at %v", at)
	}
	b, err = example(t, "dinghy/sloe.yaml").Boat(nil)
	if err != nil {
		t.Fatal(err)
	}
	flap, err := b.Control("main flap")
	if err != nil {
		t.Fatal(err)
	}
	near(t, "flap at a ride height of 0.425 m", b.Controls[flap].Law.At(0.425), 3.5*degree, 1e-12)
}

// A mode is written for port tack: what turns over in the mirror changes sides.
func TestModesChangeSidesWithTheTack(t *testing.T) {
	s, err := one(map[string]string{"a.yaml": small + "modes: {hiking: {crew: {y: 0.2 to 1 m}}}\n"})
	if err != nil {
		t.Fatal(err)
	}
	b, err := s.Boat(nil)
	if err != nil {
		t.Fatal(err)
	}
	for side, want := range map[boat.Side][2]float64{boat.Port: {0.2, 1}, boat.Starboard: {-1, -0.2}} {
		lower, upper := b.Bounds(&b.Modes[0], side)
		if lower[0] != want[0] || upper[0] != want[1] {
			t.Errorf("wind from %s: the crew's y is %g to %g m, want %v", side, lower[0], upper[0], want)
		}
	}
}
