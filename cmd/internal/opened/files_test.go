package opened

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
)

// A record may be a file, several, a folder, a pattern or the standard input: the same days come of each. It is a
// southern one by its warm half of the year, without a latitude.
func TestHistories(t *testing.T) {
	dir := t.TempDir()
	var all strings.Builder
	all.WriteString("date,tmin,tmax\n")
	for year := 2001; year <= 2003; year++ {
		var b strings.Builder
		for d := climate.NewDay(year, 1, 1); d < climate.NewDay(year+1, 1, 1); d++ {
			_, m, day := d.Date()
			v := []float64{24, 24, 21, 17, 13, 10, 9, 11, 14, 17, 20, 23}[m-1] + float64(day%7)/2
			fmt.Fprintf(&b, "%s,%.1f,%.1f\n", d, v-9, v+3)
		}
		all.WriteString(b.String())
		require.NoError(t, os.WriteFile(filepath.Join(dir, fmt.Sprint(year, ".csv")), []byte("date,tmin,tmax\n"+b.String()), 0o644))
	}
	whole := filepath.Join(t.TempDir(), "whole.csv")
	require.NoError(t, os.WriteFile(whole, []byte(all.String()), 0o644))
	var want climate.Series
	for i, history := range [][]string{{whole}, {dir}, {filepath.Join(dir, "*.csv")}, {"-"}, {filepath.Join(dir, "2003.csv"), filepath.Join(dir, "2001.csv"), filepath.Join(dir, "2002.csv")}} {
		var notes []string
		g, err := Open(Options{History: history, Stdin: strings.NewReader(all.String()), Note: func(f string, a ...any) { notes = append(notes, fmt.Sprintf(f, a...)) }})
		require.NoError(t, err, history)
		if i == 0 {
			want = g.Record
		}
		assert.Equal(t, want, g.Record, history)
		assert.Equal(t, -50.0, g.Settings.Latitude)
		require.Len(t, notes, 1)
		assert.Contains(t, notes[0], "taken as 50° south, by its warm half of the year")
	}
	_, err := Open(Options{History: []string{filepath.Join(dir, "*.dly")}})
	require.ErrorContains(t, err, "has no file")
}
