package export

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
)

// validator checks a document against the few words of JSON Schema that Schema
// uses: $ref, oneOf, const, type, properties, required, additionalProperties,
// items. It is written from the standard (draft 2020-12) and knows nothing of
// the types that the schema was made from.
type validator struct{ root map[string]any }

func newValidator(schema []byte) (validator, error) {
	var root map[string]any
	err := json.Unmarshal(schema, &root)
	return validator{root}, err
}

// check returns what is wrong with a document, "" for nothing.
func (v validator) check(doc []byte) string {
	var value any
	if err := json.Unmarshal(doc, &value); err != nil {
		return err.Error()
	}
	return v.against(v.root, value, "$")
}

func (v validator) against(s map[string]any, value any, at string) string {
	if ref, ok := s["$ref"].(string); ok {
		target, ok := v.resolve(ref)
		if !ok {
			return at + ": no definition " + ref
		}
		if why := v.against(target, value, at); why != "" {
			return why
		}
	}
	if want, ok := s["const"]; ok && want != value {
		return fmt.Sprintf("%s: %v is not %v", at, value, want)
	}
	if options, ok := s["oneOf"].([]any); ok {
		return v.oneOf(options, value, at)
	}
	if !typeFits(s["type"], value) {
		return fmt.Sprintf("%s: %T is not of type %v", at, value, s["type"])
	}
	switch value := value.(type) {
	case []any:
		if items, ok := s["items"].(map[string]any); ok {
			for i, x := range value {
				if why := v.against(items, x, fmt.Sprintf("%s[%d]", at, i)); why != "" {
					return why
				}
			}
		}
	case map[string]any:
		return v.object(s, value, at)
	}
	return ""
}

func (v validator) object(s, value map[string]any, at string) string {
	props, _ := s["properties"].(map[string]any)
	for _, r := range asList(s["required"]) {
		if _, ok := value[r.(string)]; !ok {
			return fmt.Sprintf("%s: lacks %v", at, r)
		}
	}
	for name, x := range value {
		p, ok := props[name].(map[string]any)
		if !ok {
			if s["additionalProperties"] == false {
				return fmt.Sprintf("%s: has an unknown field %s", at, name)
			}
			continue
		}
		if why := v.against(p, x, at+"."+name); why != "" {
			return why
		}
	}
	return ""
}

func (v validator) oneOf(options []any, value any, at string) string {
	fits := 0
	var whys []string
	for _, o := range options {
		if why := v.against(o.(map[string]any), value, at); why == "" {
			fits++
		} else {
			whys = append(whys, why)
		}
	}
	if fits == 1 {
		return ""
	}
	return fmt.Sprintf("%s: %d of the schemas fit, not one: %s", at, fits, strings.Join(whys, "; "))
}

func (v validator) resolve(ref string) (map[string]any, bool) {
	var at any = v.root
	for _, step := range strings.Split(strings.TrimPrefix(ref, "#/"), "/") {
		m, ok := at.(map[string]any)
		if !ok {
			return nil, false
		}
		at = m[step]
	}
	m, ok := at.(map[string]any)
	return m, ok
}

func asList(x any) []any {
	l, _ := x.([]any)
	return l
}

func typeFits(want any, value any) bool {
	switch want := want.(type) {
	case nil:
		return true
	case []any:
		return slices.ContainsFunc(want, func(w any) bool { return typeFits(w, value) })
	case string:
		switch value := value.(type) {
		case nil:
			return want == "null"
		case bool:
			return want == "boolean"
		case string:
			return want == "string"
		case float64:
			return want == "number" || want == "integer" && value == float64(int64(value))
		case []any:
			return want == "array"
		case map[string]any:
			return want == "object"
		}
	}
	return false
}
