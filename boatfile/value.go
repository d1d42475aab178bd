package boatfile

import (
	"slices"

	"foilwright/quantity"
)

// Value is one value of a file that is written in the spirit of a boat file, such
// as a class rule, with its place: a text, a mapping or a list. The zero Value is
// one that is not given. What is wrong with a value is told as [Fault]s.
type Value struct {
	node *node
	path string
}

// ReadValue reads a file called name into its outermost value, a mapping. The
// same is refused as in a boat file, before it is parsed. The error is [Faults].
func ReadValue(name string, text []byte) (Value, error) {
	root, faults := parse(name, text)
	if err := faults.err(); err != nil {
		return Value{}, err
	}
	return Value{node: root}, nil
}

// Given tells whether the value is there.
func (v Value) Given() bool { return v.node != nil }

// Path returns where in the file's tree the value stands: "limits.lowered.of".
func (v Value) Path() string { return v.path }

// Place returns where in the file the value stands.
func (v Value) Place() Place {
	if v.node == nil {
		return Place{}
	}
	return v.node.place
}

// Text returns a text as it stands, and whether the value is one.
func (v Value) Text() (text string, ok bool) {
	if v.node == nil || v.node.kind != scalar {
		return "", false
	}
	return v.node.text, true
}

// Keys returns the keys of a mapping in their order; of anything else none.
func (v Value) Keys() []string {
	var keys []string
	if v.node != nil {
		for _, e := range v.node.entries {
			keys = append(keys, e.key)
		}
	}
	return keys
}

// Of returns what a mapping has under a key; the zero Value where it has nothing.
func (v Value) Of(key string) Value { return Value{v.node.get(key), below(v.path, key)} }

// Range reads a range of a dimension: "at most 2.1 m".
func (v Value) Range(want quantity.Dimension) (quantity.Range, *Fault) {
	text, ok := v.Text()
	if !ok {
		return quantity.Range{}, v.Fault("a range is wanted here", "write  at most "+want.Example()+", or  A to B")
	}
	r, err := quantity.ParseRange(text, want)
	if err != nil {
		f := quantityFault(v.node, v.path, err)
		return r, &f
	}
	return r, nil
}

// Fault returns a fault at the value.
func (v Value) Fault(problem, hint string) *Fault {
	f := v.node.orNone().fault(v.path, problem, hint)
	return &f
}

func (n *node) orNone() *node {
	if n == nil {
		return &node{}
	}
	return n
}

// Unknown returns a fault for each key of a mapping that is none of known.
func (v Value) Unknown(known ...string) Faults {
	var faults Faults
	if v.node == nil {
		return nil
	}
	for _, e := range v.node.entries {
		if !slices.Contains(known, e.key) {
			faults = append(faults, Fault{File: e.place.File, Line: e.place.Line, Column: e.place.Column,
				Path: below(v.path, e.key), Problem: "there is no such key", Hint: nearest(e.key, known)})
		}
	}
	return faults
}

// Nearest returns "did you mean …?" for the name among known ones that is closest
// to a name, or a list of what there is: a hint for a fault.
func Nearest(name string, known []string) string { return nearest(name, known) }

// Err returns the faults as an error in the order of their places, nil where there
// is none.
func (f Faults) Err() error { return f.err() }

// Where returns where something stands that a boat file says, by its path
// ("foils.main"); the file as a whole where it says nothing of it.
func (s *Sheet) Where(path string) Place {
	n := s.root
	for _, key := range s.root.keysOf(path) {
		if n = n.get(key); n == nil {
			return Place{File: s.file}
		}
	}
	return n.place
}
