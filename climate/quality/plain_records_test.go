package quality_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
	"frostward/climate/quality"
)

// A checker flags what the plain rules flag, in the records that ship and those that are shared,
// as they are, and with every kind of fault in those that ship; and no screen that never has
// anything to say is kept.
func TestScreensHideNothing(t *testing.T) {
	quiet := map[string]int{}
	var c quality.Checker
	for _, path := range paths() {
		if _, err := os.Stat(path); err == nil {
			assert.Empty(t, quality.Disagreement(&c, read(t, path), quiet), path)
		}
	}
	plantAll(t, cleanOf(t, shipped), &c, quiet)
	for _, rule := range quality.Rules {
		if rule.Name != "lone value" && rule.Name != "lost sign" { // have none
			assert.Positive(t, quiet[rule.Name], rule.Name)
		}
	}
}

// plantAll plants each kind of fault, every other one upon the one before.
func plantAll(t *testing.T, records map[string]climate.Series, c *quality.Checker, quiet map[string]int) {
	for name, s := range records {
		from := s
		for n, k := range kinds {
			p := newPlanter(from, uint64(n))
			k.plant(p)
			require.Empty(t, quality.Disagreement(c, p.s, quiet), "%s, %s", name, k.name)
			if from = p.s; n%2 == 1 {
				from = s
			}
		}
	}
}

func paths() (out []string) {
	out = append(out, "../../testdata/stations/seattle-weather.csv", "../../testdata/stations/mild-invented.csv")
	for _, set := range []map[string]string{shipped, shared} {
		for _, path := range set {
			out = append(out, path)
		}
	}
	return out
}
