package journal

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
)

func deedsOf(t *testing.T, path string) Diary {
	f, err := os.Open(path)
	require.NoError(t, err)
	defer f.Close()
	d, err := ReadDiary(f, "diary.csv")
	require.NoError(t, err)
	return d
}

// A deed is on the disk when AppendDeed returns; taking it back adds a line, rewrites nothing, and counts once.
func TestDiary(t *testing.T) {
	path := filepath.Join(t.TempDir(), "diary.csv")
	day := climate.NewDay(2026, 5, 20)
	deeds := []Deed{{Day: day, Planting: "beans", What: Sown}, {Day: day, Planting: "beans", What: Up}, {Day: day, Planting: "peas", What: Sown, Note: "=1"}}
	for _, d := range deeds {
		require.NoError(t, AppendDeed(path, d))
	}
	got := deedsOf(t, path)
	require.Len(t, got.Deeds, 3)
	assert.Equal(t, "=1", got.Deeds[2].Note, "what a spreadsheet would run is stored as text, and read as written")
	before, err := os.ReadFile(path)
	require.NoError(t, err)
	require.NoError(t, Undo(path, deeds[1]))
	got = deedsOf(t, path)
	require.Len(t, got.Deeds, 2)
	assert.Equal(t, Sown, got.Deeds[0].What, "the line before of the same date and name is what is taken back")
	after, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.True(t, strings.HasPrefix(string(after), string(before)), "nothing that stood there is changed")
	require.NoError(t, Undo(path, deeds[0]))
	require.NoError(t, Undo(path, deeds[0]), "a line that takes back nothing does nothing")
	assert.Len(t, deedsOf(t, path).Deeds, 1)

	assert.ErrorContains(t, AppendDeed(path, Deed{Day: day, Planting: "beans", What: "eaten"}), `what: "eaten" is not known; wanted one of sown, up,`)
	assert.ErrorContains(t, AppendDeed(path, Deed{Day: day, What: Up}), "planting: is empty")
}

// A grower may type the diary; what is no deed is a fault with its line.
func TestReadDiary(t *testing.T) {
	d, err := ReadDiary(strings.NewReader("date;planting;what\n20.05.2026;beans;Planted out\n2026-05-21;beans;eaten\n"), "diary.csv")
	require.NoError(t, err)
	require.Len(t, d.Deeds, 1)
	assert.Equal(t, PlantedOut, d.Deeds[0].What)
	require.Len(t, d.Faults, 1)
	assert.ErrorContains(t, d.Faults[0], `diary.csv:3: what: "eaten" is not known`)
	_, err = ReadDiary(strings.NewReader("dear diary\n"), "diary.csv")
	assert.ErrorContains(t, err, `diary.csv:1: "dear diary" is not a heading; wanted date,planting,what,note`)
}

// A reading of the log is taken back the same way.
func TestTakeBackReading(t *testing.T) {
	path := filepath.Join(t.TempDir(), "log.csv")
	e := NewEntry(climate.NewDay(2026, 5, 20), "open bed")
	e.Tmin = 1
	require.NoError(t, Append(path, e))
	e.Tmin = -9
	require.NoError(t, Append(path, e))
	require.NoError(t, Append(path, TakeBack(e)))
	l, err := readFile(path)
	require.NoError(t, err)
	require.Len(t, l.Nights(), 1)
	assert.Equal(t, 1.0, l.Nights()[0].Tmin, "the reading before the one taken back stands again")
}
