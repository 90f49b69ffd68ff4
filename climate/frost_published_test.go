package climate_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"frostward/climate"
	"frostward/climate/daily"
)

// station reads a record that ships with the tests.
func station(t *testing.T, file string) climate.Series {
	f, err := os.Open("../testdata/stations/" + file)
	require.NoError(t, err)
	defer f.Close()
	rec, _, err := daily.Read(f, file, daily.Options{})
	require.NoError(t, err)
	return rec
}

// Every frost date of Badajoz 1956-2014 at 0 and 2 °C as counted in R: the file's head says
// how. A season without a frost is "none".
func TestFrostDatesAgainstR(t *testing.T) {
	rec := station(t, "badajoz.csv")
	f, err := os.Open("../testdata/published/badajoz_frosts.csv")
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(rows), 150)
	c := climate.Calendar{}
	for _, row := range rows[1:] {
		threshold, err := strconv.ParseFloat(row[0], 64)
		require.NoError(t, err)
		season, err := strconv.Atoi(row[2])
		require.NoError(t, err)
		s := climate.SeasonOf(rec, c, season)
		got := climate.Frost(threshold).LastSpring(s)
		if row[1] == "autumn" {
			got = climate.Frost(threshold).FirstAutumn(s)
		}
		date := "none"
		if !math.IsInf(got, 1) {
			date = c.Day(season, climate.SeasonDay(got)).String()
		}
		want := row[3]
		if len(want) == 10 && want[5:] == "02-29" {
			want = want[:5] + "02-28" // a season folds the leap day away
		}
		require.Equal(t, want, date, "%v", row)
	}
}

// Seattle 2012-2015, 2 °C: dates counted in R 4.2.2 within the calendar year, split at 31 July,
// max(date[temp_min <= 2]) and min(...).
func TestSeattleAgainstR(t *testing.T) {
	rec := station(t, "seattle-weather.csv")
	c := climate.Calendar{}
	for season, want := range map[int][2]string{
		2012: {"2012-04-07", "2012-11-08"}, 2013: {"2013-03-24", "2013-11-20"},
		2014: {"2014-03-22", "2014-11-11"}, 2015: {"2015-03-04", "2015-11-16"},
	} {
		s := climate.SeasonOf(rec, c, season)
		require.Equal(t, want, [2]string{
			c.Day(season, climate.SeasonDay(climate.Frost(2).LastSpring(s))).String(),
			c.Day(season, climate.SeasonDay(climate.Frost(2).FirstAutumn(s))).String(),
		})
	}
}
