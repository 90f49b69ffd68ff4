//go:build browser

package browsertest

import (
	"encoding/json"
	"os"
	"strings"

	"github.com/stretchr/testify/require"
)

// Accessible asserts that axe-core finds nothing to complain of in the page as it stands.
func (tab *Tab) Accessible() {
	tab.t.Helper()
	found := tab.Violations()
	require.Empty(tab.t, found, strings.Join(found, "\n"))
}

// Violations runs the axe-core checks of WCAG 2.2 A and AA and its best practices. It
// skips the rest of the test when there is no axe-core.
func (tab *Tab) Violations() []string {
	t := tab.t
	t.Helper()
	path := os.Getenv("FROSTWARD_AXE")
	if path == "" {
		need(t, "FROSTWARD_AXE does not name axe-core's script")
	}
	script, err := os.ReadFile(path)
	require.NoError(t, err)
	// Evaluated by the debugger, which no policy of the page stops.
	Eval[bool](tab, string(script)+";typeof axe === 'object'")
	found := Eval[string](tab, `axe.run(document, {runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]}).then(r =>
		JSON.stringify({passes: r.passes.length, violations: r.violations.map(v => v.id + ": " + v.help + ": " + v.nodes.slice(0, 3).map(n => n.target + " " + n.failureSummary).join(" | "))}))`)
	var result struct {
		Passes     int
		Violations []string
	}
	require.NoError(t, json.Unmarshal([]byte(found), &result))
	require.Positive(t, result.Passes, "the checks did run")
	return result.Violations
}
