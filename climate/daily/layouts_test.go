package daily

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
)

func rowsOf(t testing.TB, name string) [][]string {
	t.Helper()
	f, err := os.Open(filepath.Join(stations, "layouts", name))
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	return rows[1:]
}

// Each layout is read as it stands, and its values are those that pandas 1.5.3 read from the same files
// (testdata/stations/layouts/layouts.py), day by day.
func TestLayouts(t *testing.T) {
	want := map[string]map[climate.Day][2]float64{}
	for _, r := range rowsOf(t, "expected.csv") {
		if want[r[0]] == nil {
			want[r[0]] = map[climate.Day][2]float64{}
		}
		var v [2]float64
		for k, s := range r[2:] {
			v[k] = math.NaN()
			if s != "" {
				var err error
				v[k], err = strconv.ParseFloat(s, 64)
				require.NoError(t, err)
			}
		}
		want[r[0]][mustDay(r[1])] = v
	}
	layouts := rowsOf(t, "layouts.csv")
	require.GreaterOrEqual(t, len(layouts), 30)
	for _, r := range layouts {
		t.Run(r[0], func(t *testing.T) {
			var in []Input
			for _, name := range strings.Fields(r[1]) {
				f, err := os.Open(filepath.Join(stations, "layouts", name))
				require.NoError(t, err)
				defer f.Close()
				in = append(in, Input{name, f})
			}
			s, rep, err := ReadFiles(in, Options{})
			if r[0] == "Home-automation history, UTC" { // a month's numbers without a unit: it is asked
				require.ErrorContains(t, err, "could be in °C or °F; state it (--units c, f, tenths or k)")
				f, err := os.Open(filepath.Join(stations, "layouts", r[1]))
				require.NoError(t, err)
				defer f.Close()
				s, rep, err = Read(f, r[1], Options{Units: Celsius})
				require.NoError(t, err)
			} else {
				require.NoError(t, err)
			}
			assert.Zero(t, rep.FaultCount, "%v", rep.Faults)
			days := 0
			for i := range s.Tmin {
				d := s.First + climate.Day(i)
				w, ok := want[r[0]][d]
				if !ok {
					w = [2]float64{math.NaN(), math.NaN()}
				}
				for k, v := range [2]float64{s.Tmin[i], s.Tmax[i]} {
					if math.IsNaN(v) != math.IsNaN(w[k]) || math.Abs(v-w[k]) > 0.0006 {
						t.Fatalf("%s: %v, %v; pandas has %v", d, s.Tmin[i], s.Tmax[i], w)
					}
				}
				if ok {
					days++
				}
			}
			assert.Equal(t, len(want[r[0]]), days)
		})
	}
}

// What is left out of the day that the made readings lack eight hours of is counted, and so are the readings.
func TestReadingsAreCounted(t *testing.T) {
	f, err := os.Open(filepath.Join(stations, "layouts", "archive-hourly.csv"))
	require.NoError(t, err)
	defer f.Close()
	s, rep, err := Read(f, "archive-hourly.csv", Options{})
	require.NoError(t, err)
	assert.Equal(t, Hourly, rep.Format)
	assert.Equal(t, 1, rep.Incomplete)
	assert.Len(t, rep.Readings, s.Len())
	assert.Equal(t, 24, rep.Readings[0])
	assert.Contains(t, rep.DayEnds, "midnight to midnight")
	assert.Equal(t, []float64{51.5, -0.1, 20}, []float64{rep.Latitude, rep.Longitude, rep.Elevation})
}

// A day that ends at 9 has the minimum of the night before it and, as the day before's, the maximum of the day
// before; one that ends at 18 has both of the 24 hours before. By hand.
func TestDayEnds(t *testing.T) {
	for _, c := range []struct {
		ends         dayEnds
		day, hour    int
		ofMin, ofMax int
	}{{0, 5, 0, 5, 5}, {0, 5, 23, 5, 5}, {9, 5, 9, 5, 4}, {9, 5, 10, 6, 5}, {9, 5, 0, 5, 4}, {18, 5, 18, 5, 5}, {18, 5, 19, 6, 6}} {
		lo, hi := c.ends.days(int32((c.day*24 + c.hour) * 60))
		assert.Equal(t, [2]int{c.ofMin, c.ofMax}, [2]int{lo, hi}, "%+v", c)
	}
}
