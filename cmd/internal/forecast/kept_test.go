package forecast

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
)

func kept(t *testing.T, path string) ([]Kept, error) {
	f, err := os.Open(path)
	require.NoError(t, err)
	defer f.Close()
	return ReadKept(f, "forecasts.csv")
}

func TestKeep(t *testing.T) {
	path := filepath.Join(t.TempDir(), KeptFile)
	day := climate.NewDay(2026, 5, 16)
	require.NoError(t, Keep(path, day, []Night{night(17, 2), night(18, -1.234)}))
	require.NoError(t, Keep(path, day+1, []Night{night(18, 0.5)}))
	require.NoError(t, Keep(path, day+1, []Night{night(18, 1)}))
	got, err := kept(t, path)
	require.NoError(t, err)
	require.Len(t, got, 4)
	assert.Equal(t, -1.23, Issued(got, day+2, 1))
	assert.Equal(t, 1.0, Issued(got, day+2, 0), "the later of one evening")
	assert.Equal(t, 2.0, Issued(got, day+1, 0))
	assert.True(t, math.IsNaN(Issued(got, day+1, 1)))

	// A line cut off by a lost power supply is not read, also after more has been added.
	f, err := os.OpenFile(path, os.O_APPEND|os.O_WRONLY, 0)
	require.NoError(t, err)
	_, err = f.WriteString("2026-05-18,2026-05-19,1")
	require.NoError(t, err)
	require.NoError(t, f.Close())
	got, err = kept(t, path)
	require.NoError(t, err)
	require.Len(t, got, 4)
	require.NoError(t, Keep(path, day+2, []Night{night(19, 12)}))
	got, err = kept(t, path)
	require.NoError(t, err)
	require.Len(t, got, 5)
	assert.Equal(t, 12.0, Issued(got, day+3, 0))

	for _, torn := range []string{"", "iss", strings.TrimSpace(keptHeading)} {
		require.NoError(t, os.WriteFile(path, []byte(torn), 0o644))
		require.NoError(t, Keep(path, day, []Night{night(17, 2)}))
		got, err = kept(t, path)
		require.NoError(t, err)
		require.Len(t, got, 1)
	}
	own := "date,tmin_c,tmax_c\n2026-05-18,2,9\n" // a file of the user's
	require.NoError(t, os.WriteFile(path, []byte(own), 0o644))
	require.ErrorContains(t, Keep(path, day, []Night{night(17, 2)}), "does not begin with the heading issued,morning,tmin_c")
	_, err = kept(t, path)
	require.ErrorContains(t, err, "wanted another name for it")
	b, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, own, string(b))

	require.NoError(t, os.WriteFile(path, []byte(keptHeading+"2026-05-18,soon,1\n"), 0o644))
	_, err = kept(t, path)
	require.ErrorContains(t, err, `forecasts.csv:2: "2026-05-18", "soon", "1"; wanted two dates`)
}
