package daily

import (
	"bytes"

	"frostward/climate"
)

func dayOffset(n int) climate.Day { return climate.Day(n) }

// byYear reads GHCN-Daily's files of one element a line, without a header:
// station,yyyymmdd,element,value,mflag,qflag,sflag,time (readme-by_year.txt). Tenths
// of °C. They are called by year, but the layout serves any run of time.
type byYear struct {
	sink  *sink
	opts  Options
	split splitter
}

// isByYear says whether a line is one of a by-year file.
func isByYear(b []byte) bool {
	f := bytes.Split(b, []byte{','})
	if len(f) < 4 || len(f) > 8 || len(f[0]) != 11 || !isWord(f[0]) || len(f[1]) != 8 || len(f[2]) != 4 || !isWord(f[2]) {
		return false
	}
	_, ok := parseDate(f[1], AnyOrder)
	return ok && isPadded(f[3])
}

func (p *byYear) block(b []byte, line int) (int, error) {
	p.split.sep = ','
	for ; len(b) > 0; line++ {
		var text []byte
		text, b = cutLine(b)
		e := elementIn(text)
		if e == NoElement {
			continue
		}
		p.row(text, e, line)
		if p.sink.err != nil {
			return line, p.sink.err
		}
	}
	return line, nil
}

// elementIn looks for the element where it nearly always stands, so that the other
// elements, most of the file, cost little. A line that is no such row has none.
func elementIn(b []byte) Element {
	if len(b) > 26 && b[11] == ',' && b[20] == ',' && b[25] == ',' {
		switch string(b[21:25]) {
		case "TMIN":
			return Tmin
		case "TMAX":
			return Tmax
		}
		return NoElement
	}
	f := bytes.SplitN(b, []byte{','}, 4)
	if len(f) < 3 {
		return NoElement
	}
	switch string(bytes.TrimSpace(f[2])) {
	case "TMIN":
		return Tmin
	case "TMAX":
		return Tmax
	}
	return NoElement
}

func (p *byYear) row(text []byte, e Element, line int) {
	n, ok := p.split.split(text, 6)
	f := p.split.fields
	if !ok || len(f) < 4 || n > 8 {
		p.sink.table.rows++
		p.sink.table.fault(line, "", text, "is no row of station,date,element,value,flags")
		return
	}
	t := p.sink.at(f[0])
	if t == nil {
		return
	}
	t.rows++
	day, ok := parseDate(f[1], AnyOrder)
	if !ok {
		t.fault(line, "date", f[1], "is not a date; wanted year, month and day such as 20260524")
		return
	}
	v, ok := padded(f[3])
	switch {
	case p.opts.Until != 0 && day > p.opts.Until:
		t.fault(line, "date", f[1], "is in the future")
	case len(f[3]) == 0:
	case !ok || v > maxMagnitude || v < -maxMagnitude:
		t.fault(line, e.String(), f[3], "is not a whole number of tenths of °C")
	case isCode(float64(v), TenthsCelsius):
		t.coded++
	case len(f) > 5 && len(f[5]) > 0:
		t.flagged++
	default:
		t.addOne(e, day, float64(v), line)
	}
}

func (p *byYear) end() error { return nil }

func (*byYear) stated() (Units, string) { return TenthsCelsius, "format" }

func (*byYear) choices(bool) []Units { return nil }

func (*byYear) names() (tmin, tmax string) { return "TMIN", "TMAX" }
