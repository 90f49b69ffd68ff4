package journal

import (
	"encoding/csv"
	"strings"
)

// cutOff ends a line that a writer was stopped in.
const cutOff = " <cut off>"

// record is one row of cells: a line, or several where a quoted cell holds line ends.
type record struct {
	line  int // of its first line, from 1
	text  string
	cells []string
	bare  bool // the file's last, without a line end
}

// broken is a record that cannot be read.
type broken struct {
	line int
	why  string
}

// separatorOf looks at the heading: a semicolon or tab there parts the cells, else a
// comma.
func separatorOf(heading string) rune {
	for _, sep := range "\t;" {
		if strings.ContainsRune(heading, sep) {
			return sep
		}
	}
	return ','
}

// split parts a text into records. A quote left open costs its own line only: the
// lines after it are joined to it as long as they could be its continuation, which is
// until one has a date.
func split(text string, sep rune) (recs []record, bad []broken) {
	lines := strings.SplitAfter(text, "\n")
	for i := 0; i < len(lines); i++ {
		raw := lines[i]
		bare := !strings.HasSuffix(raw, "\n")
		line := strings.TrimRight(raw, "\r\n")
		if strings.Trim(line, " \t;,") == "" {
			continue
		}
		if strings.HasSuffix(line, cutOff) {
			bad = append(bad, broken{i + 1, cutOffWords})
			continue
		}
		j := i
		for ; open(line) && j+1 < len(lines) && j-i < maxCellLines && !hasDate(lines[j+1]); j++ {
			line += "\n" + strings.TrimRight(lines[j+1], "\r\n")
			bare = !strings.HasSuffix(lines[j+1], "\n")
		}
		r := record{line: i + 1, text: line, bare: bare}
		if open(line) {
			if bare && j == i {
				recs = append(recs, r) // cut off in a quoted cell: for the reader to say
				continue
			}
			bad = append(bad, broken{i + 1, `a quote is left open; wanted it closed on the line, or doubled ("") to stand for itself`})
			continue
		}
		cells, err := cellsOf(line, sep)
		if err != nil {
			bad = append(bad, broken{i + 1, `a quote stands inside a cell; wanted quotes round the whole cell, and doubled ("") to stand for themselves`})
			i = j
			continue
		}
		r.cells = cells
		recs = append(recs, r)
		i = j
	}
	return recs, bad
}

const (
	cutOffWords  = "was cut off while it was written, and is not used"
	maxCellLines = 50
)

// open says whether a text ends inside a quoted cell.
func open(s string) bool { return strings.Count(s, `"`)%2 == 1 }

// hasDate says whether a line has a cell that is a date, and so is a row of its own, be it cut
// off.
func hasDate(line string) bool {
	return dateCell().MatchString(strings.TrimSuffix(strings.TrimRight(line, "\r\n"), cutOff))
}

var dateCell = onDemand(`(?:^|[,;\t"])\s*(?:\d{4}-\d{2}-\d{2}|\d{1,2}[./]\d{1,2}[./]\d{4})\s*(?:[,;\t"\r\n]|$)`)

func cellsOf(line string, sep rune) ([]string, error) {
	if !strings.Contains(line, `"`) { // most lines: a reader for each would be the dearest part of reading a log
		return trimmed(strings.Split(line, string(sep))), nil
	}
	r := csv.NewReader(strings.NewReader(line))
	r.Comma = sep
	r.FieldsPerRecord = -1
	cells, err := r.Read()
	if err != nil {
		return nil, err
	}
	return trimmed(cells), nil
}

func trimmed(cells []string) []string {
	for i := range cells {
		cells[i] = strings.TrimSpace(cells[i])
	}
	return cells
}

// whole says whether a record without a line end is all there. What this program writes begins
// and ends with a quoted cell and has one for each column; what does not begin so is typed by a
// grower, and is a line.
func (r record) whole(columns int) bool {
	if open(r.text) || len(r.cells) == 0 {
		return false
	}
	return !strings.HasPrefix(r.text, `"`) || len(r.cells) >= columns && strings.HasSuffix(r.text, `"`)
}
