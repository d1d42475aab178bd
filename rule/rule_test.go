package rule

import (
	"errors"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"foilwright/boat"
	"foilwright/boatfile"
)

// drawn is a boat whose measures can be told by hand: a T foil on a leaning strut.
const drawn = `foilwright: 1
name: Drawn
length: 10 m
weights: {hull: {mass: 1000 kg, at: {x: 0 m, z: 1 m}}, rig: {mass: 200 kg, at: {z: 8 m}}}
hulls: {hull: {sections: [{x: 4 m, points: [[0 m, 0 m], [1 m, 1 m]]}, {x: -4 m, points: [[0 m, 0 m], [1 m, 1 m]]}]}}
foils:
  main:
    side: pair
    root: {x: 1 m, y: 2 m, z: 0.5 m}
    mass: 50 kg
    moves: {cant: {axis: x, range: 0 to 90 deg}, rake: {axis: y, fixed: 0 deg}}
    pieces:
      arm: {section: naca 0012, path: [{z: 0 m}, {z: -3 m}], chord: 0.4 m}
      inner wing: {from: arm tip, section: naca 0012, path: [{y: 0 m}, {y: -1 m, z: -0.2 m}], chord: {0 %: 0.4 m, 100 %: 0.2 m}, flap: {share: 30 %, angle: main flap}}
      outer wing: {as: inner wing, mirrored: true}
    controls: {main flap: {range: -5 to 10 deg}}
  board:
    side: centre
    root: {x: -1 m, z: 0 m}
    mass: 20 kg
    moves: {drop: {along: blade, range: 0 to 100 %, travel: 1 m}}
    pieces: {blade: {section: naca 0012, path: [{z: 0 m}, {z: -2 m}], chord: 0.3 m}}
sails:
  main: {luff: 10 m, foot: 3 m, lean: 60 deg, tack: {x: 0 m, z: 1 m}, area: 14 m², coefficients: jib}
  jib: {luff: 8 m, foot: 3 m, tack: {x: 3 m, z: 1 m}, area: 10 m², coefficients: jib}
sets: {both: [main, jib]}
limits: {heel: 0 to 5 deg, ride height: 0.1 to 0.5 m}
`

func read(t testing.TB, text string) (*boatfile.Sheet, *boat.Boat) {
	t.Helper()
	s, err := boatfile.Read("drawn.yaml", []byte(text), func(string) ([]byte, error) { return nil, errors.New("no") })
	if err != nil {
		t.Fatal(err)
	}
	b, err := s.Boat(nil)
	if err != nil {
		t.Fatal(err)
	}
	return s, b
}

// ship is a boat with the sheet that she comes from.
type ship struct {
	sheet *boatfile.Sheet
	boat  *boat.Boat
}

func (h ship) held(t *testing.T, limits string) *Result {
	t.Helper()
	r, err := Read("class.yaml", []byte("foilwright: 1\nrule: Class\nlimits:\n  only: "+limits+"\n"))
	if err != nil {
		t.Fatal(err)
	}
	res, err := r.Check(h.sheet, h.boat)
	if err != nil {
		t.Fatal(err)
	}
	return res
}

func drawnShip(t *testing.T) ship {
	t.Helper()
	s, b := read(t, drawn)
	return ship{s, b}
}

// Each measure against what a ruler on the drawing says.
func TestMeasures(t *testing.T) {
	h := drawnShip(t)
	slope := math.Hypot(1, 0.2)
	// Turned by 30° about the root, outboard and up.
	tip := func(y, z float64) (outboard, up float64) {
		return 2 + y*math.Cos(math.Pi/6) - z*math.Sin(math.Pi/6), 0.5 + y*math.Sin(math.Pi/6) + z*math.Cos(math.Pi/6)
	}
	outerY, outerZ := tip(1, -3.2)
	_, innerZ := tip(-1, -3.2)
	_, rootZ := tip(0, -3)
	for limits, want := range map[string][]float64{
		"{measure: mass, of: boat, is: at most 2 t}":                                           {1320},
		"{measure: mass, of: weights.rig, is: at most 2 t}":                                    {200},
		"{measure: mass, of: weights, is: at most 2 t}":                                        {1000, 200},
		"{measure: mass, of: foils.main, is: at most 2 t}":                                     {50},
		"{measure: length, of: boat, is: 10 m}":                                                {10},
		"{measure: area, of: sails.jib, is: at most 10 m²}":                                    {10},
		"{measure: area, of: sails, is: at most 30 m²}":                                        {14, 10},
		"{measure: area, of: sets.both, is: at most 30 m²}":                                    {24},
		"{measure: area, of: foils.main, is: at most 3 m²}":                                    {1.2 + 2*0.3*slope},
		"{measure: wing area, of: foils.main, is: at most 3 m²}":                               {2 * 0.3 * slope},
		"{measure: span, of: foils.main, is: at most 3 m}":                                     {2},
		"{measure: drop, of: foils.main, is: at most 3 m}":                                     {0.2},
		"{measure: drop, of: foils.main, at: {cant: 30 deg}, is: at most 3 m}":                 {rootZ - innerZ},
		"{measure: height, of: sails.*, is: at most 10 m}":                                     {6, 9},
		"{measure: movable parts, of: foils, is: at most 5}":                                   {5},
		"{measure: movable parts, of: foils.main, is: at most 5}":                              {4},
		"{measure: movable parts, of: foils.board, is: at most 5}":                             {1},
		"{measure: box, of: foils.main, x: at least 0 m}":                                      {0.7},
		"{measure: box, of: foils.main, x: at most 2 m}":                                       {1.1},
		"{measure: box, of: foils.main, y: 0 to 3.1 m}":                                        {3},
		"{measure: box, of: foils.main, at: {cant: 30 deg}, y: at most 5 m, z: at least -4 m}": {outerY, innerZ},
		"{measure: box, of: foils.main, at: {cant: 0 to 90 deg}, y: at most 9 m}":              {2 + math.Hypot(1, 3.2)},
		"{measure: box, of: foils.board, z: at least -3 m}":                                    {-2},
		"{measure: box, of: foils.board, at: {drop: 20 %}, z: at least -3 m}":                  {-1.2},
		"{measure: box, of: foils.starboard main, y: at most 5 m}":                             {3},
		"{measure: mass, of: bodies.*, is: at most 1 kg}":                                      nil,
	} {
		res := h.held(t, limits)
		var got []float64
		for _, row := range res.Limits {
			got = append(got, row.Value)
		}
		// A range of settings is looked at in steps of 90/24 deg: short of the widest point.
		near := cmp.Comparer(func(a, b float64) bool {
			if strings.Contains(limits, " to 90 deg") {
				return math.Abs(a-b) < 2e-3
			}
			return math.Abs(a-b) < 1e-9
		})
		if d := cmp.Diff(want, got, near); d != "" {
			t.Errorf("%s:\n%s", limits, d)
		}
		if res.Broken != 0 {
			t.Errorf("%s: %d broken", limits, res.Broken)
		}
	}
	if outerZ < innerZ {
		t.Error("turned the wrong way")
	}
}

// A bound that is met to rounding is kept, one past it is broken by so much, and both
// places are told.
func TestMargins(t *testing.T) {
	h := drawnShip(t)
	for limits, want := range map[string]struct {
		margin float64
		broken int
	}{
		"{measure: span, of: foils.main, is: at most 2 m}":                                   {0, 0},
		"{measure: span, of: foils.main, is: at most 1.9 m}":                                 {-0.1, 1},
		"{measure: span, of: foils.main, is: at least 2.1 m}":                                {-0.1, 1},
		"{measure: span, of: foils.main, is: 1.5 to 3 m}":                                    {0.5, 0},
		"{measure: box, of: foils.main, y: 2.5 to 3 m}":                                      {-1.5, 1},
		"{measure: movable parts, of: foils, is: at most 4}":                                 {-1, 1},
		"{measure: box, of: foils.main, at: {cant: 0 deg, rake: 0 deg}, z: at least -2.6 m}": {-0.1, 1},
	} {
		res := h.held(t, limits)
		if row := res.Limits[0]; math.Abs(row.Margin-want.margin) > 1e-9 || res.Broken != want.broken || (row.Verdict == Broken) != (want.broken > 0) {
			t.Errorf("%s: margin %v, %s, %d broken; want %+v", limits, row.Margin, row.Verdict, res.Broken, want)
		}
	}
	row := h.held(t, "{measure: span, of: foils.main, is: at most 1.9 m}").Limits[0]
	if row.Where != "class.yaml:4:45" || row.BoatAt != "drawn.yaml:8:5" {
		t.Errorf("the limit stands at %s, the foil at %s", row.Where, row.BoatAt)
	}
}

// What is wrong with a rule is told with its place and what would do.
func TestFaultsOfRules(t *testing.T) {
	for text, want := range map[string]string{
		"":                         "class.yaml: the file is empty",
		"foilwright: 1\nrule: A\n": "class.yaml: limits: no limit is given\nhint: write  limits:",
		"rule: A\nlimits: {a: {measure: mass, of: boat, is: 1 t}}":                                          "class.yaml: foilwright: the version of the format is not given, or not known\nhint: write  foilwright: 1",
		"foilwright: 1\nlimits: {a: {measure: mass, of: boat, is: 1 t}}":                                    "class.yaml: rule: the rule's name is not given",
		limit1("{measure: mas, of: boat, is: 1 t}"):                                                         `class.yaml:3:23: limits.a.measure: "mas" cannot be measured` + "\nhint: did you mean mass?",
		limit1("{of: boat, is: 1 t}"):                                                                       "class.yaml:3:13: limits.a: what is measured is not given\nhint: there is mass, length",
		limit1("{measure: mass, is: 1 t}"):                                                                  "limits.a: what it is measured of is not given\nhint: write  of: boat",
		limit1("{measure: mass, of: sails.jib, is: 1 t}"):                                                   "limits.a.of: sails.jib has no mass\nhint: mass is mass; of a pair of foils, of each: of boat, weights, foils, bodies, by name as boat",
		limit1("{measure: mass, of: boat}"):                                                                 "limits.a: no limit is given\nhint: write  is: at most",
		limit1("{measure: mass, of: boat, is: 2 m}"):                                                        "class.yaml:3:45: limits.a.is: 2 m is a length",
		limit1("{measure: mass, of: boat, iz: 2 t, is: 1 t}"):                                               "limits.a.iz: there is no such key\nhint: did you mean is?",
		limit1("{measure: mass, of: boat, is: 1 t, x: 2 m}"):                                                "limits.a.x: only a box has sides",
		limit1("{measure: mass, of: foils.main, at: {cant: 3 deg}, is: 1 t}"):                               "limits.a.at: mass does not depend on settings",
		limit1("{measure: box, of: foils.main}"):                                                            "limits.a: a box without sides",
		limit1("{measure: box, of: foils.main, is: 2 m}"):                                                   "limits.a.is: a box has a range for each side",
		limit1("{measure: box, of: foils.main, x: 2 to 1 m}"):                                               "limits.a.x: ",
		limit1("{measure: box, of: foils.main, at: 3 deg, x: 1 m}"):                                         "limits.a.at: settings of moves are wanted here",
		limit1("{measure: box, of: foils.main, at: {cant: at most 3 deg}, x: 1 m}"):                         "limits.a.at.cant: at most 3 deg has one end only",
		limit1("{measure: box, of: foils.main, at: {a: 1 to 2 deg, b: 1 to 2 deg, c: 1 to 2 deg}, x: 1 m}"): "limits.a.at: 3 settings are ranges, and 2 may be",
		"foilwright: 1\nrule: A\nlimits: {" + many() + "}\n":                                                "limits: there are 501 limits, and 500 are the most",
		limit1("2 m"): "limits.a: a mapping is wanted here",
		"foilwright: 1\nrule: A\ninvented: perhaps\nlimits: {a: {measure: mass, of: boat, is: 1 t}}": "class.yaml:3:11: invented: perhaps is neither true nor false",
	} {
		_, err := Read("class.yaml", []byte(text))
		var faults boatfile.Faults
		if !errors.As(err, &faults) || !strings.Contains(err.Error(), want) {
			t.Errorf("%q:\n%v\nwant %s", text, err, want)
		}
	}
}

func many() string {
	var all strings.Builder
	for i := range mostLimits + 1 {
		fmt.Fprintf(&all, "l%d: {measure: mass, of: boat, is: 1 t}, ", i)
	}
	return all.String()
}

func limit1(of string) string { return "foilwright: 1\nrule: A\nlimits: {a: " + of + "}\n" }

// A rule that names what a boat does not have is at fault, not kept.
func TestPartsThatAreNotThere(t *testing.T) {
	s, b := read(t, drawn)
	for limits, want := range map[string]string{
		"{measure: box, of: foils.mian, x: 1 m}":                     "class.yaml:3:32: limits.a.of: Drawn has no foils.mian\nhint: did you mean foils.main?",
		"{measure: area, of: sails.code, is: 1 m²}":                  "limits.a.of: Drawn has no sails.code",
		"{measure: area, of: sets.none, is: 1 m²}":                   "limits.a.of: Drawn has no sets.none\nhint: did you mean sets.both?",
		"{measure: mass, of: weights.keel, is: 1 kg}":                "limits.a.of: Drawn has no weights.keel",
		"{measure: mass, of: bodies.bulb, is: 1 kg}":                 "limits.a.of: Drawn has no bodies.bulb\nhint: there is none",
		"{measure: box, of: foils.main, at: {can: 2 deg}, x: 1 m}":   "limits.a.at.can: foils.main of Drawn has no move can\nhint: did you mean cant?",
		"{measure: box, of: foils.board, at: {drop: 2 deg}, x: 1 m}": "limits.a.at.drop: drop of Drawn is not set so",
		"{measure: box, of: foils.main, at: {cant: 2 %}, x: 1 m}":    "limits.a.at.cant: cant of Drawn is not set so",
	} {
		r, err := Read("class.yaml", []byte(limit1(limits)))
		if err != nil {
			t.Fatal(err)
		}
		if _, err = r.Check(s, b); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s:\n%v\nwant %s", limits, err, want)
		}
	}
}

// The example's boats against the example's rule.
func TestExample(t *testing.T) {
	text, err := os.ReadFile("../examples/class-rule/sound-40.yaml")
	if err != nil {
		t.Fatal(err)
	}
	r, err := Read("sound-40.yaml", text)
	if err != nil {
		t.Fatal(err)
	}
	if r.Name() != "Sound 40" || !r.Invented() || r.File() != "sound-40.yaml" {
		t.Errorf("rule %s, %v", r.Name(), r.Invented())
	}
	for file, broken := range map[string]string{
		"which-foil/sorrel.yaml": "", "which-foil/tansy.yaml": "", "class-rule/medlar.yaml": "wing area, wing span, tip drop, heads of sails",
	} {
		file = "../examples/" + file
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		s, err := boatfile.Read(file, text, os.ReadFile)
		if err != nil {
			t.Fatal(err)
		}
		b, err := s.Boat(nil)
		if err != nil {
			t.Fatal(err)
		}
		res, err := r.Check(s, b)
		if err != nil {
			t.Fatal(err)
		}
		var names []string
		for _, row := range res.Limits {
			if row.Verdict == Broken {
				names = append(names, row.Limit)
			}
		}
		if got := strings.Join(names, ", "); got != broken || res.Broken != len(names) {
			t.Errorf("%s breaks %q, want %q", file, got, broken)
		}
	}
}

func FuzzRead(f *testing.F) {
	text, err := os.ReadFile("../examples/class-rule/sound-40.yaml")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(text)
	f.Add([]byte(limit1("{measure: box, of: foils.*, at: {cant: 0 to 90 deg}, x: 1 m}")))
	s, b := read(f, drawn)
	f.Fuzz(func(t *testing.T, text []byte) {
		r, err := Read("fuzz.yaml", text)
		if err != nil {
			return
		}
		res, err := r.Check(s, b)
		if err != nil {
			return
		}
		for _, row := range res.Limits {
			if math.IsNaN(row.Value) || math.IsInf(row.Value, 0) || math.IsNaN(row.Margin) {
				t.Errorf("%+v", row)
			}
		}
	})
}
