package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"frostward/climate"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/sentences"
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
	reserve  bool
	aim      float64
}

func newWhen(a *app) *cobra.Command {
	var o whenOptions
	c := &cobra.Command{
		Use:   "when CROP [CLASS]|PLANTING",
		Short: "The whole planting window of one crop at one spot",
		Long: `when tries one crop at one spot on every day it might start and says how often it
survives, ripens, and both: the earliest day that meets the garden's aim even at the lower
end of the 90 % interval, the best day, and the last day.

With --reserve it finds the pair of days, for a planting and for what it falls back on, that
has the highest chance for the least delay: spare plants held back under cover and planted
out where frost has killed the first, and a second planting that stands beside the first.

With the name of a planting of the plan that is no crop's, and no option, it is that one:
at its spot, under its cover and, where it follows another, in a bed that must be free.`,
		Example: `  frostward when courgette
  frostward when "sweet corn" early --cover fleece
  frostward when "French bean" --sown --spot "south wall"
  frostward when courgette --reserve`,
		Args:              takes(1, 20, "a crop, and its class where it has several, or a planting of the plan"),
		ValidArgsFunction: completeCrop,
		RunE: func(c *cobra.Command, args []string) error {
			said := a.spot != "" || slices.ContainsFunc([]string{"from", "to", "step", "cover", "sown", "aim", "reserve"}, c.Flags().Changed)
			return a.when(args, !said, o)
		},
	}
	f := c.Flags()
	f.StringVar(&o.from, "from", "", "first day to try, `day` such as 24 May (a month before what is customary)")
	f.StringVar(&o.to, "to", "", "last day to try, `day` such as 24 May (a month after what is customary)")
	f.IntVar(&o.step, "step", 1, "`days` from one try to the next")
	f.StringVar(&o.cover, "cover", "", "the `cover` over it, by its name in garden.yaml")
	f.BoolVar(&o.sown, "sown", false, "sown in place rather than raised under cover")
	f.BoolVar(&o.reserve, "reserve", false, "find the days for a planting and what it falls back on")
	f.Float64Var(&o.aim, "aim", 0, "`chance` of success to aim for, in place of the garden's")
	return c
}

// whenPlanting shows the window of a planting of the plan; done is false where none has that name.
func (s *session) whenPlanting(name string) (done bool, err error) {
	rows, err := s.Plan()
	if err != nil {
		return false, err
	}
	cat, err := s.Catalogue()
	if err != nil {
		return false, err
	}
	if crop, err := cat.Find(name, ""); err == nil && strings.EqualFold(crop.Name, name) {
		return false, nil
	}
	i := slices.IndexFunc(opened.Names(rows), func(n string) bool { return strings.EqualFold(n, name) })
	if i < 0 {
		return false, nil
	}
	plantings, assessed, err := s.AssessPlan()
	if err != nil {
		return false, err
	}
	win := assessed[i].Around()
	if s.app.format == table.JSON {
		return true, s.app.writeJSON(s.whenJSON(plantings[i].Planting, win))
	}
	return true, s.writeWhen(plantings[i].Planting, win)
}

func (a *app) when(args []string, own bool, o whenOptions) error {
	s, err := a.open()
	if err != nil {
		return err
	}
	if own {
		if done, err := s.whenPlanting(strings.Join(args, " ")); done || err != nil {
			return err
		}
	}
	name, class := args[0], strings.Join(args[1:], " ")
	t, err := s.tryout(name, class, o.cover, o.sown)
	if err != nil {
		return err
	}
	days, err := s.whenDays(t.Usual, o)
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
	field := fs.Field(t.Where, t.Crop, t.Raised)
	win := risk.Try(field, t.Planting, days, o.step, aim)
	if o.reserve {
		return s.writeReserves(field, t, days, win)
	}
	if a.format == table.JSON {
		return a.writeJSON(s.whenJSON(t.Planting, win))
	}
	return s.writeWhen(t.Planting, win)
}

// tryout makes the planting to try of what the command line names.
func (s *session) tryout(name, class, cover string, sown bool) (opened.Tryout, error) {
	cat, err := s.Catalogue()
	if err != nil {
		return opened.Tryout{}, err
	}
	crop, err := cat.Find(name, class)
	if err != nil {
		return opened.Tryout{}, usage(err)
	}
	return s.Tryout(crop, s.app.spot, cover, sown)
}

// whenDays are the days to try a planting on: the usual ones but for what the options say.
func (s *session) whenDays(w climate.Window, o whenOptions) (_ climate.Window, err error) {
	for _, end := range []struct {
		text string
		day  *climate.SeasonDay
	}{{o.from, &w.From}, {o.to, &w.To}} {
		if end.text != "" {
			if *end.day, err = s.Calendar.Parse(end.text); err != nil {
				return w, usage(err)
			}
		}
	}
	if w.From > w.To {
		return w, usagef("--from is after --to; wanted days of one season, which begins on %s", s.Calendar.Words(0))
	}
	return w, nil
}

// writeWhen prints the window: the answer first, then a line every few days.
func (s *session) writeWhen(p risk.Planting, w risk.Window) error {
	a := s.app
	if a.format == table.TextFormat {
		a.paragraph(a.out, s.words().Window(p, w), 0)
		fmt.Fprintln(a.out)
	}
	t := table.Table{Columns: []table.Column{
		{Name: "start"}, {Name: "survives", Align: table.Right}, {Name: "ripens", Align: table.Right},
		{Name: "both", Key: "succeeds", Align: table.Right}, {Name: "90 % interval", Keys: words.Ends("succeeds")},
		{Name: "chance", Key: table.NoCSV, Drop: 1}, {Name: "picking", Key: "first_picking"}, {Name: "", Key: "mark"},
	}}
	for i, r := range w.Starts {
		if !s.shown(w, i) {
			continue
		}
		t.Add(s.dayCell(float64(r.Day)), share(r.Survives), share(r.Ripens), share(r.Succeeds), intervalOf(r.Succeeds),
			table.Text(a.bar(r.Succeeds)), s.words().PickingCell(w.Result(i)), table.Text(markOf(w, i)))
	}
	if err := t.Write(a.out, a.tables()); err != nil {
		return err
	}
	a.picture(a.paper().Window(s.Calendar, w))
	return nil
}

// shown picks the days for the table: in text every week and the days that matter, all of
// them in other formats.
func (s *session) shown(w risk.Window, i int) bool {
	if s.app.format != table.TextFormat || i == w.Earliest || i == w.Best || i == w.Last {
		return true
	}
	return int(w.Starts[i].Day-w.Starts[0].Day)%7 == 0
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

// writeReserves prints the pairs of days for a planting and what it falls back on.
func (s *session) writeReserves(f *risk.Field, t opened.Tryout, days climate.Window, win risk.Window) error {
	a := s.app
	kinds := []risk.Reserve{{Again: true}}
	if t.Raised {
		kinds = []risk.Reserve{{Plants: 1}, {Again: true}}
	}
	var plans []risk.ReservePlan
	for _, r := range kinds {
		if p := risk.BestReserve(f, t.Planting, r, days); p.Known {
			plans = append(plans, p)
		}
	}
	if a.format == table.JSON {
		j := s.whenJSON(t.Planting, win)
		for _, p := range plans {
			j.Reserves = append(j.Reserves, reservePairJSON{sentences.ReserveKind(p.Of.Reserve, t.Raised), isoDay(s.Calendar, float64(p.First.Planting.Start)),
				isoDay(s.Calendar, float64(p.Of.On)), jsonOf(p.First.Succeeds), jsonOf(p.Of.Pair.Succeeds), jsonOf(p.Of.Used), s.picksJSON(p.Of.Pair)})
		}
		return a.writeJSON(j)
	}
	if a.format == table.TextFormat {
		a.paragraph(a.out, s.words().Reserves(t.Planting, win, plans, s.Settings.Costs.Lost, s.Settings.Costs.Unit), 0)
		fmt.Fprintln(a.out)
	}
	out := table.Table{Columns: []table.Column{
		{Name: "falls back on", Key: "reserve", Wrap: true, MinWidth: 12}, {Name: "first", Key: "start"}, {Name: "reserve", Key: "reserve_day"},
		{Name: "a crop in", Key: "succeeds", Align: table.Right}, {Name: "90 % interval", Keys: words.Ends("succeeds")},
		{Name: "from the reserve alone", Key: "used", Align: table.Right, Wrap: true, MinWidth: 8}, {Name: "picking", Key: "first_picking"},
	}}
	if win.Best >= 0 {
		b := win.Result(win.Best)
		out.Add(table.Data("nothing", ""), s.dayCell(float64(b.Planting.Start)), table.Text(words.Dash), share(b.Succeeds), intervalOf(b.Succeeds),
			table.Text(words.Dash), s.words().PickingCell(b))
	}
	for _, p := range plans {
		out.Add(table.Text(sentences.ReserveKind(p.Of.Reserve, t.Raised)), s.dayCell(float64(p.First.Planting.Start)), s.dayCell(float64(p.Of.On)),
			share(p.Of.Pair.Succeeds), intervalOf(p.Of.Pair.Succeeds), share(p.Of.Used), s.words().PickingCell(p.Of.Pair))
	}
	return out.Write(a.out, a.tables())
}

// reservePairJSON is the best pair of days for a planting and what it falls back on.
type reservePairJSON struct {
	Reserve  string     `json:"reserve"`
	Start    *string    `json:"start"`
	On       *string    `json:"reserve_day"`
	Alone    shareJSON  `json:"alone"` // the first without the reserve
	Succeeds shareJSON  `json:"succeeds"`
	Used     shareJSON  `json:"crop_from_it_alone"`
	Harvest  []pickJSON `json:"harvest"`
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

	Reserves []reservePairJSON `json:"reserves"` // with --reserve
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
		d := s.Calendar.Format(w.Starts[i].Day)
		return &d
	}
	out := whenJSON{Crop: p.Crop.Name, Class: p.Crop.Class, Spot: p.Spot, Cover: p.Cover.Name, Raised: p.Raised, Aim: w.Aim,
		Earliest: at(w.Earliest), Best: at(w.Best), Last: at(w.Last)}
	for i, r := range w.Starts {
		out.Days = append(out.Days, whenDayJSON{s.Calendar.Format(r.Day), jsonOf(r.Survives), jsonOf(r.Ripens), jsonOf(r.Succeeds), s.picksJSON(w.Result(i))})
	}
	return out
}
