package daily

import (
	"fmt"
	"slices"
	"strings"
)

// Fault is something in a file that could not be used. It has a place, and it costs
// one day.
type Fault struct {
	File  string
	Line  int    // counted from 1; 0 is the whole file
	Field string // "date", "tmin", "tmax", or "" for the whole row
	Text  string // the text at fault, cut to a readable length
	Want  string // what is wrong with it and what was wanted
}

// Error puts the place first: record.csv:118: tmin: "1O.5" is not a number.
func (f Fault) Error() string {
	var b strings.Builder
	b.WriteString(f.File)
	if f.Line > 0 {
		fmt.Fprintf(&b, ":%d", f.Line)
	}
	if f.Field != "" {
		b.WriteString(": " + f.Field)
	}
	b.WriteString(": ")
	if f.Text != "" {
		fmt.Fprintf(&b, "%q ", f.Text)
	}
	b.WriteString(f.Want)
	return b.String()
}

// maxQuoted is the most of an offending text that is kept, in bytes.
const maxQuoted = 40

// quoted returns a copy of a text short enough to show.
func quoted(text []byte) string {
	if len(text) > maxQuoted {
		return string(text[:maxQuoted]) + "..."
	}
	return string(text)
}

// faultList keeps the first faults and counts all.
type faultList struct {
	file  string
	limit int
	kept  []Fault
	count int
}

func (l *faultList) reset() { l.kept, l.count = nil, 0 }

func (l *faultList) add(line int, field string, text []byte, want string) {
	l.count++
	if len(l.kept) < l.limit {
		l.kept = append(l.kept, Fault{File: l.file, Line: line, Field: field, Text: quoted(text), Want: want})
	}
}

func (l *faultList) addText(line int, field, text, want string) {
	l.add(line, field, []byte(text), want)
}

// join takes in the faults of another list, in the order of their lines.
func (l *faultList) join(o faultList) {
	l.count += o.count
	l.kept = append(l.kept, o.kept...)
	slices.SortStableFunc(l.kept, func(a, b Fault) int { return a.Line - b.Line })
	l.kept = l.kept[:min(len(l.kept), l.limit)]
}
