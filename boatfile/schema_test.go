package boatfile

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/goccy/go-yaml"
	"github.com/santhosh-tekuri/jsonschema/v6"
)

// compiled returns the schema as another library understands it.
func compiled(t *testing.T) *jsonschema.Schema {
	t.Helper()
	text, err := Schema()
	if err != nil {
		t.Fatal(err)
	}
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource(schemaID, doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile(schemaID)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// plain returns a YAML text as the values that JSON has.
func plain(t *testing.T, text []byte) any {
	t.Helper()
	asJSON, err := yaml.YAMLToJSON(text)
	if err != nil {
		t.Fatal(err)
	}
	v, err := jsonschema.UnmarshalJSON(bytes.NewReader(asJSON))
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// Every example satisfies the schema as an outside validator reads it.
func TestSchemaHoldsForExamples(t *testing.T) {
	s := compiled(t)
	files := exampleFiles(t)
	if len(files) < 2 {
		t.Fatalf("only %d files below examples", len(files))
	}
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if err := s.Validate(plain(t, text)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// So does a boat of everything that the examples do not have, and variants.
func TestSchemaHoldsForOddFiles(t *testing.T) {
	s := compiled(t)
	for _, text := range []string{odd, small, "foilwright: 1\nname: A\nlike: b.yaml\nweights: {hull: {at: {x: 2 m}}, crew: none}\nlimits: {heel: none}\n"} {
		if err := s.Validate(plain(t, []byte(text))); err != nil {
			t.Errorf("%.60s…: %v", text, err)
		}
	}
}

// exampleFiles returns the boat files, and those of unknowns, below examples/.
func exampleFiles(t *testing.T) []string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(root, "examples", "*", "*.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	return slices.DeleteFunc(files, func(name string) bool {
		text, err := os.ReadFile(name)
		return err == nil && strings.Contains("\n"+string(text), "\nrule:") // a class rule
	})
}

// Broken copies of an example do not satisfy it.
func TestSchemaRefusesBrokenFiles(t *testing.T) {
	s := compiled(t)
	text, err := open("examples/which-foil/sorrel.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ name, old, new string }{
		{"unknown key", "length: 12.0 m", "lenght: 12.0 m"},
		{"unknown key deep down", "luff: 17.2 m", "loof: 17.2 m"},
		{"no unit", "length: 12.0 m", "length: 12.0"},
		{"no unit, quoted", "length: 12.0 m", `length: "12.0"`},
		{"not a number", "length: 12.0 m", "length: long"},
		{"a list for a mapping", "root: {x: -6.05 m, y: 0 m, z: 0.60 m}", "root: [-6.05 m, 0 m, 0.60 m]"},
		{"a later version", "foilwright: 1 ", "foilwright: 2 "},
		{"a limit that is none", "ride height: 0.45", "ride heigth: 0.45"},
		{"a station that is none", "100 %: -1.2 deg", "tip: -1.2 deg"},
		{"an axis that is none", "{axis: y, range: -2", "{axis: w, range: -2"},
		{"no name", "name: Sorrel", ""},
	} {
		broken := strings.Replace(string(text), c.old, c.new, 1)
		if broken == string(text) {
			t.Fatalf("%s: nothing to break", c.name)
		}
		if err := s.Validate(plain(t, []byte(broken))); err == nil {
			t.Errorf("%s: the schema accepts %q", c.name, c.new)
		}
	}
}
