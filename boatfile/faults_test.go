package boatfile

import (
	"bytes"
	"errors"
	"math/rand"
	"os"
	"strings"
	"testing"
)

// folder is where the example that the tests break lies.
const folder = "examples/which-foil/"

// sorrel reads the example with texts replaced, and returns its faults without
// their folder.
func sorrel(t *testing.T, replace ...string) string {
	t.Helper()
	text, err := open(folder + "sorrel.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for i := 0; i < len(replace); i += 2 {
		if !strings.Contains(string(text), replace[i]) {
			t.Fatalf("nothing to replace: %s", replace[i])
		}
		text = []byte(strings.Replace(string(text), replace[i], replace[i+1], 1))
	}
	_, err = Read(folder+"sorrel.yaml", text, open)
	if err == nil {
		return ""
	}
	checkFaults(t, err)
	return strings.ReplaceAll(err.Error(), folder, "")
}

// Every fault says where, what, and what would do instead.
func TestFaults(t *testing.T) {
	for _, c := range []struct{ old, new, want string }{
		{"length: 12.0 m", "length: 12.0", "sorrel.yaml:7:9: length: 12.0 has no unit\nhint: write 12.0 m or 12000 mm"},
		{"length: 12.0 m", "length: 12.0 kg", "sorrel.yaml:7:14: length: 12.0 kg is a mass, and a length is wanted\nhint: units that would do: m, mm, cm, km, µm, nmi, ft or in"},
		{"length: 12.0 m", "length: NaN", "sorrel.yaml:7:9: length: NaN is not a finite number\nhint: write a number and its unit, such as 5.20 m"},
		{"length: 12.0 m", "length: .nan", "sorrel.yaml:7:9: length: .nan does not begin with a number\nhint: write a number and its unit, such as 5.20 m"},
		{"class: Sound 40", "clas: Sound 40", "sorrel.yaml:3:1: clas: no such key here\nhint: did you mean class?"},
		{"luff: 17.2 m", "lufff: 17.2 m", "sorrel.yaml:71:9: sails.main: luff is missing\nhint: write  luff: 17.2 m\nsorrel.yaml:71:10: sails.main.lufff: no such key here\nhint: did you mean luff?"},
		{"0 %: 0.42 m, ", "0 %: -0.42 m, ", "sorrel.yaml:44:22: foils.main.pieces.arm.chord.0 %: -0.42 m is no chord, above 0 is wanted"},
		{"60 %: 0.29 m, 100 %: 0.12 m", "60 %: 0.29 m, 40 %: 0.12 m", "sorrel.yaml:48:44: foils.main.pieces.inner wing.chord.40 %: stands after 60 %, and stations rise\nhint: give the stations from 0 % at the start to 100 % at the tip, each once"},
		{"60 %: 0.29 m, 100 %: 0.12 m", "60 %: 0.29 m, 140 %: 0.12 m", "sorrel.yaml:48:44: foils.main.pieces.inner wing.chord.140 %: 140 % is not between 0 and 100 %\nhint: write shares of the piece's length, such as  0 %: … , 100 %: …"},
		{"[0.72 m, 0.40 m]", "[0.72 m, 1.40 m]", "sorrel.yaml:25:72: hulls.canoe.sections[2].points[3][2]: 1.15 m is not above the point before, at 1.4 m: the section crosses itself\nhint: give the points from the keel up, heights rising"},
		{"{x: 3.0 m,", "{x: -3.5 m,", "sorrel.yaml:26:13: hulls.canoe.sections[3].x: 0 m is not aft of the section before, at -3.5 m\nhint: give the sections from bow to stern, x falling"},
		{"leeward main: {cant: 8 to 22 deg}", "leeward main: {cant: 8 to 122 deg}", "modes.one foil.leeward main.cant: setting 122 deg lies outside -15 to 110 deg of port main cant"},
		{"leeward main: {cant: 8 to 22 deg}", "leward main: {cant: 8 to 22 deg}", "modes.one foil.leward main: no part with controls is called \"leward main\"\nhint: did you mean leeward main?"},
		{"leeward main: {cant: 8 to 22 deg}", "leeward rudder: {turn: 1 to 2 deg}", "rudder is on the centreplane and neither windward nor leeward"},
		{"range: -8 to 14 deg", "range: 14 to -8 deg", "foils.main.controls.main flap.range: 14 deg to -8 deg runs backwards\nhint: write -8 deg to 14 deg"},
		{"range: -15 to 110 deg", "fixed: 20 deg", "modes.one foil.leeward main.cant: setting 22 deg lies outside 20 deg of port main cant\nhint: port main cant is fixed: leave it out here, or give it a range"},
		{"range: -8 to 14 deg", "range: -8 to 14 deg, start: 20 deg", "foils.main.controls.main flap.start: start 20 deg lies outside -8 to 14 deg of port main flap"},
		{"range: -8 to 14 deg", "range: -8 to 14 deg, law: {ride height: {0.5 m: 1 deg, 0.3 m: 2 deg}}", "law.ride height.0.3 m: stands after a ride height that is not below it\nhint: give the ride heights rising, each once"},
		{"rounded: 1.2 m", "rounded: 12 m", "foils.main.pieces.arm.rounded: corner at point 2: a bend of radius 12 m needs 3.86 m on either side, and 1.37 m is there\nhint: round the corners less, or set the points farther apart"},
		{"naca 64-412 at 11 %", "naca 99-412", "sorrel.yaml:50:18: foils.main.pieces.inner wing.section: section \"naca 99-412\": not a NACA section that is known here\nhint: "},
		{"times: bow-on photo scale", "times: bow-on foto scale", "no shared unknown is called bow-on foto scale\nhint: did you mean bow-on photo scale?"},
		{"times: bow-on photo scale", "plus: bow-on photo scale", "and as an offset a length is wanted\nhint: use times: for a factor, plus: for an offset"},
		{"shares: harrow-unknowns.yaml", "shares: nothing.yaml", "sorrel.yaml:5:9: shares: nothing.yaml cannot be read: "},
		{"from: arm tip", "from: outer wing tip", "the pieces hang on one another in a circle"},
		{"as: inner wing,", "as: iner wing,", "no piece is called \"iner wing\"\nhint: did you mean inner wing?"},
		{"side: pair", "side: both", "sorrel.yaml:33:11: foils.main.side: \"both\" is no side\nhint: there is pair, port, starboard, centre"},
		{"y: 1.90 m, z: 0.75 m}", "y: 0 m, z: 0.75 m}", "a pair is written for port, and its root is at y = 0 m"},
		{"angle: main flap", "angle: mian flap", "foils.main.pieces.inner wing.flap.angle: no control of this foil is called \"mian flap\""},
		{"area: 66 m² ± 2 m²", "area: 166 m² ± 2 m²", "sails.main.area: 166 m², allowed with this luff and foot is"},
		{"coefficients: jib", "coefficients: gib", "sails.jib.coefficients: sail coefficients \"gib\" are not known\nhint: write one of"},
		{"working: [main, jib]", "working: [main, jibb]", "sets.working: no sail is called \"jibb\"\nhint: did you mean jib?"},
		{"{sets: [working, reaching],", "{sets: [worknig],", "modes.one foil.sets: no set is called \"worknig\"\nhint: did you mean working?"},
		{"heel: -5 to 4 deg", "heal: -5 to 4 deg", "limits.heal: no limit is called so\nhint: did you mean heel?"},
		{"heel: -5 to 4 deg", "main heel: -5 to 4 deg", "limits.main heel: heel is the whole boat's, and not that of \"main\"\nhint: write heel"},
		{"sheet load: at most 24 kN", "rudder sheet load: at most 24 kN", "limits.rudder sheet load: no sail is called \"rudder\"\nhint: there is main, jib, code"},
		{"sheet load: at most 24 kN", "jib root bending moment: at most 24 kN·m", "limits.jib root bending moment: no foil is called \"jib\"\nhint: there is main, rudder, "},
		{"sheet load: at most 24 kN", "rudder hinge moment: at most 24 N·m", "limits.rudder hinge moment: there is no flap whose moment could be limited\nhint: leave it out, or give the foil a flap"},
		{"on: foils.main", "on: foils.mian", "bodies.main bulb.on: no foil is called \"mian\"\nhint: did you mean main?"},
		{"at: arm tip", "at: arm end", "bodies.main bulb.at: \"arm end\" is no place along a piece\nhint: write  60 % of arm  or  arm tip"},
		{"name: rudder rake", "name: rudder", "a second control is called \"rudder\", after the one of foils.rudder.moves.turn.name"},
		{"210 kg ± 10 kg", "-1 to 2 kg", "foils.main.mass.mass: -1 to 2 kg reaches down to zero, and a mass is above it"},
		{"mass: 6 x 88 kg", "mass: -6 kg", "weights.crew.mass: -6 kg is no mass, 0 or more is wanted"},
		{"moves: {y: -1.35 to 1.35 m}", "moves: {y: 2 to 3 m}", "weights.crew.moves.y: y = 1.35 m of at lies outside this range"},
		{"foilwright: 1 ", "foilwright: 2 ", "sorrel.yaml:1:13: foilwright: version 2 of the format is not known\nhint: write  foilwright: 1"},
		{"name: Sorrel", "name: none", "name: none removes what is inherited, and nothing is"},
		{"name: Sorrel", "name: &a Sorrel", "sorrel.yaml:2:7: name: anchors, aliases and merge keys are not read"},
		{"name: Sorrel", "name: Sorrel\nname: Tansy", "sorrel.yaml:3:1: name: the key is here a second time\nhint: the first is in line 2: keep one of them"},
		{"name: Sorrel", "name: Sorrel: Tansy", "sorrel.yaml:2:7: not YAML: "},
	} {
		if got := sorrel(t, c.old, c.new); !strings.Contains(got, c.want) {
			t.Errorf("%s:\ngot  %s\nwant %s", c.new, got, c.want)
		}
	}
}

// All faults come in one pass, in the order of the file, and a fault in one part
// brings none in others that only refer to it.
func TestFaultsInOnePass(t *testing.T) {
	got := sorrel(t, "length: 12.0 m", "length: 12", "rounded: 1.2 m", "rounded: 12 m", "coefficients: jib", "coefficients: gib", "side: centre", "side: center")
	var places []string
	for line := range strings.Lines(got) {
		if !strings.HasPrefix(line, "hint: ") {
			place, _, _ := strings.Cut(line, " ")
			places = append(places, place)
		}
	}
	if want := "sorrel.yaml:7:9: sorrel.yaml:43:18: sorrel.yaml:56:11: sorrel.yaml:72:115:"; strings.Join(places, " ") != want {
		t.Errorf("faults at %s\nwant %s", places, want)
	}
}

// What is no boat file is refused before it is parsed: were it not, the parser
// would take minutes over some of these.
func TestRefusedBeforeParsing(t *testing.T) {
	noise := make([]byte, 50<<20)
	rand.New(rand.NewSource(1)).Read(noise)
	for _, c := range []struct {
		name, want string
		text       []byte
	}{
		{"50 MB of noise", "boat.yaml: the file has 50.0 MB, 1 MB is allowed", noise},
		{"half a megabyte of noise", "boat.yaml:1:", noise[:1<<19]},
		{"100 kB of [", "boat.yaml: the file has 100000 line ends and marks, 20000 are allowed", bytes.Repeat([]byte("["), 100_000)},
		{"10 kB of [", "boat.yaml:1:33: nested deeper than 32 levels", bytes.Repeat([]byte("["), 10_000)},
		{"dashes that nest", "boat.yaml:1:66: nested deeper than 32 levels", bytes.Repeat([]byte("- "), 100)},
		{"quotation marks", "boat.yaml: the file has 1000000 line ends and marks", bytes.Repeat([]byte(`"`), 1_000_000)},
		{"a byte that is no text", "boat.yaml:1:7: the file is not UTF-8 text here", []byte("name: \xff")},
		{"a null character", "boat.yaml:2:4: a control character (U+0000) stands here", []byte("a: 1\nb: \x00")},
		{"UTF-16", "boat.yaml: the file is UTF-16 text", []byte("\xff\xfen\x00")},
		{"nothing", "boat.yaml: the file is empty", nil},
		{"a list", "boat.yaml:1:1: the file holds a list, keys and values are wanted", []byte("- a\n")},
	} {
		_, err := Read("boat.yaml", c.text, nil)
		if err == nil || !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("%s: %.200v\nwant %s", c.name, err, c.want)
		}
	}
}

// A byte-order mark and the line ends of other systems change nothing.
func TestOtherSystemsTexts(t *testing.T) {
	text, err := open(folder + "sorrel.yaml")
	if err != nil {
		t.Fatal(err)
	}
	plain := example(t, "which-foil/sorrel.yaml").Fingerprint()
	for name, other := range map[string][]byte{
		"byte-order mark": append([]byte("\ufeff"), text...),
		"CRLF":            bytes.ReplaceAll(text, []byte("\n"), []byte("\r\n")),
	} {
		s, err := Read(folder+"sorrel.yaml", other, open)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if s.Fingerprint() != plain {
			t.Errorf("%s makes another boat", name)
		}
	}
}

func TestResistanceFiles(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"speed (kn),resistance (N)\n2,30\n1,20\n", "r.csv:3:1: speeds must rise from 0"},
		{"speed (kn),resistance (N)\n2,30\n3,x\n", "r.csv:3:3: "},
		{"speed,resistance\n2,30\n", "r.csv:1:1: column 1 has no unit of speed in brackets"},
		{"speed (kn),resistance (N)\n2,30,4\n", "r.csv:2:1: 3 columns, speed and resistance are wanted"},
		{"speed (kn),resistance (N)\n2,-30\n", "r.csv:2:1: a resistance is not negative"},
		{"", "r.csv: a curve needs two points or more"},
	} {
		text := "foilwright: 1\nname: A\nlength: 1 m\nweights: {a: {mass: 1 kg, at: {}}}\nhulls: {h: {floats: {from: own curve, file: r.csv}}}\n"
		_, err := Read("a.yaml", []byte(text), func(name string) ([]byte, error) {
			if name != "r.csv" {
				return nil, errors.Join(os.ErrNotExist, errors.New(name))
			}
			return []byte(c.text), nil
		})
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q: %v\nwant %s", c.text, err, c.want)
		}
	}
}
