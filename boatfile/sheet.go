package boatfile

import (
	"crypto/sha256"
	"fmt"
	"io"
	"slices"

	"foilwright/boat"
)

// Sheet is a boat file with all that it pulls in, read and found in order: a
// boat of quantities. It never changes and may be shared between goroutines.
type Sheet struct {
	file        string
	root        *node
	open        Opener
	pulled      []pulled
	form        boatForm
	shelf       shelf
	unknowns    []Unknown
	assumptions []Assumption
	figures     []Figure
}

// Assumption is a value that the file does not give and the reader filled in.
type Assumption struct {
	Path  string // what it stands for: "sails.main.sheet"
	Value string // with its unit
	Basis string
}

// Read reads a boat file called name. open supplies the files that it names:
// names are joined to the folder of the file that names them, with forward
// strokes. The error is [Faults] with everything that is wrong.
func Read(name string, text []byte, open func(name string) ([]byte, error)) (*Sheet, error) {
	return read(name, text, open, nil)
}

// read is Read with sections that are at hand already.
func read(name string, text []byte, open Opener, sections []shelvedSection) (*Sheet, error) {
	l := loader{open: open}
	root := l.load(name, text, nil)
	// Without what a file is like, all that it takes over would be missing too.
	if root == nil || l.torn {
		return nil, l.faults.err()
	}
	if rule := root.get("rule"); rule != nil {
		f := rule.fault("rule", "this is a class rule and no boat", "hold boats against it: foilwright check BOAT --rule "+name)
		return nil, Faults{f}.err()
	}
	l.scope(root)
	s := &Sheet{file: name, root: root, open: open, pulled: l.files, shelf: shelf{sections: sections, peaks: new(peakShelf)}}
	return s.settle(l.faults)
}

// settle decodes the sheet's tree, builds its likely boat once, and keeps what
// comes to light on the way.
func (s *Sheet) settle(faults Faults) (*Sheet, error) {
	d := decoder{}
	d.read(&s.form, s.root)
	faults = append(faults, d.faults...)
	s.shelf.open, s.shelf.filling = s.open, &s.pulled
	b := newBuilder(s, nil)
	b.build()
	// What does not decode would only be faulted a second time by the builder.
	if len(faults) < mostFaults {
		faults = append(faults, b.faults.elsewhere(faults)...)
	}
	if err := faults.err(); err != nil {
		return nil, err
	}
	s.shelf.filling = nil
	for _, u := range b.unknowns {
		s.unknowns = append(s.unknowns, *u)
	}
	slices.SortStableFunc(s.unknowns, func(a, b Unknown) int { return a.Identity.compare(b.Identity) })
	s.figures = b.figures
	s.assumptions = b.assumptions
	return s, nil
}

// elsewhere returns the faults at places where others has none.
func (f Faults) elsewhere(others Faults) Faults {
	return slices.DeleteFunc(slices.Clone(f), func(a Fault) bool {
		return slices.ContainsFunc(others, func(o Fault) bool {
			return o.File == a.File && o.Line == a.Line && (o.Column == a.Column || o.Path == a.Path || prefixed(a.Path, o.Path) || prefixed(o.Path, a.Path))
		})
	})
}

// prefixed tells whether a path lies below another.
func prefixed(path, above string) bool {
	return len(path) > len(above) && path[:len(above)] == above
}

// File returns the name that the sheet was read under.
func (s *Sheet) File() string { return s.file }

// Name returns the boat's name.
func (s *Sheet) Name() string { return s.form.Name.text }

// Invented tells whether the file says that its figures are made up.
func (s *Sheet) Invented() bool { return s.form.Invented.is }

// Pulled returns the names of the files that the boat file pulled in.
func (s *Sheet) Pulled() []string {
	names := make([]string, len(s.pulled))
	for i := range s.pulled {
		names[i] = s.pulled[i].name
	}
	return names
}

// Unknowns returns every uncertain figure that the boat uses, the model's own
// factors included, in the order of identities.
func (s *Sheet) Unknowns() []Unknown { return slices.Clone(s.unknowns) }

// Assumptions returns every default that the reader filled in.
func (s *Sheet) Assumptions() []Assumption { return slices.Clone(s.assumptions) }

// Boat returns the boat of one draw of the unknowns; a nil draw is the likely
// one. The error is [Faults]: a draw may make a boat that cannot be.
func (s *Sheet) Boat(draw Draw) (*boat.Boat, error) {
	b := newBuilder(s, draw)
	built := b.build()
	if err := b.faults.err(); err != nil {
		return nil, err
	}
	b.peaks(built)
	return built, nil
}

// Fingerprint returns the SHA-256, in hexadecimal, of what the sheet says and of
// all that it pulls in. Comments, layout and the order of a mapping's coordinates
// do not count; where uncertain figures stand does, since that makes two boats
// share them.
func (s *Sheet) Fingerprint() string {
	h := sha256.New()
	s.root.canonical(h, "")
	for _, u := range s.unknowns {
		fmt.Fprintf(h, "unknown %q %q %s\n", u.File, u.Name, u.Quantity)
	}
	for _, f := range s.shelf.files() {
		fmt.Fprintf(h, "file %q %d\n%s\n", f.name, len(f.text), f.text)
	}
	return fmt.Sprintf("%x", h.Sum(nil))
}

// canonical writes the tree in one way only.
func (n *node) canonical(w io.Writer, path string) {
	switch n.kind {
	case scalar:
		fmt.Fprintf(w, "%q %q\n", path, n.text)
	case list:
		fmt.Fprintf(w, "%q [%d]\n", path, len(n.items))
		for i, item := range n.items {
			item.canonical(w, fmt.Sprintf("%s[%d]", path, i+1))
		}
	case mapping:
		fmt.Fprintf(w, "%q {%d}\n", path, len(n.entries))
		for _, e := range n.entries {
			if wordKeys(below(path, e.key)) {
				continue
			}
			e.value.canonical(w, below(path, e.key))
		}
	}
}

// wordKeys tells whether a path holds words for people or a directive to the
// reader, and no figure of the boat.
func wordKeys(path string) bool {
	switch path {
	case "foilwright", "like", "shares", "unknowns", "class", "invented", "datum":
		return true
	}
	for _, word := range []string{".basis", ".zero"} {
		if len(path) > len(word) && path[len(path)-len(word):] == word {
			return true
		}
	}
	return false
}
