package daily

import (
	"bytes"
	"encoding/binary"
	"math/bits"
)

// quick reads the plainest rows of the plainest table, yyyy-mm-dd,number,number, where
// nearly all the bytes of large inputs are. Whatever it does not know it leaves to the
// patient reader, a line at a time, so that there is one place that words faults; the
// tests hold the two equal.
//
// What the profile led to, for rows of about 20 bytes:
//   - The date is compared with the one expected, the day after the row above. Year and
//     month are compared as eight bytes; a month is parsed, and its length taken, when
//     it changes.
//   - The line end is looked for where it must nearly always be, 17 to 24 bytes on, in
//     one load, before the numbers are: the next row's address then waits for nothing
//     else, and the processor works on several rows at once.
//   - A temperature's text is looked up in a small memo of texts already read: a record
//     has a few hundred different ones. Equal text is equal value, so a hit needs no
//     check of digits. A miss is read by parseNumber, the patient reader's own.
type quick struct {
	swap  bool // the maximum comes first
	crlf  bool // some line ended in "\r\n"
	limit int  // days from this index on go to the patient reader
	sink  *sink
	memo  *[memoSize]memoEntry

	// The day last read.
	month uint64 // the text "yyyy-mm-" of its month
	base  int    // index of the day before the month's first
	days  int    // in the month
	day   int    // of the month
}

// memoEntry is a number and its text, in the upper bytes of a word, zeros below.
type memoEntry struct {
	text  uint64
	value float64
}

const (
	memoBits = 12
	memoSize = 1 << memoBits
	memoMul  = 0x69ad3eeff8ffeeea
)

// memos are kept from file to file, as they are: a text is the same number in each.
var memos = spares[[memoSize]memoEntry]{make: func() *[memoSize]memoEntry {
	m := new([memoSize]memoEntry)
	m[0].text = 1 // so that no text at all, which falls there, is not found
	return m
}}

// newQuick returns nil where the table is not of the plain kind.
func newQuick(d *delimited) *quick {
	at := &d.header.at
	if d.opts.patient || d.format != Delimited || d.sep != ',' || d.header.width != 3 || at[colDate] != 0 ||
		at[colTmin] < 0 || at[colTmax] < 0 || d.codes == TenthsCelsius {
		return nil
	}
	q := &quick{swap: at[colTmax] == 1, limit: windowDays, sink: d.sink, memo: memos.get()}
	if d.opts.Until != 0 {
		q.limit = min(windowDays, max(0, int(d.opts.Until-windowFirst)+1))
	}
	return q
}

// dayTexts[n][d] is the text "dd," of the day after d days of a month of n, as the low
// three bytes of a word. After the last day it is 0, which no text matches.
var dayTexts = func() (t [32][32]uint32) {
	for n := range t {
		for d := 1; d <= n; d++ {
			t[n][d-1] = uint32('0'+d/10) | uint32('0'+d%10)<<8 | ','<<16
		}
	}
	return t
}()

const (
	ones     = 0x0101010101010101
	tops     = 0x8080808080808080
	commas   = ',' * ones
	newlines = '\n' * ones
	// numberFrom is where the first number starts, in bytes from the start of a row.
	numberFrom = 11 // len("yyyy-mm-dd,"), untyped
	// endFrom is where the line end is looked for.
	endFrom = 17
	// reach is the furthest that one row's loads go: a second number that starts 8 bytes
	// into the first one's word, and is a word long.
	reach = numberFrom + 8 + 1 + 8
)

// rows reads rows from the start of a block as far as it can, and returns the bytes and
// lines read. The line that follows, if any, is for the patient reader. The first line
// has the number given.
func (q *quick) rows(b []byte, line int) (n, lines int) {
	if cap(b)-len(b) < blockPad {
		return 0, 0
	}
	q.sink.at(nil)
	p := b[:len(b)+blockPad] // the loads may run past the last line
	for n < len(b) {
		i, k := q.stretch(p[n:])
		n, lines = n+i, lines+k
		if n == len(b) || q.turn(p[n:]) < 0 {
			break
		}
		if i, k = q.stretch(p[n:]); k > 0 { // a new month was all it was
			n, lines = n+i, lines+k
			continue
		}
		size := q.row(p[n:], line+lines)
		if size == 0 {
			break
		}
		n, lines = n+size, lines+1
	}
	q.sink.table.rows += lines
	q.sink.table.listed += lines
	return n, lines
}

// stretch reads rows of days that follow the one last read, in its month, whose numbers
// the memo knows. It calls nothing and keeps little, so that it runs from registers.
// Positions within a word are in bits, as they come: the seventh bit of a byte.
func (q *quick) stretch(p []byte) (n, lines int) {
	size := len(p)
	t := q.sink.table
	memo := q.memo
	month, days := q.month, &dayTexts[q.days]
	cells := (*[32]cell)(t.cells[q.base+1:]) // of the month
	day := uint(q.day)                       // days of the month read
	for len(p) > blockPad {
		r := (*[reach]byte)(p)
		if binary.LittleEndian.Uint64(r[:]) != month || binary.LittleEndian.Uint32(r[8:])&0xffffff != days[day&31] {
			break
		}
		w := binary.LittleEndian.Uint64(r[endFrom:]) ^ newlines
		w = (w - ones) &^ w & tops
		if w == 0 {
			break
		}
		stop := uint(bits.TrailingZeros64(w))
		a := binary.LittleEndian.Uint64(r[numberFrom:])
		w = a ^ commas
		w = (w - ones) &^ w & tops
		if w == 0 {
			break
		}
		comma := uint(bits.TrailingZeros64(w))
		// The second number is stop-comma+40 bits long; it goes to the top of its word.
		shift := comma - stop + 24
		if q.crlf && r[stop>>3+endFrom-1] == '\r' {
			shift += 8
		}
		if shift-8 > 48 {
			break
		}
		a = a << 8 << (comma ^ 63)
		e := &memo[a*memoMul>>(64-memoBits)]
		if e.text != a {
			break
		}
		b := binary.LittleEndian.Uint64(r[comma>>3+numberFrom+1:]) << (shift & 63)
		f := &memo[b*memoMul>>(64-memoBits)]
		if f.text != b {
			break
		}
		v := pair{e.value, f.value}
		if q.swap {
			v = pair{f.value, e.value}
		}
		c := &cells[day&31]
		if c.state == 0 {
			c.pair, c.state = v, isListed
		} else if c.pair != v && c.state == isListed {
			break
		}
		day++
		p = p[stop>>3+endFrom+1:]
	}
	if lines = int(day) - q.day; lines > 0 {
		from := q.base + q.day + 1
		t.run(from, from+lines)
		q.day += lines
	}
	return size - len(p), lines
}

// row reads one row that stretch did not: the first of a month, a number that is new, a
// day given before. It returns its length, or 0 where the patient reader must see it.
func (q *quick) row(p []byte, line int) int {
	x := q.turn(p)
	end := bytes.IndexByte(p[:blockPad], '\n')
	if x < 0 || end < numberFrom {
		return 0
	}
	numbers, cr := bytes.CutSuffix(p[numberFrom:end], []byte{'\r'})
	q.crlf = q.crlf || cr
	comma := bytes.IndexByte(numbers, ',')
	if comma < 0 {
		return 0
	}
	a, okA := q.learn(numbers[:comma])
	b, okB := q.learn(numbers[comma+1:])
	if !okA || !okB {
		return 0
	}
	if q.swap {
		a, b = b, a
	}
	q.sink.table.put(x, pair{a, b}, line)
	q.sink.table.run(x, x+1)
	q.day = x - q.base
	return end + 1
}

// learn reads a number and keeps it in the memo if it fits. It is false for a text that
// is no number, for what may be a missing code, and for an empty one.
func (q *quick) learn(b []byte) (float64, bool) {
	v, ok := parseNumber(b)
	if !ok || v <= -98 || v >= 900 || bytes.IndexByte(b, ',') >= 0 { // a comma: a column too many
		return 0, false
	}
	if len(b) < 8 {
		var w [8]byte
		copy(w[8-len(b):], b)
		text := binary.LittleEndian.Uint64(w[:])
		q.memo[text*memoMul>>(64-memoBits)] = memoEntry{text, v}
	}
	return v, true
}

// turn reads the date at the start of a row and makes ready for it: the row may be read
// by stretch. It returns the day's index, or -1.
func (q *quick) turn(b []byte) int {
	if b[4] != '-' || b[7] != '-' || b[10] != ',' {
		return -1
	}
	y, m, d := atoi(b[:4]), atoi(b[5:7]), atoi(b[8:10])
	day, ok := dayOf(y, m, d)
	x := int(day - windowFirst)
	if !ok || x >= q.limit {
		return -1
	}
	q.month, q.base, q.day = binary.LittleEndian.Uint64(b), x-d, d-1
	q.days = min(daysIn(y, m), q.limit-1-q.base) // days from the limit on match nothing
	return x
}
