package design

import (
	"encoding/json"
	"strings"

	"rodwork/internal/units"
)

// PieceSchema returns the JSON Schema (draft 2020-12) of the piece file, made
// from the table that the reader itself works by.
func PieceSchema() []byte { return jsonSchema(pieceSchema, "Rodwork piece file") }

// ShopSchema returns the JSON Schema (draft 2020-12) of the shop file.
func ShopSchema() []byte { return jsonSchema(shopSchema, "Rodwork shop file") }

type obj = map[string]any

func jsonSchema(o *object, title string) []byte {
	defs := obj{}
	top := schemaOf(o, defs)
	top["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	top["title"] = title
	top["$defs"] = defs
	out, err := json.MarshalIndent(top, "", "  ")
	if err != nil {
		panic("design: the schema is no JSON: " + err.Error())
	}
	return append(out, '\n')
}

// schemaOf describes an object; objects inside it go to defs by their names.
func schemaOf(o *object, defs obj) obj {
	props, required := obj{}, []string{}
	for i := range o.fields {
		f := &o.fields[i]
		props[f.key] = fieldSchema(f, defs)
		if f.need {
			required = append(required, f.key)
		}
	}
	out := obj{"type": "object", "description": o.doc, "properties": props, "additionalProperties": false}
	if len(required) > 0 {
		out["required"] = required
	}
	if o.short == "" {
		return out
	}
	// The short form is one plain value, or the readings of a measured length.
	either := []any{out, fieldSchema(o.field(o.short), defs)}
	if o.short == "mean" {
		either = append(either, fieldSchema(o.field("readings"), defs))
	}
	return obj{"anyOf": either}
}

func ref(o *object, defs obj) obj {
	name := strings.ReplaceAll(o.name, " ", "_")
	if _, done := defs[name]; !done {
		defs[name] = obj{} // holds the place while its own fields are described
		defs[name] = schemaOf(o, defs)
	}
	return obj{"$ref": "#/$defs/" + name}
}

func fieldSchema(f *field, defs obj) obj {
	out := obj{}
	switch f.kind {
	case aQuantity, aCount:
		out = quantitySchema(f)
	case aWord:
		// '1' may stand as a number, and 'none' is always a text.
		var words []any
		for _, w := range f.words {
			words = append(words, w)
			if w == "1" {
				words = append(words, 1)
			}
		}
		out["enum"] = words
	case anObject:
		out = ref(f.sub, defs)
	case aList:
		out = obj{"type": "array", "items": ref(f.sub, defs), "maxItems": 500}
	case aTable:
		out = obj{"type": "object", "additionalProperties": ref(f.sub, defs)}
	case sizeTable:
		out = obj{"type": "object", "additionalProperties": obj{"type": []string{"number", "string"}}}
	case nameTable:
		out = obj{"type": "object", "additionalProperties": obj{"type": "string"}}
	case nameList, amountList:
		item := obj{"type": "string"}
		if f.kind == amountList {
			item = quantitySchema(f)
		} else if len(f.words) > 0 {
			item = obj{"enum": f.words}
		}
		out = obj{"anyOf": []any{obj{"type": "array", "items": item, "maxItems": 200}, item}}
	default:
		out["type"] = []string{"string", "number", "boolean"}
	}
	out["description"] = f.doc
	return out
}

// quantitySchema describes a number or a text with a unit or a formula. Only a
// bare number can be held to bounds, and only in the units that it is bare in,
// so bounds stand in the description.
func quantitySchema(f *field) obj {
	return obj{"type": []string{"number", "string"}, "$comment": f.dim.String() + ", " + bounds(f)}
}

// bounds prints a field's bounds for people.
func bounds(f *field) string {
	if f.dim == units.None || f.dim == units.Count {
		return printed(f.min, f.dim) + " to " + printed(f.max, f.dim)
	}
	return "from " + printed(f.min, f.dim) + " to " + printed(f.max, f.dim)
}
