package boatfile

import (
	"reflect"
	"slices"
	"strings"
)

// Field is one value of a boat file as a form shows it: what stands in the file or in
// one that it is like, or what may be written.
type Field struct {
	Path    string    // that [Set] takes
	Part    string    // path of the part that it belongs to: "foils.main.pieces.arm"
	Row     string    // path of the point or table that it belongs to; empty where it stands alone
	Label   string    // in words: "chord at 60 %"
	Help    string    // what it means
	Kind    FieldKind // what is wanted
	Example string    // of what one writes; empty where any words will do
	Options []string  // what there is to choose from, if only that
	Text    string    // as it stands; empty where it is not written
	Basis   string    // where a quantity comes from
	Times   string    // shared unknown that a quantity is multiplied by
	Plus    string    // shared unknown that is added to it
	Where   Place     // the zero Place where it is not written
}

// FieldKind is what a field wants.
type FieldKind string

// The kinds of fields.
const (
	QuantityField FieldKind = "quantity"
	SettingField  FieldKind = "setting" // a quantity or a range; what it sets tells the unit
	WordsField    FieldKind = "words"
	YesField      FieldKind = "yes or no"
	NamesField    FieldKind = "names"
)

// Fields lists the values of a boat file, with what it is like merged in, in the order
// of the format, and after those of each part what else may be written there. A text
// need not be a boat yet; the error is [Faults] where it cannot be taken apart.
func Fields(name string, text []byte, open Opener) ([]Field, error) {
	l := loader{open: open}
	root := l.load(name, text, nil)
	if root == nil || l.torn {
		return nil, l.faults.err()
	}
	f := fielder{}
	f.structure(formOf(root), root, nil, fieldSite{})
	return f.fields, nil
}

// mostFields is how many fields are listed: more than any form would show.
const mostFields = 3000

// fielder collects fields.
type fielder struct{ fields []Field }

// fieldSite is where a walk through a file has got to.
type fieldSite struct {
	part  []string // keys of the part
	row   []string // keys of the row, if any
	help  string
	basis string // of the mappings around
}

func (f *fielder) add(s spot, n *node, keys []string, at fieldSite) {
	if len(f.fields) >= mostFields {
		return
	}
	field := Field{
		Path: pathOf(keys), Part: pathOf(at.part), Row: pathOf(at.row), Help: at.help, Basis: at.basis,
		Label: labelOf(keys[min(len(at.part), len(keys)-1):]),
	}
	field.Kind, field.Example, field.Options = s.wants()
	if n != nil {
		is := n
		if n.kind == mapping {
			is = n.get("is").orNone()
			for key, into := range map[string]*string{"basis": &field.Basis, "times": &field.Times, "plus": &field.Plus} {
				if said := n.get(key); said != nil && said.kind == scalar {
					*into = said.text
				}
			}
		}
		field.Text, field.Where = is.String(), is.place
	}
	f.fields = append(f.fields, field)
}

// labelOf returns keys as words: "chord at 60 %", "path 2 x".
func labelOf(keys []string) string {
	var words []string
	for _, key := range keys {
		switch {
		case strings.HasPrefix(key, "["):
			words = append(words, strings.Trim(key, "[]"))
		case len(words) > 0 && key[0] >= '0' && key[0] <= '9':
			words = append(words, "at", key)
		default:
			words = append(words, key)
		}
	}
	return strings.Join(words, " ")
}

// wants returns what a spot takes.
func (s spot) wants() (FieldKind, string, []string) {
	if s.kind == aFigure || s.kind == byShare {
		if _, set := s.form.Addr().Interface().(*setting); set || s.form.Type() == reflect.TypeFor[unknownForm]() {
			return SettingField, "", nil
		}
		return QuantityField, s.of.Example(), nil
	}
	if !s.form.IsValid() {
		return WordsField, "", nil
	}
	switch form := s.form.Addr().Interface().(type) {
	case *yes:
		return YesField, "", []string{"true", "false"}
	case *nameList, *shareList:
		return NamesField, "", nil
	case *directionForm:
		return WordsField, "", []string{"x", "y", "z"}
	case *ownCoefficientsForm:
		return WordsField, "jib", nil
	case short:
		return s.below(form.shortFor()).wants()
	}
	return WordsField, "", nil
}

// value lists what stands at keys.
func (f *fielder) value(s spot, n *node, keys []string, at fieldSite) {
	switch {
	case n.kind == scalar, s.kind == aFigure, s.kind == byShare && n.kind == mapping && n.get("is") != nil:
		f.add(s, n, keys, at)
	case s.kind == byShare && n.kind == mapping:
		at.row = keys
		for _, e := range n.entries {
			f.add(s.below(e.key), e.value, extended(keys, e.key), at)
		}
	case n.kind == list:
		f.list(s, n, keys, at)
	case s.kind == structure && s.form.Kind() == reflect.Struct:
		f.structure(s, n, keys, at)
	}
}

// list lists the items of a list: names on one line, points each on a row.
func (f *fielder) list(s spot, n *node, keys []string, at fieldSite) {
	if kind, _, _ := s.wants(); s.form.Kind() != reflect.Slice || kind == NamesField {
		f.add(s, n, keys, at)
		return
	}
	for i, item := range n.items {
		own := extended(keys, indexKey(i))
		inner := at
		inner.row = own
		f.value(s.below(indexKey(i)), item, own, inner)
	}
}

// structure lists a mapping with keys of the format, or parts by name.
func (f *fielder) structure(s spot, n *node, keys []string, at fieldSite) {
	if n.kind != mapping {
		return
	}
	if _, named := s.form.Addr().Interface().(parts); named {
		for _, e := range n.entries {
			inner := at
			if below := s.below(e.key); below.kind == structure && e.value.kind == mapping {
				inner.part, inner.row = extended(keys, e.key), nil
			} else if len(keys) == 1 {
				inner.part = keys
			}
			f.value(s.below(e.key), e.value, extended(keys, e.key), inner)
		}
		return
	}
	if len(keys) == 1 {
		at.part = keys
	}
	if b := n.get("basis"); b != nil && b.kind == scalar {
		at.basis = b.text
	}
	if s.form.Type() == reflect.TypeFor[point]() || s.form.Type() == reflect.TypeFor[directionForm]() {
		at.row = keys
	}
	described := descriptions(s.form.Type())
	known := []string{}
	for i, field := range fieldsOf(s.form) {
		inner := at
		inner.help = described[i]
		if field.rest {
			rest := *n
			rest.entries = slices.DeleteFunc(slices.Clone(n.entries), func(e entry) bool { return slices.Contains(known, e.key) })
			f.value(spotOf(field.value.Type()), &rest, keys, inner)
			continue
		}
		known = append(known, field.key)
		if _, fixed := field.value.Addr().Interface().(*version); fixed {
			continue
		}
		if value := n.get(field.key); value != nil {
			f.value(spotOf(field.value.Type()), value, extended(keys, field.key), inner)
		}
	}
	f.absent(s, n, keys, at)
}

// absent lists what is not written and may be, of single values.
func (f *fielder) absent(s spot, n *node, keys []string, at fieldSite) {
	described := descriptions(s.form.Type())
	for i, field := range fieldsOf(s.form) {
		of := spotOf(field.value.Type())
		single := of.kind == aFigure || of.kind == byShare || of.short() != ""
		switch of.form.Addr().Interface().(type) {
		case *words, *yes:
			single = true
		}
		if field.rest || !single || n.get(field.key) != nil {
			continue
		}
		inner := at
		inner.help = described[i]
		f.add(of, nil, extended(keys, field.key), inner)
	}
}

// descriptions returns what the keys of a struct of the format mean, in the order of
// its fields.
func descriptions(t reflect.Type) []string {
	var out []string
	for i := range t.NumField() {
		f := t.Field(i)
		switch {
		case f.Anonymous && f.Type.Kind() == reflect.Struct && f.Tag.Get("json") == "":
			out = append(out, descriptions(f.Type)...)
		case f.IsExported():
			out = append(out, f.Tag.Get("jsonschema_description"))
		}
	}
	return out
}
