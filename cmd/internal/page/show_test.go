package page_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"frostward/cmd/internal/page"
	"frostward/cmd/internal/page/sample"
)

// TestShow writes the sample page to be looked at, when FROSTWARD_PAGE names the file.
func TestShow(t *testing.T) {
	path := os.Getenv("FROSTWARD_PAGE")
	if path == "" {
		t.Skip("FROSTWARD_PAGE does not name a file to write")
	}
	require.NoError(t, os.WriteFile(path, []byte(write(t, sample.View(), page.Options{})), 0o666))
}
