package daily

import (
	"fmt"
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
