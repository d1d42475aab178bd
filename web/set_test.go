package web

import (
	"context"
	"encoding/json"
	"strings"
	"testing"
)

// A value is changed in the draft that the page has, not on disk.
func TestSetInDrafts(t *testing.T) {
	d, err := Open("../examples/which-foil")
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close()
	ask := func(file, path, value string, drafts map[string]string) *Told {
		question, err := json.Marshal(Setting{File: file, Path: path, Value: value})
		if err != nil {
			t.Fatal(err)
		}
		return d.answer(context.Background(), &Asked{Verb: "set", Question: question, Drafts: drafts})
	}
	first := ask("sorrel.yaml", "weights.rig.mass", "250 kg", nil)
	if first.Error != "" || !strings.Contains(first.Text, "rig:           {mass: 250 kg, at:") {
		t.Fatalf("%s\n%s", first.Error, first.Text)
	}
	second := ask("sorrel.yaml", "weights.crew.at.y", "0 m", map[string]string{"sorrel.yaml": first.Text})
	if second.Error != "" || !strings.Contains(second.Text, "{mass: 250 kg, at:") || !strings.Contains(second.Text, "y: 0 m, z: 1.10 m}\n") {
		t.Fatalf("%s\n%s", second.Error, second.Text)
	}
	// What is taken over is written into the variant.
	variant := ask("tansy.yaml", "weights.rig.mass", "250 kg", nil)
	if variant.Error != "" || !strings.Contains(variant.Text, "rig: {mass: 250 kg}") {
		t.Fatalf("%s\n%s", variant.Error, variant.Text)
	}
	for _, c := range []struct{ file, path, value, want string }{
		{"sorrel.yaml", "weights.rig.mass", "250", "has no unit"},
		{"sorrel.yaml", "weights.rig.mess", "250 kg", "did you mean mass?"},
		{"../sorrel.yaml", "length", "5 m", "outside of the desk's folder"},
		{"nobody.yaml", "length", "5 m", "there is no such file"},
	} {
		if told := ask(c.file, c.path, c.value, nil); !strings.Contains(told.Error, c.want) || told.Text != "" {
			t.Errorf("%s: %s: %q, want %q", c.file, c.path, told.Error, c.want)
		}
	}
}
