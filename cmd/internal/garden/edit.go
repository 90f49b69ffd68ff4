package garden

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"frostward/climate"
)

// PlanText is a plan as its file has it, to be changed cell by cell: all else in it, comments, the
// order, spaces and line ends, stays as it was written.
type PlanText struct {
	lines []string // with their ends
	head  int      // the heading's place among them
	cols  []string
	sep   string
}

// ReadText takes a plan's file apart. The file must be one that ReadPlan reads.
func ReadText(b []byte) (*PlanText, error) {
	p := &PlanText{lines: strings.SplitAfter(string(b), "\n"), sep: string(separator(string(b)))}
	for i, l := range p.lines {
		l = strings.TrimPrefix(l, "\uFEFF")
		if t := strings.TrimSpace(l); t != "" && !strings.HasPrefix(t, "#") {
			p.head = i
			for _, c := range p.cellsOf(l) {
				p.cols = append(p.cols, columnName(unquoted(c)))
			}
			return p, nil
		}
	}
	return nil, fmt.Errorf("the plan is empty; wanted a heading: %s", strings.Join(planColumns, ","))
}

// Bytes is the file as it has become.
func (p *PlanText) Bytes() []byte { return []byte(strings.Join(p.lines, "")) }

// Set changes one cell of a line, counted from 1 as Row.Line is.
func (p *PlanText) Set(line int, column, value string) error {
	at := p.column(column)
	if at < 0 {
		return fmt.Errorf("the plan has no column %s; wanted one to write %q into", column, value)
	}
	if line <= p.head+1 || line > len(p.lines) {
		return fmt.Errorf("the plan has no line %d", line)
	}
	l := p.lines[line-1]
	body := strings.TrimRight(l, "\r\n")
	cells := p.cellsOf(body)
	for len(cells) <= at {
		cells = append(cells, "")
	}
	cells[at] = p.quoted(value)
	p.lines[line-1] = strings.Join(cells, p.sep) + l[len(body):]
	return nil
}

// Add adds a line with the cells named; those the plan has no column for are refused.
func (p *PlanText) Add(cells map[string]string) error {
	row := make([]string, len(p.cols))
	for name, value := range cells {
		at := p.column(name)
		if at < 0 && value != "" {
			return fmt.Errorf("the plan has no column %s; wanted one to write %q into", name, value)
		}
		if at >= 0 {
			row[at] = p.quoted(value)
		}
	}
	end := "\n"
	if strings.HasSuffix(p.lines[p.head], "\r\n") {
		end = "\r\n"
	}
	if last := len(p.lines) - 1; p.lines[last] == "" {
		p.lines = p.lines[:last]
	} else if !strings.HasSuffix(p.lines[last], "\n") {
		p.lines[last] += end
	}
	p.lines = append(p.lines, strings.Join(row, p.sep)+end)
	return nil
}

func (p *PlanText) column(name string) int {
	for i, c := range p.cols {
		if c == name {
			return i
		}
	}
	return -1
}

// cellsOf parts a line at its separators, quotes and all.
func (p *PlanText) cellsOf(line string) []string {
	line = strings.TrimRight(line, "\r\n")
	var out []string
	start, in := 0, false
	for i := range len(line) {
		switch {
		case line[i] == '"':
			in = !in
		case line[i] == p.sep[0] && !in:
			out, start = append(out, line[start:i]), i+1
		}
	}
	return append(out, line[start:])
}

func unquoted(c string) string {
	c = strings.TrimSpace(c)
	if len(c) > 1 && c[0] == '"' && c[len(c)-1] == '"' {
		return strings.ReplaceAll(c[1:len(c)-1], `""`, `"`)
	}
	return c
}

// quoted is a value as a cell: on one line, and no formula for a spreadsheet.
func (p *PlanText) quoted(v string) string {
	v = strings.Join(strings.Fields(v), " ")
	if v != "" && strings.ContainsAny(v[:1], "=+-@") {
		v = "'" + v
	}
	if strings.ContainsAny(v, `"`+p.sep) || strings.HasPrefix(v, "#") {
		return `"` + strings.ReplaceAll(v, `"`, `""`) + `"`
	}
	return v
}

// MoveRow writes another day into a planting of a plan: the day it is planted out, or sown in
// place. Its day of sowing under cover, and that until which spare plants are held back,
// move with it.
func MoveRow(b []byte, r Row, c climate.Calendar, to climate.SeasonDay) ([]byte, error) {
	rows, err := ReadPlan(bytes.NewReader(b), r.File, c)
	if err != nil {
		return nil, err
	}
	same := func(now Row) bool {
		return now.Line == r.Line && now.Name == r.Name && now.Crop == r.Crop && now.Spot == r.Spot && now.Sow == r.Sow && now.PlantOut == r.PlantOut
	}
	if !slices.ContainsFunc(rows, same) {
		return nil, fmt.Errorf("%s has been changed since it was read; wanted it looked at again", r.Place())
	}
	p, err := ReadText(b)
	if err != nil {
		return nil, err
	}
	later := func(d Date, by climate.SeasonDay) string {
		switch {
		case d.Year != 0:
			return c.Day(d.Year, d.Day+by).String()
		case strings.ContainsFunc(d.Text, unicode.IsLetter): // "28 May"
			return c.Words(d.Day + by)
		}
		return c.Format(d.Day + by)
	}
	set := func(column string, d Date, by climate.SeasonDay) error { return p.Set(r.Line, column, later(d, by)) }
	if !r.PlantOut.Given() {
		err = set("sow", r.Sow, to-r.Sow.Day)
	} else if err = set("plant_out", r.PlantOut, to-r.PlantOut.Day); err == nil && r.Sow.Given() {
		err = set("sow", r.Sow, to-r.PlantOut.Day)
	}
	if v := r.Reserve; v.Plants > 0 && err == nil {
		err = p.Set(r.Line, "reserve", strings.Replace(v.Text, v.Until.Text, later(v.Until, to-r.PlantOut.Day), 1))
	}
	if err != nil {
		return nil, err
	}
	if bytes.Equal(p.Bytes(), b) {
		return nil, fmt.Errorf("it stands on %s already", c.Words(to))
	}
	now, err := ReadPlan(bytes.NewReader(p.Bytes()), r.File, c)
	if err == nil && !slices.EqualFunc(rows, now, func(a, b Row) bool { return a == b || a.Line == r.Line && b.Line == r.Line }) {
		err = fmt.Errorf("%s: its day cannot be changed without changing another line; wanted each planting on a line of its own", r.Place())
	}
	return p.Bytes(), err
}
