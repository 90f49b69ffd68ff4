package daily

import (
	"bytes"
	"fmt"
	"math"
)

// months reads the layout of a line a year and day of the month, with that day's value
// in each of 12 months: year, day, January ... December, in tenths of °C unless there
// are decimals. A cell for a day that a month lacks holds a missing code.
//
// A line holds one element only. The file may give both as two sections, one after the
// other; a section starts at a line of text that has the word for minimum or maximum in
// it, or where the years begin again. Of two unnamed sections the lower is the minimum.
// A file of one unnamed section needs Options.Element; Join puts two files together.
type months struct {
	opts     Options
	sink     *sink
	split    splitter
	sections []*section
	named    Element // by the last line of text
	decimals bool
}

// section is a run of rows for one element, kept in the minimum's place of a table.
type section struct {
	element Element
	table   *table
	start   int // year and day of its first row
}

// monthsCells is the number of cells in a row: year, day and 12 values.
const monthsCells = 14

// isMonths says whether most rows of numbers are of this layout, days following days.
func isMonths(block []byte) bool {
	rows, other, steps, last := 0, 0, 0, 0
	var sp splitter
	for n := 0; len(block) > 0 && n < 500; n++ {
		var line []byte
		line, block = cutLine(block)
		year, day, ok := monthsRow(&sp, line)
		if !ok {
			if rows > 0 && len(bytes.TrimSpace(line)) > 0 {
				other++
			}
			continue
		}
		rows++
		if key := year*32 + day; key-last == 1 || day == 1 {
			steps++
		}
		last = year*32 + day
	}
	return rows > 0 && rows > other && steps*2 > rows
}

// monthsRow splits a line and reads the two cells that place it.
func monthsRow(sp *splitter, line []byte) (year, day int, ok bool) {
	line = bytes.TrimSpace(line)
	if len(line) == 0 || line[0]-'0' > 9 {
		return 0, 0, false
	}
	sp.sep, sp.blanks = ',', bytes.IndexByte(line, ',') < 0
	if n, ok := sp.split(line, monthsCells); !ok || n != monthsCells {
		return 0, 0, false
	}
	year, day = atoi(sp.fields[0]), atoi(sp.fields[1])
	return year, day, year >= firstYear && year <= lastYear && day >= 1 && day <= 31
}

var (
	minWord = onDemand(`(?i)\b(?:t?min(?:ima|imum|temp|temperatur)?|tn)\b`)
	maxWord = onDemand(`(?i)\b(?:t?max(?:ima|imum|temp|temperatur)?|tx)\b`)
)

func (p *months) block(b []byte, line int) (int, error) {
	for ; len(b) > 0; line++ {
		var text []byte
		text, b = cutLine(b)
		bare := bytes.TrimSpace(text)
		if len(bare) == 0 {
			continue
		}
		if bare[0]-'0' > 9 {
			p.heading(bare)
			continue
		}
		if err := p.row(text, line); err != nil {
			return line, err
		}
	}
	return line, nil
}

// heading starts a section if a line names just one element.
func (p *months) heading(text []byte) {
	isMin, isMax := minWord().Match(text), maxWord().Match(text)
	switch {
	case isMin && !isMax:
		p.named = Tmin
	case isMax && !isMin:
		p.named = Tmax
	}
}

func (p *months) row(text []byte, line int) error {
	year, day, ok := monthsRow(&p.split, text)
	if !ok {
		t := p.sink.at(nil)
		t.rows++
		t.fault(line, "", text, "is no row of year, day and 12 values")
		return nil
	}
	t := p.sectionFor(year*32 + day)
	if t == nil {
		return fmt.Errorf("has more than two sections of values at line %d; wanted the minimum and the maximum", line)
	}
	rep := p.sink.at(nil) // faults and counts are those of the file
	rep.rows++
	for k, cell := range p.split.fields[2:] {
		if isBlank(cell) {
			continue
		}
		v, ok := parseNumber(cell)
		switch d, exists := dayOf(year, k+1, day); {
		case !ok:
			rep.fault(line, fmt.Sprintf("month %d", k+1), cell, notANumber(cell))
		case isCode(v, TenthsCelsius):
			if exists {
				rep.coded++
			}
		case !exists:
			rep.fault(line, fmt.Sprintf("month %d", k+1), cell, "stands at a day that the month does not have")
		case p.opts.Until != 0 && d > p.opts.Until:
			rep.fault(line, fmt.Sprintf("month %d", k+1), cell, "is for a day in the future")
		default:
			p.decimals = p.decimals || v != math.Trunc(v)
			t.addOne(Tmin, d, v, line)
		}
	}
	return nil
}

// sectionFor returns the table of the section that a row belongs to, or nil where
// there would be a third.
func (p *months) sectionFor(key int) *table {
	if n := len(p.sections); n > 0 && p.named == NoElement && key != p.sections[n-1].start {
		return p.sections[n-1].table
	}
	if len(p.sections) == 2 {
		return nil
	}
	s := &section{element: p.named, table: newTable(p.sink.table.faults), start: key}
	p.named = NoElement
	p.sections = append(p.sections, s)
	return s.table
}

// end decides what the sections are and puts them together.
func (p *months) end() error {
	if len(p.sections) == 0 {
		return nil
	}
	if err := p.name(); err != nil {
		return err
	}
	t := p.sink.at(nil)
	for _, s := range p.sections {
		for i := s.table.from; i < s.table.to; i++ {
			if v := s.table.at(i).tmin; s.table.cell(i).state&isListed != 0 {
				t.addOne(s.element, windowFirst+dayOffset(i), v, 0)
			}
		}
		t.faults.join(s.table.faults)
	}
	return nil
}

// name gives each section its element.
func (p *months) name() error {
	a := p.sections[0]
	if len(p.sections) == 1 {
		if a.element == NoElement {
			a.element = p.opts.Element
		}
		if a.element == NoElement {
			a.element = namedElement([]string{baseName(p.sink.table.faults.file)})
		}
		if a.element == NoElement {
			return fmt.Errorf("has one value a day and does not say whether it is the minimum or the maximum; " +
				"state it (--read element=tmin or element=tmax)")
		}
		return nil
	}
	b := p.sections[1]
	below, above := 0, 0
	for i := max(a.table.from, b.table.from); i < min(a.table.to, b.table.to); i++ {
		x := a.table.at(i).tmin
		y := b.table.at(i).tmin
		if x < y {
			below++
		} else if x > y {
			above++
		}
	}
	switch {
	case a.element != NoElement && b.element != NoElement && a.element != b.element:
	case a.element == b.element && a.element != NoElement:
		return fmt.Errorf("has two sections for %s; wanted one for the minimum and one for the maximum", a.element)
	case max(below, above) < 10 || min(below, above)*100 > max(below, above):
		return fmt.Errorf("has two sections and nothing shows which is the minimum; " +
			"wanted a line with the word minimum or maximum above each")
	case below > above:
		a.element, b.element = Tmin, Tmax
	default:
		a.element, b.element = Tmax, Tmin
	}
	return nil
}

func (p *months) stated() (Units, string) {
	switch {
	case p.opts.Units != "":
		return p.opts.Units, "option"
	case !p.decimals:
		return TenthsCelsius, "format"
	}
	return "", ""
}

func (p *months) choices(bool) []Units { return nil }

func (p *months) names() (tmin, tmax string) {
	for _, s := range p.sections {
		if s.element == Tmin {
			tmin = "tmin"
		} else {
			tmax = "tmax"
		}
	}
	return tmin, tmax
}
