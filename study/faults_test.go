package study

import (
	"bytes"
	"strings"
	"testing"

	"foilwright/si"
)

// A fault in a file that another boat is like is told once, beside that boat's own.
func TestInheritedFaultsAreToldOnce(t *testing.T) {
	files := func(name string) ([]byte, error) {
		text, err := open(name)
		if name == sorrel {
			text = bytes.Replace(text, []byte("\nlength:"), []byte("\nlenght:"), 1)
		}
		return text, err
	}
	q := &Compare{Sailing: Sailing{WindSpeeds: []si.Speed{17 * si.Knot}, Conditions: Standard()}}
	_, err := Run(t.Context(), Request{Boats: []string{sorrel, tansy}, Question: q, Open: files})
	if err == nil {
		t.Fatal("a misspelt key was taken")
	}
	if n := strings.Count(err.Error(), "lenght"); n != 1 {
		t.Errorf("the misspelt key is told %d times:\n%v", n, err)
	}
	if n := strings.Count(err.Error(), "length is missing"); n != 2 {
		t.Errorf("what each boat lacks is told %d times:\n%v", n, err)
	}
}
