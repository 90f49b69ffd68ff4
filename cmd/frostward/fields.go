package main

import (
	_ "embed"
	"fmt"
	"io"
	"reflect"
	"slices"
	"strings"

	"frostward/cmd/internal/schema"

	"github.com/spf13/cobra"
)

// fieldLines say what each name in a result means: name, unit and words, parted by tabs, a name once for all commands.
//
//go:embed fields.tsv
var fieldLines string

// results are what the commands write under --format json, with each form of those that have several.
var results = []struct {
	command string
	of      any
}{
	{"check", checkJSON{}}, {"crops", cropsJSON{}}, {"crops", cropJSON{}}, {"did", statesJSON{}}, {"did", deedJSON{}}, {"frosts", frostsJSON{}},
	{"log", logJSON{}}, {"log", loggedJSON{}}, {"log", tookBackJSON{}}, {"move", moveJSON{}}, {"outlook", outlookJSON{}}, {"plan", planJSON{}},
	{"plan", seasonStoryJSON{}}, {"record", addedJSON{}}, {"skill", skillJSON{}}, {"skill", outlookSkillJSON{}}, {"skill", spotsSkillJSON{}},
	{"skill", nightsSkillJSON{}}, {"skill", forecastsSkillJSON{}}, {"sow", sowJSON{}}, {"spots", spotsJSON{}}, {"start", startJSON{}},
	{"tonight", tonightJSON{}}, {"warmth", warmthJSON{}}, {"week", weekJSON{}}, {"when", whenJSON{}},
}

// newFields is a page of the help and no command: "frostward help fields".
func newFields(a *app) *cobra.Command {
	c := &cobra.Command{Use: "fields", Short: "The names in results for programs, with units"}
	c.SetHelpFunc(func(*cobra.Command, []string) { writeFields(a.out) })
	return c
}

// fieldNames are the names in the results, each with the commands that have it.
func fieldNames() map[string][]string {
	names := map[string][]string{"version": {"all"}}
	var walk func(schema map[string]any, command string)
	walk = func(schema map[string]any, command string) {
		if items, ok := schema["items"].(map[string]any); ok {
			walk(items, command)
		}
		fields, _ := schema["properties"].(map[string]any)
		for name, of := range fields {
			if !slices.Contains(names[name], command) {
				names[name] = append(names[name], command)
			}
			walk(of.(map[string]any), command)
		}
	}
	for _, r := range results {
		walk(schema.Of(reflect.TypeOf(r.of)), r.command)
	}
	return names
}

// writeFields prints the page: a line a name, of JSON and of the headings of CSV.
func writeFields(w io.Writer) {
	fmt.Fprint(w, `The names in results for programs (--format json and csv), with units and the commands that have them.

Temperatures are in °C, whatever is shown; a date is 2026-05-28, a day of any year 05-28 (MM-DD). What is not
known is null in JSON and empty in CSV. A chance is an object with share, low and high (its 90 % interval), the
seasons it rests on and those left out; CSV has NAME, NAME_low and NAME_high. "version" changes when a field
goes or changes its meaning. "frostward schema COMMAND" has the form of each result.

`)
	commands := fieldNames()
	for line := range strings.Lines(fieldLines) {
		f := strings.Split(strings.TrimSuffix(line, "\n"), "\t")
		of := "csv"
		if c := commands[f[0]]; len(c) > 5 {
			of = "many"
		} else if len(c) > 0 {
			of = strings.Join(c, ", ")
		}
		fmt.Fprintf(w, "  %s (%s): %s\n", f[0], of, strings.TrimSuffix(f[1]+"; "+f[2], "; "))
	}
}
