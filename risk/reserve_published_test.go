package risk

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
	"frostward/climate/daily"
	"frostward/crops"
)

// A planting of Badajoz, its reserve, and the two together, season by season and as chances, against R: the file's
// head says how they were counted there.
func TestReserveAgainstR(t *testing.T) {
	f, err := os.Open("../testdata/stations/badajoz.csv")
	require.NoError(t, err)
	defer f.Close()
	rec, _, err := daily.Read(f, "badajoz.csv", daily.Options{})
	require.NoError(t, err)
	g, err := os.Open("../testdata/published/badajoz_reserve.csv")
	require.NoError(t, err)
	defer g.Close()
	r := csv.NewReader(g)
	r.Comment = '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	seasons, all := rows[1:len(rows)-1], rows[len(rows)-1]
	require.Greater(t, len(seasons), 20)

	c := testCrop()
	c.WarmthPlanted, c.Chill, c.DaysPlanted = crops.Unknown(), crops.Unknown(), fact(60)
	c.SetBackHardened, c.KillHardened = fact(2), fact(2)
	e := climate.Ensemble{Latitude: 38.9, Rests: len(seasons)}
	for _, row := range seasons {
		year, err := strconv.Atoi(row[0])
		require.NoError(t, err)
		e.Seasons = append(e.Seasons, climate.SeasonOf(rec, climate.Calendar{}, year))
	}
	a := Assess(NewField(e, c, true, 1), out(c, on(time.March, 1)), Cover{}, 0.8)
	spare := a.WithReserve(Reserve{Plants: 6, On: on(time.March, 22)})
	again := a.WithReserve(Reserve{Again: true, On: on(time.March, 22)})
	for k, got := range []Result{a.Result, again.Second, spare.Pair, again.Pair} {
		for i, row := range seasons {
			assert.Equal(t, row[1+k] == "1", got.Outcomes[i].Known && got.Outcomes[i].Succeeds(), "%s in %s", rows[0][1+k], row[0])
		}
		want, err := strconv.ParseFloat(all[1+k], 64)
		require.NoError(t, err)
		assert.InDelta(t, want, got.Succeeds.Share, 1e-6, rows[0][1+k])
	}
	assert.Equal(t, again.Pair.Succeeds, EitherSucceeds(e, a.Result.Outcomes, again.Second.Outcomes))
}
