package main

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"frostward/climate"
	"frostward/cmd/internal/page"
	"frostward/cmd/internal/table"
	"frostward/risk"
)

// A page's week is seven nights from today on.
const week = 7

// week is what there is to do, and how usual harmful nights are for what is out, by the
// time of the year alone.
func (v *viewing) week() page.Decision {
	if v.noPlan != nil {
		return page.Decision{NotKnown: "the plan cannot be used: " + v.noPlan.Error()}
	}
	season, today := v.calendar.Locate(v.today)
	if season != v.season {
		return page.Decision{Headline: fmt.Sprintf("Nothing is to be sown or planted out before the season %d.", v.season), Tone: table.Good}
	}
	due := v.due(float64(today))
	d := page.Decision{Lines: due}
	nights, worst := v.nights(today)
	switch {
	case worst.share >= 0.1:
		d.Headline = fmt.Sprintf("Watch the nights: at this time of the year about %s sets %s back.", nightsInTen(worst.share), worst.who)
		d.Tone = table.Bad
	case len(due) > 0:
		d.Headline, d.Lines, d.Tone = due[0], due[1:], table.Good
	case worst.share > 0:
		d.Headline = fmt.Sprintf("Nothing is due this week; a night that sets back what is out comes %s.", nightsInTen(worst.share))
		d.Tone = table.Good
	default:
		d.Headline, d.Tone = "Nothing is due this week.", table.Good
	}
	if next := v.nextDue(float64(today)); len(due) == 0 && next != "" {
		d.Lines = append(d.Lines, next)
	}
	if worst.who != "" {
		d.Lines = append(d.Lines, "This is by the time of the year alone; \"frostward tonight\" reckons with the evening and the forecast.")
	}
	if len(nights.Rows) > 0 {
		d.Table = &nights
	}
	return d
}

// step is something to do on a day.
type step struct {
	on   float64
	what string
}

func (v *viewing) steps() []step {
	var out []step
	for i, p := range v.plantings {
		g := v.stages(p, v.assessed[i])
		label := p.Label()
		out = append(out, step{g.sow, "Sow " + label + " under cover"}, step{g.harden, "Begin to harden off " + label})
		verb := "Sow "
		if p.Raised {
			verb = "Plant out "
		}
		what := verb + label
		if x := v.assessed[i]; x.Verdict == risk.TooEarly {
			if b, ok := x.Better(); ok {
				what += fmt.Sprintf(" (planned; %s would be better, it would succeed in %s)", v.calendar.Words(b.Planting.Start), risk.InYears(b.Succeeds.Share))
			}
		}
		out = append(out, step{g.out, what}, step{g.pick, "Look for the first " + label})
	}
	return out
}

// due are the steps of the week.
func (v *viewing) due(today float64) []string {
	steps := v.steps()
	slices.SortStableFunc(steps, func(a, b step) int { return cmp.Compare(a.on, b.on) })
	var out []string
	for _, st := range steps {
		if st.on >= today && st.on < today+week {
			out = append(out, fmt.Sprintf("%s on %s.", st.what, day(v.calendar, st.on)))
		}
	}
	return out
}

// nextDue is the first step after the week.
func (v *viewing) nextDue(today float64) string {
	best := step{on: math.Inf(1)}
	for _, st := range v.steps() {
		if st.on >= today+week && st.on < best.on {
			best = st
		}
	}
	if math.IsInf(best.on, 1) {
		return ""
	}
	return fmt.Sprintf("Next: %s on %s.", lower(best.what), day(v.calendar, best.on))
}

func lower(s string) string {
	if s == "" {
		return s
	}
	return string(s[0]|0x20) + s[1:]
}

// threatened is what is out and most often set back.
type threatened struct {
	who   string
	share float64
}

// nights are the week's nights for what is out: how usual is one that sets it back.
func (v *viewing) nights(today climate.SeasonDay) (table.Table, threatened) {
	t := table.Table{Title: "The week's nights, by the time of the year", Columns: []table.Column{{Name: "out now"}, {Name: "set back"}, {Name: "at", Unit: "°C", Align: table.Right}, {Name: "spot"}}}
	var worst threatened
	for _, l := range v.looked {
		p := l.planned
		e := v.fields.at(p.spot)
		shares := e.NightShares(climate.Frost(harmAt(p)), week)
		share := shares[today+week/2-climate.SpanFrom]
		cell := table.Cell{Text: nightsInTen(share), Tone: table.Good}
		switch {
		case math.IsNaN(share):
			cell = table.Cell{Text: "not known", Tone: table.Quiet}
		case share >= 0.1:
			cell.Tone = table.Bad
		case share >= 0.02:
			cell.Tone = table.Doubtful
		}
		if share > worst.share {
			worst = threatened{"the " + p.Label(), share}
		}
		t.Add(table.Text(p.Label()), cell, table.Textf("%.1f", harmAt(p)), table.Text(p.spot.Name))
	}
	if n := len(v.fields.base.Seasons); len(t.Rows) > 0 {
		t.Notes = []string{fmt.Sprintf("Counted over the nights of two weeks around these days in %s.", plural(n, "season"))}
	}
	return t, worst
}

// nightsInTen says a share of nights in words.
func nightsInTen(share float64) string {
	switch n := math.Round(share * 10); {
	case share == 0:
		return "none in the record"
	case share < 0.01:
		return "under 1 night in 100"
	case n < 2:
		return fmt.Sprintf("1 night in %.0f", math.Round(1/share))
	default:
		return fmt.Sprintf("%.0f nights in 10", n)
	}
}
