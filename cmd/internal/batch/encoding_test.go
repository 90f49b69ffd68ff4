package batch

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestEndings(t *testing.T) {
	for name, want := range map[string]encoding{
		"a.csv": {CSV, ""}, "a.CSV.GZ": {CSV, ".gz"}, "a.jsonl.zst": {JSONLines, ".zst"}, "b/A.NDJSON": {JSONLines, ""},
	} {
		got, err := encodingOf(name)
		require.NoError(t, err, name)
		assert.Equal(t, want, got, name)
	}
	for name, want := range map[string]string{
		"a.txt": "a.txt: its ending says no format; wanted .csv or .jsonl, and .gz or .zst after it to pack it",
	} {
		_, err := encodingOf(name)
		assert.EqualError(t, err, want)
	}
}
