//go:build long

package quality_test

import (
	"testing"

	"frostward/climate"
)

// TestSeededFaultsEverywhere and TestMovedThermometerEverywhere do the same on the shared records
// too, with more plantings each.
// Run them with "go test -tags long -run Everywhere -v ./climate/quality/".
func TestSeededFaultsEverywhere(t *testing.T) {
	seed(t, everywhere(t), 5)
}

func TestMovedThermometerEverywhere(t *testing.T) {
	moveAll(t, everywhere(t), []float64{1, 1.5, 2, 3}, 6)
}

func everywhere(t *testing.T) map[string]climate.Series {
	all := cleanOf(t, shipped)
	for name, s := range cleanOf(t, shared) {
		all[name] = s
	}
	t.Logf("%d records", len(all))
	return all
}
