package garden

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
)

func TestWithAnswers(t *testing.T) {
	const a, dated = "moved 1987-01-23 1987-01-23 no", "moved 1987-01-23 1987-01-23 no 2026-11-28"
	for was, want := range map[string]string{
		"latitude: 52":                       "latitude: 52\nanswers:\n  - " + dated + "\n",
		"latitude: 52 # here\r\naim: .7\r\n": "latitude: 52 # here\r\naim: .7\r\nanswers:\r\n  - " + dated + "\r\n",
		"answers: # mine\n- late 2001-01-01 2002-01-01 yes\n\n# more\nlatitude: 52\n": "answers: # mine\n- late 2001-01-01 2002-01-01 yes\n- " + dated + "\n\n# more\nlatitude: 52\n",
	} {
		got, added, err := WithAnswers([]byte(was), "g", []string{a}, climate.NewDay(2026, 11, 28))
		require.NoError(t, err, was)
		assert.Equal(t, want, string(got))
		assert.Equal(t, []string{dated}, added)
		again, added, err := WithAnswers(got, "g", []string{a}, climate.NewDay(2027, 1, 1))
		require.NoError(t, err)
		assert.Equal(t, want, string(again), "it has it")
		assert.Empty(t, added)
		_, _, err = WithAnswers(got, "g", []string{strings.Replace(a, "no", "yes", 1)}, 0)
		assert.ErrorContains(t, err, "has the answer")
	}
	_, _, err := WithAnswers([]byte("latitude: 52\nanswers: [late 2001-01-01 2002-01-01 yes]\n"), "g", []string{a}, 0)
	assert.ErrorContains(t, err, "none can be added to")
}
