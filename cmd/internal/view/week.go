package view

import (
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
		return page.Decision{NotKnown: v.planFault()}
	}
	var d page.Decision
	due, next := v.Tasks()
	for _, t := range due {
		name := DayWords(t.Day)
		if n := len(d.Days); n == 0 || d.Days[n-1].Name != name {
			d.Days = append(d.Days, page.Day{Name: name})
		}
		last := &d.Days[len(d.Days)-1]
		last.Items = append(last.Items, words.Capital(t.Sentence())+".")
	}
	if next != nil {
		d.Lines = append(d.Lines, fmt.Sprintf("Next: %s on %s.", next.Sentence(), words.Date(next.Day)))
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
func thisWeek(due []opened.Task) []string {
	switch len(due) {
	case 0:
		return []string{"Nothing is due this week."}
	case 1:
		return []string{"This week: " + strings.Replace(due[0].What, "%", due[0].Planting, 1) + ".", "This week: one thing."}
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
	if len(e.Out) == 0 {
		d.Tone = table.Good
		return []string{"Nothing outside needs covering tonight."}
	}
	d.Tone = table.Good
	all := brief(e.Table(v.Units))
	risky, rest := all, all
	risky.Rows, rest.Rows = nil, nil
	var cover, carry []string
	worst := e.Out[0]
	for i, p := range e.Out {
		bare := p.Advice.Choices[0].Damaged
		if bare.Share > worst.Advice.Choices[0].Damaged.Share {
			worst = p
		}
		switch p.Advice.Do().Action {
		case risk.LayCover:
			cover = append(cover, p.Label())
		case risk.BringIn:
			carry = append(carry, p.Label())
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
	d.Detail = fmt.Sprintf("Most in danger: %s, %s. ", worst.Title(), worst.Danger(v.Units)) + e.RestsOn(v.Units) + e.BeyondHelp()
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

// brief leaves out of tonight's table what a grower with a telephone in the garden can do without; the
// command tonight has it all.
func brief(t table.Table) table.Table {
	out := table.Table{Rows: make([][]table.Cell, len(t.Rows))}
	for i, c := range t.Columns {
		if c.Drop > 1 || slices.Contains(c.Keys, "killed_c") {
			continue
		}
		out.Columns = append(out.Columns, c)
		for k := range t.Rows {
			out.Rows[k] = append(out.Rows[k], t.Rows[k][i])
		}
	}
	return out
}

// atRisk is the chance of harm from which the page lists a planting that is to be left.
const atRisk = 0.05

// DayWords says a day of the week: "Wed 20 May".
func DayWords(day climate.Day) string {
	y, m, d := day.Date()
	return time.Date(y, m, d, 0, 0, 0, 0, time.UTC).Format("Mon 2 Jan")
}

// Tasks are the week's work, as the command week has it, and the first task after it.
func (v *Garden) Tasks() (due []opened.Task, next *opened.Task) {
	for _, t := range v.TasksOf(v.Standing, v.Plantings, v.Assessed, climate.YearDays) {
		if t.Day >= v.today+week {
			return due, &t
		}
		due = append(due, t)
	}
	return due, nil
}
