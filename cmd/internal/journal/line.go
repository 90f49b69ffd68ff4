package journal

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"frostward/climate/night"
	"frostward/cmd/internal/table"
)

// addition returns the bytes that put an entry at the end of a log that is written in
// a custom, beginning on a fresh line.
func (c custom) addition(e Entry, f form) (string, error) {
	columns := c.columns
	var b strings.Builder
	if c.cut {
		b.WriteString(cutOff)
	}
	if c.bare {
		b.WriteString(c.eol)
	}
	if columns == nil {
		columns = f.columns
		b.WriteString(c.row(columns))
	}
	var lacks []string
	for _, col := range e.filled(f) {
		if !slices.Contains(columns, col) {
			lacks = append(lacks, col)
		}
	}
	if len(lacks) > 0 {
		columns = append(slices.Clone(columns), lacks...)
		b.WriteString(c.row(columns))
	}
	cells := make([]string, len(columns))
	for i, col := range columns {
		cells[i] = e.cell(col, c.decimalComma)
		if isWords(col) {
			// Doubled quotes would let a line that is cut off between the two pass for whole.
			cells[i] = strings.ReplaceAll(table.Safe(cells[i]), `"`, `'`)
			cells[i] = table.GuardFormula(cells[i])
			if cells[i] == empty {
				return "", fmt.Errorf("%s: a hyphen alone empties a cell; wanted words", col)
			}
		}
	}
	b.WriteString(c.row(cells))
	return b.String(), nil
}

// row writes cells as a line. The first, but for the heading of a new file, and the last are
// always quoted, so that a line of this program's cut off anywhere is known from a whole one, and from one that a
// grower has typed without a line end.
func (c custom) row(cells []string) string {
	var b strings.Builder
	for i, s := range cells {
		if i > 0 {
			b.WriteRune(c.sep)
		}
		if c.eol == "\r" { // one line feed, as in a heading's cell, and the file's lines would not be told
			s = strings.ReplaceAll(s, "\n", "\r")
		}
		if i == len(cells)-1 || i == 0 && !c.isNew || strings.ContainsAny(s, "\"\r\n"+string(c.sep)) {
			s = `"` + strings.ReplaceAll(s, `"`, `""`) + `"`
		}
		b.WriteString(s)
	}
	return b.String() + c.eol
}

func isWords(col string) bool {
	for _, t := range texts {
		if t.col == col {
			return true
		}
	}
	return false
}

// filled are the columns that an entry has something for.
func (e Entry) filled(f form) []string {
	var out []string
	for _, col := range f.columns {
		if e.cell(col, false) != "" {
			out = append(out, col)
		}
	}
	return out
}

// errNothing is an entry without a value.
var errNothing = errors.New("has no value; wanted a minimum, a reading of the evening, a forecast, damage or a note")

func (e Entry) hasValue() bool {
	for _, n := range numbers {
		if v := *n.of(&e); v == v {
			return true
		}
	}
	return e.Cloud != night.CloudUnknown || e.Wind != night.WindUnknown || e.Damage+e.Note+e.Covered != "" || e.What != "" && e.What != takenBack
}
