package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
)

// Every command writes an object with its version under --format json, or refuses the option: none ignores it.
func TestEveryCommandAnswersPrograms(t *testing.T) {
	args := map[string][]string{
		"when": {"courgette"}, "sow": {"lettuce"}, "start": {filepath.Join(t.TempDir(), "yard")}, "stations": {"folder"},
	}
	yard, newer := filepath.Join(t.TempDir(), "yard"), filepath.Join(t.TempDir(), "newer.csv")
	require.NoError(t, os.WriteFile(newer, []byte("date,tmin_c,tmax_c\n2026-05-17,6.5,12\n"), 0o644))
	args["record"] = []string{"add", newer, "--garden", yard}
	var o, e strings.Builder
	in := world{in: strings.NewReader(""), out: &o, err: &e, getenv: func(string) string { return "" },
		today: func() climate.Day { return climate.NewDay(2026, 5, 17) }}
	require.Equal(t, exitDone, run(in, []string{"start", yard}))
	for _, c := range newRoot(&app{world: in}).Commands() {
		if c.GroupID == "" {
			continue // cobra's own
		}
		o.Reset()
		e.Reset()
		status := run(in, append([]string{c.Name(), "--format", "json"}, args[c.Name()]...))
		if form := c.Annotations[ownForm]; form != "" {
			assert.Equal(t, exitUsage, status, c.Name())
			assert.Contains(t, e.String(), form, c.Name())
			continue
		}
		require.Equal(t, exitDone, status, "%s: %s", c.Name(), e.String())
		var result map[string]any
		require.NoError(t, json.Unmarshal([]byte(o.String()), &result), c.Name())
		assert.EqualValues(t, jsonVersion, result["version"], c.Name())
	}
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
	require.NoError(t, a.writeJSON(map[string]any{"a": 1}))
	assert.NoError(t, a.json.check())
}
