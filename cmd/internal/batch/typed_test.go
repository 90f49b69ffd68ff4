package batch

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"frostward/cmd/internal/batch/parquet/parquettest"
	"frostward/cmd/internal/table"
)

// varied is a folder with everything that a row can have: places with names, stations that
// hardly know frost and some that always do, what fails, what has no temperatures.
func varied(t *testing.T) (string, Settings) {
	dir := folder(t)
	for name, warmer := range map[string]float64{"mild": 14, "cold": -13} {
		var b bytes.Buffer
		for i, line := range bytes.Split(bytes.TrimSpace(inventedFile(30, 12)), []byte("\n")) {
			var lo, hi float64
			if i > 0 {
				_, err := fmt.Sscanf(string(line[11:]), "%f,%f", &lo, &hi)
				require.NoError(t, err)
				line = fmt.Appendf(line[:11:11], "%.1f,%.1f", lo+warmer, hi+warmer)
			}
			b.Write(append(line[:len(line):len(line)], '\n'))
		}
		require.NoError(t, os.WriteFile(filepath.Join(dir, name+".csv"), b.Bytes(), 0o644))
	}
	require.NoError(t, os.WriteFile(filepath.Join(dir, "rain.dly"), []byte("RAIN0000000196001PRCP"+string(bytes.Repeat([]byte("   10   "), 31))+"\n"), 0o644))
	set := *benchSettings()
	set.Crops, set.ByDay = set.Crops[:7], true
	set.Places = map[string]Place{
		"p0": {Name: "Ærøskøbing, \"north\"", Latitude: 54.8892, Longitude: 10.4114, Elevation: 5},
		"p1": {Name: "=1+1 日本", Latitude: 0.5, Longitude: -179.5, Elevation: nan},
	}
	return dir, set
}

// csvRows returns the rows of an output, the header first.
func csvRows(t *testing.T, b []byte) [][]string {
	rows, err := csv.NewReader(bytes.NewReader(b)).ReadAll()
	require.NoError(t, err)
	return rows
}

// A Parquet file has the rows of the CSV, value by value, by any number of workers.
func TestParquetIsTheCSV(t *testing.T) {
	dir, set := varied(t)
	out := t.TempDir()
	o := Options{Settings: set, Args: []string{dir}, Output: filepath.Join(out, "a.csv")}
	b, want, err := runIt(t, o)
	require.NoError(t, err)
	rows := csvRows(t, b)

	var first []byte
	for workers := range 3 {
		o.Output, o.Workers = filepath.Join(out, fmt.Sprintf("%d.parquet", workers)), workers+1
		b, sum, err := runIt(t, o)
		require.NoError(t, err)
		require.Equal(t, want, sum)
		assert.NoFileExists(t, JournalName(o.Output))
		if first == nil {
			first = b
		}
		require.True(t, bytes.Equal(first, b), "%d workers", o.Workers)
	}

	f, got, err := parquettest.Read(first)
	require.NoError(t, err)
	require.Len(t, got, len(rows)-1)
	met := map[string]int{}
	for i, c := range f.Schema().Columns() {
		require.Equal(t, []string{rows[0][i]}, c)
	}
	for i, row := range got {
		for k, v := range row {
			text, what := asCSV(t, set.columns()[k].kind, v, rows[i+1][k])
			assert.Equal(t, rows[i+1][k], text, "row %d, %s", i, rows[0][k])
			met[what]++
		}
	}
	for _, what := range []string{"missing", "text", "date", "whole", "number", "infinite"} {
		assert.NotZero(t, met[what], what)
	}
}

// asCSV returns a value as the CSV has it: a number that is the same, with its decimals.
func asCSV(t *testing.T, k kind, v any, like string) (text, what string) {
	switch v := v.(type) {
	case nil:
		return "", "missing"
	case string:
		return table.GuardFormula(v), "text"
	case int32:
		if k == date {
			return time.Date(1970, 1, 1+int(v), 0, 0, 0, 0, time.UTC).Format(time.DateOnly), "date"
		}
		return strconv.Itoa(int(v)), "whole"
	case float64:
		if math.IsInf(v, 1) {
			return none, "infinite"
		}
		same, err := strconv.ParseFloat(like, 64)
		require.NoError(t, err)
		if same == v {
			return like, "number"
		}
	}
	return fmt.Sprint(v), ""
}

// An interrupted run ends in the bytes of a run in one go.
func TestParquetGoesOnAfterInterruption(t *testing.T) {
	dir, out := folder(t), t.TempDir()
	o := Options{Settings: settings(t), Args: []string{dir}, chunkSize: 1, Output: filepath.Join(out, "whole.parquet")}
	want, _, err := runIt(t, o)
	require.NoError(t, err)
	o.Output = filepath.Join(out, "parts.parquet")
	interrupt(t, o, 3)
	interrupt(t, o, 4)
	require.NoError(t, os.WriteFile(o.Output, []byte("an earlier output"), 0o644))
	got, sum, err := runIt(t, o)
	require.NoError(t, err)
	assert.NotZero(t, sum.Before)
	require.True(t, bytes.Equal(want, got))
	left, err := os.ReadDir(out)
	require.NoError(t, err)
	assert.Len(t, left, 2, "nothing but the two outputs")
}

// Whatever a text is, a Parquet file has it as the JSON lines have it.
func TestTexts(t *testing.T) {
	columns := []column{{"a", text}, {"b", text}, {"c", text}}
	rapid.Check(t, func(t *rapid.T) {
		texts := rapid.SliceOfN(rapid.OneOf(rapid.String(),
			rapid.Map(rapid.SliceOf(rapid.Byte()), func(b []byte) string { return string(b) }),
			rapid.SampledFrom([]string{"a\tb\nc", `=x,"y"\`, "null", "<&>", "\u202e"})), 3, 3).Draw(t, "texts")
		rows := map[Format][]byte{}
		for _, f := range []Format{JSONLines, Parquet} {
			l := line{format: f, columns: []string{"a", "b", "c"}}
			for _, s := range texts {
				l.text(s)
			}
			rows[f] = l.end()
		}
		var want map[string]any
		require.NoError(t, json.Unmarshal(rows[JSONLines], &want))
		var b bytes.Buffer
		w, err := newTyped(&b, columns)
		require.NoError(t, err)
		require.NoError(t, w.row(rows[Parquet]))
		require.NoError(t, w.end())
		_, got, err := parquettest.Read(b.Bytes())
		require.NoError(t, err)
		require.Equal(t, [][]any{{want["a"], want["b"], want["c"]}}, got)
	})
}

// A row that is not as its columns say is told with the column, and writes no wrong value.
func TestRowsThatAreNotTyped(t *testing.T) {
	columns := []column{{"s", text}, {"d", date}, {"n", count}, {"x", number}, {"f", days}}
	for row, want := range map[string]string{
		"a\t2001-02-03\t1\t0.5\tnone":  "",
		"a\t\t\t\t":                    "",
		"a\t2001-02-03\t1\t0.5":        "column x: the row has not 5 values",
		"a\t2001-02-03\t1\t0.5\t2\t":   "column f: the row has not 5 values",
		"a\t2001-02-30\t1\t0.5\tnone":  "column d: parsing time",
		"a\t2001-02-03\t1.5\t0.5\t":    "column n: ",
		"a\t2001-02-03\t1\tnone\t":     "column x: ",
		"a\t2001-02-03\t1\t0.5\tnever": "column f: ",
	} {
		w, err := newTyped(&bytes.Buffer{}, columns)
		require.NoError(t, err)
		if err := w.row([]byte(row)); want != "" {
			assert.ErrorContains(t, err, want)
		} else {
			assert.NoError(t, err)
		}
	}
}
