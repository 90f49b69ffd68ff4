package risk

import (
	"bufio"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"frostward/climate"
)

// knmi reads the screen's minimum and maximum and the minimum at 10 cm of a KNMI daily
// file, tenths of °C, with blanks where nothing was measured.
func knmi(t *testing.T, path string) (station, spot climate.Series) {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Skipf("needs a KNMI record with T10N: %v", err)
	}
	defer f.Close()
	column := map[string]int{}
	val := func(f []string, name string) float64 {
		v, err := strconv.ParseFloat(strings.TrimSpace(f[column[name]]), 64)
		if err != nil {
			return math.NaN()
		}
		return v / 10
	}
	type day struct{ tn, tx, t10 float64 }
	days := map[climate.Day]day{}
	lo, hi := climate.Day(math.MaxInt32), climate.Day(math.MinInt32)
	sc := bufio.NewScanner(f)
	for sc.Scan() {
		cells := strings.Split(sc.Text(), ",")
		if strings.HasPrefix(sc.Text(), "# STN") {
			for i, c := range cells {
				column[strings.TrimSpace(c)] = i
			}
			continue
		}
		if len(column) == 0 || len(cells) != len(column) {
			continue
		}
		y, err := strconv.Atoi(cells[1])
		require.NoError(t, err)
		d := climate.NewDay(y/10000, time.Month(y/100%100), y%100)
		days[d] = day{val(cells, "TN"), val(cells, "TX"), val(cells, "T10N")}
		lo, hi = min(lo, d), max(hi, d)
	}
	require.NoError(t, sc.Err())
	station = climate.NewSeries(lo, int(hi-lo)+1)
	spot = climate.NewSeries(lo, int(hi-lo)+1)
	for d, v := range days {
		station.Tmin[d-lo], station.Tmax[d-lo], spot.Tmin[d-lo] = v.tn, v.tx, v.t10
	}
	return station, spot
}

func TestSpotSkillExplore(t *testing.T) {
	station, spot := knmi(t, "../../shared/data/knmi-daily-283.txt")
	for _, c := range []float64{0.55, 0.7, 0.85, 1} {
		s2 := spot.Clone()
		for i := range s2.Tmin {
			s2.Tmin[i] = station.Tmin[i] + c*(spot.Tmin[i]-station.Tmin[i])
		}
		got := DefaultSpotTrial(climate.Calendar{}).Score(station, s2)
		t.Log(c, got.Seasons)
		for _, s := range got.Scores {
			t.Logf("  %-24s %3d  crps %.2f bias %+.1f covered %.2f", s.Way, s.Mornings, s.CRPS, s.Bias, s.Covered)
		}
	}
}
