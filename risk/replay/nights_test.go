package replay_test

import (
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"frostward/climate"
	"frostward/climate/daily"
	"frostward/climate/site"
	"frostward/risk/replay"
)

// lowerCost asks that covering by the chance costs less than always, never, and below a
// fixed forecast, at every ratio of cost to loss from one to another.
func lowerCost(t *testing.T, s replay.NightScore, from, to float64) {
	t.Helper()
	t.Logf("%d nights, %d with damage; Brier %.4f, usual %.4f; error %.2f °C; covered %.3f",
		s.Nights, s.Damage, s.Brier.Score, s.Usual.Score, s.Error, s.Covered)
	n := 0
	for _, c := range s.Costs {
		t.Logf("cost/loss %.2f: ours %.4f always %.4f never %.4f fixed %.4f; value %.2f", c.Ratio, c.Ours, c.Always, c.Never, c.Fixed, c.Value)
		if c.Ratio < from || c.Ratio > to {
			continue
		}
		n++
		require.Less(t, c.Ours, c.Always, "ratio %v", c.Ratio)
		require.Less(t, c.Ours, c.Never, "ratio %v", c.Ratio)
		require.Less(t, c.Ours, c.Fixed, "ratio %v", c.Ratio)
	}
	require.GreaterOrEqual(t, n, 4)
	require.Less(t, s.Brier.Score, s.Usual.Score)
	require.InDelta(t, 0.90, s.Covered, 0.03)
}

// Frost at 10 cm by a forecast for the screen, at KNMI station 283.
func TestHindcastOfTonightAtTheSpot(t *testing.T) {
	station, spot := grassRecord(t)
	from := climate.NewDay(1994, 1, 1) // the first full year at 10 cm
	trial := replay.DefaultNightTrial(climate.Calendar{}, 52, site.OpenBed)
	s := trial.Replay(station, spot.Between(from, spot.Last()))
	require.Greater(t, s.Nights, 3500)
	lowerCost(t, s, 0.02, 0.3)
	// The chances come true as often as they say, to three standard errors of a share
	// and 0.03, as nights in a row are alike.
	for _, g := range s.Reliable {
		require.InDelta(t, g.Chance, g.Came/g.N, 0.03+3*math.Sqrt(g.Chance*(1-g.Chance)/g.N), "%.0f nights", g.N)
	}
}

// Frost in the screen itself at a station of GHCN-Daily.
func TestHindcastOfTonightAtAStation(t *testing.T) {
	const path = "../../../shared/data/ghcnd-USW00003870.dly"
	f, err := os.Open(path)
	if err != nil {
		t.Skipf("needs a GHCN-Daily record: %v", err)
	}
	defer f.Close()
	rec, _, err := daily.Read(f, path, daily.Options{})
	require.NoError(t, err)
	trial := replay.DefaultNightTrial(climate.Calendar{}, 35, site.AtStation)
	// Its frosts end in March and begin in November: 1 February to 30 April, 1 October to
	// 31 December.
	trial.From, trial.To, trial.Autumn = 31, 119, [2]climate.SeasonDay{273, 364}
	// Read to whole °F: 0.28 °C parts the nights that read 32 °F from those that read 33.
	trial.Threshold = 0.28
	s := trial.Replay(rec, rec)
	require.Greater(t, s.Nights, 3500)
	// Between 0.05 and 0.1 the fixed rule is the best there can be: with a forecast error
	// of 1.8 °C the chance of 0 °C at a forecast of 3 °C is 0.05 (by hand: 3/1.8 = 1.67),
	// and the two are within 3 % of each other, now one and now the other by the seed.
	lowerCost(t, s, 0.2, 0.7)
	for _, c := range s.Costs {
		require.Less(t, c.Ours, 1.04*min(c.Always, c.Never, c.Fixed), "ratio %v", c.Ratio)
	}
}

func TestHindcastOfTonightNeedsARecord(t *testing.T) {
	s := climate.NewSeries(climate.NewDay(2020, 1, 1), 900)
	require.Zero(t, replay.DefaultNightTrial(climate.Calendar{}, 52, site.OpenBed).Replay(s, s).Nights)
}
