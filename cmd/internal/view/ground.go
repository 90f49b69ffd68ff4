package view

import (
	"fmt"

	"frostward/climate"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/page"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
	"frostward/risk"
)

// groundSection is when what stands in the ground will be ready.
func (v *Garden) groundSection() page.Section {
	if v.NoPlan != nil {
		return page.Section{NotKnown: "the plan cannot be used"}
	}
	out, err := v.LookOut(v.Today(), risk.OutlookOptions{Cover: v.OtherCover(), GiveUp: risk.UsualGiveUp})
	switch {
	case err != nil:
		return page.Section{NotKnown: err.Error()}
	case len(out) == 0:
		return page.Section{Lead: fmt.Sprintf("Nothing is in the ground on %s.", words.Date(v.Today()))}
	}
	t := table.Table{Title: "Outlook for what is in the ground", Columns: []table.Column{
		{Name: "planting"}, {Name: "ready"}, {Name: "8 years in 10"}, {Name: "usual"},
		{Name: "before frost", Align: table.Right}, {Name: "out since"}}}
	seasons, short := 0, ""
	for _, l := range out {
		o := l.Outlook
		since := v.Calendar.Words(l.Start)
		switch {
		case l.Waited:
			since = "about " + since + ", once the bed was free"
		case !l.Logged:
			since += ", as planned"
		}
		before := words.Share(o.Ripens)
		if o.Light.Known && o.Light.Share > 0 && o.Ripens.Share-o.Light.Share > 0.05 {
			before.Text += fmt.Sprintf(" (%.0f %%)", 100*o.Light.Share)
			short = " In brackets: also before the days are too short to grow in."
		}
		t.Add(table.Text(l.Label()), table.Text(words.Day(v.Calendar, words.OrNaN(o.Ready[1]))), table.Text(v.Words.Span(o.Ready)), table.Text(words.Day(v.Calendar, words.OrNaN(o.Usual[1]))),
			before, table.Text(since))
		seasons = max(seasons, o.Ripens.Seasons)
	}
	t.Notes = []string{fmt.Sprintf("This season's days so far in the place of expected ones; shares of %s, without those whose nights would have killed what is alive.", words.Plural(seasons, "season")) + short}
	return page.Section{Tables: []table.Table{t}, Lead: v.outlookLead(out)}
}

// outlookLead names the first that will be ready.
func (v *Garden) outlookLead(out []opened.LookedOut) string {
	best := -1
	for i, l := range out {
		q := l.Outlook.Ready[1]
		if !q.Known || q.Value <= float64(l.Outlook.AsOf) || q.Value >= float64(climate.SpanTo) {
			continue
		}
		if best < 0 || q.Value < out[best].Outlook.Ready[1].Value {
			best = i
		}
	}
	if best < 0 {
		return ""
	}
	l := out[best]
	return fmt.Sprintf("Next to be ready: %s, about %s (8 years in 10: %s).", l.Label(), words.Day(v.Calendar, l.Outlook.Ready[1].Value), v.Words.Span(l.Outlook.Ready))
}
