package opened

import (
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"frostward/cmd/internal/demo"
)

// A garden that takes over what a new reading leaves as it was says what one says that was opened anew.
func TestKeep(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.CopyFS(dir, demo.Files()))
	open := func() *Garden {
		g, err := Open(Options{Folder: dir, AsOf: "2026-05-17", Seed: 1})
		require.NoError(t, err)
		return g
	}
	old := open()
	_, _, err := old.AssessPlan()
	require.NoError(t, err)
	log := filepath.Join(dir, "log.csv")
	text, err := os.ReadFile(log)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(log, append(text, "2026-05-05,south wall,4.5,,,,,,,,,\n2026-05-06,south wall,5.5,,,,,,,,,\n"...), 0o644))

	fresh, kept := open(), open()
	kept.Keep(old)
	_, want, err := fresh.AssessPlan()
	require.NoError(t, err)
	_, got, err := kept.AssessPlan()
	require.NoError(t, err)
	for i := range want {
		require.True(t, slices.Equal(want[i].Result.Outcomes, got[i].Result.Outcomes), want[i].Result.Planting.Label())
		require.True(t, slices.Equal(want[i].Around().Starts, got[i].Around().Starts), want[i].Result.Planting.Label())
	}
	f, err := kept.Fields()
	require.NoError(t, err)
	was, err := old.Fields()
	require.NoError(t, err)
	require.Same(t, was.spots["open bed"], f.spots["open bed"])
	require.NotEqual(t, was.spots["south wall"].model, f.spots["south wall"].model, "the readings count")

	other, err := Open(Options{Folder: dir, AsOf: "2026-05-17", Seed: 1, Years: "1990-2020"})
	require.NoError(t, err)
	require.False(t, other.SameRecord(old))
}
