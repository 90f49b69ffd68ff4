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
	o.Watch, o.Workers = w, 1
	_, err := Run(ctx, o)
	require.ErrorIs(t, err, context.Canceled)
	require.NoFileExists(t, o.Output)
	require.FileExists(t, JournalName(o.Output))
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
	// Two files fail in every run; of the others 0, 2 and 3 were done at least.
	assert.GreaterOrEqual(t, sum.Before, 5)
	assert.Equal(t, 11-sum.Before, len(w.stations), "only what was not done, and what failed, is done")
	assert.NoFileExists(t, JournalName(o.Output))
}

func TestTornJournal(t *testing.T) {
	dir, out := folder(t), t.TempDir()
	o := Options{Settings: settings(t), Args: []string{dir}, Output: filepath.Join(out, "whole.csv")}
	want, _, err := runIt(t, o)
	require.NoError(t, err)
	o.Output = filepath.Join(out, "parts.csv")
	interrupt(t, o, 5)
	whole, err := os.ReadFile(JournalName(o.Output))
	require.NoError(t, err)
	lines := bytes.SplitAfter(whole, []byte("\n"))
	require.Greater(t, len(lines), 4)
	flipped := bytes.Clone(whole)
	flipped[len(lines[0])+len(lines[1])/2] ^= 1
	for name, torn := range map[string][]byte{
		"in the first line": whole[:10],
		"in a row":          whole[:len(whole)-17],
		"in the middle":     append(append(append([]byte{}, lines[0]...), lines[1][:30]...), bytes.Join(lines[2:], nil)...),
		"one bit":           flipped,
		"zeros at the end":  append(bytes.Clone(whole), make([]byte, 500)...),
		"empty":             nil,
	} {
		require.NoError(t, os.WriteFile(JournalName(o.Output), torn, 0o644))
		got, _, err := runIt(t, o)
		require.NoError(t, err, name)
		sameBytes(t, want, got, name)
	}
}

// A source that has changed since is read again.
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
	got, _, err := runIt(t, o)
	require.NoError(t, err)
	want, _, err := runIt(t, Options{Settings: o.Settings, Args: o.Args, Output: filepath.Join(t.TempDir(), "a.csv")})
	require.NoError(t, err)
	sameBytes(t, want, got, "")
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
