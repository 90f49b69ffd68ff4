package view

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"frostward/climate"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/page"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
	"frostward/risk"
)

// A page's week is seven days from today on.
const week = 7

// week is what to do tonight and in the days to come.
func (v *Garden) week() page.Decision {
	if v.NoPlan != nil {
		return page.Decision{NotKnown: "the plan cannot be used: " + v.NoPlan.Error()}
	}
	season, now := v.Calendar.Locate(v.today)
	var d page.Decision
	var due []step
	if season == v.Season {
		due = v.due(float64(now))
	} else {
		d.Lines = append(d.Lines, fmt.Sprintf("Nothing is to be sown or planted out before the season %d.", v.Season))
	}
	for _, st := range due {
		day := v.today + climate.Day(st.on) - climate.Day(now)
		y, m, date := day.Date()
		name := time.Date(y, m, date, 0, 0, 0, 0, time.UTC).Format("Mon 2 Jan")
		if n := len(d.Days); n == 0 || d.Days[n-1].Name != name {
			d.Days = append(d.Days, page.Day{Name: name})
		}
		last := &d.Days[len(d.Days)-1]
		last.Items = append(last.Items, st.what)
	}
	if next := v.nextDue(float64(now)); next != "" && season == v.Season {
		d.Lines = append(d.Lines, next)
	}
	night := v.tonight(&d)
	d.Headline = inTwelveWords(night, thisWeek(due))
	return d
}

// inTwelveWords joins the fullest forms of two sentences, each given from the fullest to the
// briefest, that together have at most twelve words.
func inTwelveWords(first, second []string) string {
	for _, a := range first {
		for _, b := range second {
			if t := strings.TrimSpace(a + " " + b); len(strings.Fields(t)) <= 12 {
				return t
			}
		}
	}
	return strings.TrimSpace(first[len(first)-1] + " " + second[len(second)-1])
}

// thisWeek is the week's work in a sentence, from the fullest form to the briefest.
func thisWeek(due []step) []string {
	switch len(due) {
	case 0:
		return []string{"Nothing is due this week."}
	case 1:
		return []string{"This week: " + lower(due[0].what) + ".", "This week: one thing."}
	}
	return []string{fmt.Sprintf("This week: %d things to do.", len(due)), fmt.Sprintf("This week: %d things.", len(due))}
}

// tonight puts the night to come into the decision and returns what to do in a sentence,
// from the fullest form to the briefest.
func (v *Garden) tonight(d *page.Decision) []string {
	e := v.Night
	if e.Err != nil {
		d.Lines = append(d.Lines, "What the night will bring is not known: "+e.Err.Error()+".")
		return []string{"Tonight: not known."}
	}
	if len(e.Waiting) > 0 {
		d.Lines = append(d.Lines, "Not up yet, or the night is not known there: "+words.List(e.Waiting)+".")
	}
	if len(e.Plantings) == 0 {
		d.Tone = table.Good
		return []string{"Nothing outside needs covering tonight."}
	}
	d.Tone = table.Good
	all := e.Table
	all.Title, all.Notes = "", nil
	risky, rest := all, all
	risky.Rows, rest.Rows = nil, nil
	var cover, carry []string
	worst := e.Plantings[0]
	for i, p := range e.Plantings {
		bare := p.Advice.Choices[0].Damaged
		if bare.Share > worst.Advice.Choices[0].Damaged.Share {
			worst = p
		}
		switch p.Advice.Do().Action {
		case risk.LayCover:
			cover = append(cover, p.Label)
		case risk.BringIn:
			carry = append(carry, p.Label)
		default:
			if !(bare.Share >= atRisk) {
				rest.Rows = append(rest.Rows, all.Rows[i])
				continue
			}
		}
		risky.Rows = append(risky.Rows, all.Rows[i])
	}
	const note = "Chance of harm, then of being killed, by what is over the planting. Worth it from: the chance of harm from which the cover saves more than its work costs."
	if len(risky.Rows) > 0 {
		risky.Notes = []string{note}
		d.AtRisk = &risky
	}
	if len(rest.Rows) > 0 {
		rest.Notes = []string{note}
		d.Rest = &rest
		d.RestLine = fmt.Sprintf("%s out of doors or under glass: under %.0f chances in 100 of harm", words.Plural(len(rest.Rows), "planting"), 100*atRisk)
		if len(risky.Rows) > 0 {
			d.RestLine = fmt.Sprintf("%d more: under %.0f chances in 100 of harm", len(rest.Rows), 100*atRisk)
		}
	}
	d.Detail = fmt.Sprintf("Most in danger: %s, %s. ", worst.Title, worst.Danger) + e.RestsOn + e.BeyondHelp
	if len(cover)+len(carry) == 0 {
		return []string{"Leave everything as it is tonight.", "Cover nothing tonight."}
	}
	d.Tone = table.Bad
	forms := make([]string, 3)
	for i, who := range [][]string{cover, carry} {
		if len(who) == 0 {
			continue
		}
		few := who
		if len(who) > 2 {
			few = []string{who[0], fmt.Sprintf("%d more", len(who)-1)}
		}
		for k, names := range []string{words.List(who), words.List(few), words.Plural(len(who), "planting")} {
			if forms[k] != "" {
				forms[k] += ", "
			}
			forms[k] += []string{"cover ", "bring in "}[i] + names
		}
	}
	for k := range forms {
		forms[k] = words.Capital(forms[k]) + " tonight."
	}
	return forms
}

// atRisk is the chance of harm from which the page lists a planting that is to be left.
const atRisk = 0.05

// step is something to do on a day.
type step struct {
	on   float64
	what string
}

func (v *Garden) steps() []step {
	var out []step
	for i, p := range v.Plantings {
		g := opened.StagesOf(p, v.Assessed[i])
		label := p.Label()
		out = append(out, step{g.Sow, "Sow " + label + " under cover"}, step{g.Harden, "Begin to harden off " + label})
		verb := "Sow "
		if p.Raised {
			verb = "Plant out "
		}
		what := verb + label
		if x := v.Assessed[i]; x.Verdict == risk.TooEarly {
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
func (v *Garden) due(today float64) []step {
	var out []step
	for _, st := range v.steps() {
		if st.on >= today && st.on < today+week {
			out = append(out, st)
		}
	}
	return out
}

// nextDue is the first step after the week.
func (v *Garden) nextDue(today float64) string {
	for _, st := range v.steps() {
		if st.on >= today+week {
			return fmt.Sprintf("Next: %s on %s.", lower(st.what), words.Day(v.Calendar, st.on))
		}
	}
	return ""
}

// lower begins a sentence of ours with a small letter.
func lower(s string) string { return string(s[0]|0x20) + s[1:] }
