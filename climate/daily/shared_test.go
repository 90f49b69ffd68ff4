package daily

import (
	"math"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
)

// shared opens a real record kept beside the repository, or skips.
func shared(t testing.TB, name string) *os.File {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "..", "shared", "data", name))
	if err != nil {
		t.Skipf("no shared data here: %v", err)
	}
	t.Cleanup(func() { f.Close() })
	return f
}

func day(t testing.TB, s string) climate.Day {
	t.Helper()
	d, err := climate.ParseDay(s)
	require.NoError(t, err)
	return d
}

// Days, flags and ends were counted in each file with awk and Python's csv module, apart from this reader.
func TestReadSharedRecords(t *testing.T) {
	for _, c := range []struct {
		name        string
		format      Format
		units       Units
		station     string
		first, last string
		days        int
		flagged     int
		faults      int
	}{
		{"badajoz-daily-c.csv", Delimited, Celsius, "", "1955-01-01", "2015-12-31", 21908, 0, 0},
		{"boulder-daily-c.csv", Delimited, Celsius, "", "1897-05-01", "2022-09-30", 45227, 0, 0},
		{"boulder-daily-f.txt", Columns, Fahrenheit, "", "1897-05-01", "2022-09-30", 45227, 0, 1}, // 29 Feb 2010 has values
		{"ghcnd-USW00003870.dly", DLY, TenthsCelsius, "USW00003870", "1962-10-15", "2012-12-09", 18318, 0, 0},
		{"ghcnd-access-USW00004848.csv", Access, TenthsCelsius, "USW00004848", "1998-01-01", "2022-04-05", 8770, 1, 0},
		{"ghcnd-access-USC00200228.csv", Access, TenthsCelsius, "USC00200228", "2003-04-16", "2022-04-06", 6931, 4, 0},
		{"knmi-daily-283.txt", KNMI, TenthsCelsius, "283", "1989-10-19", "2026-06-25", 13324, 0, 0},
		{"seattle-weather.csv", Delimited, Celsius, "", "2012-01-01", "2015-12-31", 1461, 0, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, rep, err := Read(shared(t, c.name), c.name, Options{})
			require.NoError(t, err)
			assert.Equal(t, c.format, rep.Format)
			assert.Equal(t, c.units, rep.Units)
			assert.Equal(t, c.station, rep.Station)
			assert.Equal(t, day(t, c.first), rep.First)
			assert.Equal(t, day(t, c.last), rep.Last)
			assert.Equal(t, c.days, rep.Days)
			assert.Equal(t, c.flagged, rep.Flagged)
			assert.Equal(t, c.faults, rep.FaultCount, "%v", rep.Faults)
			assert.Equal(t, s.Len(), int(rep.Last-rep.First)+1)
			for i := range s.Tmin {
				for _, v := range []float64{s.Tmin[i], s.Tmax[i]} {
					if !math.IsNaN(v) && (v < -60 || v > 60) {
						t.Fatalf("%s: %v °C", s.First+climate.Day(i), v)
					}
				}
			}
		})
	}
}

// The converted copy is rounded to 0.01 °C.
func TestBoulderCopiesAgree(t *testing.T) {
	f, _, err := Read(shared(t, "boulder-daily-f.txt"), "f", Options{})
	require.NoError(t, err)
	c, _, err := Read(shared(t, "boulder-daily-c.csv"), "c", Options{})
	require.NoError(t, err)
	require.Equal(t, c.First, f.First)
	require.Equal(t, c.Len(), f.Len())
	for i := range c.Tmin {
		for _, v := range [][2]float64{{c.Tmin[i], f.Tmin[i]}, {c.Tmax[i], f.Tmax[i]}} {
			if math.IsNaN(v[0]) != math.IsNaN(v[1]) || math.Abs(v[0]-v[1]) > 0.00501 {
				t.Fatalf("%s: %v and %v", c.First+climate.Day(i), v[0], v[1])
			}
		}
	}
}

func TestKNMIGrassMinimum(t *testing.T) {
	screen, _, err := Read(shared(t, "knmi-daily-283.txt"), "knmi", Options{})
	require.NoError(t, err)
	grass, rep, err := Read(shared(t, "knmi-daily-283.txt"), "knmi", Options{Tmin: "t10n"})
	require.NoError(t, err)
	assert.Equal(t, "T10N", rep.TminName)
	var sum float64
	var n int
	for i := range screen.Tmin {
		g, _ := grass.At(screen.First + climate.Day(i))
		if d := screen.Tmin[i] - g; !math.IsNaN(d) {
			sum, n = sum+d, n+1
		}
	}
	// awk over columns 13 and 17 of the file: 11994 days, mean difference 1.74746.
	assert.Equal(t, 11994, n)
	assert.InDelta(t, 1.74746, sum/float64(n), 1e-5)
}

func mustDay(s string) climate.Day {
	d, err := climate.ParseDay(s)
	if err != nil {
		panic(err)
	}
	return d
}

func TestWindow(t *testing.T) {
	assert.Equal(t, windowDays, int(climate.NewDay(lastYear, 12, 31)-windowFirst)+1)
	want := windowFirst
	for y := firstYear; y <= lastYear; y++ {
		for m := 0; m <= 13; m++ {
			for d := 0; d <= 32; d++ {
				exists := m >= 1 && m <= 12 && d >= 1 && d <= climate.DaysIn(y, time.Month(m))
				got, ok := dayOf(y, m, d)
				if ok != exists || ok && got != want {
					t.Fatalf("%d-%d-%d: %v, %v; want %v, %v", y, m, d, got, ok, want, exists)
				}
				if exists {
					want++
				}
			}
		}
	}
}

// Heads of real files: numbers and sums (°C) of minima and maxima by pandas 1.5.3 from the same files.
func TestSharedHeads(t *testing.T) {
	for _, c := range []struct {
		files          []string
		format         Format
		units          Units
		nMin, nMax     int
		sumMin, sumMax float64
	}{
		{[]string{"bom-min.csv", "bom-max.csv"}, "Bureau of Meteorology daily", Celsius, 1997, 1997, 25619.9, 42059.8},
		{[]string{"cdo-death-valley-2018-f.csv"}, Delimited, Fahrenheit, 364, 364, 7078.89, 12492.22},
		{[]string{"cdo-sitka-2018-f.csv"}, Delimited, Fahrenheit, 404, 404, 2047.78, 4173.33},
		{[]string{"environment-canada-2011.csv", "environment-canada-2012.csv"}, "Environment Canada daily", Celsius, 731, 731, 3900.0, 10217.9},
		{[]string{"met-eireann-daily.csv"}, "Met Éireann daily", Celsius, 1474, 1474, 8896.6, 19328.6},
	} {
		t.Run(c.files[0], func(t *testing.T) {
			var in []Input
			for _, name := range c.files {
				in = append(in, Input{name, shared(t, filepath.Join("formats", name))})
			}
			s, rep, err := ReadFiles(in, Options{})
			require.NoError(t, err)
			assert.Equal(t, c.format, rep.Format)
			assert.Equal(t, c.units, rep.Units)
			assert.Zero(t, rep.FaultCount, "%v", rep.Faults)
			var n [2]int
			var sum [2]float64
			for i := range s.Tmin {
				for k, v := range [2]float64{s.Tmin[i], s.Tmax[i]} {
					if !math.IsNaN(v) {
						n[k]++
						sum[k] += v
					}
				}
			}
			assert.Equal(t, [2]int{c.nMin, c.nMax}, n)
			assert.InDelta(t, c.sumMin, sum[0], 0.01)
			assert.InDelta(t, c.sumMax, sum[1], 0.01)
		})
	}
}
