package boatfile

import (
	"strings"
	"unicode/utf8"
)

// kind is what a node of a file is.
type kind int

const (
	scalar kind = iota
	mapping
	list
)

func (k kind) String() string { return [...]string{"a single value", "a mapping", "a list"}[k] }

// node is one value of a file, and remembers where it stands: after merging, a
// tree holds nodes of several files. Nodes are not changed once a sheet holds
// them.
type node struct {
	kind    kind
	text    string  // of a scalar
	quoted  string  // the quotation mark that a scalar stands in, if any
	entries []entry // of a mapping, in order
	items   []*node // of a list
	place   Place
	path    string // in the file where it stands
	scope   *scope // the shared unknowns that its names mean
}

// entry is one key of a mapping with its value.
type entry struct {
	key   string
	place Place // of the key
	value *node
}

// get returns the value of a key, nil where there is none.
func (n *node) get(key string) *node {
	if n == nil || n.kind != mapping {
		return nil
	}
	for i := range n.entries {
		if n.entries[i].key == key {
			return n.entries[i].value
		}
	}
	return nil
}

// with returns a copy of a mapping in which key has a value; a nil value
// removes the key.
func (n *node) with(key string, value *node) *node {
	m := *n
	m.entries = make([]entry, 0, len(n.entries)+1)
	found := false
	for _, e := range n.entries {
		if e.key == key {
			found = true
			if value == nil {
				continue
			}
			e.value = value
		}
		m.entries = append(m.entries, e)
	}
	if !found && value != nil {
		m.entries = append(m.entries, entry{key: key, place: value.place, value: value})
	}
	return &m
}

// walk calls do for n and all below it.
func (n *node) walk(do func(*node)) {
	do(n)
	for i := range n.entries {
		n.entries[i].value.walk(do)
	}
	for _, item := range n.items {
		item.walk(do)
	}
}

// String returns the node on one line, in YAML's flow style.
func (n *node) String() string {
	var b strings.Builder
	n.write(&b)
	return b.String()
}

func (n *node) write(b *strings.Builder) {
	switch n.kind {
	case scalar:
		b.WriteString(n.text)
	case mapping:
		b.WriteByte('{')
		for i, e := range n.entries {
			if i > 0 {
				b.WriteString(", ")
			}
			b.WriteString(e.key)
			b.WriteString(": ")
			e.value.write(b)
		}
		b.WriteByte('}')
	case list:
		b.WriteByte('[')
		for i, item := range n.items {
			if i > 0 {
				b.WriteString(", ")
			}
			item.write(b)
		}
		b.WriteByte(']')
	}
}

// below returns the path of a key under a path.
func below(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

// fault returns a fault at the node.
func (n *node) fault(path, problem, hint string) Fault {
	return Fault{File: n.place.File, Line: n.place.Line, Column: n.place.Column, Path: path, Problem: problem, Hint: hint}
}

// faultAt returns a fault some bytes into a scalar's text.
func (n *node) faultAt(path string, offset int, problem, hint string) Fault {
	f := n.fault(path, problem, hint)
	if f.Line > 0 && offset > 0 && offset <= len(n.text) && !strings.Contains(n.text, "\n") {
		f.Column += len(n.quoted) + utf8.RuneCountInString(n.text[:offset])
	}
	return f
}
