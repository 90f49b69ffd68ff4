package daily

import (
	"bytes"
	"fmt"
)

// sniffed is what the first lines of a file show of it.
type sniffed struct {
	format   Format
	sep      byte
	header   header
	headLine int      // lines up to and with the header
	head     []byte   // the header line, to know it again
	text     []string // the lines above the header
	order    DateOrder
	padded   bool // temperatures are whole numbers padded to one width, as GHCN-Daily's tenths are
	utc      bool // times of day are in UTC
}

// headerWithin is the number of lines in which the header must come.
const headerWithin = 200

// separators in the order in which they are tried; the one that makes a header of
// weather columns is the right one.
var separators = []byte{',', ';', '\t', '|'}

// sniff finds the format from the first block of a file.
func sniff(block []byte, opts Options) (sniffed, error) {
	if err := notText(block); err != nil {
		return sniffed{}, err
	}
	var s sniffed
	rest := block
	for n := 1; len(rest) > 0 && n <= headerWithin; n++ {
		var line []byte
		line, rest = cutLine(rest)
		switch {
		case len(bytes.TrimSpace(line)) == 0:
			continue
		case isDLY(line):
			s.format = DLY
			return s, nil
		case isByYear(line):
			s.format = ByYear
			return s, nil
		}
		for i, h := range headless {
			if len(s.text) == 0 && headlessRow[i]().Match(line) {
				if _, err := s.tryHeader([]byte(h.names), opts); err != nil {
					return s, err
				}
				s.head = nil
				s.header.width = 200 // of which only the first are read
				s.order = DayFirst
				return s, nil
			}
		}
		ok, err := s.tryHeader(line, opts)
		if err != nil {
			return s, err
		}
		if ok {
			s.headLine = n
			s.padded = s.isPadded(rest)
			s.order, err = dateOrder(rest, s, opts)
			return s, err
		}
		s.text = append(s.text, string(line))
	}
	if isMonths(block) {
		s.format = Months
		return s, nil
	}
	if isColumns(block) {
		s.format = Columns
		return s, nil
	}
	return s, unknownFormat(block)
}

// tryHeader takes a line as header if some separator makes one of it.
func (s *sniffed) tryHeader(line []byte, opts Options) (bool, error) {
	bare := bytes.TrimLeft(line, "# ")
	for _, sep := range separators {
		if bytes.IndexByte(bare, sep) < 0 {
			continue
		}
		names := splitAll(bare, sep)
		h, ok, err := readHeader(names, opts)
		if err != nil {
			return false, err
		}
		if !ok {
			continue
		}
		s.format, s.sep, s.header, s.head = Delimited, sep, h, bytes.Clone(line)
		switch {
		case h.at[colTminFlags] >= 0 || h.at[colTmaxFlags] >= 0:
			s.format = Access
		case h.layout != nil:
			s.format = h.layout.name
		}
		for _, c := range []column{colDate, colClock} {
			if i := h.at[c]; i >= 0 {
				s.utc = inUTC().MatchString(names[i])
			}
		}
		return true, nil
	}
	return false, nil
}

// inUTC finds a column of times in UTC by its name.
var inUTC = onDemand(`(?i)utc|gmt`)

// isPadded says whether temperatures in the first rows are quoted and padded to five characters.
func (s *sniffed) isPadded(rows []byte) bool {
	i := max(s.header.at[colTmin], s.header.at[colTmax])
	sp := splitter{sep: s.sep, raw: true}
	for n := 0; len(rows) > 0 && n < 500 && i >= 0 && s.format == Access; n++ {
		var line []byte
		line, rows = cutLine(rows)
		if _, ok := sp.split(line, i+1); ok && i < len(sp.fields) {
			if f := sp.fields[i]; len(f) == 5 && f[0] == ' ' {
				return true
			}
		}
	}
	return false
}

// notText refuses what is plainly not a table of text.
func notText(block []byte) error {
	head := block[:min(len(block), 4096)]
	if bytes.Count(head, []byte{0})*10 > len(head) { // a few are faults of their rows
		return fmt.Errorf("looks like UTF-16 without a byte order mark, or not like text; wanted UTF-8")
	}
	low := bytes.ToLower(bytes.TrimSpace(head))
	if bytes.HasPrefix(low, []byte("<!doctype")) || bytes.HasPrefix(low, []byte("<html")) || bytes.HasPrefix(low, []byte("<?xml")) {
		return fmt.Errorf("is a web page or XML; wanted a table of text")
	}
	return nil
}

func unknownFormat(block []byte) error {
	for rest := block; len(rest) > 0; {
		var line []byte
		line, rest = cutLine(rest)
		if len(bytes.TrimSpace(line)) > 0 {
			return fmt.Errorf("starts with %q, which is no layout known here; wanted a table with a header "+
				"such as date,tmin,tmax, or a GHCN-Daily or KNMI file", quoted(line))
		}
	}
	return fmt.Errorf("is empty; wanted a table with a header such as date,tmin,tmax")
}

// dateOrder decides which part comes first in dates such as 03/04/2001. In a daily
// record the days follow each other, which nearly always shows it.
func dateOrder(rows []byte, s sniffed, opts Options) (DateOrder, error) {
	col := s.header.at[colDate]
	if opts.Dates != AnyOrder || col < 0 {
		return opts.Dates, nil
	}
	var good, steps, last [3]int
	text := []byte(nil)
	sp := newSplitter(s.sep)
	n := 0
	for len(rows) > 0 && n < 2000 {
		var line []byte
		line, rows = cutLine(rows)
		if _, ok := sp.split(line, col+1); !ok || len(sp.fields) <= col || len(sp.fields[col]) == 0 {
			continue
		}
		f := sp.fields[col]
		n++
		if k := digitsAt(f, 0); k == 4 || k == 8 {
			if n > 20 && text == nil {
				break // the year comes first: either order reads it alike
			}
			continue
		}
		for _, o := range []DateOrder{DayFirst, MonthFirst} {
			if d, ok := parseDate(f, o); ok {
				good[o]++
				if int(d)-last[o] == 1 {
					steps[o]++
				}
				last[o] = int(d)
			}
		}
		if a, okA := parseDate(f, DayFirst); text == nil && okA {
			if b, okB := parseDate(f, MonthFirst); !okB || a != b {
				text = bytes.Clone(f)
			}
		}
	}
	d, m := DayFirst, MonthFirst
	switch {
	case good[d] != good[m]:
		return moreOf(d, m, good), nil
	case steps[d] != steps[m]:
		return moreOf(d, m, steps), nil
	case text != nil:
		return AnyOrder, fmt.Errorf("has dates such as %q, of which the day or the month may come first; state it (--read dates=dmy or dates=mdy)", text)
	}
	return DayFirst, nil
}

func moreOf(a, b DateOrder, n [3]int) DateOrder {
	if n[a] > n[b] {
		return a
	}
	return b
}
