package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"frostward/climate"
	"frostward/cmd/internal/garden"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
	"frostward/risk"
)

// whenOptions are the options of when.
type whenOptions struct {
	from, to string
	step     int
	cover    string
	sown     bool
	aim      float64
}

func newWhen(a *app) *cobra.Command {
	var o whenOptions
	c := &cobra.Command{
		Use:   "when CROP [CLASS]",
		Short: "The whole planting window of one crop at one spot",
		Long: `when tries one crop at one spot on every day it might start and tells how often it
survives, ripens, and both: the earliest day that meets the garden's aim even at the lower
end of the 90 % interval, the best day, and the last day. Without a class, the variety
classes of the crop are compared, each from its best day.`,
		Example: `  frostward when courgette
  frostward when "sweet corn" early --cover fleece
  frostward when "French bean" --sown --spot "south wall"`,
		Args:              takes(1, 2, "a crop, and its class where it has several"),
		ValidArgsFunction: completeCrop,
		RunE: func(_ *cobra.Command, args []string) error {
			return a.when(args[0], strings.Join(args[1:], ""), o)
		},
	}
	f := c.Flags()
	f.StringVar(&o.from, "from", "", "first day to try, `day` such as 24 May (a month before what is customary)")
	f.StringVar(&o.to, "to", "", "last day to try, `day` such as 24 May (a month after what is customary)")
	f.IntVar(&o.step, "step", 1, "`days` from one try to the next")
	f.StringVar(&o.cover, "cover", "", "the `cover` over it, by its name in garden.yaml")
	f.BoolVar(&o.sown, "sown", false, "sown in place rather than raised under cover")
	f.Float64Var(&o.aim, "aim", 0, "`chance` of success to aim for, in place of the garden's")
	return c
}

func (a *app) when(name, class string, o whenOptions) error {
	s, err := a.open()
	if err != nil {
		return err
	}
	p, spot, w, err := s.whenPlanting(name, class, o)
	if err != nil {
		return err
	}
	fs, err := s.Fields()
	if err != nil {
		return err
	}
	aim := s.Settings.Aim
	if o.aim != 0 {
		aim = o.aim
	}
	if !(aim > 0 && aim < 1) || o.step < 1 {
		return usagef("--aim %v --step %d; wanted a chance between 0 and 1, and a step of at least 1 day", aim, o.step)
	}
	win := risk.Try(fs.Field(spot, p.Crop, p.Raised), p, w, o.step, aim)
	var others *classes
	if class == "" && p.Crop.Class != "" {
		if others, err = s.compareClasses(p.Crop.Name, o, fs, aim); err != nil {
			return err
		}
	}
	if a.format == table.JSON {
		j := s.whenJSON(p, win)
		j.Classes = others.json(s)
		return a.writeJSON(j)
	}
	if err := s.writeWhen(p, spot, win); err != nil || others == nil || a.format != table.TextFormat {
		return err
	}
	return others.write(s)
}

// whenPlanting makes the planting to try and the days to try it on.
func (s *session) whenPlanting(name, class string, o whenOptions) (p risk.Planting, spot garden.Spot, w climate.Window, err error) {
	cat, err := s.Catalogue()
	if err != nil {
		return p, spot, w, err
	}
	crop, err := cat.Find(name, class)
	if err != nil {
		return p, spot, w, usage(err)
	}
	if spot, err = s.Settings.Spot(s.app.spot); err != nil {
		return p, spot, w, usage(err)
	}
	cover, err := s.Cover(o.cover)
	if err != nil {
		return p, spot, w, usage(err)
	}
	p = risk.Planting{Crop: crop, Spot: spot.Name, Cover: cover, Raised: !o.sown && opened.WeeksUnderCover(crop) > 0}
	if p.Raised {
		p.Sow = -climate.SeasonDay(7 * opened.WeeksUnderCover(crop))
	}
	if err = p.Check(); err != nil {
		return p, spot, w, err
	}
	_, w = risk.Customary(crop)
	for _, end := range []struct {
		text string
		day  *climate.SeasonDay
	}{{o.from, &w.From}, {o.to, &w.To}} {
		if end.text != "" {
			if *end.day, err = s.Calendar.Parse(end.text); err != nil {
				return p, spot, w, usage(err)
			}
		}
	}
	if w.From > w.To {
		return p, spot, w, usagef("--from is after --to; wanted days of one season, which begins on %s", s.Calendar.Words(0))
	}
	return p, spot, w, nil
}

// writeWhen prints the window: the answer first, then a line every few days.
func (s *session) writeWhen(p risk.Planting, spot garden.Spot, w risk.Window) error {
	a := s.app
	if a.format == table.TextFormat {
		a.paragraph(a.out, s.whenWords(p, spot, w), 0)
		fmt.Fprintln(a.out)
	}
	t := table.Table{Columns: []table.Column{
		{Name: "start"}, {Name: "survives", Align: table.Right}, {Name: "ripens", Align: table.Right},
		{Name: "both", Key: "succeeds", Align: table.Right}, {Name: "90 % interval", Key: "interval"},
		{Name: "chance", Key: "bar", Drop: 1}, {Name: "picking", Key: "first_picking"}, {Name: "", Key: "mark"},
	}}
	for i, r := range w.Results {
		if !s.shown(w, i) {
			continue
		}
		t.Add(table.Text(s.Calendar.Words(r.Planting.Start)), share(r.Survives), share(r.Ripens), share(r.Succeeds), intervalOf(r.Succeeds),
			table.Cell{Text: a.bar(r.Succeeds), Data: words.Dash}, table.Text(s.picking(r)), table.Text(markOf(w, i)))
	}
	if err := t.Write(a.out, a.tables()); err != nil {
		return err
	}
	s.drawWindow(w)
	return nil
}

// shown picks the days for the table: in text every week and the days that matter, all of
// them in other formats.
func (s *session) shown(w risk.Window, i int) bool {
	if s.app.format != table.TextFormat || i == w.Earliest || i == w.Best || i == w.Last {
		return true
	}
	return int(w.Results[i].Planting.Start-w.Results[0].Planting.Start)%7 == 0
}

func markOf(w risk.Window, i int) string {
	var m []string
	if i == w.Earliest {
		m = append(m, "earliest")
	}
	if i == w.Best {
		m = append(m, "best")
	}
	if i == w.Last {
		m = append(m, "last")
	}
	return strings.Join(m, ", ")
}

// bar draws a chance from 0 to 1 in twenty steps.
func (a *app) bar(c climate.Chance) string {
	full, empty := "█", "·"
	if a.ascii {
		full, empty = "#", "."
	}
	if !c.Known {
		return ""
	}
	n := int(c.Share*20 + 0.5)
	return strings.Repeat(full, n) + strings.Repeat(empty, 20-n)
}

// whenWords is the answer in a sentence or two.
func (s *session) whenWords(p risk.Planting, spot garden.Spot, w risk.Window) string {
	verb := "goes out"
	if !p.Raised {
		verb = "is sown in place"
	}
	head := fmt.Sprintf("%s at the spot %q", words.Capital(p.Crop.Label()), spot.Name)
	if p.Cover.Name != "" {
		head += " under " + p.Cover.Name
	}
	if w.Best < 0 {
		return head + ": not known; too few seasons can be played through."
	}
	b := w.Results[w.Best]
	best := fmt.Sprintf("The best day is %s: it succeeds in %.0f %% of the years (90 %%: %s).", s.Calendar.Words(b.Planting.Start),
		100*b.Succeeds.Share, words.Interval(b.Succeeds))
	if b.Succeeds.Share == 0 {
		return fmt.Sprintf("%s does not succeed in any season, whenever it %s.", head, verb)
	}
	if light := s.words().Light(b); light != "" {
		best += " " + light
	}
	if w.Earliest < 0 {
		return fmt.Sprintf("%s: no day meets the aim of %.0f %% at the lower end of the interval. %s", head, 100*w.Aim, best)
	}
	return fmt.Sprintf("%s %s from %s to %s with at least %.0f %% success even at the lower end of the interval. %s", head, verb,
		s.Calendar.Words(w.Results[w.Earliest].Planting.Start), s.Calendar.Words(w.Results[w.Last].Planting.Start), 100*w.Aim, best)
}

type whenJSON struct {
	Crop     string        `json:"crop"`
	Class    string        `json:"class"`
	Spot     string        `json:"spot"`
	Cover    string        `json:"cover"`
	Raised   bool          `json:"raised"`
	Aim      float64       `json:"aim"`
	Earliest *string       `json:"earliest"`
	Best     *string       `json:"best"`
	Last     *string       `json:"last"`
	Days     []whenDayJSON `json:"days"`
	Classes  []classJSON   `json:"classes"` // of a crop asked for without a class
}

type whenDayJSON struct {
	Start    string     `json:"start"`
	Survives shareJSON  `json:"survives"`
	Ripens   shareJSON  `json:"ripens"`
	Succeeds shareJSON  `json:"succeeds"`
	Harvest  []pickJSON `json:"harvest"`
}

func (s *session) whenJSON(p risk.Planting, w risk.Window) whenJSON {
	at := func(i int) *string {
		if i < 0 {
			return nil
		}
		d := s.Calendar.Format(w.Results[i].Planting.Start)
		return &d
	}
	out := whenJSON{Crop: p.Crop.Name, Class: p.Crop.Class, Spot: p.Spot, Cover: p.Cover.Name, Raised: p.Raised, Aim: w.Aim,
		Earliest: at(w.Earliest), Best: at(w.Best), Last: at(w.Last)}
	for _, r := range w.Results {
		out.Days = append(out.Days, whenDayJSON{s.Calendar.Format(r.Planting.Start), jsonOf(r.Survives), jsonOf(r.Ripens), jsonOf(r.Succeeds), s.picksJSON(r)})
	}
	return out
}
