//go:build long

package quality_test

import "testing"

// TestSeededFaultsEverywhere does the same on the shared records too, with five plantings each.
// Run it with "go test -tags long -run Everywhere -v ./climate/quality/".
func TestSeededFaultsEverywhere(t *testing.T) {
	all := cleanOf(t, shipped)
	for name, s := range cleanOf(t, shared) {
		all[name] = s
	}
	t.Logf("%d records", len(all))
	seed(t, all, 5)
}
