package daily

import (
	"bytes"
)

// dly reads GHCN-Daily's fixed-width files: a line a station, month and element, with
// 31 values of 5 characters, each followed by the measurement, quality and source
// flags (GHCN-Daily readme.txt, section III). Tenths of °C; -9999 is missing.
type dly struct {
	sink *sink
	opts Options
}

const (
	dlyValues = 21 // offset of the first value
	dlyStep   = 8  // from one value to the next
	dlyShort  = dlyValues + 5
)

// isDLY says whether a line is one of a .dly file.
func isDLY(b []byte) bool {
	return len(b) >= dlyShort && len(b) <= dlyValues+31*dlyStep+8 &&
		digitsAt(b, 11) >= 6 && atoi(b[15:17]) >= 1 && atoi(b[15:17]) <= 12 &&
		isWord(b[:11]) && isWord(b[17:21]) && bytes.IndexByte(b, ',') < 0 && isPadded(b[21:26])
}

// isWord says whether a text is capitals, digits, hyphens and underscores only.
func isWord(b []byte) bool {
	for _, c := range b {
		if !(c >= 'A' && c <= 'Z' || c-'0' <= 9 || c == '-' || c == '_') {
			return false
		}
	}
	return true
}

func isPadded(b []byte) bool {
	_, ok := padded(b)
	return ok
}

// padded reads a whole number with blanks before it.
func padded(b []byte) (int, bool) {
	i, n := 0, 0
	for i < len(b) && b[i] == ' ' {
		i++
	}
	neg := i < len(b) && b[i] == '-'
	if neg {
		i++
	}
	if i == len(b) {
		return 0, false
	}
	for ; i < len(b); i++ {
		if b[i]-'0' > 9 {
			return 0, false
		}
		n = n*10 + int(b[i]-'0')
	}
	if neg {
		n = -n
	}
	return n, true
}

func (d *dly) block(b []byte, line int) (int, error) {
	for ; len(b) > 0; line++ {
		var text []byte
		text, b = cutLine(b)
		if len(text) < dlyValues {
			if len(bytes.TrimSpace(text)) > 0 {
				d.bad(line, text, "is too short for a line of a .dly file")
			}
			continue
		}
		switch string(text[17:21]) {
		case "TMIN":
			d.month(text, Tmin, line)
		case "TMAX":
			d.month(text, Tmax, line)
		case "SNWD":
			d.snow(text)
		}
	}
	return line, nil
}

func (d *dly) bad(line int, text []byte, want string) {
	t := d.sink.table
	t.rows++
	t.fault(line, "", text, want)
}

// month reads one line. Values at its end may be left off, trailing blanks being lost.
func (d *dly) month(b []byte, e Element, line int) {
	t := d.sink.at(b[:11])
	if t == nil {
		return
	}
	t.rows++
	y, m := atoi(b[11:15]), atoi(b[15:17])
	first, ok := dayOf(y, m, 1)
	if !ok {
		t.fault(line, "date", b[11:17], "is not a month; wanted a year and month such as 196210")
		return
	}
	days := daysIn(y, m)
	for k := 0; k < 31; k++ {
		at := dlyValues + k*dlyStep
		if at >= len(b) {
			break
		}
		cell := b[at:min(at+5, len(b))]
		v, ok := padded(cell)
		switch {
		case v == -9999 && ok, len(bytes.TrimSpace(cell)) == 0:
			continue
		case !ok || len(cell) < 5:
			t.fault(line, e.String(), cell, "is not a whole number of tenths of °C")
			continue
		case k >= days:
			t.fault(line, e.String(), cell, "stands at a day that the month does not have")
			continue
		case at+6 < len(b) && b[at+6] != ' ':
			t.flagged++
			continue
		case d.opts.Until != 0 && int(first)+k > int(d.opts.Until):
			t.fault(line, e.String(), cell, "is for a day in the future")
			continue
		case isCode(float64(v), TenthsCelsius):
			t.coded++
			continue
		}
		t.addOne(e, first+dayOffset(k), float64(v), line)
	}
}

// snow reads a line of snow lying on the ground, in mm, of the station whose temperatures are being read.
func (d *dly) snow(b []byte) {
	first, ok := dayOf(atoi(b[11:15]), atoi(b[15:17]), 1)
	if !ok || !d.sink.started || string(b[:11]) != d.sink.current {
		return
	}
	for k := range daysIn(atoi(b[11:15]), atoi(b[15:17])) {
		at := dlyValues + k*dlyStep
		if at+5 > len(b) {
			return
		}
		if v, ok := padded(b[at : at+5]); ok && (at+6 >= len(b) || b[at+6] == ' ') {
			d.sink.table.addSnow(first+dayOffset(k), float64(v)/10)
		}
	}
}

func (d *dly) end() error { return nil }

func (*dly) stated() (Units, string) { return TenthsCelsius, "format" }

func (*dly) choices(bool) []Units { return nil }

func (*dly) names() (tmin, tmax string) { return "TMIN", "TMAX" }
