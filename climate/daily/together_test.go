package daily

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Each station that begins twice is seen, however many there are, and in whatever order the first came.
func TestTogether(t *testing.T) {
	var free Together
	for _, id := range []string{"c", "a", "b"} {
		require.NoError(t, free.Begin(id))
	}
	assert.ErrorContains(t, free.Begin("a"), `comes back to station "a"`)
	assert.ErrorContains(t, free.Begin("c"), `comes back to station "c"`)

	var many Together
	name := func(k int) string { return fmt.Sprintf("%08d", k) }
	for k := range 3 * manyStations {
		require.NoError(t, many.Begin(name(k)))
	}
	assert.Len(t, many.seen, manyStations)
	assert.ErrorContains(t, many.Begin(name(5)), "comes back to station")
	assert.ErrorContains(t, many.Begin(name(2*manyStations)), "is out of order")
	assert.NoError(t, many.Begin(name(3*manyStations)))
}
