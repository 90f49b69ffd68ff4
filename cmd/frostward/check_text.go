package main

import (
	"fmt"
	"math"
	"slices"

	"frostward/climate"
	"frostward/climate/quality"
	"frostward/cmd/internal/table"
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
	a.paragraph(a.out, c.s.recordName+": "+c.verdict.sentence(), 0)
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
	r := c.s.report
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
	if r.TminName+r.TmaxName != "" {
		add("columns", "tmin from %q, tmax from %q", r.TminName, r.TmaxName)
	}
	if station := c.station(); station != "" {
		add("station", "%s", station)
	}
	add("rows", "%d", r.Rows)
	add("span", "%v to %v, %d days, %d of them with a value", r.First, r.Last, int(r.Last-r.First)+1, r.Days)
	add("missing", "tmin on %s, tmax on %s", plural(r.MissingTmin, "day"), plural(r.MissingTmax, "day"))
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

// station names the station and its place, as far as the file does.
func (c *checked) station() string {
	r := c.s.report
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
	r := c.s.report
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
	var words []string
	for _, y := range years[:c.some(len(years))] {
		words = append(words, fmt.Sprintf("%d (%d)", y.year, max(y.tmin, y.tmax)))
	}
	return fmt.Sprintf("Days missing in %s; most in %s.", plural(len(years), "year"), list(words))
}

// ruleTable counts what each rule doubts, with an example.
func (c *checked) ruleTable() table.Table {
	t := table.Table{Title: "Doubtful values, left out",
		Columns: []table.Column{{Name: "rule"}, {Name: "values", Align: table.Right}, {Name: "such as", Wrap: true, MinWidth: 30}}}
	for _, r := range quality.Rules {
		if flags := c.byRule[r.Name]; len(flags) > 0 {
			f := flags[0]
			t.Add(table.Text(r.Name), table.Textf("%d", valuesOf(flags)), table.Textf("%v %v: %s", f.Day, f.Element, f.Why))
		}
	}
	days := max(c.s.report.Days, 1)
	if c.days == 0 {
		t.Notes = []string{fmt.Sprintf("none in %d days, by %d rules.", days, len(quality.Rules))}
		return t
	}
	t.Notes = []string{fmt.Sprintf("%s of %d, %.2f %%, by %d rules.", plural(c.days, "day"), days, 100*float64(c.days)/float64(days), len(quality.Rules))}
	if !c.all {
		t.Notes[0] += " --all lists them."
	}
	return t
}

// valuesOf counts the values that flags take out.
func valuesOf(flags []quality.Flag) int {
	n := 0
	for _, f := range flags {
		n++
		if f.Element == quality.Both {
			n++
		}
	}
	return n
}

func (c *checked) flagTable() table.Table {
	t := table.Table{Title: "Every doubtful value", Columns: []table.Column{{Name: "day"}, {Name: "of"}, {Name: "rule"}, {Name: "why", Wrap: true, MinWidth: 25}}}
	for _, f := range c.s.flags {
		t.Rows = append(t.Rows, table.Row(f.Day.String(), f.Element.String(), f.Rule, f.Why))
	}
	return t
}

func (c *checked) questionTable() table.Table {
	t := table.Table{Title: "Questions that only the keeper of the record can settle",
		Columns: []table.Column{{Name: "from"}, {Name: "to"}, {Name: "question", Wrap: true, MinWidth: 30}}}
	for _, q := range c.questions {
		text := fmt.Sprintf("%s: %s: %s", q.Element, q.Why, q.Ask)
		if q.Masked {
			text += " Until then they are left out."
		} else {
			text += " Until then they are used as they are."
		}
		t.Rows = append(t.Rows, table.Row(q.From.String(), q.To.String(), text))
	}
	return t
}

// stepTable tells of steps, and of the years that were tested.
func (c *checked) stepTable() table.Table {
	t := table.Table{Title: "Has a thermometer been moved",
		Columns: []table.Column{{Name: "of"}, {Name: "years", Align: table.Right}, {Name: "found", Wrap: true, MinWidth: 30}}}
	for _, s := range c.steps {
		t.Rows = append(t.Rows, table.Row(s.Of, fmt.Sprint(s.Before+s.After), stepWords(s)))
	}
	if len(c.steps) == 0 {
		t.Notes = []string{"not known, since fewer than 10 years have 300 measured days."}
		return t
	}
	t.Notes = []string{"T of the standard normal homogeneity test on yearly departures (Alexandersson 1986), against what it passes by chance in 1 unchanged record of 20. " +
		"Without a station beside to compare with, it cannot tell a moved thermometer from a sudden change of climate."}
	return t
}

// stepWords says what the test found in one measure.
func stepWords(s quality.Step) string {
	test := fmt.Sprintf("T %.1f against %.1f", s.Statistic, s.Critical)
	switch {
	case !s.Significant:
		return "no step: " + test
	case s.Gradual:
		return fmt.Sprintf("no step, but a slow change of %+.1f °C a decade: %s", s.Trend, test)
	}
	sure := "a step"
	if s.Strongly {
		sure = "a clear step"
	}
	p := fmt.Sprintf("%.3f", s.PettittP)
	if s.PettittP < 0.001 {
		p = "below 0.001"
	}
	return fmt.Sprintf("%s of %+.1f °C about %v, %d years after the first: %s; Pettitt's p %s", sure, s.Size, s.Date, s.Before, test, p)
}

// seasonTable says which seasons count at a threshold, and why others do not.
func (c *checked) seasonTable(d climate.FrostDates) table.Table {
	s := c.s
	t := table.Table{Title: "Seasons that count, frost at " + s.app.degrees(float64(d.Threshold)),
		Columns: []table.Column{{Name: "half"}, {Name: "count", Align: table.Right}, {Name: "months asked for"}, {Name: "left out", Wrap: true, MinWidth: 25}}}
	for h, half := range []string{"spring", "autumn"} {
		n, _ := counted([][]float64{d.Spring, d.Autumn}[h])
		w := d.Windows[h]
		var why []string
		for _, l := range d.LeftOut {
			if l.Half == half {
				why = append(why, fmt.Sprintf("%d (%s)", l.Season, l.Why))
			}
		}
		text := dash
		if len(why) > 0 {
			shown := c.some(len(why))
			text = list(why[:shown])
			if left := len(why) - shown; left > 0 {
				text += fmt.Sprintf("; and %d more", left)
			}
		}
		from, _ := s.calendar.MonthDay(w.From)
		to, _ := s.calendar.MonthDay(w.To)
		months := fmt.Sprintf("%.3s to %.3s", from, to)
		if from == to {
			months = fmt.Sprintf("%.3s", from)
		}
		t.Rows = append(t.Rows, table.Row(half, fmt.Sprintf("%d of %d", n, len(d.Spring)), months, text))
	}
	return t
}

// loneTable lists the frost dates worth a look at the old book.
func (c *checked) loneTable() table.Table {
	t := table.Table{Title: "Frost dates that rest on one reading which nothing beside it bears out",
		Columns: []table.Column{{Name: "day"}, {Name: "frost"}, {Name: "reading", Align: table.Right}, {Name: "why", Wrap: true, MinWidth: 25}}}
	for _, l := range c.lone[:c.some(len(c.lone))] {
		t.Rows = append(t.Rows, table.Row(l.day.String(), fmt.Sprintf("%s at %s", l.half, c.s.app.degrees(float64(l.threshold))),
			c.s.app.degrees(l.tmin), l.why()))
	}
	if len(c.lone) > 0 {
		t.Notes = append(more(len(t.Rows), len(c.lone)), "They are used as they are. A reading that proves wrong is best blanked in the file.")
	}
	return t
}

func (l loneFrost) why() string {
	return fmt.Sprintf("%.1f s.d. below what the days beside and its own maximum lead to expect", -l.off)
}
