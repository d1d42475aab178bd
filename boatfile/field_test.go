package boatfile

import (
	"slices"
	"strings"
	"testing"
)

// Every figure that a boat is made of is a field of its form, at the same path.
func TestFieldsHaveEveryFigure(t *testing.T) {
	for _, name := range setExamples {
		name = "examples/" + name
		text, err := open(name)
		if err != nil {
			t.Fatal(err)
		}
		fields, err := Fields(name, text, open)
		if err != nil {
			t.Fatal(err)
		}
		s, err := Read(name, text, open)
		if err != nil {
			t.Fatal(err)
		}
		for _, fig := range s.Figures() {
			i := slices.IndexFunc(fields, func(f Field) bool { return f.Path == fig.Path })
			switch {
			case i < 0:
				t.Errorf("%s: %s is no field", name, fig.Path)
			case fields[i].Kind != QuantityField && fields[i].Kind != SettingField:
				t.Errorf("%s: %s is of kind %s", name, fig.Path, fields[i].Kind)
			case fields[i].Where.Line == 0 || fields[i].Text == "":
				t.Errorf("%s: %s: %+v", name, fig.Path, fields[i])
			}
		}
		seen := map[string]bool{}
		for _, f := range fields {
			if seen[f.Path] {
				t.Errorf("%s: %s is twice", name, f.Path)
			}
			seen[f.Path] = true
			if f.Label == "" || f.Kind == "" {
				t.Errorf("%s: %+v", name, f)
			}
		}
		t.Logf("%s: %d fields of %d figures", name, len(fields), len(s.Figures()))
	}
}

// What a variant takes over stands in the other file, and what nobody says has no place.
func TestFieldsOfAVariant(t *testing.T) {
	const name = "examples/which-foil/tansy.yaml"
	text, err := open(name)
	if err != nil {
		t.Fatal(err)
	}
	fields, err := Fields(name, text, open)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ path, part, label, text, times, file string }{
		{"foils.main.pieces.inner wing.path[2].y", "foils.main.pieces.inner wing", "path 2 y", "-0.93 m ± 0.02 m", "bow-on photo scale", name},
		{"foils.main.pieces.inner wing.chord.60 %", "foils.main.pieces.inner wing", "chord at 60 %", "0.29 m", "", "examples/which-foil/sorrel.yaml"},
		{"weights.crew.mass", "weights.crew", "mass", "6 x 88 kg", "", "examples/which-foil/sorrel.yaml"},
		{"sails.main.twist", "sails.main", "twist", "", "", ""},
		{"name", "", "name", "Tansy", "", name},
	} {
		i := slices.IndexFunc(fields, func(f Field) bool { return f.Path == c.path })
		if i < 0 {
			t.Errorf("%s is no field", c.path)
			continue
		}
		f := fields[i]
		if f.Part != c.part || f.Label != c.label || f.Text != c.text || f.Times != c.times || f.Where.File != c.file || f.Help == "" && !strings.Contains(c.path, "path[") {
			t.Errorf("%s: %+v", c.path, f)
		}
	}
}
