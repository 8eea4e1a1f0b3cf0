package export

import (
	"encoding/json"
	"fmt"
	"reflect"
	"slices"
	"strings"
)

// documents is every document, by the name in its head.
var documents = []struct {
	name string
	typ  reflect.Type
}{
	{"parts", reflect.TypeFor[Parts]()},
	{"bends", reflect.TypeFor[Bends]()},
	{"sheets", reflect.TypeFor[Sheets]()},
	{"steps", reflect.TypeFor[Steps]()},
	{"buy", reflect.TypeFor[Buy]()},
	{"check", reflect.TypeFor[Check]()},
	{"explain", reflect.TypeFor[Explain]()},
	{"all", reflect.TypeFor[All]()},
	{"rules", reflect.TypeFor[Rules]()},
	{"rule", reflect.TypeFor[RuleRun]()},
	{"diagnostics", reflect.TypeFor[Diagnostics]()},
}

// Schema returns the JSON Schema (draft 2020-12) of everything that --json
// prints, made from the types of this package and the doc tags on their fields.
func Schema() []byte {
	s := schemaWriter{defs: map[string]any{}}
	var oneOf []any
	for _, d := range documents {
		ref := s.ref(d.typ)
		oneOf = append(oneOf, map[string]any{
			"properties": map[string]any{"document": map[string]any{"const": d.name}},
			"$ref":       ref,
		})
	}
	root := map[string]any{
		"$schema":     "https://json-schema.org/draft/2020-12/schema",
		"title":       "Rodwork's documents",
		"description": "What rodwork prints with --json. Names of fields carry their units; a field that was once published is never removed.",
		"oneOf":       oneOf,
		"$defs":       s.defs,
	}
	b, err := json.MarshalIndent(root, "", "  ") // maps are printed in the order of their keys
	if err != nil {
		panic("export: a schema of strings cannot be written: " + err.Error())
	}
	return append(b, '\n')
}

type schemaWriter struct{ defs map[string]any }

// ref returns the reference to a struct's definition, and makes it first.
func (s schemaWriter) ref(t reflect.Type) string {
	name := t.Name()
	ref := "#/$defs/" + name
	if _, done := s.defs[name]; done {
		return ref
	}
	def := map[string]any{"type": "object", "additionalProperties": false}
	s.defs[name] = def // before its fields, which may refer back to it
	props, required := map[string]any{}, []string{}
	s.fields(t, props, &required)
	def["properties"], def["required"] = props, required
	return ref
}

func (s schemaWriter) fields(t reflect.Type, props map[string]any, required *[]string) {
	for i := range t.NumField() {
		f := t.Field(i)
		if f.Anonymous {
			s.fields(f.Type, props, required)
			continue
		}
		name, opt, _ := strings.Cut(f.Tag.Get("json"), ",")
		doc := f.Tag.Get("doc")
		if name == "" || doc == "" {
			panic(fmt.Sprintf("export: field %s.%s lacks its name or its doc", t.Name(), f.Name))
		}
		p := s.of(f.Type)
		p["description"] = doc
		props[name] = p
		if opt != "omitempty" {
			*required = append(*required, name)
		}
	}
}

func (s schemaWriter) of(t reflect.Type) map[string]any {
	if t == reflect.TypeFor[Number]() {
		return map[string]any{"type": []string{"number", "null"}}
	}
	switch t.Kind() {
	case reflect.Pointer:
		return s.of(t.Elem())
	case reflect.Struct:
		return map[string]any{"$ref": s.ref(t)}
	case reflect.Slice:
		return map[string]any{"type": "array", "items": s.of(t.Elem())}
	case reflect.String:
		return map[string]any{"type": "string"}
	case reflect.Bool:
		return map[string]any{"type": "boolean"}
	case reflect.Int:
		return map[string]any{"type": "integer"}
	}
	panic("export: no schema for " + t.String())
}

// Fields lists every field of every document as 'Definition.name', sorted: the
// names that must never go away.
func Fields() []string {
	s := schemaWriter{defs: map[string]any{}}
	for _, d := range documents {
		s.ref(d.typ)
	}
	return fieldNames(s.defs)
}

func fieldNames(defs map[string]any) []string {
	var out []string
	for name, def := range defs {
		for field := range def.(map[string]any)["properties"].(map[string]any) {
			out = append(out, name+"."+field)
		}
	}
	slices.Sort(out)
	return out
}
