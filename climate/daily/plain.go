package daily

import (
	"bytes"

	"frostward/climate"
)

// plainMonth is the month of the plain row last read.
type plainMonth struct {
	text  [8]byte     // "yyyy-mm-"
	first climate.Day // its first day
	days  int         // 0 where the text is no month
}

// isPlain says whether rows may be of the kind that plainRow reads.
func (d *delimited) isPlain() bool {
	at := &d.header.at
	return !d.opts.slowly && d.format == Delimited && d.sep == ',' && d.header.width == 3 && at[colDate] == 0 &&
		at[colTmin] > 0 && at[colTmax] > 0 && len(d.header.flags) == 0 && d.opts.Until == 0
}

// plainRow reads a row yyyy-mm-dd,number,number at the start of a block and returns its length. It is a short
// cut through row for the commonest file of all, four times as quick, and takes nothing that row reads
// otherwise: for the least oddity it returns 0, and row reads the line.
func (d *delimited) plainRow(b []byte, line int) int {
	const date = len("yyyy-mm-dd,")
	end := bytes.IndexByte(b[:min(len(b), 32)], '\n')
	if end < date || b[10] != ',' {
		return 0
	}
	m := &d.month
	if [8]byte(b) != m.text && !m.turn([8]byte(b)) {
		return 0
	}
	n := atoi(b[8:10])
	if n < 1 || n > m.days {
		return 0
	}
	row := bytes.TrimSuffix(b[date:end], []byte{'\r'})
	comma := bytes.IndexByte(row, ',')
	if comma < 0 {
		return 0
	}
	x, okX := parseShort(row[:comma])
	y, okY := parseShort(row[comma+1:])
	// What lies outside this range may be a missing code; a comma within a number, a column too many.
	if !okX || !okY || min(x, y) <= -98 || max(x, y) >= 900 || bytes.IndexByte(row[comma+1:], ',') >= 0 {
		return 0
	}
	if d.header.at[colTmin] == 2 {
		x, y = y, x
	}
	t := d.sink.at(nil)
	t.rows++
	t.placed = true
	t.add(m.first+climate.Day(n-1), pair{x, y}, line)
	return end + 1
}

// turn makes ready for a month, and is false where the text is none.
func (m *plainMonth) turn(text [8]byte) bool {
	*m = plainMonth{}
	if text[4] != '-' || text[7] != '-' {
		return false
	}
	year, month := atoi(text[:4]), atoi(text[5:7])
	first, ok := dayOf(year, month, 1)
	if ok {
		*m = plainMonth{text, first, daysIn(year, month)}
	}
	return ok
}
