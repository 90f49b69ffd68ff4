package main

import (
	"fmt"

	"frostward/climate"
	"frostward/cmd/internal/page"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
	"frostward/risk"
)

// giveUpAt is the chance of a picking worth the bed below which the page, as outlook does
// unless told, calls the bed better used otherwise.
const giveUpAt = 0.2

// outlookSection is when what stands in the ground will be ready.
func (v *viewing) outlookSection() page.Section {
	switch {
	case v.noOutlook != nil:
		return page.Section{NotKnown: v.noOutlook.Error()}
	case len(v.looked) == 0:
		return page.Section{Lead: fmt.Sprintf("Nothing is in the ground on %s.", words.Date(v.today))}
	}
	t := table.Table{Title: "Outlook for what is in the ground", Columns: []table.Column{
		{Name: "planting"}, {Name: "ready"}, {Name: "8 years in 10"}, {Name: "usual"},
		{Name: "before frost", Align: table.Right}, {Name: "before short days", Align: table.Right}, {Name: "out since"}}}
	seasons := 0
	for _, l := range v.looked {
		o := l.outlook
		since := v.Calendar.Words(l.Start)
		if !l.logged {
			since += ", as planned"
		}
		t.Add(table.Text(l.Label()), table.Text(words.Day(v.Calendar, orNaN(o.Ready[1]))), table.Text(v.span(o.Ready)), table.Text(words.Day(v.Calendar, orNaN(o.Usual[1]))),
			share(o.Ripens), share(o.Light), table.Text(since))
		seasons = max(seasons, o.Ripens.Seasons)
	}
	t.Notes = []string{fmt.Sprintf("This season's days so far in the place of expected ones; shares of %s. Before short days: before the days grow too short for growth.", words.Plural(seasons, "season"))}
	return page.Section{Tables: []table.Table{t}, Lead: v.outlookLead()}
}

// outlookLead tells of the first that will be ready.
func (v *viewing) outlookLead() string {
	best := -1
	for i, l := range v.looked {
		q := l.outlook.Ready[1]
		if !q.Known || q.Value <= float64(l.outlook.AsOf) || q.Value >= float64(climate.SpanTo) {
			continue
		}
		if best < 0 || q.Value < v.looked[best].outlook.Ready[1].Value {
			best = i
		}
	}
	if best < 0 {
		return ""
	}
	l := v.looked[best]
	return fmt.Sprintf("Next to be ready: %s, about %s (8 years in 10: %s).", l.Label(), words.Day(v.Calendar, l.outlook.Ready[1].Value), v.span(l.outlook.Ready))
}

// lookGround works out the outlook of what is in the ground.
func (v *viewing) lookGround() {
	v.looked, v.noOutlook = v.lookOut(v.today, risk.OutlookOptions{Cover: v.OtherCover(), GiveUp: giveUpAt})
}
