package main

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
	"frostward/cmd/internal/opened"
)

// madeWeather is invented weather that never repeats itself from day to day.
func madeWeather(d climate.Day) (tmin, tmax float64) {
	x := float64(d)
	mean := 10 - 9*math.Cos(2*math.Pi*(x-25)/365.25) + 2.5*math.Sin(x*0.7) + 1.5*math.Sin(x*0.113)
	half := 4 + 1.5*math.Sin(x*1.9)
	r := func(v float64) float64 { return math.Round(v*10) / 10 }
	return r(mean - half), r(mean + half)
}

// TestWarmthAgainstPlainSums checks the command from file to JSON against sums written out
// in the plainest way.
func TestWarmthAgainstPlainSums(t *testing.T) {
	var csv strings.Builder
	csv.WriteString("date,tmin,tmax\n")
	first, last := climate.NewDay(1990, 1, 1), climate.NewDay(2012, time.July, 20)
	sums := map[int]float64{}
	soFar := map[int]float64{} // to 20 July
	for d := first; d <= last; d++ {
		lo, hi := madeWeather(d)
		fmt.Fprintf(&csv, "%v,%.1f,%.1f\n", d, lo, hi)
		y, m, md := d.Date()
		if m >= time.April && m <= time.October {
			v := max(0, (lo+hi)/2-10)
			sums[y] += v
			if m < time.July || m == time.July && md <= 20 {
				soFar[y] += v
			}
		}
	}
	name := filepath.Join(t.TempDir(), "made.csv")
	require.NoError(t, os.WriteFile(name, []byte(csv.String()), 0o600))
	out, errs, status := try("warmth", "--history", name, "--latitude", "52", "--method", "average", "--units", "c", "--by", "record", "--format", "json")
	require.Zero(t, status, errs)
	var got warmthJSON
	require.NoError(t, json.Unmarshal([]byte(out), &got))

	var all []float64
	for _, y := range got.Years {
		if y.Season < 1990 || y.Season > 2011 {
			assert.Nil(t, y.DegreeDays, "%d is not complete", y.Season)
			continue
		}
		require.NotNil(t, y.DegreeDays, "%d", y.Season)
		assert.InDelta(t, sums[y.Season], *y.DegreeDays, 0.06, "%d", y.Season)
		all = append(all, sums[y.Season])
	}
	require.Len(t, all, 22)
	assert.Equal(t, 22, got.DegreeDays.Seasons)
	assert.Equal(t, 22, got.Seasons.Used)
	slices.Sort(all)
	for i, c := range opened.FrostChances {
		h := (1 - c) * 21 // type 7 of Hyndman and Fan 1996
		k := int(h)
		want := all[k] + (h-float64(k))*(all[min(k+1, 21)]-all[k])
		assert.InDelta(t, want, got.DegreeDays.Chances[i].AtLeast.(float64), 0.51, "%v", c)
	}

	require.NotNil(t, got.DegreeDays.SoFar)
	assert.Equal(t, 2012, got.DegreeDays.SoFar.Season)
	assert.Equal(t, "2012-07-20", got.DegreeDays.SoFar.Through)
	assert.InDelta(t, soFar[2012], *got.DegreeDays.SoFar.DegreeDays, 0.06)
	below := 0
	for y := 1990; y < 2012; y++ {
		if soFar[y] < soFar[2012] {
			below++
		}
	}
	assert.Equal(t, below, got.DegreeDays.SoFar.PastBelow)
	assert.Equal(t, 22, got.DegreeDays.SoFar.Past)
}

// TestWarmthOfTooFewSeasons: no chance is made up from four seasons.
func TestWarmthOfTooFewSeasons(t *testing.T) {
	var csv strings.Builder
	csv.WriteString("date,tmin,tmax\n")
	for d := climate.NewDay(2000, 1, 1); d <= climate.NewDay(2003, time.December, 31); d++ {
		lo, hi := madeWeather(d)
		fmt.Fprintf(&csv, "%v,%.1f,%.1f\n", d, lo, hi)
	}
	name := filepath.Join(t.TempDir(), "short.csv")
	require.NoError(t, os.WriteFile(name, []byte(csv.String()), 0o600))
	out, errs, status := try("warmth", "--history", name, "--latitude", "52", "--units", "c")
	require.Zero(t, status, errs)
	assert.Regexp(t, "half the years +not known", out)
	assert.Contains(t, out, "4 seasons counted for °C-days; a chance wants 5")
	assert.Contains(t, out, "Too few seasons for a trend.")
	assert.NotContains(t, out, "NaN")
	assert.NotContains(t, out, "by the end of the month")
	out, _, _ = try("warmth", "--history", name, "--latitude", "52", "--units", "c", "--format", "json")
	assert.Contains(t, out, `"too few seasons"`)
}
