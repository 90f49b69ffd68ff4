package main

import (
	"bytes"
	"fmt"
	"math"

	"github.com/spf13/cobra"

	"frostward/climate"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/page"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/view"
	"frostward/cmd/internal/words"
	"frostward/risk"
)

func newPage(a *app) *cobra.Command {
	var out output
	var sheet bool
	c := &cobra.Command{
		Annotations: map[string]string{ownForm: "an HTML page"},
		Use:         "page",
		Short:       "The garden as one HTML page, to look at or print",
		Long: `page writes the garden as one HTML file that needs nothing else: no network, no scripts,
no fonts. It shows what there is to do this week, the plan through the season, when frosts
come at each spot, this season's warmth against past ones, when each planting may start, how
the spots differ from the station, and the record behind it all. Every picture has its
figures as a table beside it. It suits a telephone, in light and dark.

With --sheet it is one A4 page to print and hang up instead: each planting's days, its window,
the frost dates of the spots, and room to write.`,
		Example: `  frostward page -o garden.html
  frostward page --garden mygarden -o mygarden.html
  frostward page --garden mygarden --sheet -o sheet.html`,
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return a.pageCmd(out, sheet) },
	}
	out.flags(c, page.Mark)
	c.Flags().BoolVar(&sheet, "sheet", false, "one A4 page for the wall: the year's days of each planting")
	return c
}

func (a *app) pageCmd(out output, sheet bool) error {
	s, err := a.open()
	if err != nil {
		return err
	}
	v, err := s.look()
	if err != nil {
		return err
	}
	if v.NoPlan != nil && !sheet {
		a.notef("%v", v.NoPlan)
	}
	var b bytes.Buffer
	if sheet {
		if v.NoPlan != nil {
			return v.NoPlan
		}
		err = page.WriteSheet(&b, v.Sheet())
	} else {
		err = page.Write(&b, v.View(), page.Options{})
	}
	if err != nil {
		return err
	}
	if err := a.deliver(out, page.Mark, s.Own(), b.Bytes()); err != nil || out.name == "" {
		return err
	}
	a.notef("%s: the page of %s", out.name, s.Settings.Name)
	return nil
}

// look works out what the page shows, with the night and the outlook.
func (s *session) look() (*view.Garden, error) {
	v, err := view.Look(s.Garden, s.app.unit())
	if err != nil {
		return nil, err
	}
	v.Ways = s.waysWords()
	if v.NoPlan != nil {
		v.Ground.NotKnown = "the plan cannot be used"
		return v, nil
	}
	v.Ground = s.groundSection()
	v.Night = s.nightAhead()
	return v, nil
}

// nightAhead is tonight as the page has it.
func (s *session) nightAhead() view.Night {
	e, err := s.evening(tonightOptions{})
	if err != nil {
		return view.Night{Err: err}
	}
	n := view.Night{Waiting: e.Waiting}
	for _, p := range e.Out {
		n.Plantings = append(n.Plantings, view.AtNight{Label: p.Label(), Title: titled(p), Danger: e.dangerTo(p), Advice: p.Advice})
	}
	if len(n.Plantings) > 0 {
		n.Table, n.RestsOn, n.BeyondHelp = e.plantingTable(), e.restsOn(), e.beyondHelp()
	}
	return n
}

// giveUpAt is the chance of a picking worth the bed below which the page, as outlook does
// unless told, calls the bed better used otherwise.
const giveUpAt = 0.2

// groundSection is when what stands in the ground will be ready.
func (v *session) groundSection() page.Section {
	out, err := v.LookOut(v.Today(), risk.OutlookOptions{Cover: v.OtherCover(), GiveUp: giveUpAt})
	switch {
	case err != nil:
		return page.Section{NotKnown: err.Error()}
	case len(out) == 0:
		return page.Section{Lead: fmt.Sprintf("Nothing is in the ground on %s.", words.Date(v.Today()))}
	}
	t := table.Table{Title: "Outlook for what is in the ground", Columns: []table.Column{
		{Name: "planting"}, {Name: "ready"}, {Name: "8 years in 10"}, {Name: "usual"},
		{Name: "before frost", Align: table.Right}, {Name: "before short days", Align: table.Right}, {Name: "out since"}}}
	seasons := 0
	for _, l := range out {
		o := l.Outlook
		since := v.Calendar.Words(l.Start)
		if !l.Logged {
			since += ", as planned"
		}
		t.Add(table.Text(l.Label()), table.Text(words.Day(v.Calendar, orNaN(o.Ready[1]))), table.Text(v.words().Span(o.Ready)), table.Text(words.Day(v.Calendar, orNaN(o.Usual[1]))),
			share(o.Ripens), share(o.Light), table.Text(since))
		seasons = max(seasons, o.Ripens.Seasons)
	}
	t.Notes = []string{fmt.Sprintf("This season's days so far in the place of expected ones; shares of %s. Before short days: before the days grow too short for growth.", words.Plural(seasons, "season"))}
	return page.Section{Tables: []table.Table{t}, Lead: v.outlookLead(out)}
}

// outlookLead tells of the first that will be ready.
func (v *session) outlookLead(out []opened.LookedOut) string {
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
	return fmt.Sprintf("Next to be ready: %s, about %s (8 years in 10: %s).", l.Label(), words.Day(v.Calendar, l.Outlook.Ready[1].Value), v.words().Span(l.Outlook.Ready))
}

// restsOn says what the night's numbers rest on.
func (v *evening) restsOn() string {
	var by []string
	for _, m := range v.Spots[0].Out.Methods {
		if m.Why == "" {
			by = append(by, m.Name)
		}
	}
	low, high := v.Spots[0].Out.Interval()
	return fmt.Sprintf("The night is expected between %s and %s at the spot \"%s\" (9 nights in 10), by: %s.",
		v.app.unit().Degrees(math.Round(low*10)/10), v.app.unit().Degrees(math.Round(high*10)/10), v.Spots[0].Name, words.List(by))
}
