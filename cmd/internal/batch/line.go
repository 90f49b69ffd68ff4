package batch

import (
	"bytes"
	"encoding/json"
	"math"
	"slices"
	"strconv"
	"strings"

	"frostward/climate"
	"frostward/cmd/internal/table"
)

// Format is how rows are written: all have the same fields under the same names.
type Format int

// The formats.
const (
	CSV Format = iota
	JSONLines
)

// line builds a row, field by field in the order of the columns.
type line struct {
	format  Format
	columns []string
	buf     []byte
	n       int
}

func (l *line) reset() { l.buf, l.n = l.buf[:0], 0 }

// next begins a field.
func (l *line) next() {
	if l.n > 0 {
		l.buf = append(l.buf, ',')
	}
	if l.format == JSONLines {
		if l.n == 0 {
			l.buf = append(l.buf, '{')
		}
		l.buf = append(append(append(l.buf, '"'), l.columns[l.n]...), `":`...)
	}
	l.n++
}

// blank is a field that has no value.
func (l *line) blank() {
	l.next()
	if l.format == JSONLines {
		l.buf = append(l.buf, "null"...)
	}
}

func (l *line) text(s string) {
	if s = table.Safe(s); s == "" {
		l.blank()
		return
	}
	l.next()
	if l.format == JSONLines {
		b, err := json.Marshal(s)
		if err != nil {
			panic(err) // a string always can be
		}
		l.buf = append(l.buf, b...)
		return
	}
	s = table.GuardFormula(s)
	if strings.ContainsAny(s, ",\"") {
		s = `"` + strings.ReplaceAll(s, `"`, `""`) + `"`
	}
	l.buf = append(l.buf, s...)
}

// number is a field of some decimals, blank where it is not finite.
func (l *line) number(v float64, decimals int) {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		l.blank()
		return
	}
	l.next()
	at := len(l.buf)
	l.buf = strconv.AppendFloat(l.buf, v, 'f', decimals, 64)
	if l.buf[at] == '-' && len(bytes.Trim(l.buf[at:], "-0.")) == 0 { // zero has no sign
		l.buf = slices.Delete(l.buf, at, at+1)
	}
}

func (l *line) count(n int) {
	l.next()
	l.buf = strconv.AppendInt(l.buf, int64(n), 10)
}

// word is a text of ours: a date, or "none".
func (l *line) word(s string) {
	l.next()
	if l.format == JSONLines {
		l.buf = append(append(append(l.buf, '"'), s...), '"')
		return
	}
	l.buf = append(l.buf, s...)
}

// none is what stands where an event does not come in so many seasons; blank is not known.
const none = "none"

// day is a season day as MM-DD.
func (l *line) day(c climate.Calendar, v float64) {
	switch {
	case math.IsNaN(v):
		l.blank()
	case math.IsInf(v, 0):
		l.word(none)
	default:
		m, d := c.MonthDay(climate.SeasonDay(math.Round(v)))
		l.word(string([]byte{'0' + byte(m/10), '0' + byte(m%10), '-', '0' + byte(d/10), '0' + byte(d%10)}))
	}
}

// end fills up with blanks and returns the row, good until the next.
func (l *line) end() []byte {
	for l.n < len(l.columns) {
		l.blank()
	}
	if l.n > len(l.columns) {
		panic("batch: more fields than columns")
	}
	if l.format == JSONLines {
		l.buf = append(l.buf, '}')
	}
	return l.buf
}
