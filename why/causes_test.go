package why

import (
	"errors"
	"fmt"
	"os"
	"path"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"foilwright/boatfile"
)

func changes(paths ...string) []boatfile.Change {
	var all []boatfile.Change
	for _, p := range paths {
		all = append(all, boatfile.Change{Path: p, From: "1 m", To: "2 m"})
	}
	return all
}

// Every figure of the files in examples has a cause of the table, and the table's
// causes are what a person would say.
func TestRulesOfTheTable(t *testing.T) {
	for of, want := range map[string]string{
		"weights.crew.mass":                        "weight and its place",
		"weights.crew.at.z":                        "weight and its place",
		"weights.crew.windage.area":                "windage",
		"weights.ballast":                          "weight and its place",
		"foils.main.mass.along":                    "weight and its place",
		"foils.rudder.mass":                        "weight and its place",
		"foils.rudder.pieces.port wing.chord.0 %":  "rudder and its wing",
		"foils.port rudder.moves.rake.range":       "rudder and its wing",
		"foils.main.pieces.inner wing.chord.100 %": "foil plan",
		"foils.main.pieces.arm.chord.100 %":        "foil plan",
		"foils.main.pieces.arm.path":               "arm and cant",
		"foils.main.root.y":                        "arm and cant",
		"foils.main.moves.cant.range":              "arm and cant",
		"foils.side foil":                          "foil plan",
		"foils.main.pieces.inner wing.section":     "section",
		"foils.main.pieces.inner wing.flap.share":  "flap",
		"bodies.main bulb.length":                  "bulb",
		"sails.jib.area":                           "sail plan",
		"sets.working":                             "sail plan",
		"rig.windage.mast.chord":                   "windage",
		"hulls.canoe.windage.area":                 "windage",
		"hulls.canoe.sections":                     "hull",
		"limits.heel":                              "limits",
		"modes.tip out.limits.tip depth":           "limits",
		"modes.one foil.leeward main.cant":         "arm and cant",
		"modes.tip out":                            "modes",
		"controls.rudder":                          "modes",
		"model.friction":                           "model factors",
		"length":                                   "length",
		"kites.kite":                               "kites",
	} {
		if got := ruled(changes(of)[0]); got != want {
			t.Errorf("%s: %q, want %q", of, got, want)
		}
	}
}

func sheet(t testing.TB, name string) *boatfile.Sheet {
	t.Helper()
	open := func(name string) ([]byte, error) { return os.ReadFile(path.Join("../examples", name)) }
	text, err := open(name)
	if err != nil {
		t.Fatal(err)
	}
	s, err := boatfile.Read(name, text, open)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func told(causes []Cause) string {
	var all []string
	for _, c := range causes {
		var paths []string
		for _, k := range c.Changes {
			paths = append(paths, k.Path)
		}
		all = append(all, c.Name+": "+strings.Join(paths, ", "))
	}
	return strings.Join(all, "; ")
}

func TestCauses(t *testing.T) {
	all := boatfile.DiffOfPoints(sheet(t, "which-foil/sorrel.yaml"), sheet(t, "which-foil/tansy.yaml"))
	const y, z = "foils.main.pieces.inner wing.path[2].y", "foils.main.pieces.inner wing.path[2].z"
	for _, c := range []struct {
		groups []Group
		want   string
	}{
		{nil, "foil plan: " + y + "; dihedral: " + z + "; modes: modes.tip out"},
		{[]Group{{"tips", []string{"foils.*.path.*.y", "dihedral"}}}, ""},
		{[]Group{{"tips", []string{"foils.*.pieces.*.path.*.y", "dihedral"}}}, "tips: " + y + ", " + z + "; modes: modes.tip out"},
		{[]Group{{"geometry", []string{"foils"}}, {"crew", []string{"modes"}}}, "geometry: " + y + ", " + z + "; crew: modes.tip out"},
		{[]Group{{"drop", []string{z}}}, "foil plan: " + y + "; drop: " + z + "; modes: modes.tip out"},
	} {
		got, err := Causes(all, c.groups)
		if c.want == "" {
			if err == nil {
				t.Errorf("%v: %s, want an error", c.groups, told(got))
			}
			continue
		}
		if err != nil || told(got) != c.want {
			t.Errorf("%v: %s, %v\nwant %s", c.groups, told(got), err, c.want)
		}
	}
}

func TestGroupsThatCannotBe(t *testing.T) {
	all := changes("weights.rig.mass", "sails.jib.area", "sails.main.area")
	for _, c := range []struct {
		groups []Group
		want   string
	}{
		{[]Group{{"keel", []string{"foils.keel"}}}, `cause keel: "foils.keel" matches none of the differences
hint: the differences are weights.rig.mass, sails.jib.area, sails.main.area; the causes sail plan, weight and its place`},
		{[]Group{{"a", []string{"sails"}}, {"b", []string{"sails.jib"}}}, "cause b: sails.jib.area is in a already\nhint: each difference belongs to one cause"},
		{[]Group{{"a", []string{"sails"}}, {"a", []string{"weights"}}}, "cause a: is named twice\nhint: give all that it holds at once, after commas"},
		{[]Group{{"sail plan", []string{"sails.jib"}}}, "cause sail plan: is the name of a cause that holds sails.main.area too\nhint: take another name, or hold all of it"},
	} {
		_, err := Causes(all, c.groups)
		var e *GroupError
		if !errors.As(err, &e) || err.Error() != c.want {
			t.Errorf("%v: %v\nwant %s", c.groups, err, c.want)
		}
	}
	var many []boatfile.Change
	for i := range MostCauses + 1 {
		many = append(many, changes(fmt.Sprintf("key %d.x", i))...)
	}
	if _, err := Causes(many, nil); err == nil {
		t.Error("more causes than can be are taken")
	}
	if _, err := Causes(nil, []Group{{"a", []string{"sails"}}}); err == nil || !strings.Contains(err.Error(), "do not differ") {
		t.Errorf("no differences: %v", err)
	}
}

// The table in docs/terms.md is the table.
func TestRulesAreDocumented(t *testing.T) {
	text, err := os.ReadFile("../docs/terms.md")
	if err != nil {
		t.Fatal(err)
	}
	var documented []Rule
	_, table, _ := strings.Cut(string(text), "| paths | cause |")
	for line := range strings.Lines(table) {
		cells := strings.Split(line, "|")
		if len(cells) != 4 {
			if len(documented) > 0 {
				break
			}
			continue
		}
		for _, path := range strings.Split(cells[1], ", ") {
			if path = strings.Trim(path, " `"); strings.Trim(path, "-") != "" {
				documented = append(documented, Rule{strings.TrimSpace(cells[2]), path})
			}
		}
	}
	if d := cmp.Diff(Rules(), documented); d != "" {
		t.Errorf("docs/terms.md tells other rules:\n%s", d)
	}
}
