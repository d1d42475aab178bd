package boatfile

import (
	"reflect"
	"strings"

	"foilwright/quantity"
)

// spot is a place in the format: what may stand under some keys. The zero spot is one
// of which the format says nothing.
type spot struct {
	form reflect.Value // a zero value of the type that is read there
	of   quantity.Dimension
	kind spotKind
}

// spotKind is what a spot takes.
type spotKind int

const (
	anything  spotKind = iota
	structure          // a mapping with keys of the format, or a list
	aFigure            // a quantity, or its long form
	byShare            // a quantity, or quantities by share
)

// formOf returns the format's root for a file's tree: a boat, or shared unknowns.
func formOf(root *node) spot {
	if root.get("name") == nil && root.get("like") == nil && root.get("unknowns") != nil {
		return spot{form: reflect.New(reflect.TypeFor[unknownsForm]()).Elem(), kind: structure}
	}
	return spot{form: reflect.New(reflect.TypeFor[boatForm]()).Elem(), kind: structure}
}

// parts is a mapping of parts by name.
type parts interface{ part() reflect.Type }

func (m *named[T]) part() reflect.Type { return reflect.TypeFor[T]() }

// spotOf returns the spot of a type of the format.
func spotOf(t reflect.Type) spot {
	s := spot{form: reflect.New(t).Elem(), kind: structure}
	switch s.form.Addr().Interface().(type) {
	case *number:
		s.of, s.kind = quantity.Number, aFigure
	case *share:
		s.of, s.kind = quantity.Share, aFigure
	case *length:
		s.of, s.kind = quantity.Length, aFigure
	case *area:
		s.of, s.kind = quantity.Area, aFigure
	case *mass:
		s.of, s.kind = quantity.Mass, aFigure
	case *angle:
		s.of, s.kind = quantity.Angle, aFigure
	case *chords:
		s.of, s.kind = quantity.Length, byShare
	case *twists:
		s.of, s.kind = quantity.Angle, byShare
	case *coefficientsForm:
		s.form = reflect.New(reflect.TypeFor[ownCoefficientsForm]()).Elem()
	case *bodyAt:
		s.form = reflect.New(reflect.TypeFor[point]()).Elem()
	case *axis:
		s.form = reflect.New(reflect.TypeFor[directionForm]()).Elem()
	case *setting, *unknownForm:
		s.kind = aFigure
	}
	return s
}

// longKeys are the keys of a quantity's long form.
var longKeys = [...]string{"is", "basis", "times", "plus"}

// below returns the spot under a key.
func (s spot) below(key string) spot {
	switch s.kind {
	case byShare:
		return spot{form: s.form, of: s.of, kind: aFigure}
	case structure:
	default:
		return spot{}
	}
	if s.form.Kind() == reflect.Slice {
		return spotOf(s.form.Type().Elem())
	}
	if p, ok := s.form.Addr().Interface().(parts); ok {
		return spotOf(p.part())
	}
	if s.form.Kind() != reflect.Struct {
		return spot{}
	}
	for _, f := range fieldsOf(s.form) {
		if f.rest {
			if p, ok := f.value.Addr().Interface().(parts); ok {
				return spotOf(p.part())
			}
		}
		if f.key == key {
			return spotOf(f.value.Type())
		}
	}
	return spot{}
}

// at returns the spot under keys.
func (s spot) at(keys []string) spot {
	for _, key := range keys {
		s = s.below(key)
	}
	return s
}

// short returns the key of a mapping whose value may stand in its place; empty where
// there is none.
func (s spot) short() string {
	if s.kind == aFigure || s.kind == byShare {
		return "is"
	}
	if s.form.IsValid() {
		if f, ok := s.form.Addr().Interface().(short); ok {
			return f.shortFor()
		}
	}
	return ""
}

// rank returns the place of a key in the order of the format; −1 where it has none.
func (s spot) rank(key string) int {
	switch {
	case s.kind == aFigure || s.kind == byShare:
		for i, k := range longKeys {
			if k == key {
				return i
			}
		}
		return -1
	case s.kind != structure || s.form.Kind() != reflect.Struct:
		return -1
	}
	if _, named := s.form.Addr().Interface().(parts); named {
		return -1
	}
	for i, f := range fieldsOf(s.form) {
		if f.key == key {
			return i
		}
	}
	return -1
}

// within returns the value at keys, nil where there is none.
func (n *node) within(keys []string) *node {
	for _, key := range keys {
		if n = n.child(key); n == nil {
			return nil
		}
	}
	return n
}

// child returns the value under a key of a mapping, or an item of a list by "[2]".
func (n *node) child(key string) *node {
	if n.kind != list {
		return n.get(key)
	}
	for i := range n.items {
		if indexKey(i) == key {
			return n.items[i]
		}
	}
	return nil
}

// keysTo parts a path into keys as the tree has them, items of lists as "[2]"; what the
// tree does not have is parted at its dots and brackets.
func (n *node) keysTo(path string) []string {
	if path == "" {
		return nil
	}
	if n != nil && n.kind == mapping {
		for _, e := range n.entries {
			rest, ok := strings.CutPrefix(path, e.key)
			if ok && (rest == "" || rest[0] == '.' && len(rest) > 1 || rest[0] == '[') {
				return append([]string{e.key}, e.value.keysTo(strings.TrimPrefix(rest, "."))...)
			}
		}
	}
	end := strings.IndexAny(path[1:], ".[") + 1
	if end == 0 {
		end = len(path)
	}
	var below *node
	if n != nil {
		below = n.child(path[:end])
	}
	return append([]string{path[:end]}, below.keysTo(strings.TrimPrefix(path[end:], "."))...)
}
