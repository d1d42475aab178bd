package boatfile

import (
	"strings"
	"testing"
)

// A class rule that is taken for a boat is told for what it is, and how it is used.
func TestClassRuleIsNoBoat(t *testing.T) {
	_, err := Read("box.yaml", []byte("foilwright: 1\nrule: Sound 40\nlimits:\n  length: {measure: length, of: boat, is: at most 12 m}\n"), nil)
	if err == nil || !strings.Contains(err.Error(), "box.yaml:2:") || !strings.Contains(err.Error(), "class rule and no boat") || !strings.Contains(err.Error(), "--rule box.yaml") {
		t.Errorf("error %v, want that a rule is no boat, where, and what to do with it", err)
	}
}
