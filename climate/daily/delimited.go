package daily

import (
	"bytes"
	"fmt"

	"frostward/climate"
)

// delimited reads the rows of a table with a header: plain, GHCN-Daily access and KNMI
// files. Rows of the plainest kind take a short cut, see plain.go.
type delimited struct {
	sniffed
	opts  Options
	units Units  // where known before the values are seen
	from  string // where the units are known from
	codes Units  // those that decide what is a missing code
	split splitter
	sink  *sink
	plain bool // date, number, number: see plain.go
	month plainMonth

	skip  int // lines up to and with the header
	tries int // rows that were looked at for a header
}

// maxTries bounds the looking for headers between rows, which costs as much as some
// hundred rows do: a file of nothing but bad rows must end too.
const maxTries = 1000

func newDelimited(s sniffed, opts Options, sk *sink) *delimited {
	d := &delimited{sniffed: s, opts: opts, split: splitter{sep: s.sep}, sink: sk, skip: s.headLine}
	d.units, d.from = stated(s, opts)
	d.codes = d.units
	// A column too many in a file that people write is a comma for a point; archives
	// quote or pad theirs, and counting is much of their reading.
	d.split.loose = s.format == Access || s.header.layout != nil
	d.plain = d.isPlain()
	return d
}

// stated returns the units that the user, the header, the layout or the text above it states.
func stated(s sniffed, opts Options) (Units, string) {
	switch {
	case opts.Units != "":
		return opts.Units, "option"
	case s.header.units != "":
		return s.header.units, "header"
	case s.header.layout != nil:
		return s.header.layout.units, "format"
	case s.padded:
		return TenthsCelsius, "format"
	}
	found := Units("")
	for _, line := range s.text {
		if u := unitsInText(line); u != "" && found != "" && u != found {
			return "", ""
		} else if u != "" {
			found = u
		}
	}
	if found != "" {
		return found, "text"
	}
	return "", ""
}

func (d *delimited) end() error { return nil }

func (d *delimited) names() (tmin, tmax string) { return d.header.tmin, d.header.tmax }

func (d *delimited) stated() (Units, string) { return d.units, d.from }

// choices are the units that values may be in where nothing states them. Climate Data Online gives whole °F or
// tenths of °C where all are whole numbers, and °C where they are not.
func (d *delimited) choices(whole bool) []Units {
	switch {
	case d.format != Access:
		return nil
	case whole:
		return []Units{Fahrenheit, TenthsCelsius}
	}
	return []Units{Celsius, Fahrenheit}
}

func (d *delimited) block(b []byte, line int) (int, error) {
	for ; line <= d.skip && len(b) > 0; line++ {
		_, b = cutLine(b)
	}
	for len(b) > 0 {
		if d.plain {
			if n := d.plainRow(b, line); n > 0 {
				b, line = b[n:], line+1
				continue
			}
		}
		var text []byte
		text, b = cutLine(b)
		if err := d.line(text, line); err != nil {
			return line, err
		}
		line++
	}
	return line, nil
}

// line reads one line, which may hold several rows where line ends are mixed.
func (d *delimited) line(text []byte, n int) error {
	for {
		i := bytes.IndexByte(text, '\r')
		if i < 0 {
			return d.row(text, n)
		}
		if err := d.row(text[:i], n); err != nil {
			return err
		}
		text = text[i+1:]
	}
}

// startsDate says whether a row has a figure where its date starts, as a header has not.
func (h *header) startsDate(f [][]byte) bool {
	i := h.at[colDate]
	if i < 0 {
		i = h.at[colYear]
	}
	return i < len(f) && len(f[i]) > 0 && f[i][0]-'0' <= 9
}

func (d *delimited) isDate(b []byte) bool {
	_, ok := parseDate(b, d.order)
	return ok
}

// hasNumber says whether some field of a row is a number.
func (d *delimited) hasNumber(f [][]byte) bool {
	for _, b := range f {
		if _, ok := parseNumber(b); ok {
			return true
		}
	}
	return false
}

// tableFor returns the table of a row's station, nil to pass the row over. A row without
// a station is taken for the one above it; it is false where there is none.
func (d *delimited) tableFor(f [][]byte) (*table, bool) {
	i := d.header.at[colStation]
	switch {
	case i < 0:
		return d.sink.at(nil), true
	case i < len(f) && len(f[i]) > 0:
		return d.sink.at(f[i]), true
	}
	return d.sink.again()
}

// row reads one row. What it cannot use it leaves as a fault; an error stops the file.
func (d *delimited) row(text []byte, n int) error {
	if bare := bytes.TrimSpace(text); len(bare) == 0 || bare[0] == '#' || bytes.Equal(bare, bytes.TrimSpace(d.head)) {
		return d.maybeHeader(bare)
	}
	h := &d.header
	count, ok := d.split.split(text, max(h.last, h.snow.last())+1)
	f := d.split.fields
	if !ok || !h.startsDate(f) {
		if again, err := d.newHeader(text); again || err != nil {
			return err
		}
	}
	t, known := d.tableFor(f)
	if !known {
		d.sink.table.rows++
		d.sink.table.fault(n, "station", text, "is a row without a station; wanted its name")
		return nil
	}
	if t == nil {
		return nil // another station than the one asked for
	}
	t.rows++
	switch {
	case !ok:
		t.fault(n, "", text, "has a quote that is not closed, or text after one")
		return nil
	case h.layout != nil && !h.startsDate(f) && !d.hasNumber(f):
		return nil // a footnote of an archive
	case count == 1 && h.at[colDate] == 0 && h.startsDate(f) && d.isDate(f[0]):
		return nil // a day without a reading
	case len(f) <= h.last || count > h.width:
		t.fault(n, "", text, fmt.Sprintf("has %s; wanted %d", columnsOf(count), h.width))
		return nil
	}
	day, minute, z, bad, field := d.date(f)
	if bad != nil {
		if d.empty(f) {
			return nil // 30 February with nothing in it, in a table of 12 times 31 rows, or a footnote
		}
		t.fault(n, field, bad, notADate)
		return nil
	}
	if why := d.outside(day); why != "" {
		t.fault(n, field, []byte(day.String()), why)
		return nil
	}
	if h.at[colTemperature] >= 0 {
		v, ok := d.value(t, colTemperature, colTminFlags, n)
		if ok && v == v {
			d.reading(t, day, max(minute, 0), z, reading{pair: pair{v, v}})
		}
		d.place(t, f)
		return nil
	}
	tmin, ok := d.value(t, colTmin, colTminFlags, n)
	if !ok {
		return nil
	}
	tmax, ok := d.value(t, colTmax, colTmaxFlags, n)
	if !ok {
		return nil
	}
	if i := h.at[colHours]; i >= 0 && minute >= 0 {
		d.reading(t, day, minute, z, reading{hours: int16(max(1, min(atoi(f[i]), 24))), pair: pair{tmin, tmax}})
	} else {
		t.stamps.add(minute, z)
		t.add(day, pair{tmin, tmax}, n)
		h.snow.read(t, day, f)
	}
	d.place(t, f)
	return nil
}

// reading keeps a reading for the days to be made of it.
func (d *delimited) reading(t *table, day climate.Day, minute int, z zone, r reading) {
	if len(t.readings) >= maxReadings {
		if d.sink.err == nil {
			d.sink.err = fmt.Errorf("has more than %d readings; wanted a file of fewer years", maxReadings)
		}
		return
	}
	t.stamps.add(minute, z)
	r.at = int32(int(day-windowFirst)*minutesADay + minute)
	t.readings = append(t.readings, r)
}

// place takes the station's name and position from the first row that has them.
func (d *delimited) place(t *table, f [][]byte) {
	if t.placed {
		return
	}
	t.placed = true
	at := &d.header.at
	if i := at[colName]; i >= 0 && i < len(f) {
		t.name = string(f[i])
	}
	for c, p := range map[column]*float64{colLatitude: &t.latitude, colLongitude: &t.longitude, colElevation: &t.elevation} {
		if i := at[c]; i >= 0 && i < len(f) {
			if v, ok := parseNumber(f[i]); ok && !isCode(v, Celsius) {
				*p = v
			}
		}
	}
}

// maybeHeader passes over blank lines, comments and the header come again, as where
// files were joined; a comment may be a header in other words.
func (d *delimited) maybeHeader(bare []byte) error {
	if len(bare) > 0 && bare[0] == '#' {
		_, err := d.newHeader(bare)
		return err
	}
	return nil
}

// newHeader takes a line as a new header if it is one: the columns change from here.
func (d *delimited) newHeader(text []byte) (bool, error) {
	if d.tries++; d.tries > maxTries {
		return false, nil
	}
	var s sniffed
	ok, err := s.tryHeader(text, d.opts)
	if err != nil || !ok || s.sep != d.sep {
		return false, err
	}
	if (s.header.at[colStation] >= 0) != (d.header.at[colStation] >= 0) {
		return false, fmt.Errorf("has a header with a station and one without; wanted either for the whole file")
	}
	if s.header.units != d.header.units {
		return false, fmt.Errorf("changes from %s to %s within the file; wanted one unit", d.header.units, s.header.units)
	}
	d.header, d.head, d.plain = s.header, s.head, false
	d.sink.note("the header comes again with other columns; they were followed")
	return true, nil
}
