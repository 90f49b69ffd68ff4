package main

import (
	"fmt"

	"frostward/climate"
	"frostward/climate/quality"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
)

func (c *checked) questionTable() table.Table {
	t := table.Table{Title: "Questions: only who keeps the record knows",
		Columns: []table.Column{{Name: "from"}, {Name: "to"}, {Name: "question", Wrap: true, MinWidth: 30}}}
	for _, q := range c.questions {
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

// stepTable tells of steps, and of the years that were tested.
func (c *checked) stepTable() table.Table {
	t := table.Table{Title: "Has a thermometer been moved",
		Columns: []table.Column{{Name: "of"}, {Name: "years", Align: table.Right}, {Name: "found", Wrap: true, MinWidth: 30}}}
	for _, s := range c.steps {
		t.Rows = append(t.Rows, table.Row(s.Of, fmt.Sprint(s.Before+s.After), stepWords(c.s.app.unit(), s)))
	}
	if len(c.steps) == 0 {
		t.Notes = []string{"not known, since fewer than 10 years have 300 measured days."}
		return t
	}
	for _, s := range c.steps {
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
		"Without a neighbour to compare with, it cannot tell a moved thermometer from a sudden change of climate.")
	return t
}

// stepWords says what the test found in one measure.
func stepWords(u words.Units, s quality.Step) string {
	switch {
	case !s.Significant:
		return "no step"
	case s.Gradual:
		return fmt.Sprintf("no step, but a slow change of %+.2f %s a decade", u.Difference(s.Trend), u.Unit())
	}
	sure := "a step"
	if s.Strongly {
		sure = "a clear step"
	}
	return fmt.Sprintf("%s of %+.1f %s about %v, %d years after the first", sure, u.Difference(s.Size), u.Unit(), s.Date, s.Before)
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
	for _, l := range c.lone[:c.some(len(c.lone))] {
		t.Rows = append(t.Rows, table.Row(l.day.String(), fmt.Sprintf("%s at %s", l.half, c.s.app.unit().Degrees(float64(l.threshold))),
			c.s.app.unit().Degrees(l.tmin), l.why()))
	}
	if len(c.lone) > 0 {
		t.Notes = append(more(len(t.Rows), len(c.lone)), "They are used as they are. A reading that proves wrong is best blanked in the file.")
	}
	return t
}

func (l loneFrost) why() string {
	return fmt.Sprintf("%.1f s.d. below what the days beside and its own maximum lead to expect", -l.off)
}
