package table

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"
)

func (t Table) writeCSV(w io.Writer) error {
	out := csv.NewWriter(w)
	var record []string
	for _, c := range t.Columns {
		for _, k := range c.keys() {
			record = append(record, GuardFormula(k))
		}
	}
	out.Write(record) // errors come from Error below
	for _, row := range t.Rows {
		record = record[:0]
		for i, c := range t.Columns {
			for k := range c.keys() {
				record = append(record, GuardFormula(Safe(row[i].datum(k))))
			}
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

// datum is the k-th of what CSV has in the place of a cell, "" where it has nothing.
func (c Cell) datum(k int) string {
	switch {
	case k < len(c.Data):
		return c.Data[k]
	case c.Data != nil || k > 0 || c.Text == Dash || c.Tone == Quiet:
		return ""
	}
	return c.Text
}

// keys are a column's headings in CSV: its Keys or Key, or its name and unit in lower case with
// what is neither letter nor digit as one underscore.
func (c Column) keys() []string {
	switch {
	case c.Keys != nil:
		return c.Keys
	case c.Key == NoCSV:
		return nil
	case c.Key != "":
		return []string{c.Key}
	}
	units := strings.NewReplacer("°", "", "%", "percent")
	words := strings.FieldsFunc(strings.ToLower(c.Name+" "+units.Replace(c.Unit)), func(r rune) bool {
		return !('a' <= r && r <= 'z' || '0' <= r && r <= '9' || r > 127)
	})
	return []string{strings.Join(words, "_")}
}
