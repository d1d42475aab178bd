package boatfile

import (
	"fmt"
	"reflect"
	"strings"
)

// readable is a part of the format that reads itself.
type readable interface {
	readNode(d *decoder, n *node, path string)
}

// standing is a part of the format that keeps where it stands.
type standing interface{ stand(n *node, path string) }

// short is a mapping that may be written as the value of one of its keys.
type short interface{ shortFor() string }

// site is where a part of a boat file stands; embedded in the types of the format.
type site struct {
	node *node
	path string
}

func (s *site) stand(n *node, path string) { s.node, s.path = n, path }

// given tells whether the part was written.
func (s *site) given() bool { return s.node != nil }

// decoder reads a tree into the types of the format, and collects every fault.
type decoder struct {
	faults Faults
	basis  []string // of the mappings around, the innermost last
}

// read reads a tree into form, a pointer to a struct.
func (d *decoder) read(form any, root *node) {
	d.value(reflect.ValueOf(form).Elem(), root, "")
}

func (d *decoder) fault(n *node, path, problem, hint string) {
	d.faults = append(d.faults, n.fault(path, problem, hint))
}

// value reads a node into v, which can be set.
func (d *decoder) value(v reflect.Value, n *node, path string) {
	switch p := v.Addr().Interface().(type) {
	case readable:
		p.readNode(d, n, path)
		return
	case short:
		if n.kind == scalar {
			d.short(v, n, path, p.shortFor())
			return
		}
	}
	switch v.Kind() {
	case reflect.Struct:
		d.mapping(v, n, path)
	case reflect.Slice:
		if n.kind != list {
			d.fault(n, path, n.kind.String()+" stands here, a list is wanted", "write  [first, second]")
			return
		}
		v.Set(reflect.MakeSlice(v.Type(), len(n.items), len(n.items)))
		for i, item := range n.items {
			d.value(v.Index(i), item, fmt.Sprintf("%s[%d]", path, i+1))
		}
	default:
		panic("internal error: the format has no rule for " + v.Type().String())
	}
}

// short reads a single value into the key that it stands for.
func (d *decoder) short(v reflect.Value, n *node, path, key string) {
	if s, ok := v.Addr().Interface().(standing); ok {
		s.stand(n, path)
	}
	for _, f := range fieldsOf(v) {
		if f.key == key {
			d.value(f.value, n, path)
		}
	}
}

// field is a key of a mapping and where its value goes.
type field struct {
	key   string
	need  string // what to write, where the key must be there
	rest  bool   // takes every key that no other field takes
	value reflect.Value
}

// fieldsOf returns the keys of a struct of the format, those of embedded
// structs included.
func fieldsOf(v reflect.Value) []field {
	var out []field
	for i := range v.NumField() {
		t := v.Type().Field(i)
		switch {
		case t.Anonymous && t.Type.Kind() == reflect.Struct && t.Tag.Get("json") == "":
			out = append(out, fieldsOf(v.Field(i))...)
		case t.IsExported():
			key, _, _ := strings.Cut(t.Tag.Get("json"), ",")
			out = append(out, field{key, t.Tag.Get("need"), key == "-", v.Field(i)})
		}
	}
	return out
}

// mapping reads a mapping into a struct.
func (d *decoder) mapping(v reflect.Value, n *node, path string) {
	if s, ok := v.Addr().Interface().(standing); ok {
		s.stand(n, path)
	}
	fields := fieldsOf(v)
	if n.kind != mapping {
		d.fault(n, path, n.kind.String()+" stands here, a mapping is wanted", "write  "+sample(fields))
		return
	}
	if b := n.get("basis"); b != nil && b.kind == scalar {
		d.basis = append(d.basis, b.text)
		defer func() { d.basis = d.basis[:len(d.basis)-1] }()
	}
	rest := &node{kind: mapping, place: n.place, path: n.path, scope: n.scope}
	for _, e := range n.entries {
		i := 0
		for i < len(fields) && (fields[i].rest || fields[i].key != e.key) {
			i++
		}
		if i == len(fields) {
			rest.entries = append(rest.entries, e)
			continue
		}
		d.value(fields[i].value, e.value, below(path, e.key))
	}
	d.left(fields, rest, path)
	for _, f := range fields {
		if f.need != "" && n.get(f.key) == nil {
			d.fault(n, path, f.key+" is missing", "write  "+f.need)
		}
	}
}

// left gives the keys that no field takes to the field for the rest, or
// faults them.
func (d *decoder) left(fields []field, rest *node, path string) {
	var known []string
	for _, f := range fields {
		if f.rest {
			if len(rest.entries) > 0 {
				d.value(f.value, rest, path)
			}
			return
		}
		known = append(known, f.key)
	}
	for _, e := range rest.entries {
		hint := nearest(e.key, known)
		if e.key == "basis" {
			hint = "say so in a comment, behind #"
		}
		d.faults = append(d.faults, Fault{File: e.place.File, Line: e.place.Line, Column: e.place.Column,
			Path: below(path, e.key), Problem: "no such key here", Hint: hint})
	}
}

// sample shows the keys of a mapping, for hints.
func sample(fields []field) string {
	var keys []string
	for _, f := range fields {
		if !f.rest && f.key != "basis" {
			keys = append(keys, f.key+": …")
		}
	}
	if len(keys) > 4 {
		keys = append(keys[:4], "…")
	}
	return "{" + strings.Join(keys, ", ") + "}"
}

// named is parts by name, in the order written.
type named[T any] struct {
	site
	items []namedItem[T]
}

type namedItem[T any] struct {
	name  string
	place Place // of the name
	part  T
}

func (m *named[T]) readNode(d *decoder, n *node, path string) {
	m.stand(n, path)
	if n.kind != mapping {
		d.fault(n, path, n.kind.String()+" stands here, parts by name are wanted", "write  name: {…}")
		return
	}
	m.items = make([]namedItem[T], len(n.entries))
	for i, e := range n.entries {
		m.items[i].name, m.items[i].place = e.key, e.place
		d.value(reflect.ValueOf(&m.items[i].part).Elem(), e.value, below(path, e.key))
	}
}

// names returns the parts' names.
func (m *named[T]) names() []string {
	names := make([]string, len(m.items))
	for i := range m.items {
		names[i] = m.items[i].name
	}
	return names
}

// find returns the index of a part, −1 where there is none.
func (m *named[T]) find(name string) int {
	for i := range m.items {
		if m.items[i].name == name {
			return i
		}
	}
	return -1
}

// words is a text for people, or a name.
type words struct {
	site
	text string
}

func (w *words) readNode(d *decoder, n *node, path string) {
	w.stand(n, path)
	if n.kind != scalar {
		d.fault(n, path, n.kind.String()+" stands here, a name or a few words are wanted", "")
		return
	}
	if len(n.text) > 500 {
		d.fault(n, path, fmt.Sprintf("%d characters are too many, 500 are allowed", len(n.text)), "keep notes in comments, behind #")
		return
	}
	w.text = n.text
}

// yes is true or false.
type yes struct {
	site
	is bool
}

func (y *yes) readNode(d *decoder, n *node, path string) {
	y.stand(n, path)
	switch {
	case n.kind == scalar && (n.text == "true" || n.text == "yes"):
		y.is = true
	case n.kind == scalar && (n.text == "false" || n.text == "no"):
	default:
		d.fault(n, path, "true or false is wanted", "write true or false")
	}
}

// version is the format's version.
type version struct{ site }

func (v *version) readNode(d *decoder, n *node, path string) {
	v.stand(n, path)
	if n.kind != scalar || n.text != "1" {
		d.fault(n, path, fmt.Sprintf("version %s of the format is not known", n), "write  foilwright: 1")
	}
}

// readInto reads a node into a struct of the format.
func (d *decoder) readInto(form any, n *node, path string) {
	d.value(reflect.ValueOf(form).Elem(), n, path)
}
