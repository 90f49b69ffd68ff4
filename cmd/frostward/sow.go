package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"frostward/climate"
	"frostward/cmd/internal/garden"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
	"frostward/crops"
	"frostward/risk"
)

// sowOptions are the options of sow.
type sowOptions struct {
	lasts  int
	on     string
	chance float64
	cover  string
	sown   bool
}

func newSow(a *app) *cobra.Command {
	var o sowOptions
	c := &cobra.Command{
		Use:   "sow CROP [CLASS]",
		Short: "Sowing dates for a steady supply, the last for autumn and winter, or for a fixed date",
		Long: `sow gives the dates on which to sow one crop so that the next is ready as the one before
is over: wider apart in spring than in summer. It then gives the last sowing that still
reaches its size before the days grow too short, and how often what is ready by then lives
through the winter at the spot.

With --for it gives instead the sowing dates that have the crop ready on a certain day, and
neither killed nor past its best by then.`,
		Example: `  frostward sow lettuce
  frostward sow carrot early --lasts 21
  frostward sow spinach winter --spot "south wall"
  frostward sow "Brussels sprout" --for 12-25 --chance 0.9`,
		Args:              takes(1, 2, "a crop, and its class where it has several"),
		ValidArgsFunction: completeCrop,
		RunE: func(_ *cobra.Command, args []string) error {
			return a.sow(args[0], strings.Join(args[1:], ""), o)
		},
	}
	f := c.Flags()
	f.IntVar(&o.lasts, "lasts", 0, "`days` that one sowing is picked (the catalogue's)")
	f.StringVar(&o.on, "for", "", "have it ready on this `day`, such as 24 May")
	f.Float64Var(&o.chance, "chance", 0, "`chance` to aim for, in place of the garden's")
	f.StringVar(&o.cover, "cover", "", "the `cover` over it, by its name in garden.yaml")
	f.BoolVar(&o.sown, "sown", false, "sown in place rather than raised under cover")
	return c
}

// sowing is one crop at one spot to be sown again and again.
type sowing struct {
	s     *session
	p     risk.Planting
	spot  garden.Spot
	field *risk.Field
	usual climate.Window // a month on either side of what is customary
	lasts int
	aim   float64
}

func (a *app) sow(name, class string, o sowOptions) error {
	s, err := a.open()
	if err != nil {
		return err
	}
	w := sowing{s: s, aim: s.Settings.Aim, lasts: o.lasts}
	if w.p, w.spot, w.usual, err = s.whenPlanting(name, class, whenOptions{cover: o.cover, sown: o.sown}); err != nil {
		return err
	}
	if o.chance != 0 {
		w.aim = o.chance
	}
	if w.lasts == 0 {
		w.lasts = int(orElse(w.p.Crop.PickingDays, risk.WorthPicking))
	}
	if !(w.aim > 0 && w.aim < 1) || w.lasts < 1 {
		return usagef("--chance %v --lasts %d; wanted a chance between 0 and 1, and at least 1 day", w.aim, w.lasts)
	}
	fs, err := s.Fields()
	if err != nil {
		return err
	}
	w.field = fs.Field(w.spot, w.p.Crop, w.p.Raised)
	if o.on != "" {
		return w.fixedDate(o.on)
	}
	return w.supply()
}

func orElse(f crops.Fact, other float64) float64 {
	if f.Known() {
		return f.Value
	}
	return other
}

// supplied is a steady supply: the sowings, and the last one of the year.
type supplied struct {
	sowings []risk.Result
	last    risk.Last
	hasLast bool
	lastSow *risk.Result // of a crop that frost ends: the last sowing that does as well as aimed for
}

// winterDays are the days on which the winter's standing is asked about: the shortest day, and
// the ends of the two months after its own.
var winterDays = []climate.SeasonDay{354, climate.YearDays + 30, climate.YearDays + 58}

func (w *sowing) find() supplied {
	var out supplied
	tried := risk.Try(w.field, w.p, w.usual, 1, w.aim)
	out.sowings = risk.Succession(tried.Results, w.lasts, w.aim)
	if w.p.Crop.Tender() || w.p.Crop.Kind == crops.Fruit {
		for i, r := range tried.Results {
			if r.Succeeds.Known && r.Succeeds.Share >= w.aim {
				out.lastSow = &tried.Results[i]
			}
		}
		return out
	}
	out.last, out.hasLast = risk.LastStart(w.field, w.p, climate.Window{From: w.usual.From, To: w.usual.From + climate.YearDays - 1}, w.aim, winterDays)
	return out
}

func (w *sowing) supply() error {
	a, got := w.s.app, w.find()
	if a.format == table.JSON {
		return a.writeJSON(w.supplyJSON(got))
	}
	if a.format == table.TextFormat {
		a.paragraph(a.out, w.supplyWords(got), 0)
		if len(got.sowings) > 0 {
			fmt.Fprintln(a.out)
		}
	}
	t := table.Table{Columns: []table.Column{
		{Name: "sow"}, {Name: "plant out", Key: "plant_out"}, {Name: "days after the last", Key: "days_after_last", Align: table.Right, Wrap: true, MinWidth: 9},
		{Name: "picking from", Key: "ready"}, {Name: "8 years in 10", Key: "ready_10_90", Drop: 1},
		{Name: "succeeds", Align: table.Right}, {Name: "90 % interval", Key: "interval", Drop: 2},
	}}
	if !w.p.Raised {
		t.Columns = append(t.Columns[:1:1], t.Columns[2:]...)
	}
	for i, r := range got.sowings {
		after := words.Dash
		if i > 0 {
			after = fmt.Sprint(int(r.Planting.Start - got.sowings[i-1].Planting.Start))
		}
		cells := []table.Cell{table.Text(w.day(w.sown(r.Planting)))}
		if w.p.Raised {
			cells = append(cells, table.Text(w.day(r.Planting.Start)))
		}
		t.Add(append(cells, table.Text(after), table.Text(w.s.picking(r)),
			table.Text(w.s.span([3]climate.Quantile(r.Harvest))), share(r.Succeeds), intervalOf(r.Succeeds))...)
	}
	if len(got.sowings) > 0 {
		if err := t.Write(a.out, a.tables()); err != nil {
			return err
		}
	}
	if text := w.lastWords(got); text != "" && a.format == table.TextFormat {
		fmt.Fprintln(a.out)
		a.paragraph(a.out, text, 0)
	}
	return nil
}
