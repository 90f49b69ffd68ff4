// Package schema makes a JSON schema of a type.
package schema

import (
	"encoding/json"
	"reflect"
	"strings"
)

// Of is the JSON schema of a type as encoding/json writes it.
func Of(t reflect.Type) map[string]any {
	marshals := reflect.TypeFor[json.Marshaler]()
	switch {
	case t.Kind() == reflect.Pointer:
		s := Of(t.Elem())
		if kind, ok := s["type"].(string); ok {
			s["type"] = []any{kind, "null"}
		}
		return s
	case t.Implements(marshals):
		return map[string]any{} // as it likes
	}
	switch t.Kind() {
	case reflect.String:
		return map[string]any{"type": "string"}
	case reflect.Bool:
		return map[string]any{"type": "boolean"}
	case reflect.Float32, reflect.Float64:
		return map[string]any{"type": "number"}
	case reflect.Slice, reflect.Array:
		return map[string]any{"type": []any{"array", "null"}, "items": Of(t.Elem())}
	case reflect.Map:
		return map[string]any{"type": []any{"object", "null"}, "additionalProperties": Of(t.Elem())}
	case reflect.Interface:
		return map[string]any{}
	case reflect.Struct:
		fields := map[string]any{}
		required := []any{}
		addFields(t, fields, &required)
		return map[string]any{"type": "object", "properties": fields, "required": required, "additionalProperties": false}
	}
	return map[string]any{"type": "integer"}
}

func addFields(t reflect.Type, fields map[string]any, required *[]any) {
	for i := range t.NumField() {
		f := t.Field(i)
		name, how, _ := strings.Cut(f.Tag.Get("json"), ",")
		switch {
		case name == "-" || !f.IsExported() && !f.Anonymous:
		case f.Anonymous && name == "":
			e := f.Type
			if e.Kind() == reflect.Pointer {
				e = e.Elem()
			}
			addFields(e, fields, required)
		default:
			if name == "" {
				name = f.Name
			}
			fields[name] = Of(f.Type)
			if !strings.Contains(how, "omit") {
				*required = append(*required, name)
			}
		}
	}
}
