package journal

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
)

// Log is a log as read.
type Log struct {
	File    string
	Entries []Entry // every line that could be read, in the file's order
	Faults  []Fault // the others
	Remark  string  // on a last line that is used, but may have been cut off

	custom custom
}

// Fault is a line that is not used.
type Fault struct {
	File   string
	Line   int
	What   string
	CutOff bool // the writer was stopped in it
}

func (f Fault) Error() string { return fmt.Sprintf("%s:%d: %s", f.File, f.Line, f.What) }

// custom is how a file is written, which what is added follows.
type custom struct {
	columns      []string // of the last heading, lower case; nil for an empty file
	sep          rune
	decimalComma bool
	eol          string
	bare         bool // the last line has no line end
	cut          bool // and is cut off
	isNew        bool // it is being made
}

// maxFile is more than a reading an hour for a century.
const maxFile = 64 << 20

// Read reads a log; file names it in messages. An error is a file that cannot be
// read at all; lines that cannot are faults.
func Read(r io.Reader, file string) (Log, error) { return readForm(r, file, logForm) }

func readForm(r io.Reader, file string, f form) (Log, error) {
	b, err := io.ReadAll(io.LimitReader(r, maxFile+1))
	if err != nil {
		return Log{}, fmt.Errorf("%s: %w", file, err)
	}
	return parse(b, file, f)
}

func parse(b []byte, file string, f form) (Log, error) {
	l := Log{File: file, custom: custom{sep: ',', eol: "\n"}}
	text, err := decode(b)
	if err != nil {
		return l, fmt.Errorf("%s: %w", file, err)
	}
	if !strings.Contains(text, "\n") && strings.Contains(text, "\r") {
		text, l.custom.eol = strings.ReplaceAll(text, "\r", "\n"), "\r"
	}
	first, _, more := strings.Cut(strings.TrimLeft(text, "\r\n"), "\n")
	l.custom.sep = separatorOf(first)
	if more && strings.HasSuffix(first, "\r") {
		l.custom.eol = "\r\n"
	}
	l.custom.bare = text != "" && !strings.HasSuffix(text, "\n")
	recs, bad := split(text, l.custom.sep)
	for _, x := range bad {
		l.fault(x.line, x.why, x.why == cutOffWords)
	}
	if err := l.read(recs, f); err != nil {
		return l, err
	}
	slices.SortStableFunc(l.Faults, func(a, b Fault) int { return cmp.Compare(a.Line, b.Line) })
	return l, nil
}

// decode takes off a byte order mark, and refuses what is not a text of one byte units.
func decode(b []byte) (string, error) {
	switch {
	case len(b) > maxFile:
		return "", fmt.Errorf("is over %d MiB; wanted a garden log", maxFile>>20)
	case len(b) > 1 && (b[0] == 0xFF && b[1] == 0xFE || b[0] == 0xFE && b[1] == 0xFF):
		return "", errors.New("is in UTF-16, which is read but not written to; wanted CSV in UTF-8, as a spreadsheet saves it when asked")
	}
	return strings.ToValidUTF8(strings.TrimPrefix(string(b), "\ufeff"), "\ufffd"), nil
}

func (l *Log) fault(line int, what string, cut bool) {
	l.Faults = append(l.Faults, Fault{File: l.File, Line: line, What: what, CutOff: cut})
}

// read takes the records one by one: headings, entries and faults.
func (l *Log) read(recs []record, f form) error {
	order := orderOf(firstCells(recs, f))
	dots, commas := 0, 0
	for i, r := range recs {
		head := headingOf(r, f)
		if i == 0 && head == nil {
			return fmt.Errorf("%s:%d: %q is not a heading; wanted %s", l.File, r.line, short(r.text), strings.Join(f.columns, ","))
		}
		if r.bare && !(i == 0 && head != nil) {
			ok := r.whole(len(l.custom.columns))
			if head != nil || len(r.cells) > 0 && strings.EqualFold(r.cells[0], l.custom.columns[0]) {
				// A heading further down is this program's, and ends with a quoted cell.
				ok = ok && head != nil && strings.HasSuffix(r.text, `"`)
			}
			if !ok {
				l.custom.cut = true
				l.fault(r.line, fmt.Sprintf("%q has no line end and too few cells: it was cut off while it was written, and is not used; "+
					"if it is all there, put a line end after it", short(r.text)), true)
				continue
			}
		}
		if head != nil {
			if err := headingFault(head); err != nil {
				return fmt.Errorf("%s:%d: %w", l.File, r.line, err)
			}
			l.custom.columns = head
			continue
		}
		e, err := entryOf(r.cells, l.custom.columns, order, f)
		if err != nil {
			l.fault(r.line, err.Error(), false)
			continue
		}
		e.Line = r.line
		l.Entries = append(l.Entries, e)
		if n := len(l.custom.columns); r.bare && len(r.cells) < n { // versions before quoted cells left such, cut in a number
			l.Remark = fmt.Sprintf("%s:%d: %q has no line end and %d of %d cells; it is used as it stands: if it was cut off, log that date and spot again",
				l.File, r.line, short(r.text), len(r.cells), n)
		}
		for _, c := range r.cells {
			if wanted().MatchString(c) {
				dots += strings.Count(c, ".")
				commas += strings.Count(c, ",")
			}
		}
	}
	l.Entries = standing(l.Entries)
	// A spreadsheet that parts cells by semicolons has a decimal comma, and may take 1.5
	// for the first of May.
	l.custom.decimalComma = l.custom.sep == ';' && dots == 0 || commas > dots
	return nil
}

func firstCells(recs []record, f form) []string {
	var out []string
	at := 0
	for _, r := range recs {
		if h := headingOf(r, f); h != nil {
			at = slices.Index(h, colDate)
		} else if at < len(r.cells) {
			out = append(out, r.cells[at])
		}
	}
	return out
}

// headingOf returns the columns of a heading in lower case, nil for another row: a
// heading is a row with a cell "date" and one for what the lines are about.
func headingOf(r record, f form) []string {
	head := make([]string, len(r.cells))
	for i, c := range r.cells {
		head[i] = strings.ToLower(c)
	}
	if slices.Contains(head, colDate) && slices.Contains(head, f.about) {
		return head
	}
	return nil
}

func headingFault(head []string) error {
	if len(head) > maxColumns {
		return fmt.Errorf("%d columns; wanted at most %d", len(head), maxColumns)
	}
	seen := map[string]bool{}
	for _, h := range head {
		if h != "" && seen[h] {
			return fmt.Errorf("column %q stands twice", h)
		}
		seen[h] = true
	}
	return nil
}

const maxColumns = 1000

// short cuts a text for a message.
func short(s string) string {
	r := []rune(s)
	if len(r) > 40 {
		return string(r[:40]) + "..."
	}
	return s
}
