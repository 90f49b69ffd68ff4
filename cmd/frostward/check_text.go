package main

import (
	"fmt"
	"math"
	"slices"

	"frostward/climate/daily"
	"frostward/climate/quality"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
)

// byLength merges gaps of both elements over the same days and puts the longest first.
func byLength(gaps []gap) []gap {
	slices.SortStableFunc(gaps, func(a, b gap) int { return int(a.from - b.from) })
	var out []gap
	for _, g := range gaps {
		if n := len(out); n > 0 && out[n-1].from == g.from && out[n-1].to == g.to {
			out[n-1].element = "both"
			continue
		}
		out = append(out, g)
	}
	slices.SortStableFunc(out, func(a, b gap) int { return b.days() - a.days() })
	return out
}

// write prints the verdict and the tables under it.
func (c *checked) write() error {
	a := c.s.app
	a.paragraph(a.out, c.s.RecordName+": "+c.verdict.sentence(), 0)
	tables := []table.Table{c.readTable(), c.faultTable(), c.gapTable(), c.ruleTable()}
	if c.all {
		tables = append(tables, c.flagTable())
	}
	tables = append(tables, c.questionTable(), c.stepTable())
	for _, d := range c.frosts {
		tables = append(tables, c.seasonTable(d))
	}
	tables = append(tables, c.loneTable())
	for _, t := range tables {
		if len(t.Rows) == 0 && len(t.Notes) == 0 {
			continue
		}
		fmt.Fprintln(a.out)
		if len(t.Rows) == 0 {
			a.paragraph(a.out, t.Title+": "+t.Notes[0], 0)
			continue
		}
		if err := t.Write(a.out, a.tables()); err != nil {
			return err
		}
	}
	return nil
}

var unitsKnown = map[string]string{
	"format": "by the format", "header": "as the header says", "text": "as the text beside the table says",
	"option": "as told", "values": "told from the values",
}

// readTable says what was read.
func (c *checked) readTable() table.Table {
	r := c.s.Report
	t := table.Table{Title: "What was read", Columns: []table.Column{{Name: "item"}, {Name: "found", Wrap: true, MinWidth: 20}}}
	add := func(name, format string, args ...any) {
		t.Rows = append(t.Rows, table.Row(name, fmt.Sprintf(format, args...)))
	}
	format := string(r.Format)
	if r.Compression != "" {
		format += ", packed with " + r.Compression
	}
	add("format", "%s", format)
	add("units", "%v, %s", r.Units, unitsKnown[r.UnitsFrom])
	switch {
	case r.TminName != "" && r.TmaxName != "":
		add("columns", "tmin from %q, tmax from %q", r.TminName, r.TmaxName)
	case r.TminName != "":
		add("columns", "tmin from %q, no tmax", r.TminName)
	case r.TmaxName != "":
		add("columns", "tmax from %q, no tmin", r.TmaxName)
	}
	for _, f := range r.Files {
		add("file", "%s: %s, %v to %v", f.Name, f.Format, f.First, f.Last)
	}
	if r.Overlap > 0 {
		add("in two files", "%s, of which %d differ and are left out", words.Plural(r.Overlap, "value"), r.Differ)
	}
	if r.DayEnds != "" {
		add("days made of readings", "%s, each day %s; %s that the readings do not cover left out", readingsADay(r), r.DayEnds, words.Plural(r.Incomplete, "day"))
	}
	if r.Shifted != 0 {
		add("dates", "moved by %s, as they are stamped in UTC", words.Plural(r.Shifted, "day"))
	}
	if station := c.station(); station != "" {
		add("station", "%s", station)
	}
	add("rows", "%d", r.Rows)
	add("span", "%v to %v, %d days, %d of them with a value", r.First, r.Last, int(r.Last-r.First)+1, r.Days)
	add("missing", "tmin on %s, tmax on %s", words.Plural(r.MissingTmin, "day"), words.Plural(r.MissingTmax, "day"))
	for _, v := range []struct {
		name string
		n    int
	}{{"given by a missing code", r.Coded}, {"flagged by the source, left out", r.Flagged},
		{"for a day given before", r.Repeated}, {"out of order", r.Unsorted}, {"that could not be read", r.FaultCount}} {
		if v.n > 0 {
			add(v.name, "%d", v.n)
		}
	}
	t.Notes = r.Notes
	return t
}

// readingsADay says how many readings the days were made of.
func readingsADay(r daily.Report) string {
	var some []int
	for _, n := range r.Readings {
		if n > 0 {
			some = append(some, n)
		}
	}
	if len(some) == 0 {
		return "none"
	}
	slices.Sort(some)
	return fmt.Sprintf("%d readings a day at the median, %d at the least", some[len(some)/2], some[0])
}

// station names the station and its place, as far as the file does.
func (c *checked) station() string {
	r := c.s.Report
	out := r.Station
	if r.StationName != "" {
		out += " " + r.StationName
	}
	if !math.IsNaN(r.Latitude) {
		out += fmt.Sprintf(", latitude %.2f", r.Latitude)
	}
	if !math.IsNaN(r.Longitude) {
		out += fmt.Sprintf(", longitude %.2f", r.Longitude)
	}
	if !math.IsNaN(r.Elevation) {
		out += fmt.Sprintf(", %.0f m", r.Elevation)
	}
	if len(out) > 1 && out[0] == ',' {
		out = out[2:]
	}
	return out
}

// few is how many of a kind are shown without --all.
const few = 3

func (c *checked) some(n int) int {
	if c.all {
		return n
	}
	return min(n, few)
}

func (c *checked) faultTable() table.Table {
	r := c.s.Report
	t := table.Table{Title: "Rows that could not be used", Columns: []table.Column{{Name: "fault", Wrap: true, MinWidth: 30}}}
	for _, f := range r.Faults[:c.some(len(r.Faults))] {
		t.Add(table.Text(f.Error()))
	}
	t.Notes = more(len(t.Rows), r.FaultCount)
	return t
}

// more tells of what is not shown.
func more(shown, all int) []string {
	if shown == all {
		return nil
	}
	return []string{fmt.Sprintf("and %d more", all-shown)}
}

func (c *checked) gapTable() table.Table {
	t := table.Table{Title: "Longest gaps", Columns: []table.Column{{Name: "from"}, {Name: "to"},
		{Name: "days", Align: table.Right}, {Name: "of"}}}
	for _, g := range c.gaps[:c.some(len(c.gaps))] {
		t.Rows = append(t.Rows, table.Row(g.from.String(), g.to.String(), fmt.Sprint(g.days()), g.element))
	}
	t.Notes = more(len(t.Rows), len(c.gaps))
	if len(c.years) > 0 {
		t.Notes = append(t.Notes, c.yearNote())
	}
	return t
}

// yearNote lists the years with the most missing days, all with --all.
func (c *checked) yearNote() string {
	years := slices.Clone(c.years)
	slices.SortStableFunc(years, func(a, b yearGaps) int { return max(b.tmin, b.tmax) - max(a.tmin, a.tmax) })
	var said []string
	for _, y := range years[:c.some(len(years))] {
		said = append(said, fmt.Sprintf("%d (%d)", y.year, max(y.tmin, y.tmax)))
	}
	return fmt.Sprintf("Days missing in %s; most in %s.", words.Plural(len(years), "year"), words.List(said))
}

// ruleTable counts what each rule doubts, with an example.
func (c *checked) ruleTable() table.Table {
	t := table.Table{Title: "Doubtful values, left out",
		Columns: []table.Column{{Name: "rule"}, {Name: "values", Align: table.Right}, {Name: "such as", Wrap: true, MinWidth: 30}}}
	for _, r := range quality.Rules {
		if flags := c.byRule[r.Name]; len(flags) > 0 {
			f := flags[0]
			t.Add(table.Text(r.Name), table.Textf("%d", quality.Values(flags)), table.Textf("%v %v: %s", f.Day, f.Element, f.Why))
		}
	}
	if flags := c.byRule[quality.UnlikeNeighbours]; len(flags) > 0 {
		f := flags[0]
		t.Add(table.Text(f.Rule), table.Textf("%d", len(flags)), table.Textf("%v %v: %s", f.Day, f.Element, f.Why))
	}
	days := max(c.s.Report.Days, 1)
	if c.days == 0 {
		t.Notes = []string{fmt.Sprintf("none in %d days, by %d rules.", days, len(quality.Rules))}
		return t
	}
	t.Notes = []string{fmt.Sprintf("%s of %d, %.2f %%, by %d rules.", words.Plural(c.days, "day"), days, 100*float64(c.days)/float64(days), len(quality.Rules))}
	if !c.all {
		t.Notes[0] += " --all lists them."
	}
	return t
}

func (c *checked) flagTable() table.Table {
	t := table.Table{Title: "Every doubtful value", Columns: []table.Column{{Name: "day"}, {Name: "of"}, {Name: "rule"}, {Name: "why", Wrap: true, MinWidth: 25}}}
	for _, f := range c.s.Flags {
		t.Rows = append(t.Rows, table.Row(f.Day.String(), f.Element.String(), f.Rule, f.Why))
	}
	return t
}
