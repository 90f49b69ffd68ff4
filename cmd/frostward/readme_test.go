package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"frostward/climate"
)

const readme = "../../README.md"

// TestReadmeIsTrue runs every "$ frostward" block of the README as on a terminal 80 wide
// without colour, and compares what it prints. A block that ends in "..." shows the beginning
// only. "go test ./cmd/frostward -run Readme -update" writes the blocks anew.
func TestReadmeIsTrue(t *testing.T) {
	b, err := os.ReadFile(readme)
	require.NoError(t, err)
	t.Chdir(t.TempDir())
	lines := strings.Split(string(b), "\n")
	var out []string
	ran := 0
	for i := 0; i < len(lines); i++ {
		out = append(out, lines[i])
		cmd, ok := strings.CutPrefix(lines[i], "$ frostward ")
		if !ok || lines[i-1] != "```console" {
			continue
		}
		ran++
		end := i + 1
		for lines[end] != "```" {
			end++
		}
		was := lines[i+1 : end]
		now := printed(t, splitWords(cmd))
		if n := len(was); n > 0 && was[n-1] == "..." {
			keep := n - 1
			if *update && keep == 0 {
				keep = min(len(now), 24)
			}
			now = append(now[:min(keep, len(now)):min(keep, len(now))], "...")
		}
		if !*update {
			require.Equal(t, strings.Join(was, "\n"), strings.Join(now, "\n"), "frostward %s", cmd)
		}
		out = append(out, now...)
		i = end - 1
	}
	require.Greater(t, ran, 2)
	if *update {
		require.NoError(t, os.WriteFile(filepath.Join(sourceDir, readme), []byte(strings.Join(out, "\n")), 0o666))
	}
}

// sourceDir is this package's folder, whatever folder a test has changed to.
var sourceDir = func() string {
	d, err := os.Getwd()
	if err != nil {
		panic(err)
	}
	return d
}()

// printed is what the program prints on a terminal 80 wide, without colour.
func printed(t *testing.T, args []string) []string {
	var o, e bytes.Buffer
	w := world{in: bytes.NewReader(nil), out: &o, err: &e, terminal: true, width: 80,
		getenv: func(k string) string { return map[string]string{"NO_COLOR": "1"}[k] },
		today:  func() climate.Day { return climate.NewDay(2026, 5, 16) }}
	require.Equal(t, exitDone, run(w, args), e.String())
	text := strings.Split(strings.TrimRight(o.String(), "\n"), "\n")
	for i := range text {
		text[i] = strings.TrimRight(text[i], " ")
	}
	return text
}

// splitWords parts a command line at spaces outside double quotes.
func splitWords(s string) []string {
	var words []string
	for i, part := range strings.Split(s, `"`) {
		if i%2 == 1 {
			words = append(words, part)
			continue
		}
		words = append(words, strings.Fields(part)...)
	}
	return words
}
