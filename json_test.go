package foilwright_test

import (
	"encoding/json"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"foilwright/balance"
	"foilwright/boat"
	"foilwright/compare"
	"foilwright/odds"
	"foilwright/polar"
	"foilwright/sail"
	"foilwright/study"
	"foilwright/trim"
	"foilwright/why"
)

// jsonSections are the sections of docs/json.md and the types that each tells.
// Inside another section such a type is named and not told again.
func jsonSections() map[string]reflect.Type {
	return map[string]reflect.Type{
		"Every verb":              reflect.TypeFor[study.Result](),
		"Question of check":       reflect.TypeFor[study.Check](),
		"Question of levers":      reflect.TypeFor[study.Levers](),
		"Question of tow":         reflect.TypeFor[study.Tow](),
		"Question of sweep":       reflect.TypeFor[study.Sweep](),
		"Question of sensitivity": reflect.TypeFor[study.Sensitivity](),
		"Question of trim":        reflect.TypeFor[study.Trim](),
		"Question of compare":     reflect.TypeFor[study.Compare](),
		"check":                   reflect.TypeFor[study.CheckResult](),
		"levers":                  reflect.TypeFor[study.LeversResult](),
		"tow":                     reflect.TypeFor[study.TowResult](),
		"sweep":                   reflect.TypeFor[study.SweepResult](),
		"sensitivity":             reflect.TypeFor[study.SensitivityResult](),
		"trim":                    reflect.TypeFor[trim.Result](),
		"view":                    reflect.TypeFor[study.ViewResult](),
		"hold":                    reflect.TypeFor[study.HeldResult](),
		"Question of view":        reflect.TypeFor[study.View](),
		"Question of hold":        reflect.TypeFor[study.Held](),
		"polar":                   reflect.TypeFor[polar.Result](),
		"Take-off":                reflect.TypeFor[polar.TakeOff](),
		"A rung":                  reflect.TypeFor[polar.Rung](),
		"A point of a polar":      reflect.TypeFor[polar.Point](),
		"An end of a band":        reflect.TypeFor[polar.BandEnd](),
		"Question of polar":       reflect.TypeFor[study.Polar](),
		"Question of odds":        reflect.TypeFor[study.Odds](),
		"odds":                    reflect.TypeFor[odds.Result](),
		"A boat of odds":          reflect.TypeFor[odds.Figure](),
		"A pair of odds":          reflect.TypeFor[odds.Pair](),
		"A distribution":          reflect.TypeFor[odds.Distribution](),
		"A share of odds":         reflect.TypeFor[odds.Share](),
		"compare":                 reflect.TypeFor[compare.Result](),
		"why":                     reflect.TypeFor[why.Result](),
		"A row of a split":        reflect.TypeFor[why.Row](),
		"Question of why":         reflect.TypeFor[study.Why](),
		"A control":               reflect.TypeFor[trim.Setting](),
		"A load":                  reflect.TypeFor[trim.Load](),
		"The centres of a foil":   reflect.TypeFor[balance.Centre](),
		"A margin":                reflect.TypeFor[trim.Margin](),
		"A budget":                reflect.TypeFor[balance.Budget](),
		"A sail":                  reflect.TypeFor[sail.Report](),
		"A difference":            reflect.TypeFor[compare.Difference](),
	}
}

// docs/json.md tells every name that the program writes, and no other.
func TestJSONIsDocumented(t *testing.T) {
	told := toldNames(readDoc(t, "docs/json.md"))
	sections := jsonSections()
	for title, typ := range sections {
		written := jsonNames(typ)
		for _, name := range written {
			if !slices.Contains(told[title], name) {
				t.Errorf("docs/json.md, %s: %s is not told", title, name)
			}
		}
		for _, name := range told[title] {
			if !slices.Contains(written, name) {
				t.Errorf("docs/json.md, %s: %s does not exist", title, name)
			}
		}
	}
	for title := range told {
		if _, known := sections[title]; !known && title != "Drag by cause" {
			t.Errorf("docs/json.md: section %q tells names of no type", title)
		}
	}
}

// Drag by cause writes itself: its names are the causes.
func TestDragByCauseIsDocumented(t *testing.T) {
	var all balance.DragByCause
	for i := range all {
		all[i] = 1
	}
	text, err := json.Marshal(all)
	if err != nil {
		t.Fatal(err)
	}
	var written map[string]float64
	if err := json.Unmarshal(text, &written); err != nil {
		t.Fatal(err)
	}
	told := toldNames(readDoc(t, "docs/json.md"))["Drag by cause"]
	for name := range written {
		if !slices.Contains(told, name) {
			t.Errorf("docs/json.md: %s is not told", name)
		}
	}
	if len(told) != len(written) || len(written) == 0 || len(written) >= boat.Causes {
		t.Errorf("docs/json.md tells %d causes of drag, the program writes %d", len(told), len(written))
	}
}

// units are the suffixes that a name may end in.
var units = []string{"mps", "rad", "m", "m2", "m2ps", "N", "Nm", "kg", "K", "W"}

// What ends like a unit in small or large letters is that unit, written right.
func TestJSONUnits(t *testing.T) {
	for title, typ := range jsonSections() {
		for _, name := range jsonNames(typ) {
			last := name[strings.LastIndexAny(name, "_.")+1:]
			for _, unit := range units {
				if strings.EqualFold(last, unit) && last != unit && strings.Contains(name, "_") {
					t.Errorf("%s: %s ends in %s, want %s", title, name, last, unit)
				}
			}
		}
	}
}

var (
	heading = regexp.MustCompile(`(?m)^#+ (.+)$`)
	jsonRow = regexp.MustCompile("(?m)^\\| `([^`]+)` \\|")
)

// toldNames returns the names in the first column of the tables, by section.
func toldNames(text string) map[string][]string {
	told := map[string][]string{}
	heads := heading.FindAllStringSubmatchIndex(text, -1)
	for i, h := range heads {
		end := len(text)
		if i+1 < len(heads) {
			end = heads[i+1][0]
		}
		for _, m := range jsonRow.FindAllStringSubmatch(text[h[1]:end], -1) {
			title := text[h[2]:h[3]]
			told[title] = append(told[title], m[1])
		}
	}
	return told
}

// jsonNames walks a type the way encoding/json does and returns every name with
// its path: limits[].name. A type that writes itself, one that has a section of
// its own, and a vector or point (an object of x, y and z) end their path.
func jsonNames(typ reflect.Type) []string {
	var all []string
	walkJSON(typ, "", &all)
	return all
}

var marshaler = reflect.TypeFor[json.Marshaler]()

func walkJSON(typ reflect.Type, path string, all *[]string) {
	switch typ.Kind() {
	case reflect.Pointer:
		walkJSON(typ.Elem(), path, all)
		return
	case reflect.Slice, reflect.Array:
		if !typ.Implements(marshaler) {
			walkJSON(typ.Elem(), path+"[]", all)
		}
		return
	case reflect.Struct:
	default:
		return
	}
	if typ.Implements(marshaler) || isCoordinates(typ) || path != "" && hasSection(typ) {
		return
	}
	for field := range typ.Fields() {
		name, _, _ := strings.Cut(field.Tag.Get("json"), ",")
		switch {
		case name == "-" || !field.IsExported():
		case field.Anonymous && name == "":
			walkJSON(field.Type, path, all)
		default:
			if name == "" {
				name = field.Name
			}
			below := strings.TrimPrefix(path+"."+name, ".")
			*all = append(*all, below)
			walkJSON(field.Type, below, all)
		}
	}
}

func hasSection(typ reflect.Type) bool {
	for _, told := range jsonSections() {
		if told == typ {
			return true
		}
	}
	return false
}

// isCoordinates tells whether a struct is x, y and z alone.
func isCoordinates(typ reflect.Type) bool {
	return typ.NumField() == 3 && typ.Field(0).Name == "X" && typ.Field(1).Name == "Y" && typ.Field(2).Name == "Z"
}
