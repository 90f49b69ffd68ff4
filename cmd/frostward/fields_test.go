package main

import (
	"encoding/csv"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every name in a result has a line on the page, in order, and every line a name that is in a result or heads a column.
func TestFieldsPage(t *testing.T) {
	table := csv.NewReader(strings.NewReader(fieldLines))
	table.Comma, table.LazyQuotes, table.FieldsPerRecord = '\t', true, 3
	lines, err := table.ReadAll()
	require.NoError(t, err)
	names, last := fieldNames(), ""
	for _, l := range lines {
		assert.Less(t, last, l[0], "in order, each once")
		last = l[0]
		assert.NotEmpty(t, l[1]+l[2], l[0])
		if _, ok := names[l[0]]; !ok {
			assert.True(t, inCSV[l[0]], "%s: in no result", l[0])
		}
		delete(names, l[0])
	}
	assert.Empty(t, names, "without a line")
	out, _, status := try("help", "fields")
	require.Equal(t, exitDone, status)
	assert.Contains(t, out, "  aim (plan, when): share; ")
}

// listed says whether the page knows a result's type.
func listed(of any) bool {
	for _, r := range results {
		if reflect.TypeOf(r.of) == reflect.TypeOf(of) {
			return true
		}
	}
	return false
}
