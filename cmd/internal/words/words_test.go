package words

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
)

// What is said in tenths is within half a year in 10 of the per cent shown beside it, over all
// shares, and near none and all the per cent is said.
func TestSaidSharesAreTrue(t *testing.T) {
	for i := 0; i <= 10000; i++ {
		share := float64(i) / 10000
		said := InYears(share)
		shown := math.Round(100 * share)
		var n float64
		switch {
		case said == "no year":
			require.Zero(t, share)
		case said == "every year":
			require.Equal(t, 1.0, share)
		case said == "half the years":
			n = 5
			require.InDelta(t, 50, shown, 5, "%v", share)
		default:
			if _, err := fmt.Sscanf(said, "%g year", &n); err == nil {
				require.InDelta(t, 10*n, shown, 5, "%v: %s", share, said)
				require.True(t, share >= nearNone && share <= 1-nearNone, "%v: %s", share, said)
			}
		}
	}
	for share, want := range map[float64]string{0.005: "1 % of the years", 0.995: "over 99 % of the years", 0.001: "under 1 % of the years", 0.05: "5 % of the years", 0.0749: "7 % of the years",
		0.075: "1 year in 10", 0.45: "half the years", 0.9: "9 years in 10", 0.95: "95 % of the years", 0.999: "over 99 % of the years"} {
		assert.Equal(t, want, InYears(share))
	}
	assert.Equal(t, "a chance of 3 %", Chances(0.03))
	assert.Equal(t, "3 chances in 10", Chances(0.31))
	assert.Equal(t, "97 %", InTen(0.97))
	assert.Equal(t, "never", InTen(0))
}

// An interval is rounded outward, and a chance just below the aim is not shown as the aim.
func TestRoundingHidesNothing(t *testing.T) {
	assert.Equal(t, "79-100", Range(0.796, 0.9951))
	assert.Equal(t, "7-14", Range(0.07, 0.14), "as they are, though 100 times 0.07 is not quite 7")
	assert.Equal(t, "79.6 %", met(climate.Chance{Known: true, Share: 0.7968}, 0.8))
	assert.Equal(t, "80 %", met(climate.Chance{Known: true, Share: 0.8}, 0.8))
	assert.Equal(t, "79 %", met(climate.Chance{Known: true, Share: 0.794}, 0.8))
}
