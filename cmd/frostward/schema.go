package main

import (
	"encoding/json"
	"fmt"
	"reflect"
	"strings"

	"github.com/spf13/cobra"
)

func newSchema(a *app) *cobra.Command {
	return &cobra.Command{
		Annotations: map[string]string{ownForm: "a JSON schema"},
		Use:         "schema COMMAND...",
		Short:       "The JSON schema of what a command writes under --format json",
		Long: `schema runs a command, with its arguments, and writes the JSON schema (draft 2020-12) of
its result for programs in place of the result.`,
		Example: `  frostward schema plan
  frostward schema when courgette`,
		Args:               takes(1, 9, "the name of a command"),
		DisableFlagParsing: true,
		RunE: func(c *cobra.Command, args []string) error {
			if args[0] == "--help" || args[0] == "-h" {
				return c.Help()
			}
			if args[0] == c.Name() {
				return usagef("schema: wanted a command that has a result for programs")
			}
			of := &app{world: a.world, schema: true}
			root := newRoot(of)
			root.SetArgs(append(args, "--format", "json"))
			if err := root.Execute(); err != nil {
				return err
			}
			return of.json.check()
		},
	}
}

// writeSchema writes the schema of a result in its place.
func (a *app) writeSchema(v any) error {
	s := schemaOf(reflect.TypeOf(v))
	fields := s["properties"].(map[string]any)
	fields["version"] = map[string]any{"const": jsonVersion}
	s["$schema"], s["title"] = "https://json-schema.org/draft/2020-12/schema", "frostward "+a.json.command+" --format json"
	text, err := json.MarshalIndent(s, "", "  ")
	if err != nil {
		return err
	}
	a.json.done = true
	_, err = fmt.Fprintf(a.json.to, "%s\n", text)
	return err
}

// schemaOf is the JSON schema of a type as encoding/json writes it.
func schemaOf(t reflect.Type) map[string]any {
	marshals := reflect.TypeFor[json.Marshaler]()
	switch {
	case t.Kind() == reflect.Pointer:
		s := schemaOf(t.Elem())
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
		return map[string]any{"type": []any{"array", "null"}, "items": schemaOf(t.Elem())}
	case reflect.Map:
		return map[string]any{"type": []any{"object", "null"}, "additionalProperties": schemaOf(t.Elem())}
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
			fields[name] = schemaOf(f.Type)
			if !strings.Contains(how, "omit") {
				*required = append(*required, name)
			}
		}
	}
}
