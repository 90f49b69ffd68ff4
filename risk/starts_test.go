package risk

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"frostward/climate"
)

// Starts scored together are what they are one by one, raised and sown, waiting for a bed or
// not.
func TestStartsTogetherAreScoreAfter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := roughCrop(t)
		raised := rapid.IntRange(0, 3).Draw(t, "sown") > 0
		var seasons []climate.Season
		for range rapid.IntRange(1, 8).Draw(t, "n") {
			seasons = append(seasons, roughSeason(t))
		}
		f := field(c, raised, seasons...)
		var free []float64
		if rapid.Bool().Draw(t, "waits") {
			for range seasons {
				free = append(free, rapid.SampledFrom([]float64{math.NaN(), math.Inf(-1), 60, 130.5, 190, climate.Never}).Draw(t, "free"))
			}
		}
		from := climate.SeasonDay(rapid.IntRange(40, 200).Draw(t, "from"))
		p := Planting{Crop: c, Start: from, Raised: raised}
		w := climate.Window{From: from, To: from + 40}
		got, succeeds := starts(f, p, free, w, 10)
		require.Len(t, got, 5)
		for k, got := range got {
			want := ScoreAfter(f, p.At(from+climate.SeasonDay(10*k)), free)
			require.Equal(t, Start{want.Planting.Start, want.Survives, want.Ripens, want.Succeeds}, got)
			for i, o := range want.Outcomes {
				require.Equal(t, known(o, o.Succeeds()), succeeds[k][i])
			}
		}
	})
}
