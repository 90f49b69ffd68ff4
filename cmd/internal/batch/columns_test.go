package batch

import (
	"path/filepath"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var written = map[kind]*regexp.Regexp{
	date:   regexp.MustCompile(`^\d{4}-\d\d-\d\d$`),
	count:  regexp.MustCompile(`^\d+$`),
	number: regexp.MustCompile(`^-?\d+\.\d+$`),
	days:   regexp.MustCompile(`^(\d+|none)$`),
}

// kindOf tells the kind of a column by what is written in it.
func kindOf(values []string) kind {
	for _, k := range []kind{date, count, number, days} {
		all := true
		for _, v := range values {
			all = all && written[k].MatchString(v)
		}
		if all {
			return k
		}
	}
	return text
}

// Every column has values of the kind that columns.go says, and of no narrower one.
func TestKinds(t *testing.T) {
	dir, set := varied(t)
	for _, byDay := range []bool{true, false} {
		set.ByDay = byDay
		b, _, err := runIt(t, Options{Settings: set, Args: []string{dir}, Output: filepath.Join(t.TempDir(), "a.csv")})
		require.NoError(t, err)
		rows := csvRows(t, b)
		require.Equal(t, len(set.columns()), len(rows[0]))
		for i, c := range set.columns() {
			require.Equal(t, c.name, rows[0][i])
			var values []string
			for _, row := range rows[1:] {
				if row[i] != "" {
					values = append(values, row[i])
				}
			}
			require.NotEmpty(t, values, c.name)
			got := kindOf(values)
			if c.kind == days && got == count { // a low end may have no "none" in any of these stations
				assert.Regexp(t, "^frost_free_days_", c.name)
				continue
			}
			assert.Equal(t, c.kind, got, "%s: %q", c.name, values)
		}
	}
}
