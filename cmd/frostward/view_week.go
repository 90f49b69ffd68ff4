package main

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/page"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
	"frostward/risk"
)

// A page's week is seven days from today on.
const week = 7

// week is what to do tonight and in the days to come.
func (v *viewing) week() page.Decision {
	if v.noPlan != nil {
		return page.Decision{NotKnown: "the plan cannot be used: " + v.noPlan.Error()}
	}
	season, today := v.Calendar.Locate(v.today)
	var d page.Decision
	due := v.due(float64(today))
	switch {
	case season != v.season:
		due = []string{fmt.Sprintf("Nothing is to be sown or planted out before the season %d.", v.season)}
	case len(due) == 0:
		due = []string{"Nothing is due this week."}
		if next := v.nextDue(float64(today)); next != "" {
			due = append(due, next)
		}
	}
	v.tonight(&d)
	if d.Headline == "" {
		d.Headline, d.Tone, due = due[0], table.Good, due[1:]
	}
	d.Lines = append(due, d.Lines...)
	return d
}

// tonight puts the night to come into the decision, where something is out.
func (v *viewing) tonight(d *page.Decision) {
	e, err := v.evening(tonightOptions{})
	if err != nil {
		d.Lines = append(d.Lines, "What the night will bring is not known: "+err.Error()+".")
		return
	}
	if len(e.out) == 0 {
		if len(e.waiting) > 0 {
			d.Lines = append(d.Lines, "Not up yet, or the night is not known there: "+words.List(e.waiting)+".")
		}
		return
	}
	d.Headline, d.Tone = e.headline(), table.Good
	for _, p := range e.out {
		if p.advice.Do().Action != risk.Leave {
			d.Tone = table.Bad
		}
	}
	d.Lines = append(d.Lines, e.restsOn())
	t := e.plantingTable()
	d.Table = &t
}

// restsOn says what the night's numbers rest on.
func (v *evening) restsOn() string {
	var by []string
	for _, m := range v.spots[0].out.Methods {
		if m.Why == "" {
			by = append(by, m.Name)
		}
	}
	low, high := v.spots[0].out.Interval()
	return fmt.Sprintf("The night is expected between %s and %s at the spot \"%s\" (9 nights in 10), by: %s.",
		v.app.unit().Degrees(math.Round(low*10)/10), v.app.unit().Degrees(math.Round(high*10)/10), v.spots[0].Name, words.List(by))
}

// step is something to do on a day.
type step struct {
	on   float64
	what string
}

func (v *viewing) steps() []step {
	var out []step
	for i, p := range v.plantings {
		g := opened.StagesOf(p, v.assessed[i])
		label := p.Label()
		out = append(out, step{g.Sow, "Sow " + label + " under cover"}, step{g.Harden, "Begin to harden off " + label})
		verb := "Sow "
		if p.Raised {
			verb = "Plant out "
		}
		what := verb + label
		if x := v.assessed[i]; x.Verdict == risk.TooEarly {
			if b, ok := x.Better(); ok {
				what += fmt.Sprintf(" (planned; %s would be better, it would succeed in %s)", v.Calendar.Words(b.Planting.Start), words.InYears(b.Succeeds.Share))
			}
		}
		out = append(out, step{g.Out, what}, step{g.Pick, "Look for the first " + label})
	}
	slices.SortStableFunc(out, func(a, b step) int { return cmp.Compare(a.on, b.on) })
	return out
}

// due are the steps of the week.
func (v *viewing) due(today float64) []string {
	var out []string
	for _, st := range v.steps() {
		if st.on >= today && st.on < today+week {
			out = append(out, fmt.Sprintf("%s on %s.", st.what, words.Day(v.Calendar, st.on)))
		}
	}
	return out
}

// nextDue is the first step after the week.
func (v *viewing) nextDue(today float64) string {
	for _, st := range v.steps() {
		if st.on >= today+week {
			return fmt.Sprintf("Next: %s on %s.", lower(st.what), words.Day(v.Calendar, st.on))
		}
	}
	return ""
}

// lower begins a sentence of ours with a small letter.
func lower(s string) string { return string(s[0]|0x20) + s[1:] }
