package boatfile

import (
	"errors"
	"maps"
	"os"
	"slices"
	"strings"
	"testing"
)

// pieces is a small boat on which every way of writing a value stands.
const written = "foilwright: 1 # the format\r\n" + `name: Sloe
length: 12.0 m   # over all
weights:
  hull:   {mass: 1150 kg ± 25 kg, at: {x: -0.30 m, z: 0.55 m}, basis: 'weigh-in, less "parts"'} # dry
  crew: # on the rail
    mass: 6 x 88 kg      # with oilskins
    at: {
      x: -2.4 m, # aft
      y: 1.35 m
    }
    # they may move
  rig: {mass: {is: 240 kg, basis: "scales"}, at: {z: 8 m}}
foils:
  fin:
    side: centre
    root: {x: 0.5 m}
    mass: 40 kg # lead
    pieces:
      blade:
        section: naca 0012
        path:
          - {z: 0 m}   # top
          - {z: -1.5 m}
        chord: {0 %: 0.4 m, 100 %: 0.2 m}
`

func TestSet(t *testing.T) {
	text := strings.ReplaceAll(written, "\r\n", "\n")
	for _, c := range []struct{ path, value, old, new string }{
		{"length", "12.5 m ± 0.1 m", "length: 12.0 m   # over all", "length: 12.5 m ± 0.1 m   # over all"},
		{"weights.hull.mass", "1.2 t", "1150 kg ± 25 kg,", "1.2 t,"},
		{"weights.hull.at.x", "0.1 m", "-0.30 m", "0.1 m"},
		{"weights.hull.basis", "by guess: # 2", `'weigh-in, less "parts"'`, `"by guess: # 2"`},
		{"weights.crew.mass", "5 x 90 kg", "6 x 88 kg ", "5 x 90 kg "},
		{"weights.crew.at.y", "1 m", "1.35 m", "1 m"},
		{"weights.crew.at.z", "1.1 m", "1.35 m\n", "1.35 m, z: 1.1 m\n"},
		{"weights.crew.at.x", "-2 m", "-2.4 m, # aft", "-2 m, # aft"},
		{"weights.rig.mass", "250 kg", "is: 240 kg", "is: 250 kg"},
		{"weights.rig.mass.basis", "plan", `"scales"`, "plan"},
		{"weights.rig.at.x", "1 m", "{z: 8 m}", "{x: 1 m, z: 8 m}"},
		{"weights.crew.mass.basis", "a scale", "6 x 88 kg ", "{is: 6 x 88 kg, basis: a scale} "},
		{"weights.crew.windage", "{area: 0.8 m², drag coefficient: 0.6}", "    # they", "    windage: {area: 0.8 m², drag coefficient: 0.6}\n    # they"},
		{"foils.fin.mass", "41 kg", "40 kg # lead", "41 kg # lead"},
		{"foils.fin.mass.along", "50 % of blade", "mass: 40 kg #", "mass: {mass: 40 kg, along: 50 % of blade} #"},
		{"foils.fin.pieces.blade.path[2].z", "-2 m", "-1.5 m", "-2 m"},
		{"foils.fin.pieces.blade.path[1].x", "0.1 m", "{z: 0 m}   #", "{x: 0.1 m, z: 0 m}   #"},
		{"foils.fin.pieces.blade.chord.100 %", "0.3 m", "0.2 m", "0.3 m"},
		{"foils.fin.pieces.blade.chord.50 %", "0.3 m", "0.4 m,", "0.4 m, 50 %: 0.3 m,"},
		{"foils.fin.pieces.blade.twist", "1 deg", "        chord: {0 %: 0.4 m, 100 %: 0.2 m}\n", "        chord: {0 %: 0.4 m, 100 %: 0.2 m}\n        twist: 1 deg\n"},
		{"foils.fin.pieces.blade.section.thickness", "11 %", "naca 0012", "{name: naca 0012, thickness: 11 %}"},
		{"foils.fin.moves.rake", "{axis: y, range: -2 to 2 deg}", "lead\n", "lead\n    moves:\n      rake: {axis: y, range: -2 to 2 deg}\n"},
		{"limits.heel", "-5 to 4 deg", "0.2 m}\n", "0.2 m}\nlimits:\n  heel: -5 to 4 deg\n"},
		{"class", "Sound 40", "Sloe\n", "Sloe\nclass: Sound 40\n"},
	} {
		if strings.Count(text, c.old) != 1 {
			t.Fatalf("%q is not once in the text", c.old)
		}
		for _, ends := range []string{"\n", "\r\n"} {
			lines := func(s string) string { return strings.ReplaceAll(s, "\n", ends) }
			got, err := Set("sloe.yaml", []byte("\ufeff"+lines(text)), nil, c.path, c.value)
			if err != nil {
				t.Errorf("%s: %v", c.path, err)
				continue
			}
			if want := "\ufeff" + lines(strings.Replace(text, c.old, c.new, 1)); string(got) != want {
				t.Errorf("%s: %s\n--- got\n%s\n--- want\n%s", c.path, c.value, got, want)
			}
		}
	}
}

func TestSetRefuses(t *testing.T) {
	for _, c := range []struct{ path, value, want string }{
		{"length", "5.2", "sloe.yaml:3:9: length: 5.2 has no unit\nhint: write 5.2 m"},
		{"length", "", "sloe.yaml: length: no value is given"},
		{"", "5 m", "no path is given"},
		{"weights.crew", "5 kg", "sloe.yaml:7:5: weights.crew: a mapping stands here, and 5 kg is a single value"},
		{"weights.crew.mess", "5 kg", "weights.crew.mess: no such key here\nhint: did you mean mass?"},
		{"foils.fin.pieces.blade.path[3].z", "5 m", "there is no item [3]"},
		{"length.x.y", "5 m", "length"},
		{"weights.crew.at", "{x: 1 m}", "cannot be changed in place here"}, // its comment would go
		{"weights.hull.at", "{x: 1 m", "cannot be read"},
		{"name", "none", "none removes what is inherited, and nothing is"},
	} {
		_, err := Set("sloe.yaml", []byte(written), nil, c.path, c.value)
		var faults Faults
		if !errors.As(err, &faults) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %s: %v, want %s", c.path, c.value, err, c.want)
		}
	}
}

// What is taken over is written where the variant says it.
func TestSetOfWhatIsTakenOver(t *testing.T) {
	const variant = `foilwright: 1
name: Variant
like: sloe.yaml # but
weights:
  rig: {at: {x: 1 m}}
`
	open := func(name string) ([]byte, error) {
		if name != "sloe.yaml" {
			return nil, os.ErrNotExist
		}
		return []byte(written), nil
	}
	for _, c := range []struct{ path, value, old, new string }{
		{"length", "11 m", "# but\n", "# but\nlength: 11 m\n"},
		{"weights.rig.mass", "250 kg", "{at: ", "{mass: {is: 250 kg}, at: "},
		{"weights.rig.mass.is", "250 kg", "{at: ", "{mass: {is: 250 kg}, at: "},
		{"weights.hull.mass", "1.1 t", "weights:\n", "weights:\n  hull: {mass: 1.1 t}\n"},
		{"weights.hull.mass", "1.1 t", "weights:\n", "weights:\n  hull: {mass: 1.1 t}\n"},
		{"weights.crew.at.y", "0 m", "weights:\n", "weights:\n  crew:\n    at: {y: 0 m}\n"},
		{"weights.crew", "none", "weights:\n", "weights:\n  crew: none\n"},
		{"foils.fin.pieces.blade.path[2].z", "-2 m", "1 m}}\n", "1 m}}\nfoils:\n  fin:\n    pieces:\n      blade:\n        path: [{z: 0 m}, {z: -2 m}]\n"},
		{"foils.fin.pieces.blade.chord.0 %", "0.5 m", "1 m}}\n", "1 m}}\nfoils:\n  fin:\n    pieces:\n      blade:\n        chord: {0 %: 0.5 m}\n"},
		{"foils.fin.mass", "41 kg", "1 m}}\n", "1 m}}\nfoils:\n  fin: {mass: 41 kg}\n"},
	} {
		got, err := Set("variant.yaml", []byte(variant), open, c.path, c.value)
		if err != nil {
			t.Errorf("%s: %v", c.path, err)
			continue
		}
		if want := strings.Replace(variant, c.old, c.new, 1); string(got) != want {
			t.Errorf("%s: %s\n--- got\n%s\n--- want\n%s", c.path, c.value, got, want)
		}
	}
}

func TestUnset(t *testing.T) {
	const variant = `foilwright: 1
name: Variant
like: sloe.yaml # but
# the rig
weights:
  rig: {at: {x: 1 m}, mass: 250 kg, basis: plan} # new
  hull:
    mass: 1.1 t # weighed
    # on the quay
    at: {x: 0.1 m}
foils: # one
  fin:
    mass: 41 kg
`
	open := func(name string) ([]byte, error) { return []byte(written), nil }
	for _, c := range []struct{ path, old, new string }{
		{"weights.rig.mass", "mass: 250 kg, ", ""},
		{"weights.rig.basis", ", basis: plan", ""},
		{"weights.rig.at.x", "at: {x: 1 m}, ", ""},
		{"weights.rig", "  rig: {at: {x: 1 m}, mass: 250 kg, basis: plan} # new\n", "  # new\n"},
		{"weights.hull.mass", "    mass: 1.1 t # weighed\n", "    # weighed\n"},
		{"weights.hull.at.x", "    at: {x: 0.1 m}\n", ""},
		{"foils.fin.mass", "foils: # one\n  fin:\n    mass: 41 kg\n", "# one\n"},
	} {
		got, err := Unset("variant.yaml", []byte(variant), open, c.path)
		if want := strings.Replace(variant, c.old, c.new, 1); err != nil || string(got) != want {
			t.Errorf("%s: %v\n--- got\n%s\n--- want\n%s", c.path, err, got, want)
		}
	}
	for path, want := range map[string]string{
		"weights.crew.mass": "the file itself does not say this", "like": "is missing",
	} {
		if _, err := Unset("variant.yaml", []byte(variant), open, path); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %s", path, err, want)
		}
	}
}

// leaves returns the single values of a tree by their paths.
func (n *node) leaves(path string, into map[string]string) {
	switch n.kind {
	case scalar:
		into[path] = n.text
	case list:
		for i, item := range n.items {
			item.leaves(path+indexKey(i), into)
		}
	default:
		for _, e := range n.entries {
			e.value.leaves(below(path, e.key), into)
		}
	}
}

// bumped is a text with another first digit.
func bumped(text string) string {
	i := strings.IndexAny(text, "0123456789")
	if i < 0 {
		return text
	}
	return text[:i] + string('1'+(text[i]-'0'+1)%9) + text[i+1:]
}

var setExamples = []string{
	"which-foil/sorrel.yaml", "which-foil/tansy.yaml", "dinghy/sloe.yaml", "dinghy/spindle.yaml", "catamaran/bramble.yaml",
	"keelboat/guelder.yaml", "too-close-to-call/privet-weighed.yaml", "class-rule/medlar.yaml", "twenty-metre/hawthorn.yaml",
}

// merged returns a file's tree with what it is like, as it is read.
func mergedOf(t testing.TB, name string, text []byte) *node {
	t.Helper()
	l := loader{open: open}
	root := l.load(name, text, nil)
	if root == nil || len(l.faults) > 0 {
		t.Fatal(l.faults)
	}
	return root
}

// After Set every other value of the examples is the same, and the comments are all
// there in their order.
func TestSetKeepsTheRest(t *testing.T) {
	for _, name := range setExamples {
		name = "examples/" + name
		text, err := open(name)
		if err != nil {
			t.Fatal(err)
		}
		before, done := map[string]string{}, 0
		mergedOf(t, name, text).leaves("", before)
		for i, path := range slices.Sorted(maps.Keys(before)) {
			value := bumped(before[path])
			e, err := newEdit(name, text, open, path)
			if err == nil {
				err = e.value(value)
			}
			if err != nil {
				t.Fatal(err)
			}
			fault := e.set()
			got := []byte(nil)
			if fault == nil {
				got, fault = e.made()
			}
			if fault != nil {
				t.Errorf("%s: %s: %s: %v", name, path, value, fault)
				continue
			}
			if i%60 == 0 { // reading takes long
				if whole, err := Set(name, text, open, path, value); err == nil && !slices.Equal(whole, got) {
					t.Errorf("%s: %s: %s: Set gives another text", name, path, value)
				}
			}
			done++
			after := map[string]string{}
			mergedOf(t, name, got).leaves("", after)
			if after[path] != value {
				t.Errorf("%s: %s is %q, %q was set", name, path, after[path], value)
			}
			after[path] = before[path]
			if !maps.Equal(before, after) {
				t.Errorf("%s: with %s something else changed\n%s", name, path, got)
			}
			if a, b := sourceOf(text).comments(), sourceOf(got).comments(); !slices.Equal(a, b) {
				t.Errorf("%s: %s: comments differ", name, path)
			}
		}
		if done < 40 {
			t.Errorf("%s: %d of %d values could be changed", name, done, len(before))
		}
		t.Logf("%s: %d of %d values", name, done, len(before))
	}
}

// FuzzSet changes values of texts of all kinds: what comes out says what was set, the
// rest is the same, and comments stay.
func FuzzSet(f *testing.F) {
	f.Add(written, "weights.crew.at.y", "1 m")
	f.Add(written, "foils.fin.pieces.blade.chord.50 %", "0.3 m")
	f.Add("name: x\nlike: other.yaml", "foils.fin.pieces.blade.path[2].z", "-2 m")
	f.Add("name: 'a b' # c\nclass: \"d # e\" # f\n", "class", "x: # y")
	f.Add("{name: x, length: 1 m}", "class", "y")
	f.Add("- a", "[1]", "b")
	f.Add("name:\n  a\n  b # c\nlength: 1 m", "name", "[a]")
	f.Fuzz(func(t *testing.T, text, path, value string) {
		open := func(name string) ([]byte, error) {
			if name == "other.yaml" {
				return []byte(written), nil
			}
			return nil, os.ErrNotExist
		}
		if _, err := Fields("fuzz.yaml", []byte(text), open); err != nil {
			checkFaults(t, err)
		}
		if got, err := Unset("fuzz.yaml", []byte(text), open, path); err != nil {
			checkFaults(t, err)
		} else if !slices.Equal(sourceOf([]byte(text)).comments(), sourceOf(got).comments()) {
			t.Fatalf("comments differ\n%q\n%q", text, got)
		}
		e, err := newEdit("fuzz.yaml", []byte(text), open, path)
		if err == nil {
			err = e.value(value)
		}
		if err == nil {
			if fault := e.set(); fault != nil {
				err = Faults{*fault}
			}
		}
		if err != nil {
			checkFaults(t, err)
			return
		}
		got, fault := e.made()
		if fault != nil {
			return
		}
		if !slices.Equal(sourceOf([]byte(text)).comments(), sourceOf(got).comments()) {
			t.Fatalf("comments differ\n%q\n%q", text, got)
		}
	})
}
