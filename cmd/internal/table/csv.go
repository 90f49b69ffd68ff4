package table

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"
)

func (t Table) writeCSV(w io.Writer) error {
	out := csv.NewWriter(w)
	record := make([]string, len(t.Columns))
	for i, c := range t.Columns {
		record[i] = GuardFormula(c.key())
	}
	out.Write(record) // errors come from Error below
	for _, row := range t.Rows {
		for i, cell := range row {
			record[i] = cell.Data
			if record[i] == "" {
				record[i] = cell.Text
			}
			record[i] = GuardFormula(Safe(record[i]))
		}
		out.Write(record)
	}
	out.Flush()
	return out.Error()
}

// GuardFormula puts an apostrophe before a text that a spreadsheet would take for a
// formula: one that begins with = + - or @ and is not a number.
func GuardFormula(s string) string {
	if s == "" || !strings.ContainsRune("=+-@", rune(s[0])) {
		return s
	}
	if _, err := strconv.ParseFloat(s, 64); err == nil && strings.Trim(s, "+-.0123456789eE") == "" {
		return s
	}
	return "'" + s
}

// key is a column's heading in CSV: its Key, or its name and unit in lower case with
// what is neither letter nor digit as one underscore.
func (c Column) key() string {
	if c.Key != "" {
		return c.Key
	}
	units := strings.NewReplacer("°", "", "%", "percent")
	words := strings.FieldsFunc(strings.ToLower(c.Name+" "+units.Replace(c.Unit)), func(r rune) bool {
		return !('a' <= r && r <= 'z' || '0' <= r && r <= '9' || r > 127)
	})
	return strings.Join(words, "_")
}
