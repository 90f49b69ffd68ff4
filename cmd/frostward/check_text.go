package main

import (
	"fmt"

	"frostward/climate"
	"frostward/climate/quality"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/sentences"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
)

// write prints the verdict and the tables under it.
func (c *checked) write() error {
	a := c.s.app
	a.paragraph(a.out, c.s.RecordName+": "+c.Verdict.Sentence(), 0)
	tables := []table.Table{c.readTable(), c.faultTable(), c.gapTable(), c.ruleTable()}
	if c.all {
		tables = append(tables, c.flagTable())
	}
	tables = append(tables, c.questionTable(), c.stepTable())
	for _, d := range c.Frosts {
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
	"option": "as given", "values": "by the values",
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
		add("days made of readings", "%s, each day %s; %s that the readings do not cover left out", sentences.ReadingsADay(r), r.DayEnds, words.Plural(r.Incomplete, "day"))
	}
	if r.Shifted != 0 {
		add("dates", "moved by %s, as they are stamped in UTC", words.Plural(r.Shifted, "day"))
	}
	if station := sentences.Station(r); station != "" {
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

// more says what is not shown.
func more(shown, all int) []string {
	if shown == all {
		return nil
	}
	return []string{fmt.Sprintf("and %d more", all-shown)}
}

func (c *checked) gapTable() table.Table {
	t := table.Table{Title: "Longest gaps", Columns: []table.Column{{Name: "from"}, {Name: "to"},
		{Name: "days", Align: table.Right}, {Name: "of"}}}
	for _, g := range c.Gaps[:c.some(len(c.Gaps))] {
		t.Rows = append(t.Rows, table.Row(g.From.String(), g.To.String(), fmt.Sprint(g.Days()), g.Element))
	}
	t.Notes = more(len(t.Rows), len(c.Gaps))
	if len(c.Years) > 0 {
		t.Notes = append(t.Notes, sentences.MissingYears(c.Years, c.some(len(c.Years))))
	}
	return t
}

// ruleTable counts what each rule doubts, with an example.
func (c *checked) ruleTable() table.Table {
	t := table.Table{Title: "Doubtful values, left out",
		Columns: []table.Column{{Name: "rule"}, {Name: "values", Align: table.Right}, {Name: "such as", Wrap: true, MinWidth: 30}}}
	for _, r := range quality.Rules {
		if flags := c.ByRule[r.Name]; len(flags) > 0 {
			f := flags[0]
			t.Add(table.Text(r.Name), table.Textf("%d", quality.Values(flags)), table.Textf("%v %v: %s", f.Day, f.Element, f.Why))
		}
	}
	if flags := c.ByRule[quality.UnlikeNeighbours]; len(flags) > 0 {
		f := flags[0]
		t.Add(table.Text(f.Rule), table.Textf("%d", len(flags)), table.Textf("%v %v: %s", f.Day, f.Element, f.Why))
	}
	days := max(c.s.Report.Days, 1)
	if c.DoubtfulDays == 0 {
		t.Notes = []string{fmt.Sprintf("none in %d days, by %d rules.", days, len(quality.Rules))}
		return t
	}
	t.Notes = []string{fmt.Sprintf("%s of %d, %.2f %%, by %d rules.", words.Plural(c.DoubtfulDays, "day"), days, 100*float64(c.DoubtfulDays)/float64(days), len(quality.Rules))}
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

func (c *checked) questionTable() table.Table {
	t := table.Table{Title: "Questions: only who keeps the record knows",
		Columns: []table.Column{{Name: "from"}, {Name: "to"}, {Name: "question", Wrap: true, MinWidth: 30}}}
	for _, q := range c.Questions {
		text := fmt.Sprintf("%s: %s: %s", q.Element, q.Why, q.Ask)
		if q.Masked {
			text += " Until you say, they are left out."
		} else {
			text += " Until you say, they are used as they are."
		}
		text += fmt.Sprintf(" Answer: --answer \"%s %v %v yes\", or no.", q.About, q.From, q.To)
		t.Rows = append(t.Rows, table.Row(q.From.String(), q.To.String(), text))
	}
	return t
}

// stepTable has the steps, and the years that were tested.
func (c *checked) stepTable() table.Table {
	t := table.Table{Title: "Has a thermometer been moved",
		Columns: []table.Column{{Name: "of"}, {Name: "years", Align: table.Right}, {Name: "found", Wrap: true, MinWidth: 30}}}
	for _, s := range c.Steps {
		t.Rows = append(t.Rows, table.Row(s.Of, fmt.Sprint(s.Before+s.After), sentences.Step(c.s.app.unit(), s)))
	}
	if len(c.Steps) == 0 {
		t.Notes = []string{"not known, since fewer than 10 years have 300 measured days."}
		return t
	}
	for _, s := range c.Steps {
		if s.Kept() && s.Strongly && !quality.Moved(s, c.s.Answers) {
			t.Notes = append(t.Notes, fmt.Sprintf("If a thermometer was moved then, the record from there on is what holds now: --answer \"moved %v %v yes\"; if nothing was moved, the same with no.", s.Date, s.Date))
			break
		}
	}
	if len(c.s.Steps) > 0 {
		t.Notes = append(t.Notes, "By the standard normal homogeneity test of what the yearly means differ from the neighbours' (Alexandersson 1986): one unchanged record in 20 shows a step by chance, one in 100 a clear one. The neighbour may be the one that was moved.")
		return t
	}
	t.Notes = append(t.Notes, "By the standard normal homogeneity test of yearly means (Alexandersson 1986): one unchanged record in 20 shows a step by chance, one in 100 a clear one. "+
		"Without a neighbour to compare with, it cannot distinguish a moved thermometer from a sudden change of climate.")
	return t
}

// seasonTable says which seasons count at a threshold, and why others do not.
func (c *checked) seasonTable(d climate.FrostDates) table.Table {
	s := c.s
	t := table.Table{Title: "Seasons that count, frost at " + s.app.unit().Degrees(float64(d.Threshold)),
		Columns: []table.Column{{Name: "half"}, {Name: "count", Align: table.Right}, {Name: "months asked for"}, {Name: "left out", Wrap: true, MinWidth: 25}}}
	for h, half := range []string{"spring", "autumn"} {
		n, _ := opened.Counted([][]float64{d.Spring, d.Autumn}[h])
		w := d.Windows[h]
		var why []string
		for _, l := range d.LeftOut {
			if l.Half == half {
				why = append(why, fmt.Sprintf("%d (%s)", l.Season, l.Why))
			}
		}
		text := words.Dash
		if len(why) > 0 {
			shown := c.some(len(why))
			text = words.List(why[:shown])
			if left := len(why) - shown; left > 0 {
				text += fmt.Sprintf("; and %d more", left)
			}
		}
		from, _ := s.Calendar.MonthDay(w.From)
		to, _ := s.Calendar.MonthDay(w.To)
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
	for _, l := range c.Lone[:c.some(len(c.Lone))] {
		t.Rows = append(t.Rows, table.Row(l.Day.String(), fmt.Sprintf("%s at %s", l.Half, c.s.app.unit().Degrees(float64(l.Threshold))),
			c.s.app.unit().Degrees(l.Tmin), sentences.LoneFrost(l)))
	}
	if len(c.Lone) > 0 {
		t.Notes = append(more(len(t.Rows), len(c.Lone)), "They are used as they are. A reading that proves wrong is best blanked in the file.")
	}
	return t
}
