package main

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
)

// argsForPrograms are what commands want beside --format json to have an answer; a garden is made for those that write.
func argsForPrograms(t *testing.T, w world) map[string][]string {
	args := map[string][]string{
		"when": {"courgette"}, "sow": {"lettuce"}, "start": {filepath.Join(t.TempDir(), "yard")}, "stations": {"folder"},
	}
	yard, newer := filepath.Join(t.TempDir(), "yard"), filepath.Join(t.TempDir(), "newer.csv")
	require.NoError(t, os.WriteFile(newer, []byte("date,tmin_c,tmax_c\n2026-05-17,6.5,12\n"), 0o644))
	args["record"] = []string{"add", newer, "--garden", yard}
	args["move"] = []string{"early courgettes", "3 June", "--garden", yard}
	require.Equal(t, exitDone, run(w, []string{"start", yard}))
	return args
}

// Every command writes an object that is valid by the schema that the program gives for it under --format json, or
// refuses the option: none ignores it.
func TestEveryCommandAnswersPrograms(t *testing.T) {
	var o, e strings.Builder
	in := world{in: strings.NewReader(""), out: &o, err: &e, getenv: func(string) string { return "" },
		today: func() climate.Day { return climate.NewDay(2026, 5, 17) }}
	args := argsForPrograms(t, in)
	for _, c := range newRoot(&app{world: in}).Commands() {
		if c.GroupID == "" {
			continue // cobra's own
		}
		o.Reset()
		e.Reset()
		if form := c.Annotations[ownForm]; form != "" {
			if c.Name() != "schema" { // which passes its options on
				assert.Equal(t, exitUsage, run(in, append([]string{c.Name(), "--format", "json"}, args[c.Name()]...)), c.Name())
				assert.Contains(t, e.String(), form, c.Name())
			}
			continue
		}
		a := &app{world: in}
		root := newRoot(a)
		root.SetArgs(append([]string{c.Name(), "--format", "json"}, args[c.Name()]...))
		require.NoError(t, root.Execute(), "%s: %s", c.Name(), e.String())
		result, err := jsonschema.UnmarshalJSON(strings.NewReader(o.String()))
		require.NoError(t, err, c.Name())
		assert.Equal(t, json.Number(fmt.Sprint(jsonVersion)), result.(map[string]any)["version"], c.Name())
		assert.True(t, listed(a.json.value), "%s: not among the results that the page of fields knows", c.Name())

		o.Reset()
		require.NoError(t, a.writeSchema(a.json.value))
		kept, err := jsonschema.UnmarshalJSON(strings.NewReader(o.String()))
		require.NoError(t, err)
		compiler := jsonschema.NewCompiler()
		require.NoError(t, compiler.AddResource("schema.json", kept))
		schema, err := compiler.Compile("schema.json")
		require.NoError(t, err, c.Name())
		assert.NoError(t, schema.Validate(result), c.Name())
		result.(map[string]any)["unheard_of"] = 1
		assert.Error(t, schema.Validate(result), "%s: a field that the schema does not have", c.Name())
	}
}

// The command schema gives the schema of another's result in place of the result.
func TestSchemaCommand(t *testing.T) {
	var o, e strings.Builder
	in := world{in: strings.NewReader(""), out: &o, err: &e, getenv: func(string) string { return "" },
		today: func() climate.Day { return climate.NewDay(2026, 5, 17) }}
	require.Equal(t, exitDone, run(in, []string{"schema", "frosts"}), e.String())
	assert.Contains(t, o.String(), `"title": "frostward frosts --format json"`)
	assert.Contains(t, o.String(), `"on_or_after"`)
	assert.Equal(t, exitUsage, run(in, []string{"schema", "page"}))
	assert.Equal(t, exitUsage, run(in, []string{"schema", "schema"}))
}

// A command that forgets --format json fails, whatever it prints.
func TestForgottenJSONFails(t *testing.T) {
	var to strings.Builder
	a := &app{}
	a.json = &onlyJSON{to: &to, command: "forgetful"}
	_, err := a.json.Write([]byte("some text"))
	require.NoError(t, err)
	assert.ErrorContains(t, a.json.check(), "forgetful has no form for programs")
	assert.Empty(t, to.String())
	require.NoError(t, a.writeJSON(startJSON{Folder: "yard"}))
	assert.NoError(t, a.json.check())
}

// notData is what CSV for programs must not have: a dash for nothing, per cent, a day in words, two numbers in a cell.
var notData = regexp.MustCompile(`^-$|[0-9] %|^[0-9]{1,2} [A-Z][a-z]{2}\b|[0-9]-[0-9]+$|^not known$|NaN|Inf`)

// inCSV are headings that JSON does not have.
var inCSV = map[string]bool{"bare": true, "better_date": true, "brier_uncertainty": true, "clear_c": true, "cold_nights_90": true, "cold_nights_median": true,
	"degree_days_c": true, "dull_c": true, "finding": true, "first_picking": true, "mark": true, "pit_1": true, "ready_10": true, "ready_90": true,
	"autumn_on_or_before": true, "frost_free_days_at_least": true, "spring_on_or_after": true, "warmth_c_days": true}

var pit = regexp.MustCompile("^pit_[0-9]+$")

var isoDates = regexp.MustCompile(`^([0-9]{4}-)?[0-9]{2}-[0-9]{2}$`)

// Every table for programs has headings in snake_case, each once, and in a cell one number, one date or words.
func TestEveryTableAnswersPrograms(t *testing.T) {
	var o, e strings.Builder
	in := world{in: strings.NewReader(""), out: &o, err: &e, getenv: func(string) string { return "" },
		today: func() climate.Day { return climate.NewDay(2026, 5, 17) }}
	yard, names := argsForPrograms(t, in)["move"][3], fieldNames()
	for _, args := range []string{"plan", "plan --year 2013", "when courgette", "when courgette --reserve", "sow lettuce", "frosts --at 0 --at -2",
		"warmth", "crops", "crops courgette", "outlook --by-date 09-05", "tonight --forecast 2", "week", "spots", "log", "did",
		"skill --at 0 --training 10 --by curve", "skill --tonight", "check"} {
		o.Reset()
		require.Equal(t, exitDone, run(in, append(strings.Fields(args), "--format", "csv", "--garden", yard)), "%s: %s", args, e.String())
		rows, err := csv.NewReader(strings.NewReader(o.String())).ReadAll()
		require.NoError(t, err, args)
		require.Greater(t, len(rows), 1, args)
		seen := map[string]bool{}
		for i, k := range rows[0] {
			assert.Regexp(t, `^[a-z0-9_]+$`, k, args)
			known := inCSV[k]
			for _, of := range []string{k, strings.TrimSuffix(k, "_low"), strings.TrimSuffix(k, "_high"), strings.TrimSuffix(k, "_killed"), pit.ReplaceAllString(k, "pit_1")} {
				known = known || names[of] != nil || inCSV[of]
			}
			assert.True(t, known || strings.HasPrefix(k, "fleece") || strings.HasPrefix(k, "cloche"), "%s: %s is not on the page of fields", args, k)
			assert.False(t, seen[k], "%s: %s twice", args, k)
			seen[k] = true
			if k == "says" || k == "source" || k == "note" || k == "value" || k == "what" {
				continue // sentences
			}
			for _, r := range rows[1:] {
				if !isoDates.MatchString(r[i]) {
					assert.NotRegexp(t, notData, r[i], "%s: %s", args, k)
				}
			}
		}
	}
}
