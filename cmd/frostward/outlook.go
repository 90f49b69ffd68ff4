package main

import (
	"fmt"
	"math"

	"github.com/spf13/cobra"

	"frostward/climate"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
	"frostward/risk"
)

// outlookOptions are the options of outlook.
type outlookOptions struct {
	byDate string
	giveUp float64
}

func newOutlook(a *app) *cobra.Command {
	var o outlookOptions
	c := &cobra.Command{
		Use:   "outlook",
		Short: "When the plantings in the ground will be ready, given the season so far",
		Long: `outlook looks ahead for the plantings that are in the ground: those that plan.csv or the
garden log say went out, and those whose planned day has passed this season. This season's
days so far take the place of expected ones. The rest comes from the seasons before, each
moved by as much as the warmth or cold of late still shows so many days on in the record;
with --by weather, from resampled seasons that carry on from this one.

It goes by record unless --by says otherwise: replayed over four long records, that was better
than the usual dates at 30, 60 and 90 days before picking for every crop tried, and --by
weather was not on all of them. "frostward skill --outlook" does the same
for your record and plan.

--as-of replays a past day: nothing after that day is used, for the fit neither.`,
		Example: `  frostward outlook
  frostward outlook --garden mygarden --by-date 09-05
  frostward outlook --as-of 2025-07-20 --give-up 0.3`,
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return a.outlook(o) },
	}
	f := c.Flags()
	f.StringVar(&o.byDate, "by-date", "", "ready by this `day`, such as 24 May")
	f.Float64Var(&o.giveUp, "give-up", risk.UsualGiveUp, "the `chance` of a worthwhile picking below which the bed is better used otherwise")
	return c
}

func (a *app) outlook(o outlookOptions) error {
	s, err := a.open()
	if err != nil {
		return err
	}
	asOf := s.present()
	if err := s.noteOver(); err != nil {
		return err
	}
	opt := risk.OutlookOptions{Cover: s.OtherCover(), GiveUp: o.giveUp}
	if !(o.giveUp > 0 && o.giveUp < 1) {
		return usagef("--give-up %v; wanted a chance between 0 and 1, such as 0.2", o.giveUp)
	}
	if o.byDate != "" {
		if opt.By, err = s.Calendar.Parse(o.byDate); err != nil {
			return usage(fmt.Errorf("--by-date: %w", err))
		}
		opt.HasBy = true
	}
	out, err := s.LookOut(asOf, opt)
	if err != nil {
		return err
	}
	if a.format == table.JSON {
		return a.writeJSON(s.outlookJSON(asOf, o, out))
	}
	return s.writeOutlook(asOf, opt, out)
}

// writeOutlook prints the outlook: the table first, then what it means, planting by planting.
func (s *session) writeOutlook(asOf climate.Day, opt risk.OutlookOptions, out []opened.LookedOut) error {
	a := s.app
	if len(out) == 0 {
		fmt.Fprintf(a.out, "%s: nothing is in the ground on %s.\n", s.Settings.Name, words.Date(asOf))
		return nil
	}
	t := table.Table{
		Title: fmt.Sprintf("%s: outlook as of %s", s.Settings.Name, words.Date(asOf)),
		Columns: []table.Column{
			{Name: "planting", Wrap: true, MinWidth: 14},
			{Name: "in since", Key: "out", Drop: 2},
			{Name: "ready", Key: "ready"},
			{Name: "8 years in 10", Keys: []string{"ready_10", "ready_90"}},
			{Name: "usual", Key: "usual", Drop: 1},
			{Name: "before frost", Key: "ready_before_frost", Align: table.Right, Wrap: true, MinWidth: 6},
			{Name: "before short days", Key: "ready_before_light_line", Align: table.Right, Wrap: true, MinWidth: 6},
			{Name: "give up", Key: "give_up_on"},
		},
	}
	if opt.HasBy {
		t.Columns = append(t.Columns, table.Column{Name: "by " + s.Calendar.Words(opt.By), Key: "by_date", Align: table.Right})
	}
	for _, l := range out {
		o := l.Outlook
		cells := []table.Cell{table.Text(l.Label()), table.Data(s.Calendar.Words(l.Start), l.Since.String()), s.dayCell(orNaN(o.Ready[1])),
			s.words().SpanCell(o.Ready), s.dayCell(orNaN(o.Usual[1])), share(o.Ripens), share(o.Light), s.dayCell(o.GiveUp)}
		if opt.HasBy {
			cells = append(cells, share(o.ByDate))
		}
		t.Add(cells...)
	}
	most := 0
	for _, l := range out {
		most = max(most, l.Outlook.Ripens.Seasons)
	}
	t.Notes = append(t.Notes, fmt.Sprintf("shares of up to %s, without those whose nights would have killed what is alive; short days: too short to grow in; give up: if it is not ready by then.",
		words.Plural(most, "season")))
	if err := t.Write(a.out, a.tables()); err != nil {
		return err
	}
	a.picture(a.paper().Outlook(s.Calendar, out))
	if a.format == table.TextFormat {
		for _, l := range out {
			fmt.Fprintln(a.out)
			a.explainOutlook(s, l)
		}
	}
	return nil
}

type outlookJSON struct {
	Garden    string       `json:"garden"`
	AsOf      string       `json:"as_of"`
	By        string       `json:"by"`
	GiveUp    float64      `json:"give_up_below"`
	Seed      uint64       `json:"seed"`
	Plantings []lookedJSON `json:"plantings"`
}

type lookedJSON struct {
	Name     string      `json:"name"`
	Crop     string      `json:"crop"`
	Class    string      `json:"class"`
	Spot     string      `json:"spot"`
	Bed      string      `json:"bed"`
	Out      string      `json:"out"`
	Logged   bool        `json:"logged"` // the grower said that it went out
	Ready    []pickJSON  `json:"ready"`
	Usual    []pickJSON  `json:"usual"`
	Ripens   shareJSON   `json:"ready_before_frost"`
	Worth    shareJSON   `json:"worth_picking"`
	Light    shareJSON   `json:"ready_before_light_line"`
	Line     *string     `json:"light_line"`
	ByDate   *byDateJSON `json:"by_date"`
	Cover    string      `json:"autumn_cover"`
	Covered  shareJSON   `json:"ready_before_frost_covered"`
	MoreDays *float64    `json:"picking_days_added"`
	GiveUp   *string     `json:"give_up_on"`
	BedFree  []pickJSON  `json:"bed_free"`
	Next     *nextJSON   `json:"next_in_bed"`
}

type byDateJSON struct {
	Date  string    `json:"date"`
	Ready shareJSON `json:"ready"`
}

type nextJSON struct {
	Name   string     `json:"name"`
	Start  string     `json:"start"`
	InTime shareJSON  `json:"bed_free_in_time"`
	Free   []pickJSON `json:"bed_free"`
}

func (s *session) outlookJSON(asOf climate.Day, o outlookOptions, all []opened.LookedOut) outlookJSON {
	by := s.app.by
	if by == "" {
		by = climate.ByRecord.String()
	}
	out := outlookJSON{Garden: s.Settings.Name, AsOf: asOf.String(), By: by, GiveUp: o.giveUp, Seed: s.app.seed, Plantings: []lookedJSON{}}
	for _, l := range all {
		out.Plantings = append(out.Plantings, s.lookedJSON(l))
	}
	return out
}

func (s *session) lookedJSON(l opened.LookedOut) lookedJSON {
	o := l.Outlook
	j := lookedJSON{Name: l.Name, Crop: l.Crop.Name, Class: l.Crop.Class, Spot: l.Where.Name, Bed: l.Bed, Out: l.Since.String(), Logged: l.Logged,
		Ready: s.datesJSON(o.Ready[:]), Usual: s.datesJSON(o.Usual[:]), Ripens: jsonOf(o.Ripens), Worth: jsonOf(o.Worth), Light: jsonOf(o.Light),
		Covered: jsonOf(o.Covered), GiveUp: isoDay(s.Calendar, o.GiveUp), BedFree: s.datesJSON(o.FreeOn())}
	if !o.NoLine {
		j.Line = isoDay(s.Calendar, float64(o.LightLine))
	}
	if o.ByDate.Known {
		j.ByDate = &byDateJSON{s.Calendar.Format(o.Date), jsonOf(o.ByDate)}
	}
	if l.Cover.Name == "" {
		j.Cover = s.OtherCover().Name
		if !math.IsNaN(o.CoverSaves) {
			j.MoreDays = number(o.CoverSaves, 1)
		}
	}
	if n := l.Next; n != nil {
		j.Next = &nextJSON{n.Label(), s.Calendar.Format(n.Start), jsonOf(n.InTime), s.datesJSON(n.Free[:])}
	}
	return j
}

// explainOutlook prints what the outlook says of one planting.
func (a *app) explainOutlook(s *session, l opened.LookedOut) {
	head, lines := s.words().LookedOut(s.Garden, l)
	a.paragraph(a.out, head, 2)
	a.lines(lines)
}
