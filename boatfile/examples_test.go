package boatfile

import (
	"os"
	"path/filepath"
	"testing"
)

// root is the project's root, seen from this package.
const root = ".."

// open reads a file under the project's root.
func open(name string) ([]byte, error) {
	return os.ReadFile(filepath.Join(root, filepath.FromSlash(name)))
}

// example reads a boat file below examples/.
func example(t *testing.T, name string) *Sheet {
	t.Helper()
	name = "examples/" + name
	text, err := open(name)
	if err != nil {
		t.Fatal(err)
	}
	s, err := Read(name, text, open)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestExamplesMakeBoats(t *testing.T) {
	for _, name := range []string{"which-foil/sorrel.yaml", "which-foil/tansy.yaml"} {
		s := example(t, name)
		b, err := s.Boat(nil)
		if err != nil {
			t.Fatal(err)
		}
		if b.Mass() != 2458 {
			t.Errorf("%s weighs %g kg, want 2458", b.Name, b.Mass())
		}
	}
}
