package boatfile

import (
	"encoding/json"
	"fmt"
	"reflect"
	"strings"

	"github.com/invopop/jsonschema"

	"foilwright/boat"
	"foilwright/quantity"
)

// schemaID names the schema of this version of the format.
const schemaID = "urn:foilwright:boat-file:1"

// Schema returns the JSON Schema (draft 2020-12) of boat files and of files of
// shared unknowns, written from the Go types that boat files are read into. It
// is looser than the reader where a file may leave out what it inherits: keys
// that must be there are the reader's to ask for, in the merged boat.
func Schema() ([]byte, error) {
	r := jsonschema.Reflector{
		ExpandedStruct:             true,
		RequiredFromJSONSchemaTags: true,
		Namer:                      definitionName,
	}
	boatSchema := r.Reflect(&boatForm{})
	boatSchema.Required = []string{"foilwright", "name"}
	shared := r.Reflect(&unknownsForm{})
	shared.Required = []string{"unknowns"}
	delete(boatSchema.Definitions, "boat")
	defs := boatSchema.Definitions
	for name, d := range shared.Definitions {
		defs[name] = d
	}
	for _, s := range []*jsonschema.Schema{boatSchema, shared} {
		s.Definitions, s.Version, s.ID = nil, "", ""
		mayBeNone(s)
	}
	for name, d := range defs {
		if name != "none" {
			mayBeNone(d)
		}
	}
	defs["none"] = &jsonschema.Schema{Const: none, Description: "removes what is inherited"}
	out := &jsonschema.Schema{
		Version:     jsonschema.Version,
		ID:          schemaID,
		Title:       "Foilwright boat file, version 1",
		Description: "A boat, or a file of unknowns that several boats share. Every quantity carries its unit.",
		AnyOf:       []*jsonschema.Schema{boatSchema, shared},
		Definitions: defs,
	}
	text, err := json.MarshalIndent(out, "", "  ")
	if err != nil {
		return nil, fmt.Errorf("internal error: the schema cannot be written: %w", err)
	}
	return append(text, '\n'), nil
}

// definitionName makes "foil" of foilForm and "named foil" of named[foilForm].
func definitionName(t reflect.Type) string {
	name := t.Name()
	if inside, ok := strings.CutPrefix(name, "named["); ok {
		name = "named " + inside[strings.LastIndexAny(inside, ".")+1:]
		name = strings.TrimRight(name, "]")
	}
	return strings.TrimSuffix(strings.TrimSuffix(name, "Form"), "Keys")
}

// mayBeNone lets every value of a mapping be `none` too.
func mayBeNone(s *jsonschema.Schema) {
	if s.Properties == nil && s.AdditionalProperties == nil {
		for _, option := range s.AnyOf {
			mayBeNone(option)
		}
		return
	}
	or := func(v *jsonschema.Schema) *jsonschema.Schema {
		mayBeNone(v)
		described := v.Description
		v.Description = ""
		return &jsonschema.Schema{Description: described, AnyOf: []*jsonschema.Schema{v, {Ref: "#/$defs/none"}}}
	}
	if s.Properties != nil {
		for p := s.Properties.Oldest(); p != nil; p = p.Next() {
			p.Value = or(p.Value)
		}
	}
	if a := s.AdditionalProperties; a != nil && (a.Ref != "" || a.Type != "" || len(a.AnyOf) > 0) {
		s.AdditionalProperties = or(a)
	}
}

// JSONSchemaAlias says that parts by name are a mapping in the file.
func (named[T]) JSONSchemaAlias() any { return map[string]T{} }

// anyOf returns a schema that holds where one of its options does.
func anyOf(options ...*jsonschema.Schema) *jsonschema.Schema {
	return &jsonschema.Schema{AnyOf: options}
}

// figureSchema is a quantity's text, or its long form.
func figureSchema(d quantity.Dimension) *jsonschema.Schema {
	text := &jsonschema.Schema{Type: "string", Pattern: `^[^a-zA-Z]*[0-9]`, Examples: []any{d.Example()}}
	is := []*jsonschema.Schema{text}
	if d == quantity.Number || d == quantity.Share {
		is = append(is, &jsonschema.Schema{Type: "number"})
	} else {
		// A unit's letters follow a digit somewhere.
		text.Pattern = `^[^a-zA-Z]*[0-9].*[0-9. ] *[a-zA-Z°µ]`
	}
	long := &jsonschema.Schema{Type: "object", Properties: jsonschema.NewProperties(), AdditionalProperties: jsonschema.FalseSchema, Required: nil}
	long.Properties.Set("is", anyOf(is...))
	long.Properties.Set("basis", &jsonschema.Schema{Type: "string", Description: "where it comes from"})
	long.Properties.Set("times", &jsonschema.Schema{Type: "string", Description: "shared unknown that it is multiplied by"})
	long.Properties.Set("plus", &jsonschema.Schema{Type: "string", Description: "shared unknown that is added to it"})
	s := anyOf(append(is, long)...)
	s.Title = d.String()
	s.Extras = map[string]any{"units": d.Units()} // for editors; no rule
	return s
}

// JSONSchema describes the type in the file's schema.
func (number) JSONSchema() *jsonschema.Schema { return figureSchema(quantity.Number) }

// JSONSchema describes the type in the file's schema.
func (share) JSONSchema() *jsonschema.Schema { return figureSchema(quantity.Share) }

// JSONSchema describes the type in the file's schema.
func (length) JSONSchema() *jsonschema.Schema { return figureSchema(quantity.Length) }

// JSONSchema describes the type in the file's schema.
func (area) JSONSchema() *jsonschema.Schema { return figureSchema(quantity.Area) }

// JSONSchema describes the type in the file's schema.
func (mass) JSONSchema() *jsonschema.Schema { return figureSchema(quantity.Mass) }

// JSONSchema describes the type in the file's schema.
func (angle) JSONSchema() *jsonschema.Schema { return figureSchema(quantity.Angle) }

// JSONSchema describes a quantity or range whose dimension the schema does not
// know.
func (setting) JSONSchema() *jsonschema.Schema {
	return anyOf(
		&jsonschema.Schema{Type: "string", MinLength: ptr(1), Examples: []any{"-8 to 14 deg", "at least 0.15 m"}},
		&jsonschema.Schema{Type: "number"}, longSetting())
}

func longSetting() *jsonschema.Schema {
	s := &jsonschema.Schema{Type: "object", Properties: jsonschema.NewProperties(), Required: []string{"is"}, AdditionalProperties: jsonschema.FalseSchema}
	for _, key := range []string{"is", "basis", "times", "plus"} {
		s.Properties.Set(key, anyOf(&jsonschema.Schema{Type: "string"}, &jsonschema.Schema{Type: "number"}))
	}
	return s
}

func ptr(n uint64) *uint64 { return &n }

// JSONSchema describes the type in the file's schema.
func (words) JSONSchema() *jsonschema.Schema {
	return anyOf(&jsonschema.Schema{Type: "string", MaxLength: ptr(500)}, &jsonschema.Schema{Type: "number"}, &jsonschema.Schema{Type: "boolean"})
}

// JSONSchema describes the type in the file's schema.
func (yes) JSONSchema() *jsonschema.Schema {
	return anyOf(&jsonschema.Schema{Type: "boolean"}, &jsonschema.Schema{Enum: []any{"yes", "no"}})
}

// JSONSchema describes the type in the file's schema.
func (version) JSONSchema() *jsonschema.Schema { return &jsonschema.Schema{Const: 1} }

// JSONSchema describes the type in the file's schema.
func (nameList) JSONSchema() *jsonschema.Schema {
	name := &jsonschema.Schema{Type: "string"}
	return anyOf(&jsonschema.Schema{Type: "array", Items: name}, name)
}

// JSONSchema describes the type in the file's schema.
func (shareList) JSONSchema() *jsonschema.Schema { return nameList{}.JSONSchema() }

// JSONSchema describes the type in the file's schema.
func (unknownForm) JSONSchema() *jsonschema.Schema {
	q := anyOf(&jsonschema.Schema{Type: "string"}, &jsonschema.Schema{Type: "number"})
	long := &jsonschema.Schema{Type: "object", Properties: jsonschema.NewProperties(), AdditionalProperties: jsonschema.FalseSchema}
	long.Properties.Set("is", q)
	long.Properties.Set("basis", &jsonschema.Schema{Type: "string", Description: "where it comes from"})
	return anyOf(q, long)
}

// stationSchema is one figure, or figures by share.
func stationSchema(d quantity.Dimension) *jsonschema.Schema {
	by := &jsonschema.Schema{Type: "object", AdditionalProperties: figureSchema(d),
		PropertyNames: &jsonschema.Schema{Pattern: `^[0-9.]+ *%?$`}}
	return anyOf(figureSchema(d), by)
}

// JSONSchema describes the type in the file's schema.
func (chords) JSONSchema() *jsonschema.Schema { return stationSchema(quantity.Length) }

// JSONSchema describes the type in the file's schema.
func (twists) JSONSchema() *jsonschema.Schema { return stationSchema(quantity.Angle) }

// JSONSchema describes the type in the file's schema.
func (axis) JSONSchema() *jsonschema.Schema {
	direction := &jsonschema.Schema{Type: "object", Properties: jsonschema.NewProperties(), AdditionalProperties: jsonschema.FalseSchema}
	for _, key := range []string{"x", "y", "z"} {
		direction.Properties.Set(key, figureSchema(quantity.Number))
	}
	return anyOf(&jsonschema.Schema{Enum: []any{"x", "y", "z"}}, direction)
}

// JSONSchema describes the type in the file's schema.
func (bodyAt) JSONSchema() *jsonschema.Schema {
	place := &jsonschema.Schema{Type: "object", Properties: jsonschema.NewProperties(), AdditionalProperties: jsonschema.FalseSchema}
	for _, key := range []string{"x", "y", "z"} {
		place.Properties.Set(key, figureSchema(quantity.Length))
	}
	return anyOf(&jsonschema.Schema{Type: "string"}, place)
}

// JSONSchema describes the type in the file's schema.
func (coefficientsForm) JSONSchema() *jsonschema.Schema {
	line := &jsonschema.Schema{Type: "object", Properties: jsonschema.NewProperties(), AdditionalProperties: jsonschema.FalseSchema}
	line.Properties.Set("lift", figureSchema(quantity.Number))
	line.Properties.Set("drag", figureSchema(quantity.Number))
	own := &jsonschema.Schema{Type: "object", Properties: jsonschema.NewProperties(), AdditionalProperties: line}
	own.Properties.Set("against", &jsonschema.Schema{Enum: []any{boat.WindAngle.String(), boat.Incidence.String()},
		Description: "the angle that lines go by; incidence is a strip's above zero lift, less what the wakes take off it"})
	own.Properties.Set("basis", &jsonschema.Schema{Type: "string", Description: "where its figures come from"})
	return anyOf(&jsonschema.Schema{Type: "string"}, own)
}

// limitNames stands in for limitsForm in the schema.
type limitNames struct{}

// JSONSchemaAlias says that limits have a schema of their own.
func (limitsForm) JSONSchemaAlias() any { return limitNames{} }

// JSONSchema describes limits: each by name, with a part before it or without.
func (limitNames) JSONSchema() *jsonschema.Schema {
	var kinds []string
	for _, k := range limitKinds {
		kinds = append(kinds, k.kind.String())
	}
	return &jsonschema.Schema{Type: "object", AdditionalProperties: setting{}.JSONSchema(),
		PropertyNames: &jsonschema.Schema{Pattern: "^(.+ )?(" + strings.Join(kinds, "|") + ")$"}}
}

// JSONSchemaExtend lets a mode name parts beside its own keys.
func (modeForm) JSONSchemaExtend(s *jsonschema.Schema) {
	s.AdditionalProperties = &jsonschema.Schema{Type: "object", AdditionalProperties: setting{}.JSONSchema()}
}

// JSONSchemaExtend lets a control be written as its range alone.
func (controlForm) JSONSchemaExtend(s *jsonschema.Schema) { orShort(s, setting{}.JSONSchema()) }

// JSONSchemaExtend lets a control be written as its range alone.
func (sailControlForm) JSONSchemaExtend(s *jsonschema.Schema) { orShort(s, setting{}.JSONSchema()) }

// JSONSchemaExtend lets a control be written as its range alone.
func (overridesForm) JSONSchemaExtend(s *jsonschema.Schema) { orShort(s, setting{}.JSONSchema()) }

// JSONSchemaExtend lets a foil's mass be written alone.
func (foilMass) JSONSchemaExtend(s *jsonschema.Schema) { orShort(s, figureSchema(quantity.Mass)) }

// JSONSchemaExtend lets a section be written as its name alone.
func (sectionForm) JSONSchemaExtend(s *jsonschema.Schema) {
	orShort(s, &jsonschema.Schema{Type: "string"})
}

// orShort turns a mapping's schema into one that a single value satisfies too.
func orShort(s *jsonschema.Schema, value *jsonschema.Schema) {
	long := *s
	*s = jsonschema.Schema{AnyOf: []*jsonschema.Schema{value, &long}}
}
