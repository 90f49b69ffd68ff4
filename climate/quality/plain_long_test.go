//go:build long

package quality_test

import (
	"testing"

	"frostward/climate/quality"
)

// TestScreensHideNothingEverywhere plants in the shared records too.
func TestScreensHideNothingEverywhere(t *testing.T) {
	plantAll(t, everywhere(t), new(quality.Checker), map[string]int{})
}
