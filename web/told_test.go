package web

import (
	"encoding"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path"
	"reflect"
	"slices"
	"strings"
	"testing"
	"unicode"

	"foilwright/balance"
	"foilwright/compare"
	"foilwright/job"
	"foilwright/odds"
	"foilwright/polar"
	"foilwright/study"
	"foilwright/trim"
	"foilwright/why"
)

var writeTypes = flag.Bool("write-types", false, "write ui/src/lib/told.ts anew")

// told are the types that the page reads and writes, beside those that they hold.
func toldTypes() []reflect.Type {
	return []reflect.Type{
		reflect.TypeFor[Asked](), reflect.TypeFor[Told](), reflect.TypeFor[Heard](), reflect.TypeFor[Listed](), reflect.TypeFor[Setting](), reflect.TypeFor[study.Result](),
		reflect.TypeFor[Text](), reflect.TypeFor[Keep](), reflect.TypeFor[Saving](), reflect.TypeFor[Moving](), reflect.TypeFor[Refused](), reflect.TypeFor[Changed](),
		reflect.TypeFor[Heard](), reflect.TypeFor[JobAsked](), reflect.TypeFor[job.Request](), reflect.TypeFor[job.State](),
		reflect.TypeFor[study.CheckResult](), reflect.TypeFor[study.LeversResult](), reflect.TypeFor[study.ViewResult](),
		reflect.TypeFor[study.HeldResult](), reflect.TypeFor[study.Held](),
		reflect.TypeFor[trim.Result](), reflect.TypeFor[compare.Result](), reflect.TypeFor[polar.Result](), reflect.TypeFor[why.Result](),
		reflect.TypeFor[odds.Result](), reflect.TypeFor[study.Trim](), reflect.TypeFor[study.View](), reflect.TypeFor[study.Compare](),
		reflect.TypeFor[study.Polar](), reflect.TypeFor[study.Why](), reflect.TypeFor[study.Odds](), reflect.TypeFor[study.Check](), reflect.TypeFor[study.Levers](),
	}
}

// The page's types are those of the program, written from them.
func TestTypesOfThePage(t *testing.T) {
	w := &typeWriter{done: map[reflect.Type]string{}}
	for _, typ := range toldTypes() {
		w.name(typ)
	}
	slices.Sort(w.told)
	opens, err := json.Marshal(opening)
	if err != nil {
		t.Fatal(err)
	}
	text := "// Written from the program's types by: go test ./web -run TestTypesOfThePage -write-types\n\n" + strings.Join(w.told, "\n") +
		"\n// What is shown where the link says nothing; the program looks for its answers as it starts.\nexport const opening = " + string(opens) + " as const;\n"
	const file = "ui/src/lib/told.ts"
	if *writeTypes {
		if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if before, err := os.ReadFile(file); err != nil || string(before) != text {
		t.Errorf("%s is not what the program's types say (%v)\nWrite it with: go test ./web -run TestTypesOfThePage -write-types", file, err)
	}
}

// typeWriter writes types as TypeScript.
type typeWriter struct {
	done map[reflect.Type]string
	told []string
}

// name returns what a type is called in the page.
func (w *typeWriter) name(t reflect.Type) string {
	switch {
	case t == reflect.TypeFor[json.RawMessage]() || t.Kind() == reflect.Interface:
		return "unknown"
	case t == reflect.TypeFor[balance.DragByCause]():
		return "Record<string, number>" // by the names of causes
	case t.Kind() == reflect.Int && t.Implements(reflect.TypeFor[encoding.TextMarshaler]()):
		return "string"
	case t.Kind() == reflect.Pointer:
		return w.name(t.Elem()) + " | null"
	case t.Kind() == reflect.Slice:
		return bracketed(w.name(t.Elem())) + "[] | null"
	case t.Kind() == reflect.Array:
		return "[" + strings.TrimSuffix(strings.Repeat(w.name(t.Elem())+", ", t.Len()), ", ") + "]"
	case t.Kind() == reflect.Map:
		return "Record<string, " + w.name(t.Elem()) + ">"
	case t.Kind() == reflect.Struct:
		return w.structure(t)
	case t.Kind() == reflect.String:
		return "string"
	case t.Kind() == reflect.Bool:
		return "boolean"
	}
	return "number"
}

func bracketed(name string) string {
	if strings.Contains(name, "|") {
		return "(" + name + ")"
	}
	return name
}

// structure writes a struct, once, and returns its name: the package's, where the
// name alone would say little, before its own.
func (w *typeWriter) structure(t reflect.Type) string {
	if name, done := w.done[t]; done {
		return name
	}
	name, frames, _ := strings.Cut(t.Name(), "[")
	if frames != "" { // points and vectors read the same in every frame
		for other, told := range w.done {
			if strings.HasPrefix(other.Name(), name+"[") {
				return told
			}
		}
	}
	if pkg := path.Base(t.PkgPath()); pkg != "web" && pkg != "frame" {
		name = string(unicode.ToUpper(rune(pkg[0]))) + pkg[1:] + name
	}
	w.done[t] = name
	var out strings.Builder
	fmt.Fprintf(&out, "export interface %s {\n", name)
	w.fields(&out, t)
	w.told = append(w.told, out.String()+"}\n")
	return name
}

// fields writes the fields of a struct, those of structs embedded in it as its own.
func (w *typeWriter) fields(out *strings.Builder, t reflect.Type) {
	for i := range t.NumField() {
		f := t.Field(i)
		tag, options, _ := strings.Cut(f.Tag.Get("json"), ",")
		inner := f.Type
		if inner.Kind() == reflect.Pointer {
			inner = inner.Elem()
		}
		switch {
		case tag == "-" || !f.IsExported() && !f.Anonymous:
		case f.Anonymous && tag == "" && inner.Kind() == reflect.Struct:
			w.fields(out, inner)
		case !f.IsExported():
		default:
			if tag == "" {
				tag = f.Name
			}
			mark, name := "", w.name(f.Type)
			if strings.Contains(options, "omitempty") {
				mark, name = "?", strings.TrimSuffix(name, " | null") // nothing is left out, not written as null
			}
			fmt.Fprintf(out, "  %s%s: %s;\n", tag, mark, name)
		}
	}
}
