package view

import (
	"strings"
	"testing"

	"frostward/cmd/internal/opened"

	"github.com/stretchr/testify/assert"
)

func TestHeadlineHasTwelveWordsAtMost(t *testing.T) {
	night := []string{"Cover early courgettes, courgettes under fleece and first potatoes tonight.", "Cover early courgettes and 2 more tonight.", "Cover 3 plantings tonight."}
	assert.Equal(t, "Cover early courgettes and 2 more tonight. This week: 4 things.", inTwelveWords(night, thisWeek(make([]opened.Task, 4))))
	night[0] = "Cover courgettes and first potatoes tonight."
	assert.Equal(t, night[0]+" This week: 4 things to do.", inTwelveWords(night, thisWeek(make([]opened.Task, 4))))
	one := []opened.Task{{What: "plant out %", Planting: "courgettes under fleece"}}
	assert.Equal(t, night[0]+" This week: one thing.", inTwelveWords(night, thisWeek(one)))
	quiet := []string{"Leave everything as it is tonight."}
	assert.Equal(t, quiet[0]+" This week: sow leeks.", inTwelveWords(quiet, thisWeek([]opened.Task{{What: "sow %", Planting: "leeks"}})))
	for _, a := range [][]string{night, quiet} {
		for _, n := range []int{0, 2, 11} {
			assert.LessOrEqual(t, len(strings.Fields(inTwelveWords(a, thisWeek(make([]opened.Task, n))))), 12)
		}
	}
}
