package main

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"frostward/climate"
	"frostward/cmd/internal/chart"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/page"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
	"frostward/risk"
)

// planSection is the season strip and the plan's scores.
func (v *viewing) planSection() page.Section {
	switch {
	case v.noPlan != nil:
		return page.Section{NotKnown: "the plan cannot be used: " + v.noPlan.Error()}
	case len(v.plantings) == 0:
		return page.Section{NotKnown: "the plan has no plantings"}
	}
	n := map[risk.Verdict]int{}
	for _, x := range v.assessed {
		n[x.Verdict]++
	}
	s := page.Section{Lead: words.Aimed(n[risk.Sound], n[risk.Likely], len(v.plantings), v.Settings.Aim),
		Figures: []page.Figure{{
			Caption: fmt.Sprintf("The season %d, and the chance of a frost each night at each spot", v.season),
			Chart:   v.seasonChart(), Wide: true,
		}},
	}
	all := v.planTable()
	poor, fair := all, all
	poor.Rows, fair.Rows, fair.Title = nil, nil, ""
	for i, x := range v.assessed {
		if x.Verdict.Fails() {
			poor.Rows = append(poor.Rows, all.Rows[i])
		} else {
			fair.Rows = append(fair.Rows, all.Rows[i])
		}
	}
	if poor.Title = "Better changed"; len(poor.Rows) > 0 {
		s.Tables, fair.Notes = []table.Table{poor}, nil
	}
	if len(fair.Rows) > 0 {
		s.Folded = &page.Folded{Line: fmt.Sprintf("The scores of the %s that are sound or likely", words.Plural(len(fair.Rows), "planting")), Tables: []table.Table{fair}}
	}
	return s
}

// seasonChart is the plan as a picture, spot by spot; what takes over a bed stands below what
// leaves it.
func (v *viewing) seasonChart() chart.Season {
	st := chart.Season{Title: "The plan through the season", Calendar: v.Calendar, From: 365, To: 0,
		Desc: "Each planting's stages, by the median of the seasons, and the chance of a frost at its spot."}
	follows, _, err := opened.InOrder(v.plantings)
	if err != nil {
		return st // the plan would not have been assessed
	}
	place := map[string]int{}
	var add func(i int, follow bool)
	add = func(i int, follow bool) {
		p, x := v.plantings[i], v.assessed[i]
		row := chart.Row{Name: p.Label(), Parts: partsOf(opened.StagesOf(p, x)), Note: x.Verdict.String(), Follow: follow}
		if c := x.Result.Succeeds; c.Known {
			row.Note += ": " + words.InYears(c.Share)
		}
		for _, part := range row.Parts {
			st.From, st.To = min(st.From, part.From), max(st.To, part.To)
		}
		at, ok := place[p.Where.Name]
		if !ok {
			at = len(st.Groups)
			place[p.Where.Name] = at
			st.Groups = append(st.Groups, chart.Group{Name: p.Where.Name})
		}
		st.Groups[at].Rows = append(st.Groups[at].Rows, row)
		for j, before := range follows {
			if before == i {
				add(j, v.plantings[j].Where.Name == p.Where.Name)
			}
		}
	}
	for i, before := range follows {
		if before < 0 {
			add(i, false)
		}
	}
	st.From = max(st.From-10, climate.SpanFrom)
	st.To = min(max(st.To+10, st.From+60), climate.SpanTo)
	for _, p := range v.plantings {
		if g := &st.Groups[place[p.Where.Name]]; g.Frost == nil {
			all := v.fields.At(p.Where).NightShares(0, 7)
			g.Frost = all[st.From-climate.SpanFrom : st.To-climate.SpanFrom]
		}
	}
	if season, today := v.Calendar.Locate(v.today); season == v.season {
		st.Today, st.TodayIs = &today, v.Calendar.Words(today)
	}
	return st
}

func (v *viewing) planTable() table.Table {
	t := table.Table{Title: "The plan, scored", Columns: []table.Column{
		{Name: "planting"}, {Name: "verdict"}, {Name: "starts"}, {Name: "both, years in 10", Align: table.Right},
		{Name: "90 % interval", Align: table.Right}, {Name: "survives", Align: table.Right}, {Name: "ripens", Align: table.Right},
		{Name: "first picking"}, {Name: "cold nights", Align: table.Right}, {Name: "better on"},
	}}
	seasons := 0
	for i, x := range v.assessed {
		r := x.Result
		better := words.Dash
		if b, ok := x.Better(); ok {
			better = v.Calendar.Words(b.Planting.Start)
		}
		t.Add(table.Text(v.plantings[i].Label()), table.Cell{Text: x.Verdict.String(), Tone: tone(x.Verdict)}, table.Text(v.Calendar.Words(r.Planting.Start)),
			beside(r.Succeeds, v.Settings.Aim), intervalOf(r.Succeeds), share(r.Survives), share(r.Ripens), table.Text(v.picking(r)), nights(r), table.Text(better))
		seasons = max(seasons, r.Succeeds.Seasons)
	}
	t.Columns[3].Name = "both"
	t.Notes = []string{fmt.Sprintf("Shares of up to %s. Survives: not killed by frost. Ripens: ready in time. Both: in the same season. Cold nights: those that would set bare plants back, median to 9 seasons in 10.", words.Plural(seasons, "season"))}
	return t
}

// windowSection is one chart for each crop and way of growing it in the plan.
func (v *viewing) windowSection() page.Section {
	if len(v.assessed) == 0 {
		return page.Section{NotKnown: "there is no plan to try other days for"}
	}
	s := page.Section{Lead: "How often a planting survives, ripens and does both, by the day it starts. Shaded: the days on which it is sound."}
	var fair []page.Figure
	for i, x := range v.assessed {
		if x.Around().Best < 0 {
			s.Notes = append(s.Notes, v.plantings[i].Label()+": not known.")
			continue
		}
		p := v.plantings[i]
		caption := p.Label() + ", " + p.Where.Name
		if p.Cover.Name != "" {
			caption += ", " + p.Cover.Name
		}
		f := page.Figure{Caption: caption, Chart: v.windowChart(p.Planting, x.Around(), x.Result.Planting.Start, "planned")}
		if x.Verdict.Fails() {
			s.Figures = append(s.Figures, f)
		} else {
			fair = append(fair, f)
		}
	}
	if len(fair) > 0 {
		s.Folded = &page.Folded{Line: fmt.Sprintf("The %s whose day is sound or likely", words.Plural(len(fair), "planting")), Figures: fair}
	}
	return s
}

// windowChart draws a window; the day planned is marked with a word unless it is outside.
func (s *session) windowChart(p risk.Planting, w risk.Window, planned climate.SeasonDay, word string) chart.Curves {
	n := len(w.Results)
	c := chart.Curves{Title: p.Label() + " by starting day", Calendar: s.Calendar, YLabel: "seasons in which it happens",
		From: w.Results[0].Planting.Start, To: w.Results[n-1].Planting.Start}
	verb := "planted out"
	if !p.Raised {
		verb = "sown in place"
	}
	c.Desc = fmt.Sprintf("Chances by the day it is %s.", verb)
	survives := chart.Curve{Name: "survives", Role: chart.Frost}
	ripens := chart.Curve{Name: "ripens", Role: chart.Warmth}
	both := chart.Curve{Name: "both", Role: chart.Growth}
	for _, r := range w.Results {
		for _, l := range []struct {
			to *chart.Curve
			of climate.Chance
		}{{&survives, r.Survives}, {&ripens, r.Ripens}, {&both, r.Succeeds}} {
			l.to.X = append(l.to.X, float64(r.Planting.Start))
			l.to.Chance = append(l.to.Chance, shareOf(l.of, l.of.Share))
		}
		both.Low, both.High = append(both.Low, shareOf(r.Succeeds, r.Succeeds.Low)), append(both.High, shareOf(r.Succeeds, r.Succeeds.High))
	}
	c.Curves = []chart.Curve{survives, ripens, both}
	c.From, c.To = min(c.From, planned)-7, max(c.To, planned)+7 // nothing on the edge
	c.Planned = &chart.Flag{X: float64(planned), Name: word + " " + s.Calendar.Words(planned)}
	on := func(i int) climate.SeasonDay { return w.Results[i].Planting.Start }
	if w.Earliest >= 0 {
		c.Sound = &chart.Span{From: float64(on(w.Earliest)), To: float64(on(w.Last)), Name: fmt.Sprintf("sound %s to %s", s.Calendar.Words(on(w.Earliest)), s.Calendar.Words(on(w.Last)))}
		if w.Earliest != w.Best {
			c.Flags = append(c.Flags, chart.Flag{X: float64(on(w.Earliest)), Name: "earliest"})
		}
	}
	if w.Results[w.Best].Succeeds.Share > 0 {
		c.Flags = append(c.Flags, chart.Flag{X: float64(on(w.Best)), Name: "best " + s.Calendar.Words(on(w.Best))})
	}
	return c
}

// shareOf is a share of a chance, NaN when it is not known.
func shareOf(c climate.Chance, v float64) float64 {
	if !c.Known {
		return math.NaN()
	}
	return v
}

// sheet is the year on one page for the wall, in the order in which the plantings begin.
func (v *viewing) sheet() page.Sheet {
	s := page.Sheet{Title: fmt.Sprintf("%s: %d", v.Settings.Name, v.season),
		Note: fmt.Sprintf("Picking: when half the seasons have begun, and 8 in 10. May start: the days that succeed in at least %.0f %% of seasons even at the lower end of the interval, and the best of them. %s",
			100*v.Settings.Aim, v.notice()),
		Plan: table.Table{Columns: []table.Column{{Name: "planting"}, {Name: "spot, bed"}, {Name: "sow"}, {Name: "harden off"}, {Name: "out"},
			{Name: "may start"}, {Name: "first picking"}, {Name: "done, seen"}}},
		Foot: []string{"A frost is a night at or below " + v.app.unit().Degrees(0) + " at the spot. Chances come from past seasons: the forecast and local warnings come first on any one night."}}
	day := func(d float64) string {
		if math.IsNaN(d) {
			return ""
		}
		return words.Day(v.Calendar, d)
	}
	type line struct {
		begins float64
		cells  []table.Cell
	}
	var lines []line
	for i, p := range v.plantings {
		st := opened.StagesOf(p, v.assessed[i])
		sow, out := st.Sow, st.Out
		if !p.Raised {
			sow, out = out, math.NaN()
		}
		window := "no sound day"
		if w := v.assessed[i].Around(); w.Earliest >= 0 {
			on := func(k int) string { return v.Calendar.Words(w.Results[k].Planting.Start) }
			window = on(w.Earliest) + " to " + on(w.Last) + ", best " + on(w.Best)
		}
		pick := "not expected"
		if !math.IsNaN(st.Pick) {
			pick = day(st.Pick)
			if !math.IsNaN(st.Early) && !math.IsNaN(st.Late) {
				pick += " (" + day(st.Early) + " to " + day(st.Late) + ")"
			}
		}
		spot := p.Where.Name
		if p.Bed != "" {
			spot += ", " + p.Bed
		}
		lines = append(lines, line{sow, table.Row(p.Label(), spot, day(sow), day(st.Harden), day(out), window, pick, "")})
	}
	slices.SortStableFunc(lines, func(a, b line) int { return cmp.Compare(a.begins, b.begins) })
	for _, l := range lines {
		s.Plan.Rows = append(s.Plan.Rows, l.cells)
	}
	s.Frosts = table.Table{Columns: []table.Column{{Name: "spot"}, {Name: "last in spring: half the years by"}, {Name: "1 year in 10 after"},
		{Name: "first in autumn: half the years by"}, {Name: "1 year in 10 before"}}}
	spots := v.Settings.Spots
	if len(spots) == 0 {
		spots = v.frostPlaces()
	}
	for _, spot := range spots {
		e := v.fields.At(spot)
		d := climate.DatesOf(e, 0, climate.WMO)
		at := func(dates []float64, p float64) table.Cell {
			return table.Text(words.Day(v.Calendar, orNaN(e.Quantile(dates, p))))
		}
		spring := climate.Earliest(d.Spring)
		s.Frosts.Add(table.Text(spot.Name), at(spring, 0.5), at(spring, 0.9), at(d.Autumn, 0.5), at(d.Autumn, 0.1))
	}
	return s
}

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
