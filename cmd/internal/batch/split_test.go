package batch

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Chunks put together are the file; each station lies whole in one of them, and the line
// numbers are the file's.
func TestSplit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var b bytes.Buffer
		n := rapid.IntRange(1, 30).Draw(t, "stations")
		for k := range n {
			for range rapid.IntRange(1, 40).Draw(t, "rows") {
				fmt.Fprintf(&b, "STN%08d,20010101,TMIN,5\n", k)
			}
		}
		text := b.String()
		if rapid.Bool().Draw(t, "no end") {
			text = strings.TrimSuffix(text, "\n")
		}
		var whole strings.Builder
		seen, line := map[string]bool{}, 1
		err := split(strings.NewReader(text), rapid.IntRange(1, 3000).Draw(t, "size"), 1<<20, func(c chunk) error {
			require.Equal(t, line, c.line)
			line += bytes.Count(c.text, []byte("\n"))
			whole.Write(c.text)
			mine := map[string]bool{}
			for _, l := range strings.Split(strings.TrimSpace(string(c.text)), "\n") {
				mine[l[:11]] = true
			}
			for id := range mine {
				require.False(t, seen[id], id)
				seen[id] = true
			}
			return nil
		})
		require.NoError(t, err)
		require.Equal(t, strings.TrimSuffix(text, "\n"), strings.TrimSuffix(whole.String(), "\n"))
		require.Len(t, seen, n)
	})
}

func TestSplitRefuses(t *testing.T) {
	none := func(chunk) error { return nil }
	err := split(strings.NewReader("A,1\nB,1\nA,1\n"), 1, 1<<20, none)
	assert.EqualError(t, err, `line 3: comes back to station "A" after others; wanted each station's rows together, so sort by station`)
	err = split(strings.NewReader(strings.Repeat("A,1\n", 300_000)), 1<<20, 1<<19, none)
	assert.ErrorContains(t, err, `bytes of station "A"`)
}
