package main

import (
	"encoding/json"
	"fmt"
	"reflect"

	"frostward/cmd/internal/schema"

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
	s := schema.Of(reflect.TypeOf(v))
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
