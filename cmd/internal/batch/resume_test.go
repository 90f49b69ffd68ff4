package batch

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// interrupt runs until n stations are done and stops as Ctrl-C does.
func interrupt(t *testing.T, o Options, n int) {
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	w := &silent{}
	w.each = func() {
		if len(w.stations) == n {
			cancel()
		}
	}
	o.Watch, o.Workers, o.marks = w, 1, 1
	_, err := Run(ctx, o)
	require.ErrorIs(t, err, context.Canceled)
	require.NoFileExists(t, o.Output)
	require.DirExists(t, partName(o.Output))
}

// However often and wherever a run is interrupted, and whatever the interruption leaves torn,
// it ends in the bytes of a run in one go, and does no station twice.
func TestGoesOnAfterInterruption(t *testing.T) {
	dir, out := folder(t), t.TempDir()
	o := Options{Settings: settings(t), Args: []string{dir}, chunkSize: 1}
	o.Output = filepath.Join(out, "whole.csv")
	want, _, err := runIt(t, o)
	require.NoError(t, err)

	o.Output = filepath.Join(out, "parts.csv")
	for _, n := range []int{1, 4, 5} {
		interrupt(t, o, n)
	}
	w := &silent{}
	o.Watch = w
	got, sum, err := runIt(t, o)
	require.NoError(t, err)
	sameBytes(t, want, got, "")
	assert.Equal(t, 10, sum.Before)
	assert.Equal(t, 1, len(w.stations), "only what was not done is done")
	assert.NoDirExists(t, partName(o.Output))
}

// So it is for an output that is packed, of which rows between two marks are made again.
func TestPackedGoesOn(t *testing.T) {
	dir, out := folder(t), t.TempDir()
	o := Options{Settings: settings(t), Args: []string{dir}, Output: filepath.Join(out, "whole.csv.gz"), marks: 3}
	want, _, err := runIt(t, o)
	require.NoError(t, err)
	o.Output = filepath.Join(out, "parts.csv.gz")
	ctx, cancel := context.WithCancel(context.Background())
	w := &silent{}
	w.each = func() {
		if len(w.stations) == 5 {
			cancel()
		}
	}
	o.Watch, o.Workers = w, 1
	_, err = Run(ctx, o)
	require.ErrorIs(t, err, context.Canceled)
	o.Watch = nil
	got, sum, err := runIt(t, o)
	require.NoError(t, err)
	assert.Equal(t, 3, sum.Before)
	assert.Equal(t, want, got)
}

// What a kill leaves torn is made again; what no kill leaves is an error.
func TestTornPart(t *testing.T) {
	dir, out := folder(t), t.TempDir()
	o := Options{Settings: settings(t), Args: []string{dir}, Output: filepath.Join(out, "whole.csv")}
	want, _, err := runIt(t, o)
	require.NoError(t, err)
	o.Output = filepath.Join(out, "parts.csv")
	interrupt(t, o, 5)
	part := partName(o.Output)
	rows, err := os.ReadFile(filepath.Join(part, rowsName))
	require.NoError(t, err)
	marks, err := os.ReadFile(filepath.Join(part, marksName))
	require.NoError(t, err)
	lines := bytes.SplitAfter(marks, []byte("\n"))
	type text = []byte
	for name, torn := range map[string][2]text{
		"nothing":          {nil, nil},
		"rows only":        {rows, nil},
		"in a mark":        {rows, marks[:len(marks)-5]},
		"in the first":     {rows, marks[:5]},
		"more rows":        {append(bytes.Clone(rows), "half a ro"...), marks},
		"one mark":         {rows, lines[0]},
		"marks and no row": {nil, marks},
		"no mark of ours":  {rows, []byte("notes\n")},
	} {
		require.NoError(t, os.MkdirAll(part, 0o755))
		require.NoError(t, os.WriteFile(filepath.Join(part, rowsName), torn[0], 0o644))
		require.NoError(t, os.WriteFile(filepath.Join(part, marksName), torn[1], 0o644))
		got, _, err := runIt(t, o)
		if name == "marks and no row" || name == "no mark of ours" {
			require.ErrorContains(t, err, "delete the folder to begin again", name)
			continue
		}
		require.NoError(t, err, name)
		sameBytes(t, want, got, name)
	}
}

// A run does not go on with sources that have changed: its rows would not be theirs.
func TestChangedSource(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "a.csv")
	require.NoError(t, os.WriteFile(file, inventedFile(1, 8), 0o644))
	for _, name := range []string{"b", "c", "d", "e", "f", "g", "h", "i"} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name+".csv"), inventedFile(2, 8), 0o644))
	}
	o := Options{Settings: settings(t), Args: []string{dir}, Output: filepath.Join(t.TempDir(), "a.csv")}
	interrupt(t, o, 1)
	require.NoError(t, os.WriteFile(file, inventedFile(3, 8), 0o644))
	require.NoError(t, os.Chtimes(file, time.Unix(1e9, 0), time.Unix(1e9, 0)))
	_, _, err := runIt(t, o)
	require.ErrorContains(t, err, "not those that the unfinished run began with")
}

func TestOtherSettingsAreNotMixedIn(t *testing.T) {
	dir := folder(t)
	o := Options{Settings: settings(t), Args: []string{dir}, Output: filepath.Join(t.TempDir(), "a.csv")}
	interrupt(t, o, 2)
	o.Aim = 0.7
	_, _, err := runIt(t, o)
	require.ErrorContains(t, err, "other settings")
}

func TestTwoRunsAtOnce(t *testing.T) {
	o := Options{Settings: settings(t), Args: []string{folder(t)}, Output: filepath.Join(t.TempDir(), "a.csv")}
	w := &silent{}
	tried := false
	w.each = func() {
		if !tried {
			tried = true
			_, _, err := runIt(t, Options{Settings: o.Settings, Args: o.Args, Output: o.Output})
			assert.ErrorIs(t, err, errInUse)
		}
	}
	o.Watch = w
	_, _, err := runIt(t, o)
	require.NoError(t, err)
	assert.True(t, tried)
}
