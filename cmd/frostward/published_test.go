package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
)

// try runs the program and returns what it printed and its exit status.
func try(args ...string) (out, errs string, status int) {
	var o, e bytes.Buffer
	w := world{in: bytes.NewReader(nil), out: &o, err: &e, getenv: func(string) string { return "" },
		today: func() climate.Day { return climate.NewDay(2026, 5, 16) }}
	status = run(w, args)
	return o.String(), e.String(), status
}

// shared skips a test that needs a record which is not in the repository.
func shared(t *testing.T, file string) string {
	name := "../../../shared/data/" + file
	if _, err := os.Stat(name); err != nil {
		t.Skipf("%s is not here: it is reference data that may not be committed", name)
	}
	return name
}

// Boulder, Colorado, a day at or below 32 °F. NOAA Physical Sciences Laboratory's own summary:
// last in spring, 1949-1996: earliest 10 Apr (1956), latest 3 Jun (1951), mean 3 May, median
// 1 May, s.d. 11.1 days; first in autumn, 1957-1995: earliest 12 Sep (1974), latest 31 Oct
// (1963), mean 6 Oct, median 5 Oct, s.d. 13.6 days. It does not say which incomplete years it
// leaves out, hence a day's tolerance on the middle and a half on the spread.
func TestBoulderAgainstPublished(t *testing.T) {
	file := shared(t, "boulder-daily-f.txt")
	frosts := func(years string) frostAtJSON {
		out, errs, status := try("frosts", "--history", file, "--years", years, "--latitude", "40", "--format", "json")
		require.Equal(t, exitDone, status, errs)
		var j frostsJSON
		require.NoError(t, json.Unmarshal([]byte(out), &j))
		return j.Frosts[0]
	}
	near := func(want string, got any, what string) {
		a, err := time.Parse("01-02", want)
		require.NoError(t, err)
		b, err := time.Parse("01-02", got.(string))
		require.NoError(t, err)
		assert.InDelta(t, 0, b.Sub(a).Hours()/24, 1, what)
	}
	s := frosts("1949-1996").Spring
	assert.Equal(t, seasonDate{1956, "1956-04-10"}, *s.Earliest)
	assert.Equal(t, seasonDate{1951, "1951-06-03"}, *s.Latest)
	near("05-03", *s.Mean, "spring mean")
	near("05-01", s.Chances[2].OnOrAfter, "spring median")
	near("05-01", *s.Median, "spring median")
	assert.InDelta(t, 11.1, *s.SDDays, 0.5)

	a := frosts("1957-1995").Autumn
	assert.Equal(t, seasonDate{1974, "1974-09-12"}, *a.Earliest)
	assert.Equal(t, seasonDate{1963, "1963-10-31"}, *a.Latest)
	near("10-06", *a.Mean, "autumn mean")
	near("10-05", a.Chances[2].OnOrBefore, "autumn median")
	assert.InDelta(t, 13.6, *a.SDDays, 0.5)
}

// Every record at hand reads and gives frosts.
func TestEverySharedRecordReads(t *testing.T) {
	for _, f := range []string{"badajoz-daily-c.csv", "boulder-daily-c.csv", "boulder-daily-f.txt", "ghcnd-USW00003870.dly",
		"ghcnd-access-USC00200228.csv", "ghcnd-access-USW00004848.csv", "knmi-daily-283.txt"} {
		for _, by := range []string{"record", "curve", "weather"} {
			_, errs, status := try("frosts", "--history", shared(t, f), "--by", by)
			assert.Equal(t, exitDone, status, "%s %s", f, errs)
		}
	}
}

func TestExitStatus(t *testing.T) {
	for _, c := range []struct {
		args []string
		want int
	}{
		{[]string{"plan"}, exitDone},
		{[]string{"plan", "--plan", "absent.csv"}, exitCould},
		{[]string{"frosts", "--history", "absent.csv"}, exitCould},
		{[]string{"plant"}, exitUsage},
		{[]string{"plan", "--nonsense"}, exitUsage},
		{[]string{"plan", "extra"}, exitUsage},
		{[]string{"when"}, exitUsage},
		{[]string{"frosts", "--by", "magic"}, exitUsage},
		{[]string{"frosts", "--at", "warm"}, exitUsage},
	} {
		_, errs, status := try(c.args...)
		assert.Equal(t, c.want, status, "%v: %s", c.args, errs)
	}
}

// A record of minima only does for frost dates, and not for what needs maxima: check says so, and
// by its exit status too.
func TestMinimaOnlyAreFitForFrostsOnly(t *testing.T) {
	b, err := os.ReadFile("../../testdata/stations/badajoz.csv")
	require.NoError(t, err)
	var minima strings.Builder
	for line := range strings.Lines(string(b)) {
		if line[0] == '#' {
			continue
		}
		f := strings.Split(strings.TrimSpace(line), ",")
		fmt.Fprintf(&minima, "%s,%s\n", f[0], f[1])
	}
	file := filepath.Join(t.TempDir(), "minima.csv")
	require.NoError(t, os.WriteFile(file, []byte(minima.String()), 0o600))
	var out bytes.Buffer
	w := world{in: strings.NewReader(""), out: &out, err: io.Discard, getenv: func(string) string { return "" },
		today: func() climate.Day { return climate.NewDay(2026, 5, 17) }}
	assert.Equal(t, exitFrosts, run(w, []string{"check", "--history", file, "--latitude", "38.9", "--units", "c"}))
	assert.Contains(t, out.String(), "fit for frost dates only: 47 of 61 seasons")
	assert.Contains(t, out.String(), "no tmax")
}

// Acting on the chance, with forecasts that were really given, costs at most 2 % more than the fixed rule that
// would have been best and that nobody knew, at every ratio of cost to loss from 0.05 to 0.5.
func TestActingOnTheChanceOfForecastsGiven(t *testing.T) {
	name := "../../../shared/data/forecast/us-2021-low-f.csv.gz"
	if _, err := os.Stat(name); err != nil {
		t.Skipf("needs forecasts with what came: %v", err)
	}
	var got struct {
		Forecasts []struct {
			Nights int
			Costs  []struct {
				Ratio float64 `json:"cost_loss"`
				Ours  float64
				Best  float64 `json:"best_rule"`
			}
		}
	}
	asJSON(t, &got, "skill", "--tonight", "--units", "f", "--forecasts", name)
	require.Len(t, got.Forecasts, 4)
	for _, f := range got.Forecasts {
		require.Greater(t, f.Nights, 28000)
		for _, c := range f.Costs {
			if c.Ratio >= 0.05 && c.Ratio <= 0.5 {
				require.LessOrEqual(t, c.Ours, 1.02*c.Best, "cost/loss %v", c.Ratio)
			}
		}
	}
}
