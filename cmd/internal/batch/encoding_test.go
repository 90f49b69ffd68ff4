package batch

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestEndings(t *testing.T) {
	for name, want := range map[string]encoding{
		"a.csv": {CSV, ""}, "a.CSV.GZ": {CSV, ".gz"}, "a.jsonl.zst": {JSONLines, ".zst"}, "b/a.parquet": {Parquet, ""}, "A.PARQUET": {Parquet, ""},
	} {
		got, err := encodingOf(name)
		require.NoError(t, err, name)
		assert.Equal(t, want, got, name)
	}
	for name, want := range map[string]string{
		"a.parquet.gz":  "a.parquet.gz: a .parquet file is packed within; wanted no .gz after it",
		"a.parquet.zst": "a.parquet.zst: a .parquet file is packed within; wanted no .zst after it",
		"a.txt":         "a.txt: its ending tells no format; wanted .csv or .jsonl, and .gz or .zst after it to pack it, or .parquet",
	} {
		_, err := encodingOf(name)
		assert.EqualError(t, err, want)
	}
}
