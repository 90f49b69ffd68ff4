package daily

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
)

var stations = filepath.Join("..", "..", "testdata", "stations")

func readFile(t testing.TB, name string, opts Options) (climate.Series, Report, error) {
	t.Helper()
	b, err := os.ReadFile(filepath.Join(stations, name))
	require.NoError(t, err)
	return Read(bytes.NewReader(b), filepath.Base(name), opts)
}

// same fails where two series differ by more than a tolerance in °C.
func same(t testing.TB, want, got climate.Series, tolerance float64) {
	t.Helper()
	require.Equal(t, want.First.String(), got.First.String())
	require.Equal(t, want.Len(), got.Len())
	for i := range want.Tmin {
		for _, v := range [][2]float64{{want.Tmin[i], got.Tmin[i]}, {want.Tmax[i], got.Tmax[i]}} {
			if math.IsNaN(v[0]) != math.IsNaN(v[1]) || math.Abs(v[0]-v[1]) > tolerance {
				t.Fatalf("%s: want %v, got %v", want.First+climate.Day(i), v[0], v[1])
			}
		}
	}
}

// Every file in testdata/stations/formats holds the same invented 400 days, of which
// three are missing, one lacks its minimum and one its maximum.
func TestFormatsAgree(t *testing.T) {
	want, rep, err := readFile(t, "formats/plain.csv", Options{})
	require.NoError(t, err)
	require.Equal(t, 400, want.Len())
	require.Equal(t, 397, rep.Days)
	require.Equal(t, 4, rep.MissingTmin)
	require.Equal(t, 4, rep.MissingTmax)
	require.Equal(t, mustDay("2001-01-01"), rep.First)
	require.Equal(t, [2]float64{-3.4, 5.7}, [2]float64{want.Tmin[0], want.Tmax[0]}, "read off the file by eye")

	for _, c := range []struct {
		file    string
		format  Format
		units   Units
		from    string
		tol     float64
		flagged int
		more    func(t *testing.T, rep Report)
	}{
		{file: "crlf.csv", units: Celsius, from: "values"},
		{file: "old-mac.csv", units: Celsius, from: "values"},
		{file: "bom.csv", units: Celsius, from: "values"},
		{file: "utf16le.csv", units: Celsius, from: "values"},
		{file: "utf16be.csv", units: Celsius, from: "values"},
		{file: "semicolon.csv", units: Celsius, from: "header"},
		{file: "latin1.csv", units: Celsius, from: "header"},
		{file: "tab.tsv", units: Celsius, from: "values"},
		{file: "yearday.csv", units: Celsius, from: "header"},
		{file: "us-dates.csv", units: Celsius, from: "header"},
		{file: "timestamps.csv", units: Celsius, from: "values"},
		{file: "codes.csv", units: Celsius, from: "values", more: func(t *testing.T, rep Report) {
			assert.Equal(t, 7, rep.Coded, "eight missing values, of which one is asterisks")
		}},
		{file: "unsorted.csv", units: Celsius, from: "values", more: func(t *testing.T, rep Report) {
			assert.Positive(t, rep.Unsorted)
		}},
		{file: "repeated.csv", units: Celsius, from: "values", more: func(t *testing.T, rep Report) {
			assert.Equal(t, 60, rep.Repeated)
			assert.Equal(t, 1, rep.Unsorted)
		}},
		{file: "preamble.csv", units: TenthsCelsius, from: "text", more: func(t *testing.T, rep Report) {
			assert.Equal(t, 51.5, rep.Latitude)
			assert.Equal(t, "1", rep.Station)
		}},
		{file: "fahrenheit.csv", units: Fahrenheit, from: "header", tol: 0.0029}, // half of 0.01 °F
		{file: "fahrenheit-unstated.csv", units: Fahrenheit, from: "values", tol: 0.0029},
		{file: "kelvin.csv", units: Kelvin, from: "header", tol: 1e-9},
		{file: "columns.txt", format: Columns, units: Celsius, from: "text"},
		{file: "nameless.csv", format: Columns, units: Celsius, from: "values", more: func(t *testing.T, rep Report) {
			assert.Len(t, rep.Notes, 1)
		}},
		{file: "by-year.csv", format: ByYear, units: TenthsCelsius, from: "format", flagged: 4, more: aStation},
		{file: "access.csv", format: Access, units: TenthsCelsius, from: "format", flagged: 4, more: func(t *testing.T, rep Report) {
			aStation(t, rep)
			assert.Equal(t, "NOWHERE, INVENTED", rep.StationName)
			assert.Equal(t, []float64{51.5, -0.1, 20}, []float64{rep.Latitude, rep.Longitude, rep.Elevation})
		}},
		{file: "station.dly", format: DLY, units: TenthsCelsius, from: "format", flagged: 4, more: aStation},
		{file: "months.txt", format: Months, units: TenthsCelsius, from: "format"},
		{file: "months-nameless.txt", format: Months, units: TenthsCelsius, from: "format"},
		{file: "knmi.txt", format: KNMI, units: TenthsCelsius, from: "format"},
		{file: "plain.csv.gz", units: Celsius, from: "values", more: func(t *testing.T, rep Report) {
			assert.Equal(t, "gzip", rep.Compression)
		}},
		{file: "plain.csv.zst", units: Celsius, from: "values", more: func(t *testing.T, rep Report) {
			assert.Equal(t, "zstd", rep.Compression)
		}},
	} {
		t.Run(c.file, func(t *testing.T) {
			got, rep, err := readFile(t, "formats/"+c.file, Options{})
			require.NoError(t, err)
			same(t, want, got, c.tol)
			if c.format == "" {
				c.format = Delimited
			}
			assert.Equal(t, c.format, rep.Format)
			assert.Equal(t, c.units, rep.Units)
			assert.Equal(t, c.from, rep.UnitsFrom)
			assert.Equal(t, c.flagged, rep.Flagged)
			assert.Zero(t, rep.FaultCount, "%v", rep.Faults)
			assert.NotEmpty(t, rep.TminName)
			assert.NotEmpty(t, rep.TmaxName)
			if c.more != nil {
				c.more(t, rep)
			}
		})
	}
}

func aStation(t *testing.T, rep Report) { assert.Equal(t, "XX000000001", rep.Station) }
