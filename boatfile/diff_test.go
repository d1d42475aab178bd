package boatfile

import (
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"foilwright/boat"
	"foilwright/section"
)

// likely returns a sheet's likely boat without what takes long and is no figure.
func likely(t *testing.T, s *Sheet, draw Draw) *boat.Boat {
	t.Helper()
	b := newBuilder(s, draw)
	built := b.build()
	if err := b.faults.err(); err != nil {
		t.Fatal(err)
	}
	return built
}

var sameBoat = cmp.Options{cmp.Exporter(func(t reflect.Type) bool { return t.PkgPath() == "foilwright/boat" }), cmpopts.EquateEmpty(),
	cmp.Comparer(func(a, b section.Section) bool { return a.Equal(b) }), cmpopts.IgnoreFields(boat.Boat{}, "Name")}

// All changes from one boat to another make it the other, draw by draw, and the
// changes back undo them.
func TestChangesMakeTheOtherBoat(t *testing.T) {
	sorrel, tansy, bramble := example(t, "which-foil/sorrel.yaml"), example(t, "which-foil/tansy.yaml"), example(t, "catamaran/bramble.yaml")
	for _, c := range [][2]*Sheet{{sorrel, tansy}, {tansy, sorrel}, {sorrel, bramble}, {bramble, tansy}} {
		made, err := c[0].With(Diff(c[0], c[1]))
		if err != nil {
			t.Fatalf("%s to %s: %v", c[0].Name(), c[1].Name(), err)
		}
		if rest := Diff(made, c[1]); len(rest) > 0 {
			t.Errorf("%s to %s leaves %v", c[0].Name(), c[1].Name(), rest)
		}
		if d := cmp.Diff(made.Unknowns(), c[1].Unknowns()); d != "" {
			t.Errorf("%s to %s: other unknowns:\n%s", c[0].Name(), c[1].Name(), d)
		}
		draw := Draw{}
		for i, u := range c[1].Unknowns() {
			draw[u.Identity] = u.Quantity.At(float64(i+1) / float64(len(c[1].Unknowns())+1))
		}
		if c[1] != bramble { // its parts stand in another order
			if d := cmp.Diff(likely(t, made, draw), likely(t, c[1], draw), sameBoat); d != "" && c[0] != bramble {
				t.Errorf("%s to %s:\n%s", c[0].Name(), c[1].Name(), d)
			}
		}
	}
}

func TestDiffOfAVariant(t *testing.T) {
	changes := Diff(example(t, "which-foil/sorrel.yaml"), example(t, "which-foil/tansy.yaml"))
	var paths []string
	for _, c := range changes {
		paths = append(paths, c.Path)
	}
	if got, want := strings.Join(paths, "; "), "foils.main.pieces.inner wing.path; modes.tip out"; got != want {
		t.Errorf("Tansy differs from Sorrel in %s\nwant %s", got, want)
	}
	if c := changes[0]; c.ToAt.File != "examples/which-foil/tansy.yaml" || c.FromAt.File != "examples/which-foil/sorrel.yaml" ||
		!strings.Contains(c.To, "-0.93 m") || !strings.Contains(c.From, "-0.98 m") {
		t.Errorf("the first change is %+v", c)
	}
	if changes[1].From != none {
		t.Errorf("what Sorrel lacks is %q, want %q", changes[1].From, none)
	}
}

// Edits by hand: a value, a removal, a part; and what is no figure.
func TestEditsByHand(t *testing.T) {
	s := example(t, "which-foil/sorrel.yaml")
	before := s.Fingerprint()
	edited, err := s.With([]Change{
		{Path: "sails.main.area", To: "60 m² ± 1 m²"},
		{Path: "bodies.main bulb", To: "none"},
		{Path: "weights.lead", To: "{mass: 10 kg, at: {x: 1 m}}"},
		{Path: "foils.main.pieces.inner wing.chord.60 %", To: "0.30 m"},
	})
	if err != nil {
		t.Fatal(err)
	}
	b := likely(t, edited, nil)
	if b.Sails[0].Area != 60 || len(b.Bodies) != 0 || b.Mass() != 2468 || piece(t, b, "port main", "outer wing").Chord.At(0.6) != 0.30 {
		t.Errorf("the edits are not in the boat: %g m², %d bodies, %g kg", b.Sails[0].Area, len(b.Bodies), b.Mass())
	}
	if !edited.uncertain(Identity{"examples/which-foil/sorrel.yaml", "sails.main.area"}) {
		t.Error("the edited area is no unknown of the sheet's file")
	}
	if s.Fingerprint() != before || edited.Fingerprint() == before {
		t.Error("the edited sheet is not another one, or the first has changed")
	}
	for path, want := range map[string]string{"sails.main.area": "no unit", "like": "not a figure", "sails.main.aera": "no such key"} {
		if _, err := s.With([]Change{{Path: path, To: "60"}}); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %s", path, err, want)
		}
	}
}

// The fingerprint is of what the file says, not of how it is laid out.
func TestFingerprint(t *testing.T) {
	text, err := open(folder + "sorrel.yaml")
	if err != nil {
		t.Fatal(err)
	}
	want := example(t, "which-foil/sorrel.yaml").Fingerprint()
	for _, c := range []struct {
		old, new string
		same     bool
	}{
		{"length: 12.0 m ", "length: 12.0 m  # a remark", true},
		{"basis: weigh-in less parts", "basis: scales", true},
		{"length: 12.0 m", "length: 12.1 m", false},
		{"1150 kg ± 25 kg", "1150 kg ± 20 kg", false},
	} {
		s, err := Read(folder+"sorrel.yaml", []byte(strings.Replace(string(text), c.old, c.new, 1)), open)
		if err != nil {
			t.Fatal(err)
		}
		if same := s.Fingerprint() == want; same != c.same {
			t.Errorf("%s: the same fingerprint: %v, want %v", c.new, same, c.same)
		}
	}
}

// Point by point the span and the droop of a wing are changes of their own, and
// all of them together still make the other boat.
func TestDiffOfPoints(t *testing.T) {
	sorrel, tansy := example(t, "which-foil/sorrel.yaml"), example(t, "which-foil/tansy.yaml")
	changes := DiffOfPoints(sorrel, tansy)
	var paths []string
	for _, c := range changes {
		paths = append(paths, c.Path)
	}
	const wing = "foils.main.pieces.inner wing.path[2]"
	if got, want := strings.Join(paths, "; "), wing+".y; "+wing+".z; modes.tip out"; got != want {
		t.Fatalf("Tansy differs from Sorrel in %s\nwant %s", got, want)
	}
	if got, want := strings.Join(changes[1].Keys(), "|"), "foils|main|pieces|inner wing|path|[2]|z"; got != want {
		t.Errorf("keys %s, want %s", got, want)
	}
	made, err := sorrel.With(changes)
	if err != nil {
		t.Fatal(err)
	}
	if rest := Diff(made, tansy); len(rest) > 0 {
		t.Errorf("what is left: %v", rest)
	}
	drooped, err := sorrel.With(changes[:1])
	if err != nil {
		t.Fatal(err)
	}
	if rest := DiffOfPoints(drooped, tansy); len(rest) != 2 || rest[0].Path != wing+".z" {
		t.Errorf("with the span alone changed there is left: %v", rest)
	}
	if rest := Diff(sorrel, example(t, "which-foil/sorrel.yaml")); len(rest) > 0 {
		t.Errorf("changing a copy changed the sheet: %v", rest)
	}
}

// One figure written in two ways is no difference; a name is itself alone.
func TestSameFigures(t *testing.T) {
	for _, c := range []struct {
		one, other string
		same       bool
	}{
		{"0.050 m", "0.05 m", true}, {"-8 to 14 deg", "-8.0 to 14 deg", true}, {"0.05 m", "0.06 m", false}, {"0.05 m", "0.05 kg", false},
		{"80 kg ± 1 kg", "80 kg", false}, {"naca 0012", "naca 12", false}, {"", "", false},
	} {
		if got := sameFigures(c.one, c.other); got != c.same {
			t.Errorf("%q and %q: %v", c.one, c.other, got)
		}
	}
}
