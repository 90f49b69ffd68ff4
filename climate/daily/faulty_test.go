package daily

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the expected faults anew")

// testdata/stations/faulty has one small file a fault; faults.txt says what each must
// give: the days read and the faults, or the error. It was read through by eye.
func TestFaultyFiles(t *testing.T) {
	golden := filepath.Join(stations, "faulty", "faults.txt")
	files, err := filepath.Glob(filepath.Join(stations, "faulty", "*.*"))
	require.NoError(t, err)
	var b strings.Builder
	n := 0
	for _, name := range files {
		name = filepath.Base(name)
		if name == "faults.txt" {
			continue
		}
		n++
		_, rep, err := readFile(t, "faulty/"+name, Options{})
		fmt.Fprintf(&b, "== %s\n", name)
		if err != nil {
			fmt.Fprintf(&b, "error: %v\n", err)
			continue
		}
		fmt.Fprintf(&b, "%d days from %s to %s, %d rows, %d faults\n", rep.Days, rep.First, rep.Last, rep.Rows, rep.FaultCount)
		for _, f := range rep.Faults {
			fmt.Fprintln(&b, f)
		}
		for _, note := range rep.Notes {
			fmt.Fprintln(&b, "note:", note)
		}
	}
	require.Greater(t, n, 40, "the files are there")
	if *update {
		require.NoError(t, os.WriteFile(golden, []byte(b.String()), 0o644))
	}
	want, err := os.ReadFile(golden)
	require.NoError(t, err)
	assert.Equal(t, string(want), b.String())
}
