package boatfile

import (
	"fmt"
	"path"
	"slices"
	"strconv"
	"strings"
)

// Change is one difference between two sheets, or an edit to one: a value, a
// list or a whole part. From and To are texts as they stand in the files, "none"
// where there is nothing. A Change that [Diff] made carries the value itself, so
// that an uncertain figure stays the unknown that it is; one made by hand gives
// Path and To, and its figure counts as standing in the file of the sheet that it
// is applied to.
type Change struct {
	Path         string // "foils.main.pieces.inner wing.path"
	From, To     string
	FromAt, ToAt Place

	keys  []string
	value *node
	shelf *shelf
}

// Keys returns the path's keys, outermost first; an item of a list is "[2]".
func (c Change) Keys() []string {
	if c.keys != nil {
		return slices.Clone(c.keys)
	}
	return strings.Split(c.Path, ".")
}

// String returns "path: from → to".
func (c Change) String() string { return c.Path + ": " + c.From + " → " + c.To }

// Diff returns what must change for a to become b, in the order of a's file, then
// what only b has. Words for people (names, basis, datum) do not count. Two
// uncertain figures differ also where they have the same text and are not the
// same unknown: their draws differ.
func Diff(a, b *Sheet) []Change {
	c := comparison{a: a, b: b}
	c.mappings(a.root, b.root, nil)
	return c.changes
}

// DiffOfPoints is Diff, but a list of points that has as many points in both
// sheets is told coordinate by coordinate ("foils.main.pieces.wing.path[2].z")
// and not as a whole: the droop of a wing is then one change, its span another.
func DiffOfPoints(a, b *Sheet) []Change {
	c := comparison{a: a, b: b, parting: pointByPoint}
	c.mappings(a.root, b.root, nil)
	return c.changes
}

// comparison collects the differences of two sheets.
type comparison struct {
	a, b    *Sheet
	parting parting
	changes []Change
}

// parting is how far lists are taken apart.
type parting int

const (
	listByList parting = iota
	pointByPoint
)

// points tells whether two lists hold as many points, so that they can be told
// coordinate by coordinate.
func points(a, b *node) bool {
	if a.kind != list || b.kind != list || len(a.items) != len(b.items) {
		return false
	}
	for _, items := range [2][]*node{a.items, b.items} {
		for _, item := range items {
			if item.kind != mapping || slices.ContainsFunc(item.entries, func(e entry) bool { return e.key != "x" && e.key != "y" && e.key != "z" }) {
				return false
			}
		}
	}
	return true
}

func (c *comparison) mappings(a, b *node, keys []string) {
	for _, e := range a.entries {
		c.values(e.value, b.get(e.key), extended(keys, e.key))
	}
	for _, e := range b.entries {
		if a.get(e.key) == nil {
			c.values(nil, e.value, extended(keys, e.key))
		}
	}
}

// indexKey is the key of an item of a list, counted from 1 as in the files' paths.
func indexKey(i int) string { return fmt.Sprintf("[%d]", i+1) }

// pathOf joins keys to a path as faults show it.
func pathOf(keys []string) string {
	return strings.ReplaceAll(strings.Join(keys, "."), ".[", "[")
}

func extended(keys []string, key string) []string { return append(slices.Clone(keys), key) }

func (c *comparison) values(a, b *node, keys []string) {
	at := pathOf(keys)
	if wordKeys(at) || at == "name" {
		return
	}
	if a != nil && b != nil {
		if a.kind == mapping && b.kind == mapping && a.get("is") == nil && b.get("is") == nil {
			c.mappings(a, b, keys)
			return
		}
		if c.same(a, b) {
			return
		}
		if c.parting == pointByPoint && points(a, b) {
			for i := range a.items {
				c.mappings(a.items[i], b.items[i], extended(keys, indexKey(i)))
			}
			return
		}
	}
	change := Change{Path: at, From: none, To: none, keys: keys, value: b, shelf: &c.b.shelf}
	if a != nil {
		change.From, change.FromAt = a.String(), a.place
	}
	if b != nil {
		change.To, change.ToAt = b.String(), b.place
	}
	c.changes = append(c.changes, change)
}

// same tells whether two values are the same figures and the same unknowns.
func (c *comparison) same(a, b *node) bool {
	if a.kind != b.kind || len(a.items) != len(b.items) {
		return false
	}
	switch a.kind {
	case list:
		for i := range a.items {
			if !c.same(a.items[i], b.items[i]) {
				return false
			}
		}
		return true
	case mapping:
		for _, e := range a.entries {
			if e.key == "basis" {
				continue
			}
			other := b.get(e.key)
			switch {
			case other == nil:
				return false
			case e.key == "times" || e.key == "plus":
				u, _, _ := e.value.scope.find(e.value.text)
				v, _, _ := other.scope.find(other.text)
				if u == nil || v == nil || u.Identity != v.Identity {
					return false
				}
			case !c.same(e.value, other):
				return false
			}
		}
		for _, e := range b.entries {
			if e.key != "basis" && a.get(e.key) == nil {
				return false
			}
		}
		return true
	}
	if a.text != b.text && !sameFigures(a.text, b.text) {
		return false
	}
	mine, theirs := Identity{a.place.File, ownName(a)}, Identity{b.place.File, ownName(b)}
	if mine != theirs && (c.a.uncertain(mine) || c.b.uncertain(theirs)) {
		return false
	}
	// The same name of a file means another file in another folder.
	one, other := path.Join(path.Dir(a.place.File), a.text), path.Join(path.Dir(b.place.File), b.text)
	return one == other || !c.a.shelf.holds(one) && !c.b.shelf.holds(other)
}

// sameFigures tells whether two texts that begin with a number say the same, word by
// word and number by number: 0.050 m and 0.05 m do.
func sameFigures(one, other string) bool {
	a, b := strings.Fields(one), strings.Fields(other)
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		x, errX := strconv.ParseFloat(a[i], 64)
		y, errY := strconv.ParseFloat(b[i], 64)
		numbers := errX == nil && errY == nil
		if i == 0 && !numbers || numbers && x != y || !numbers && a[i] != b[i] {
			return false
		}
	}
	return len(a) > 0
}

// uncertain tells whether one of the sheet's unknowns has the identity.
func (s *Sheet) uncertain(id Identity) bool {
	_, found := slices.BinarySearchFunc(s.unknowns, id, func(u Unknown, id Identity) int { return u.Identity.compare(id) })
	return found
}

// With returns the sheet with changes made to it. The error is [Faults], as for
// a file that says what the changed sheet says.
func (s *Sheet) With(changes []Change) (*Sheet, error) {
	out := &Sheet{file: s.file, root: s.root, open: s.open, pulled: slices.Clone(s.pulled)}
	out.shelf.peaks = s.shelf.peaks
	out.shelf.keep(&s.shelf)
	var faults Faults
	for _, c := range changes {
		if c.shelf != nil {
			out.shelf.keep(c.shelf)
		}
		keys, value := c.keys, c.value
		if keys == nil {
			keys = s.root.keysOf(c.Path)
			value = nil
			if c.To != none {
				n, bad := s.written(c)
				if bad != nil {
					faults = append(faults, bad...)
					continue
				}
				value = n
			}
		}
		if len(keys) == 0 || wordKeys(keys[0]) {
			faults = append(faults, Fault{File: s.file, Path: c.Path, Problem: "this is not a figure of the boat that can be changed",
				Hint: "give the path of a value, such as sails.main.area"})
			continue
		}
		out.root = out.root.set(keys, value)
	}
	if err := faults.err(); err != nil {
		return nil, err
	}
	return out.settle(nil)
}

// written returns the value of a change that was made by hand.
func (s *Sheet) written(c Change) (*node, Faults) {
	text := strings.TrimSpace(c.To)
	if !strings.HasPrefix(text, "{") && !strings.HasPrefix(text, "[") {
		return &node{kind: scalar, text: text, place: Place{File: s.file}, path: c.Path, scope: s.root.scope}, nil
	}
	root, faults := parse(s.file, []byte("to: "+text))
	if len(faults) > 0 || root == nil || root.get("to") == nil {
		for i := range faults {
			faults[i].Line, faults[i].Column, faults[i].Path = 0, 0, c.Path
		}
		if len(faults) == 0 {
			faults = Faults{{File: s.file, Path: c.Path, Problem: fmt.Sprintf("%q cannot be read", text)}}
		}
		return nil, faults
	}
	value := root.get("to")
	value.walk(func(n *node) {
		n.place, n.scope = Place{File: s.file}, s.root.scope
		n.path = c.Path + strings.TrimPrefix(n.path, "to")
	})
	return value, nil
}

// keysOf parts a path into keys, which may have dots themselves.
func (n *node) keysOf(text string) []string {
	if text == "" {
		return nil
	}
	if n != nil {
		for _, e := range n.entries {
			if e.key == text {
				return []string{text}
			}
			if rest, ok := strings.CutPrefix(text, e.key+"."); ok {
				return append([]string{e.key}, e.value.keysOf(rest)...)
			}
		}
	}
	return strings.Split(text, ".")
}

// set returns the tree with the value at keys replaced; nil removes it.
func (n *node) set(keys []string, value *node) *node {
	if n.kind == list {
		m := *n
		m.items = slices.Clone(n.items)
		for i := range m.items {
			if indexKey(i) == keys[0] && len(keys) > 1 {
				m.items[i] = m.items[i].set(keys[1:], value)
			}
		}
		return &m
	}
	if len(keys) == 1 {
		return n.with(keys[0], value)
	}
	child := n.get(keys[0])
	if child == nil || child.kind != mapping && (child.kind != list || !strings.HasPrefix(keys[1], "[")) {
		if value == nil {
			return n
		}
		child = &node{kind: mapping, place: value.place, path: below(n.path, keys[0]), scope: value.scope}
	}
	return n.with(keys[0], child.set(keys[1:], value))
}
