// Package table prints the tables of every command: as text for a terminal, as
// Markdown, or as CSV. JSON is left to the commands, which encode their results.
//
// A text table has one thin rule under its headings and no box. It fits the width it
// is given by wrapping sentences and, when that is not enough, by leaving out the
// columns that matter least, saying which. A colour is only ever a second sign beside
// a word.
package table

import (
	"fmt"
	"io"
	"strings"
)

// Align says on which side a column's cells stand. Numbers belong on the right.
type Align int

// The alignments.
const (
	Left Align = iota
	Right
)

// Tone is how a cell sounds. It only chooses a colour, where colours are wanted, so
// the text must say the same in words.
type Tone int

// The tones.
const (
	Plain Tone = iota
	Good
	Doubtful
	Bad
	Quiet
)

// Column is one column of a table.
type Column struct {
	Name  string   // heading, such as "last frost"
	Unit  string   // follows the heading, such as "°C"; may be empty
	Key   string   // heading in CSV; empty: made from Name and Unit, as in "last_frost_c"; NoCSV: not in it
	Keys  []string // in its place, where the column is several in CSV, which has a number or a date in each
	Align Align

	Wrap     bool // may be narrowed by breaking its text at spaces
	MinWidth int  // narrowest it is made by wrapping; 0: 12, or its longest word up to 20
	Drop     int  // above 0: may be left out of a narrow text table, the highest number first
}

// NoCSV is the key of a column that is not in CSV, such as a bar.
const NoCSV = "-"

// Dash stands in a cell for a reader where there is nothing; in CSV such a cell is empty.
const Dash = "-"

// Cell is one value.
type Cell struct {
	Text string   // as read by a person
	Data []string // as written in CSV, one for each key; nil: Text, or nothing for a Dash or a Quiet one
	Tone Tone
}

// Text returns a plain cell.
func Text(s string) Cell { return Cell{Text: s} }

// Data returns a cell that CSV has otherwise than a reader does: as its parts, each in a column.
func Data(text string, data ...string) Cell { return Cell{Text: text, Data: data} }

// Textf returns a plain cell with a formatted text.
func Textf(format string, args ...any) Cell { return Cell{Text: fmt.Sprintf(format, args...)} }

// Row makes a row of plain cells.
func Row(texts ...string) []Cell {
	row := make([]Cell, len(texts))
	for i, s := range texts {
		row[i].Text = s
	}
	return row
}

// Table is a table to print.
type Table struct {
	Title   string // a line above; not in CSV
	Columns []Column
	Rows    [][]Cell // each as long as Columns
	Notes   []string // lines below; not in CSV
}

// Add appends a row.
func (t *Table) Add(cells ...Cell) { t.Rows = append(t.Rows, cells) }

// Options says how a table is to be written. The zero value is a text table of any
// width without colours.
type Options struct {
	Format Format
	Width  int  // columns of the terminal; 0: no limit, as for a file or pipe
	Colour bool // text only
	ASCII  bool // text only: the rule is drawn with hyphens
}

// Write prints the table. It panics when a row is not as long as Columns, or the
// format is JSON, which are faults of the program.
func (t Table) Write(w io.Writer, o Options) error {
	if p, ok := w.(*Screen); ok && o.Colour && o.Format == TextFormat {
		if err := p.Flush(); err != nil {
			return err
		}
		w = p.w // its own colours pass; its cells are safe
	}
	for i, row := range t.Rows {
		if len(row) != len(t.Columns) {
			panic(fmt.Sprintf("table: row %d has %d cells, wanted %d", i, len(row), len(t.Columns)))
		}
	}
	switch o.Format {
	case CSV:
		return t.writeCSV(w)
	case Markdown:
		return t.writeMarkdown(w)
	case JSON:
		panic("table: JSON is encoded by the command")
	}
	return t.writeText(w, o)
}

// heading is a column's heading for a reader.
func (c Column) heading() string {
	return strings.TrimSpace(Safe(c.Name) + " " + Safe(c.Unit))
}
