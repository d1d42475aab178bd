package boatfile

import (
	"errors"
	"math"
	"os"
	"strings"
	"testing"

	"foilwright/boat"
	"foilwright/section"
)

// FuzzRead feeds texts of all kinds to the reader: it must answer with a boat
// of finite figures or with faults that have a place and a problem, and never
// panic.
func FuzzRead(f *testing.F) {
	for _, name := range []string{
		"which-foil/sorrel.yaml", "which-foil/tansy.yaml", "which-foil/harrow-unknowns.yaml",
		"dinghy/sloe.yaml", "catamaran/bramble.yaml", "keelboat/guelder.yaml", "twenty-metre/hawthorn.yaml",
	} {
		text, err := open("examples/" + name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(text))
	}
	for _, text := range []string{
		"", "\ufeffname: x", "[", strings.Repeat("[", 40), "a: &x 1\nb: *x", "<<: {a: 1}", "---\n---\n", "a: 1\na: 2",
		"like: fuzz.yaml", "like: other.yaml", "shares: [a, b]", "? a\n: b", "a: |\n  b\n", "a: !!binary x", "- - - -",
		"foilwright: 1\nname: x\nlength: 1e400 m", "unknowns: {a: {is: 1 ± 0.1}}\nlength: {is: 1 m, times: a}",
		"weights: {a: {mass: 1e30 kg, at: {x: 1e30 m}}}", "foils: {a: {pieces: {b: {as: b, from: b tip}}}}", "\xff\xfe", "a:\x00",
		"foilwright: 1\nname: A\nlength: 1 m\nweights: {a: {mass: 1 kg, at: {}}}",
		"foilwright: 1\nname: A\nlength: 1 m\nweights: {a: {mass: 1 kg, at: {}}}\nfoils: {f: {side: centre, root: {}, pieces: {p: {path: [{}, {z: -1 m}], chord: 1 m, section: naca 0012}}}}",
	} {
		f.Add(text)
	}
	// Sections take most of the time and have tests of their own.
	var sections []shelvedSection
	for _, name := range []string{
		"naca 0012", "naca 0010", "naca 63-012", "naca 63-209", "naca 63-412", "naca 64-012", "naca 64-209",
		"naca 64-410", "naca 64-412", "naca 64-412 at 11 %",
	} {
		sec, err := section.Parse("naca 0012")
		sections = append(sections, shelvedSection{"fuzz.yaml", name, "", sec, err})
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, err := read("fuzz.yaml", []byte(text), func(name string) ([]byte, error) {
			if name == "fuzz.yaml" || name == "sorrel.yaml" {
				return []byte(text), nil
			}
			return nil, os.ErrNotExist
		}, sections)
		if err != nil {
			checkFaults(t, err)
			return
		}
		b, err := s.Boat(nil)
		if err != nil {
			t.Fatalf("a sheet without faults makes no boat: %v", err)
		}
		checkFinite(t, b)
		if len(Diff(s, s)) != 0 {
			t.Fatalf("a sheet differs from itself: %v", Diff(s, s))
		}
		if again, err := s.With(nil); err != nil || again.Fingerprint() != s.Fingerprint() {
			t.Fatalf("a sheet without changes is another: %v", err)
		}
	})
}

func checkFaults(t *testing.T, err error) {
	t.Helper()
	var faults Faults
	if !errors.As(err, &faults) || len(faults) == 0 {
		t.Fatalf("an error that is no list of faults: %v", err)
	}
	for _, f := range faults {
		if f.File == "" || f.Problem == "" || f.Line < 0 || f.Line > 0 && f.Column < 1 {
			t.Fatalf("a fault without place or problem: %#v", f)
		}
	}
}

// checkFinite fails where a boat has a figure that is no number.
func checkFinite(t *testing.T, b *boat.Boat) {
	t.Helper()
	sum := b.Mass() + b.Length
	for _, w := range b.Weights {
		sum += w.At.X + w.At.Y + w.At.Z
	}
	for i := range b.Foils {
		f := &b.Foils[i]
		for _, p := range f.Pieces {
			end := p.Path.End()
			sum += end.X + end.Y + end.Z + p.Chord.At(0.5) + p.Twist.At(0.5) + p.Section.Thickness
			if p.Upper != 1 && p.Upper != -1 {
				t.Fatalf("%s %s: upper side is %g", f.Name, p.Name, p.Upper)
			}
		}
	}
	for _, c := range b.Controls {
		sum += c.Lower + c.Upper + c.Start + c.Step
		if c.Start < c.Lower-1e-6*(1+math.Abs(c.Lower)) || c.Start > c.Upper+1e-6*(1+math.Abs(c.Upper)) {
			t.Fatalf("%s starts at %g outside %g to %g", c.Name, c.Start, c.Lower, c.Upper)
		}
	}
	if math.IsNaN(sum) || math.IsInf(sum, 0) {
		t.Fatalf("a figure of %s is no number", b.Name)
	}
}
