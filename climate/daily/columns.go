package daily

import (
	"bytes"
	"fmt"
	"math"
)

// columns reads tables without a header line on top: columns parted by blanks, such as
// 1897 5 1 71 49, with text above or below that names them, or none. Since the names
// may stand below, the file is kept until its end.
type columns struct {
	opts Options
	sink *sink
	text []byte // the whole file
	d    *delimited
}

// maxColumnsFile bounds such a file: 200 years of wide rows are about 8 MB.
const maxColumnsFile = 64 << 20

// maxTextLines bounds the text around the rows that is looked at for names and units.
const maxTextLines = 1000

// isColumns says whether most lines after the first dated one are dated rows.
func isColumns(block []byte) bool {
	dated, other := 0, 0
	for n := 0; len(block) > 0 && n < 500; n++ {
		var line []byte
		line, block = cutLine(block)
		if _, ok := anyDatedRow(line); ok {
			dated++
		} else if dated > 0 && len(bytes.TrimSpace(line)) > 0 {
			other++
		}
	}
	return dated > other
}

// anyDatedRow says whether a line starts with a date, and which separator it has.
func anyDatedRow(line []byte) (sep byte, ok bool) {
	for _, sep := range []byte{' ', ',', ';', '\t'} {
		if s := newSplitter(sep); s.datedRow(line) {
			return sep, true
		}
	}
	return 0, false
}

func newSplitter(sep byte) splitter { return splitter{sep: sep, blanks: sep == ' '} }

// datedRow says whether a line starts with a date.
func (s *splitter) datedRow(line []byte) bool {
	line = trim(line)
	if len(line) == 0 || line[0]-'0' > 9 && line[0] != '"' {
		return false
	}
	n, ok := s.split(line, 3)
	if !ok {
		return false
	}
	f := s.fields
	if len(f) == 3 && len(f[0]) == 4 {
		if _, ok := dayOf(atoi(f[0]), atoi(f[1]), atoi(f[2])); ok {
			return true
		}
	}
	_, ok = parseDate(f[0], AnyOrder)
	return ok && (n > 1 || s.blanks) && len(f[0]) >= 6
}

func (p *columns) block(b []byte, line int) (int, error) {
	if len(p.text)+len(b) > maxColumnsFile {
		return line, fmt.Errorf("has columns without a header line on top and more than %d MB; wanted a header line", maxColumnsFile>>20)
	}
	p.text = append(p.text, b...)
	return line + bytes.Count(b, []byte{'\n'}), nil
}

// end finds the names and units in the text around the rows, then reads the rows.
func (p *columns) end() error {
	first, last, n, above := 0, 0, 0, 0
	var sample []byte
	s := sniffed{format: Columns}
	var sp splitter
	for rest := p.text; len(rest) > 0; {
		var line []byte
		line, rest = cutLine(rest)
		n++
		if first == 0 {
			if sep, ok := anyDatedRow(line); ok {
				first, s.sep, sample, sp = n, sep, line, newSplitter(sep)
			}
		}
		if first > 0 && sp.datedRow(line) {
			last, s.text = n, s.text[:above] // what stood between rows was no text but a fault
		} else if len(s.text) < maxTextLines {
			s.text = append(s.text, string(line))
			if first == 0 {
				above = len(s.text)
			}
		}
	}
	if err := p.findNames(&s, sample); err != nil {
		return err
	}
	rest := p.text
	for range first - 1 {
		_, rest = cutLine(rest)
	}
	var err error
	if s.order, err = dateOrder(rest, s, p.opts); err != nil {
		return err
	}
	if s.sep == ' ' && s.header.last < s.header.width-1 {
		s.header.width = 1000 // the last column, which is not needed, may hold remarks
	}
	p.d = newDelimited(s, p.opts, p.sink)
	p.d.split = newSplitter(s.sep)
	p.d.plain = false
	n = 0
	for rest := p.text; len(rest) > 0; {
		var line []byte
		line, rest = cutLine(rest)
		if n++; n < first || n > last {
			continue
		}
		if err := p.d.line(line, n); err != nil {
			return err
		}
	}
	p.text = nil
	return nil
}

// label is what may stand before a list of column names.
var label = onDemand(`^[^:,]{1,30}:`)

// findNames finds the columns by a line that names them, or, where there are but two
// values a row, by which is the lower.
func (p *columns) findNames(s *sniffed, sample []byte) error {
	sp := newSplitter(s.sep)
	width, _ := sp.split(bytes.TrimSpace(sample), 1000)
	for _, line := range s.text {
		line = label().ReplaceAllString(line, "")
		for _, sep := range []byte{',', ';', '\t', ' '} {
			names := newSplitter(sep)
			n, ok := names.split(bytes.TrimSpace([]byte(line)), 1000)
			if !ok || n != width && (sep != ' ' || s.sep != ' ') {
				continue
			}
			list := make([]string, n)
			for i, f := range names.fields {
				list[i] = string(f)
			}
			h, ok, err := readHeader(list, p.opts)
			if err != nil {
				return err
			}
			if ok && (n == width || h.last < width && allKnown(list[:h.last+1])) {
				s.header = h
				return nil
			}
		}
	}
	return p.byValue(s, width)
}

// allKnown says whether each of some words names a column, as a sentence's do not.
func allKnown(names []string) bool {
	for _, n := range names {
		if c, _ := classify(n); c == colOther {
			return false
		}
	}
	return true
}

// byValue names the two columns of values of a file that has nothing but rows: a minimum is hardly ever above its
// maximum, so the column that is the lower on 99 days of 100 is the minimum.
func (p *columns) byValue(s *sniffed, width int) error {
	for _, line := range s.text {
		sp := newSplitter(s.sep)
		if n, ok := sp.split(bytes.TrimSpace([]byte(line)), width); ok && n == width {
			return fmt.Errorf("has the columns %q, none of which is known as minimum or maximum; name the ones to take (--read tmin=COLUMN,tmax=COLUMN)", quoted([]byte(line)))
		} else if n > 0 {
			return fmt.Errorf("does not name its columns; wanted a line of names such as date,tmin,tmax")
		}
	}
	names := []string{"date", "a", "b"}
	if width == 5 {
		names = []string{"year", "month", "day", "a", "b"}
	}
	if width != len(names) {
		return fmt.Errorf("does not name its %d columns; wanted a line of names such as year, month, day, tmax, tmin", width)
	}
	below, above := 0, 0
	sp := newSplitter(s.sep)
	for rest := p.text; len(rest) > 0; {
		var line []byte
		line, rest = cutLine(rest)
		if n, ok := sp.split(line, width); !ok || n != width {
			continue
		}
		a, okA := parseNumber(sp.fields[width-2])
		b, okB := parseNumber(sp.fields[width-1])
		switch {
		case !okA || !okB || isCode(a, Celsius) || isCode(b, Celsius):
		case a < b:
			below++
		case a > b:
			above++
		}
	}
	lower := max(below, above)
	if lower < 10 || float64(min(below, above)) > math.Ceil(0.01*float64(lower)) {
		return fmt.Errorf("does not name its columns, and its values do not show which is the minimum; " +
			"wanted a line of names such as date,tmin,tmax")
	}
	names[width-2], names[width-1] = "tmin", "tmax"
	if above > below {
		names[width-2], names[width-1] = "tmax", "tmin"
	}
	var err error
	s.header, _, err = readHeader(names, Options{})
	p.sink.note("the columns are not named; the lower was taken as the minimum")
	return err
}

func (p *columns) stated() (Units, string) { return p.d.stated() }

func (p *columns) choices(whole bool) []Units { return p.d.choices(whole) }

func (p *columns) names() (tmin, tmax string) { return p.d.names() }
