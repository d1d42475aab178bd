package boatfile

import (
	"strings"
	"testing"

	"foilwright/quantity"
)

func TestStars(t *testing.T) {
	for _, c := range []struct {
		pattern, text string
		want          bool
	}{
		{"*", "anything", true}, {"a*", "ab", true}, {"a*", "ba", false}, {"*wing*", "inner wing", true}, {"*a*b", "xaybzb", true},
		{"*a*b", "xby", false}, {"ab*ba", "aba", false}, {"", "", true}, {"*", "", true}, {"x", "xy", false},
	} {
		if got := Starred(c.pattern, c.text); got != c.want {
			t.Errorf("%q against %q: %v", c.pattern, c.text, got)
		}
	}
}

// A file in the spirit of a boat file keeps places, and tells what is wrong with
// them.
func TestReadValue(t *testing.T) {
	v, err := ReadValue("class.yaml", []byte("foilwright: 1\nlimits:\n  span: {is: at most 2 m, odd: 1, list: [1, 2]}\n"))
	if err != nil {
		t.Fatal(err)
	}
	span := v.Of("limits").Of("span")
	if got := span.Of("is").Place().String(); got != "class.yaml:3:14" || span.Path() != "limits.span" {
		t.Errorf("%s at %s", span.Path(), got)
	}
	if r, bad := span.Of("is").Range(quantity.Length); bad != nil || r.High != 2 {
		t.Errorf("range %v, %v", r, bad)
	}
	if _, bad := span.Of("is").Range(quantity.Mass); bad == nil || !strings.HasPrefix(bad.Error(), "class.yaml:3:") {
		t.Errorf("a mass in metres: %v", bad)
	}
	if _, bad := span.Of("list").Range(quantity.Length); bad == nil {
		t.Error("a list is taken as a range")
	}
	if _, bad := span.Of("none").Range(quantity.Length); bad == nil || span.Of("none").Given() || span.Of("none").Of("x").Given() {
		t.Error("what is not there is taken as a range")
	}
	if f := span.Unknown("is", "list"); len(f) != 1 || f[0].Path != "limits.span.odd" || f[0].Column != 27 {
		t.Errorf("unknown keys: %v", f)
	}
	for _, text := range []string{"", "- 1", strings.Repeat("[", 100), "a: {", "a: 1\na: 2"} {
		if _, err := ReadValue("class.yaml", []byte(text)); err == nil {
			t.Errorf("%.20q is read", text)
		}
	}
	sorrel := example(t, "which-foil/sorrel.yaml")
	if got := sorrel.Where("foils.main.pieces.inner wing").String(); !strings.HasPrefix(got, "examples/which-foil/sorrel.yaml:") || strings.HasSuffix(got, ":1:1") {
		t.Errorf("the wing stands at %s", got)
	}
	if got := sorrel.Where("foils.none").String(); got != sorrel.File() {
		t.Errorf("a foil that is not there stands at %s", got)
	}
}
