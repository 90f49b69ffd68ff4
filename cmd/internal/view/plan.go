package view

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"frostward/climate"
	"frostward/cmd/internal/chart"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/page"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
	"frostward/risk"
)

// planSection is the season strip and the plan's scores.
func (v *Garden) planSection() page.Section {
	switch {
	case v.NoPlan != nil:
		return page.Section{NotKnown: v.planFault()}
	case len(v.Plantings) == 0:
		return page.Section{NotKnown: "the plan has no plantings"}
	}
	n := map[risk.Verdict]int{}
	for _, x := range v.Assessed {
		n[x.Verdict]++
	}
	s := page.Section{Lead: words.Aimed(n[risk.Sound], n[risk.Likely], len(v.Plantings), v.Settings.Aim),
		Figures: []page.Figure{{
			Caption: fmt.Sprintf("The season %d, and the chance of a frost each night at each spot", v.Season),
			Chart:   v.seasonChart(), Wide: true,
		}},
	}
	poor, fair := v.planTable(true), v.planTable(false)
	if len(poor.Rows) > 0 {
		poor.Title, fair.Notes = "Better changed", nil
		s.Tables = []table.Table{poor}
	}
	for _, c := range v.Contradictions(v.Plantings, v.Assessed) {
		s.Notes = append(s.Notes, v.local(c.Text))
	}
	if n := n[risk.Sound] + n[risk.Likely] + n[risk.NotKnown]; n > 0 {
		s.Folded = []page.Folded{{Line: fmt.Sprintf("The scores of the %s that need no change", words.Plural(n, "planting")), Tables: []table.Table{fair}}}
	}
	return s
}

// seasonChart is the plan as a picture, spot by spot; what takes over a bed stands below what
// leaves it.
func (v *Garden) seasonChart() chart.Season {
	st := chart.Season{Title: "The plan through the season", Calendar: v.Calendar, From: 365, To: 0,
		Desc: "Each planting's stages, by the median of the seasons, and the chance of a frost at its spot."}
	follows, _, err := opened.InOrder(v.Plantings)
	if err != nil {
		return st // the plan would not have been assessed
	}
	place := map[string]int{}
	var add func(i int, follow bool)
	add = func(i int, follow bool) {
		p, x := v.Plantings[i], v.Assessed[i]
		row := chart.Row{Name: p.Label(), Parts: partsOf(v.stages(i)), Note: x.Verdict.String(), Follow: follow}
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
				add(j, v.Plantings[j].Where.Name == p.Where.Name)
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
	for _, p := range v.Plantings {
		if g := &st.Groups[place[p.Where.Name]]; g.Frost == nil {
			all := v.Plays.At(p.Where).NightShares(0, 7)
			g.Frost = all[st.From-climate.SpanFrom : st.To-climate.SpanFrom]
		}
	}
	if season, today := v.Calendar.Locate(v.today); season == v.Season {
		st.Today, st.TodayIs = &today, v.Calendar.Words(today)
	}
	return st
}

// stages are a planting's, for the picture. What stands in the ground is drawn as where it succeeds, once the median
// season would have killed it.
func (v *Garden) stages(i int) opened.Stages {
	st, now := opened.StagesOf(v.Plantings[i], v.Assessed[i]), v.Standing[i]
	season, today := v.Calendar.Locate(v.today)
	if since, _ := v.Calendar.Locate(now.Since); now.Phase == opened.InGround && since == season && st.EndsWithoutOne <= float64(today) {
		if pick, free := v.Assessed[i].Result.WhenItSucceeds(); !math.IsNaN(pick) {
			st.Pick, st.Free = math.Round(pick), math.Round(free)
		}
	}
	return st
}

// planTable scores the plantings that had better be changed, or the others, each with its reserve below it.
func (v *Garden) planTable(failing bool) table.Table {
	t := table.Table{Columns: []table.Column{
		{Name: "planting"}, {Name: "verdict"}, {Name: "starts"}, {Name: "both", Align: table.Right},
		{Name: "(90\u00a0%)", Align: table.Right}, {Name: "survives", Align: table.Right}, {Name: "ripens", Align: table.Right},
		{Name: "first picking"}, {Name: "cold nights", Align: table.Right}, {Name: "better on"},
	}}
	seasons := 0
	add := func(name string, verdict risk.Verdict, on climate.SeasonDay, r risk.Result, better string) {
		t.Add(table.Text(name), table.Cell{Text: verdict.String(), Tone: words.Tone(verdict)}, table.Text(v.Calendar.Words(on)),
			words.Beside(r.Succeeds, v.Settings.Aim), table.Text(words.Interval(r.Succeeds)), words.Share(r.Survives), words.Share(r.Ripens),
			table.Text(v.Words.Picking(r)), words.Nights(r), table.Text(better))
		seasons = max(seasons, r.Succeeds.Seasons)
	}
	for i, x := range v.Assessed {
		if x.Verdict.Fails() != failing {
			continue
		}
		better := words.Dash
		if b, ok := x.Better(); ok {
			if better = v.Calendar.Words(b.Day); !v.CanMove(v.Standing[i], b.Day) {
				better += " next year"
			}
		}
		add(v.Plantings[i].Label(), x.Verdict, x.Result.Planting.Start, x.Result, better)
		if r := x.Reserved; !r.None() {
			add(v.Plantings[i].Label()+" + "+v.Words.ReserveName(r.Reserve), r.Verdict, r.On, r.Pair, words.Dash)
		}
	}
	t.Notes = []string{fmt.Sprintf("Shares of up to %s. Survives: not killed by frost. Ripens: ready in time. Both: in the same season, with its 90 %% interval. Cold nights: those that would set bare plants back, median to 9 seasons in 10.", words.Plural(seasons, "season"))}
	return t
}

// windowSection is one chart for each crop and way of growing it in the plan.
func (v *Garden) windowSection() page.Section {
	if len(v.Assessed) == 0 {
		return page.Section{NotKnown: "there is no plan to try other days for"}
	}
	s := page.Section{Lead: "How often a planting survives, ripens and does both, by the day it starts. Shaded: the days on which it is sound."}
	var poor, fair []page.Figure
	for i, x := range v.Assessed {
		if x.Around().Best < 0 {
			s.Notes = append(s.Notes, v.Plantings[i].Label()+": not known.")
			continue
		}
		p := v.Plantings[i]
		caption := p.Label() + ", " + p.Where.Name
		if p.Cover.Name != "" {
			caption += ", " + p.Cover.Name
		}
		f := page.Figure{Caption: caption, Chart: v.WindowChart(p.Planting, x.Around(), x.Result.Planting.Start, "planned")}
		if x.Verdict.Fails() {
			poor = append(poor, f)
		} else {
			fair = append(fair, f)
		}
	}
	for _, f := range []page.Folded{{Line: "had better be changed", Figures: poor}, {Line: "is sound or likely", Figures: fair}} {
		if n := len(f.Figures); n > 0 {
			f.Line = fmt.Sprintf("The %s whose day %s", words.Plural(n, "planting"), f.Line)
			s.Folded = append(s.Folded, f)
		}
	}
	return s
}

// WindowChart draws a window; the day planned is marked with a word unless it is outside.
func (v *Garden) WindowChart(p risk.Planting, w risk.Window, planned climate.SeasonDay, word string) chart.Curves {
	n := len(w.Starts)
	c := chart.Curves{Title: p.Label() + " by starting day", Calendar: v.Calendar, YLabel: "seasons in which it happens",
		From: w.Starts[0].Day, To: w.Starts[n-1].Day}
	verb := "planted out"
	if !p.Raised {
		verb = "sown in place"
	}
	c.Desc = fmt.Sprintf("Chances by the day it is %s.", verb)
	survives := chart.Curve{Name: "survives", Role: chart.Frost}
	ripens := chart.Curve{Name: "ripens", Role: chart.Warmth}
	both := chart.Curve{Name: "both", Role: chart.Growth}
	for _, r := range w.Starts {
		for _, l := range []struct {
			to *chart.Curve
			of climate.Chance
		}{{&survives, r.Survives}, {&ripens, r.Ripens}, {&both, r.Succeeds}} {
			l.to.X = append(l.to.X, float64(r.Day))
			l.to.Chance = append(l.to.Chance, words.Of(l.of, l.of.Share))
		}
		both.Low, both.High = append(both.Low, words.Of(r.Succeeds, r.Succeeds.Low)), append(both.High, words.Of(r.Succeeds, r.Succeeds.High))
	}
	c.Curves = []chart.Curve{survives, ripens, both}
	c.From, c.To = min(c.From, planned)-7, max(c.To, planned)+7 // nothing on the edge
	c.Planned = &chart.Flag{X: float64(planned), Name: word + " " + v.Calendar.Words(planned)}
	on := func(i int) climate.SeasonDay { return w.Starts[i].Day }
	if w.Earliest >= 0 {
		c.Sound = &chart.Span{From: float64(on(w.Earliest)), To: float64(on(w.Last)), Name: fmt.Sprintf("sound %s to %s", v.Calendar.Words(on(w.Earliest)), v.Calendar.Words(on(w.Last)))}
		if w.Earliest != w.Best {
			c.Flags = append(c.Flags, chart.Flag{X: float64(on(w.Earliest)), Name: "earliest"})
		}
	}
	if w.Starts[w.Best].Succeeds.Share > 0 {
		c.Flags = append(c.Flags, chart.Flag{X: float64(on(w.Best)), Name: "best " + v.Calendar.Words(on(w.Best))})
	}
	return c
}

// together keeps a text on one line: "bed 9", "24 May".
func together(t string) string { return strings.ReplaceAll(t, " ", "\u00a0") }

// Sheet is the year on one page for the wall, in the order in which the plantings begin.
func (v *Garden) Sheet() page.Sheet {
	s := page.Sheet{Title: fmt.Sprintf("%s: %d", v.Settings.Name, v.Season),
		Note: fmt.Sprintf("Picking: when half the seasons have begun, and 8 in 10. May start: the days that succeed in at least %.0f %% of seasons even at the lower end of the interval, and the best of them. %s",
			100*v.Settings.Aim, v.notice()),
		Plan: table.Table{Columns: []table.Column{{Name: "planting"}, {Name: "spot, bed"}, {Name: "sow"}, {Name: "harden off"}, {Name: "out"},
			{Name: "may start"}, {Name: "first picking"}, {Name: "done, seen"}}},
		Foot: []string{"A frost is a night at or below " + v.Units.Degrees(0) + " at the spot. Chances come from past seasons: the forecast and local warnings come first on any one night."}}
	day := func(d float64) string {
		if math.IsNaN(d) {
			return ""
		}
		return together(words.Day(v.Calendar, d))
	}
	type line struct {
		begins float64
		cells  []table.Cell
	}
	var lines []line
	for i, p := range v.Plantings {
		st := opened.StagesOf(p, v.Assessed[i])
		sow, out := st.Sow, st.Out
		if !p.Raised {
			sow, out = out, math.NaN()
		}
		window := "no day known"
		if w := v.Assessed[i].Around(); w.Best >= 0 {
			on := func(k int) string { return together(v.Calendar.Words(w.Starts[k].Day)) }
			switch {
			case w.Earliest < 0:
				window = "none sound, best " + on(w.Best)
			case w.Earliest == w.Last:
				window = on(w.Best) + " only"
			default:
				window = on(w.Earliest) + " to " + on(w.Last) + ", best " + on(w.Best)
			}
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
			spot += ", " + together(p.Bed)
		}
		lines = append(lines, line{sow, table.Row(p.Label(), spot, day(sow), day(st.Harden), day(out), window, pick, "")})
		if r := v.Assessed[i].Reserved; !r.None() {
			on := day(float64(r.On))
			again := table.Row("the same again", spot, on, "", "", "", v.Words.Picking(r.Second), "")
			if p.Raised {
				again = table.Row("the same again", spot, day(float64(p.At(r.On).Sow)), "", on, "", v.Words.Picking(r.Second), "")
			}
			if !r.Again {
				again = table.Row(fmt.Sprintf("the %s held back", words.Plural(r.Plants, "plant")), spot, "", "", on, "where frost has killed the first", v.Words.Picking(r.Second), "")
			}
			again[0].Text = p.Label() + ": " + again[0].Text
			lines = append(lines, line{float64(r.On), again})
		}
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
		e := v.Plays.At(spot)
		d := climate.DatesOf(e, 0, climate.WMO)
		at := func(dates []float64, p float64) table.Cell {
			return table.Text(words.Day(v.Calendar, words.OrNaN(e.Quantile(dates, p))))
		}
		spring := climate.Earliest(d.Spring)
		s.Frosts.Add(table.Text(spot.Name), at(spring, 0.5), at(spring, 0.9), at(d.Autumn, 0.5), at(d.Autumn, 0.1))
	}
	return s
}
