package boatfile

import (
	"fmt"
	"math"
	"strings"
	"sync"
	"testing"

	"foilwright/boat"
	"foilwright/frame"
)

// odd holds what the examples do not: a swinging weight, own coefficients, a
// section from a file, linked and fixed controls, a reversed flap, a pod.
const odd = `foilwright: 1
name: Odd
length: 6 m
weights:
  hull: {mass: 200 kg, at: {z: 0.4 m}}
  ballast: {mass: 100 kg, at: {z: -1.0 m}, swing: {axis: x, about: {z: 0.2 m}, range: -30 to 30 deg, name: ballast}}
hulls:
  hull: {sections: [{x: 3 m, points: [[0 m, 0.2 m], [0.1 m, 0.8 m]]}, {x: -3 m, points: [[0 m, 0 m], [0.6 m, 0.6 m]]}], floats: {from: regression}}
foils:
  board:
    side: starboard
    root: {x: 0.5 m, y: -0.8 m, z: 0.2 m}
    mass: 9 kg
    moves:
      cant: {axis: x, fixed: 10 deg}
      rake: {axis: y, with: trim}
    pieces:
      wing:
        path: [{}, {y: -1 m, z: -0.5 m}]
        chord: 0.2 m
        section: {file: shape.dat, thickness: 10 %, largest lift: 1.2}
        flap: {share: 25 %, angle: 4 deg, from: 20 %, reversed: true}
        laminar: 30 %
      tip: {as: wing, from: wing tip, upper side: down, flap: {share: 20 %, angle: tip flap}}
    controls: {tip flap: {range: -5 to 5 deg, start: 1 deg, step: 0.1 deg}}
  rudder:
    side: centre
    root: {x: -3 m}
    moves: {turn: {axis: {x: 0.1, z: 1}, range: -20 to 20 deg, name: rudder}, rake: {axis: y, range: -3 to 3 deg, name: trim}}
    pieces: {blade: {section: naca 0012, path: [{}, {z: -1 m}], chord: 0.25 m}}
bodies:
  pod: {on: foils.board, at: 50 % of wing, length: 0.5 m, diameter: 0.1 m, mass: 2 kg}
  keel bulb: {on: hull, at: {x: 0.1 m, z: -1.2 m}, length: 0.8 m, diameter: 0.2 m, mass: 20 kg}
sails:
  main: {luff: 6 m, foot: 2 m, area: 8 m², tack: {z: 1 m}, coefficients: {0 deg: {lift: 0, drag: 0.02}, 30 deg: {lift: 1.4, drag: 0.05}, 180 deg: {lift: 0, drag: 1}}}
controls: {rudder: -5 to 5 deg, board tip flap: {law: {ride height: {0.1 m: 3 deg, 0.4 m: -3 deg}}}}
model: {friction: 1.1 ± 0.05, laminar: 20 %}
`

// shapeFile returns the coordinates of a symmetrical section 12 % thick.
func shapeFile() string {
	var b strings.Builder
	b.WriteString("a lens\n")
	for i := range 41 {
		x := (1 + math.Cos(math.Pi*float64(i)/20)) / 2
		y := 0.24 * x * (1 - x)
		if i > 20 {
			y = -y
		}
		fmt.Fprintf(&b, "%.6f %.6f\n", x, y)
	}
	return b.String()
}

func TestOddBoat(t *testing.T) {
	s, err := one(map[string]string{"a.yaml": odd, "shape.dat": shapeFile()})
	if err != nil {
		t.Fatal(err)
	}
	b := likely(t, s, nil)
	if got, want := controlNames(b), "ballast, board cant, board tip flap, board wing flap, rudder, trim, main sheet, main twist"; got != want {
		t.Errorf("controls are %s\nwant %s", got, want)
	}
	board := &b.Foils[0]
	if board.Name != "board" || board.Side != boat.Starboard || board.Mass != 9 {
		t.Errorf("the board is %+v", board)
	}
	trim, err := b.Control("trim")
	if err != nil || board.Moves[1].Control != trim || b.Foils[1].Moves[1].Control != trim {
		t.Errorf("trim does not move both: %v, %v", board.Moves, b.Foils[1].Moves)
	}
	wing, tip := &board.Pieces[0], &board.Pieces[1]
	near(t, "thickness", wing.Section.Thickness, 0.10, 1e-9)
	near(t, "largest lift", wing.Section.LargestLift, 1.2, 1e-9)
	near(t, "laminar share", wing.Laminar, 0.30, 0)
	if wing.Flap.Sign != -1 || wing.Flap.From != 0.2 || !b.Controls[wing.Flap.Control].Fixed() || tip.Flap.Share != 0.20 || tip.Upper != -wing.Upper {
		t.Errorf("wing %+v\ntip %+v", wing, tip)
	}
	near(t, "y of the tip", tip.Path.End().Y, -2, 1e-12)
	settings := b.Starts()
	pose := board.Pose(settings)
	if up := pose.Point(frame.Point[boat.Local]{Y: -1}); up.Z <= board.Root.Z {
		t.Errorf("a cant of 10 deg puts the starboard tip at %v, want it lifted", up)
	}
	settings[0] = 30 * degree
	near(t, "ballast swings to port", b.Weights[1].Place(settings).Y, 1.2*0.5, 1e-12)
	near(t, "mass", b.Mass(), 331, 0)
	near(t, "own coefficients", b.Sails[0].Coefficients.Lift[1], 1.4, 0)
	near(t, "friction", b.Model.Friction, 1.1, 0)
	near(t, "override", b.Controls[4].Upper, 5*degree, 1e-12)
	near(t, "law", b.Controls[2].Law.At(0.25), 0, 1e-12)
	if len(b.Modes) != 1 || len(b.Sets) != 1 {
		t.Errorf("modes %v, sets %v", b.Modes, b.Sets)
	}
}

// Every default that is filled in is told.
func TestAssumptions(t *testing.T) {
	s, err := one(map[string]string{"a.yaml": odd, "shape.dat": shapeFile()})
	if err != nil {
		t.Fatal(err)
	}
	told := make(map[string]string)
	for _, a := range s.Assumptions() {
		told[a.Path] = a.Value
		if a.Basis == "" {
			t.Errorf("%s is assumed without a basis", a.Path)
		}
	}
	for path, want := range map[string]string{
		"datum": "the origin of the file's coordinates", "foils.rudder.mass": "0 kg", "foils.board.mass.along": "50 % of wing",
		"sails.main.sheet": "0 to 25 deg, start 6 deg", "sails.main.lean": "0 deg", "rig.windage": "none", "hulls.hull.windage": "none",
		"sets": "all: [main]", "model.gap": "0.5 / 1 / 2", "modes": "any: every set, every control in all of its range",
	} {
		if told[path] != want {
			t.Errorf("%s is told as %q, want %q", path, told[path], want)
		}
	}
	if _, given := told["model.friction"]; given {
		t.Error("friction is given and told as assumed")
	}
}

// A sheet may be shared: boats made side by side are the boat made alone.
func TestSheetsAreShared(t *testing.T) {
	s := example(t, "dinghy/sloe.yaml")
	want := likely(t, s, nil).Mass()
	var group sync.WaitGroup
	for range 8 {
		group.Go(func() {
			for range 20 {
				if b, err := s.Boat(nil); err != nil || b.Mass() != want || s.Fingerprint() == "" {
					t.Errorf("a boat made beside others: %v", err)
				}
			}
		})
	}
	group.Wait()
}
