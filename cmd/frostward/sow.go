package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"frostward/climate"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
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

func (a *app) sow(name, class string, o sowOptions) error {
	s, err := a.open()
	if err != nil {
		return err
	}
	t, err := s.tryout(name, class, o.cover, o.sown)
	if err != nil {
		return err
	}
	aim, lasts := s.Settings.Aim, o.lasts
	if o.chance != 0 {
		aim = o.chance
	}
	if lasts == 0 {
		lasts = risk.WorthPicking
		if f := t.Crop.PickingDays; f.Known() {
			lasts = int(f.Value)
		}
	}
	if !(aim > 0 && aim < 1) || lasts < 1 {
		return usagef("--chance %v --lasts %d; wanted a chance between 0 and 1, and at least 1 day", aim, lasts)
	}
	fs, err := s.Fields()
	if err != nil {
		return err
	}
	field := fs.Field(t.Where, t.Crop, t.Raised)
	if o.on != "" {
		day, err := s.Calendar.Parse(o.on)
		if err != nil {
			return usage(fmt.Errorf("--for: %w", err))
		}
		return s.writeSowFor(t, risk.SowFor(field, t.Planting, day, aim), aim)
	}
	return s.writeSupply(t, risk.SupplyOf(field, t.Planting, lasts, aim), lasts, aim)
}

// startCells are a planting's days of sowing and, where it is raised, of planting out.
func (s *session) startCells(p risk.Planting) []table.Cell {
	cells := []table.Cell{s.dayCell(float64(p.Sown()))}
	if p.Raised {
		cells = append(cells, s.dayCell(float64(p.Start)))
	}
	return cells
}

// startColumns are the columns of startCells.
func startColumns(raised bool) []table.Column {
	if !raised {
		return []table.Column{{Name: "sow"}}
	}
	return []table.Column{{Name: "sow"}, {Name: "plant out", Key: "plant_out"}}
}

// writeSupply prints the sowings for a steady supply, and the last of the year.
func (s *session) writeSupply(t opened.Tryout, got risk.Supply, lasts int, aim float64) error {
	a := s.app
	if a.format == table.JSON {
		return a.writeJSON(s.supplyJSON(t, got, lasts, aim))
	}
	if a.format == table.TextFormat {
		a.paragraph(a.out, s.words().Supply(t.Planting, got, lasts, aim), 0)
		if len(got.Sowings) > 0 {
			fmt.Fprintln(a.out)
		}
	}
	list := table.Table{Columns: append(startColumns(t.Raised),
		table.Column{Name: "days after the last", Key: "days_after_last", Align: table.Right, Wrap: true, MinWidth: 9},
		table.Column{Name: "picking from", Key: "ready"}, table.Column{Name: "8 years in 10", Keys: []string{"ready_10", "ready_90"}, Drop: 1},
		table.Column{Name: "succeeds", Align: table.Right}, table.Column{Name: "90 % interval", Keys: words.Ends("succeeds"), Drop: 2})}
	for i, r := range got.Sowings {
		after := words.Dash
		if i > 0 {
			after = fmt.Sprint(int(r.Planting.Start - got.Sowings[i-1].Planting.Start))
		}
		list.Add(append(s.startCells(r.Planting), table.Text(after), s.words().PickingCell(r),
			s.words().SpanCell([3]climate.Quantile(r.Harvest)), share(r.Succeeds), intervalOf(r.Succeeds))...)
	}
	if len(got.Sowings) > 0 {
		if err := list.Write(a.out, a.tables()); err != nil {
			return err
		}
	}
	if text := s.words().LastSowing(t.Planting, got); text != "" && a.format == table.TextFormat {
		fmt.Fprintln(a.out)
		a.paragraph(a.out, text, 0)
	}
	return nil
}

// writeSowFor prints the sowings for a fixed day.
func (s *session) writeSowFor(t opened.Tryout, got risk.ForDay, aim float64) error {
	a := s.app
	if a.format == table.JSON {
		return a.writeJSON(s.sowForJSON(t, got, aim))
	}
	if a.format == table.TextFormat {
		a.paragraph(a.out, s.words().SowFor(t.Planting, got, aim), 0)
		fmt.Fprintln(a.out)
	}
	list := table.Table{Columns: append(startColumns(t.Raised),
		table.Column{Name: "ready by then", Key: "ready", Align: table.Right}, table.Column{Name: "ready and good", Key: "good", Align: table.Right},
		table.Column{Name: "90 % interval", Keys: words.Ends("good"), Drop: 1}, table.Column{Name: "chance", Key: table.NoCSV, Drop: 2}, table.Column{Name: "", Key: "mark"})}
	for i, x := range got.All {
		mark := ""
		switch i {
		case got.Best:
			mark = "surest"
		case got.First:
			mark = "first"
		case got.Last:
			mark = "last"
		default:
			if a.format == table.TextFormat && (i%7 != 0 || !x.Good.Known || x.Good.Share < 0.05) {
				continue
			}
		}
		list.Add(append(s.startCells(x.Planting), share(x.Ready), share(x.Good), intervalOf(x.Good), table.Text(a.bar(x.Good)), table.Text(mark))...)
	}
	return list.Write(a.out, a.tables())
}

type sowJSON struct {
	Crop    string       `json:"crop"`
	Class   string       `json:"class"`
	Spot    string       `json:"spot"`
	Cover   string       `json:"cover"`
	Raised  bool         `json:"raised"`
	Chance  float64      `json:"chance"`
	Lasts   int          `json:"lasts_days,omitempty"`
	Sowings []sowingJSON `json:"sowings,omitempty"`
	Last    *lastJSON    `json:"last,omitempty"`

	For   *string       `json:"for,omitempty"`
	First *standingJSON `json:"first,omitempty"`
	Until *standingJSON `json:"until,omitempty"`
	Best  *standingJSON `json:"best,omitempty"`
}

type sowingJSON struct {
	Sow       string     `json:"sow"`
	PlantOut  *string    `json:"plant_out"`
	AfterLast *int       `json:"days_after_last"`
	Ready     []pickJSON `json:"ready"`
	Succeeds  shareJSON  `json:"succeeds"`
}

type lastJSON struct {
	Sow       string       `json:"sow"`
	PlantOut  *string      `json:"plant_out"`
	LightLine *string      `json:"light_line"`
	FullSize  *shareJSON   `json:"full_size_by_light_line"`
	Succeeds  *shareJSON   `json:"succeeds"`
	Winter    []winterJSON `json:"alive"`
}

type winterJSON struct {
	On    string    `json:"on"`
	Alive shareJSON `json:"share"`
}

type standingJSON struct {
	Sow      string    `json:"sow"`
	PlantOut *string   `json:"plant_out"`
	Ready    shareJSON `json:"ready"`
	Good     shareJSON `json:"ready_and_good"`
}

// startJSON is a planting's day of sowing and, where it is raised, of planting out.
func (s *session) startJSON(p risk.Planting) (sow string, out *string) {
	if p.Raised {
		out = isoDay(s.Calendar, float64(p.Start))
	}
	return s.Calendar.Format(p.Sown()), out
}

func sowJSONOf(t opened.Tryout, aim float64) sowJSON {
	return sowJSON{Crop: t.Crop.Name, Class: t.Crop.Class, Spot: t.Spot, Cover: t.Cover.Name, Raised: t.Raised, Chance: aim}
}

func (s *session) supplyJSON(t opened.Tryout, got risk.Supply, lasts int, aim float64) sowJSON {
	j := sowJSONOf(t, aim)
	j.Lasts, j.Sowings = lasts, []sowingJSON{}
	for i, r := range got.Sowings {
		x := sowingJSON{Ready: s.picksJSON(r), Succeeds: jsonOf(r.Succeeds)}
		x.Sow, x.PlantOut = s.startJSON(r.Planting)
		if i > 0 {
			n := int(r.Planting.Start - got.Sowings[i-1].Planting.Start)
			x.AfterLast = &n
		}
		j.Sowings = append(j.Sowings, x)
	}
	if r := got.LastOut; r != nil {
		c := jsonOf(r.Succeeds)
		j.Last = &lastJSON{Succeeds: &c, Winter: []winterJSON{}}
		j.Last.Sow, j.Last.PlantOut = s.startJSON(r.Planting)
	}
	if l := got.Last; l != nil {
		c := jsonOf(l.Size)
		j.Last = &lastJSON{LightLine: isoDay(s.Calendar, float64(l.Line)), FullSize: &c, Winter: []winterJSON{}}
		j.Last.Sow, j.Last.PlantOut = s.startJSON(l.Planting)
		for _, x := range l.Winter {
			j.Last.Winter = append(j.Last.Winter, winterJSON{s.Calendar.Format(x.On), jsonOf(x.Alive)})
		}
	}
	return j
}

func (s *session) sowForJSON(t opened.Tryout, got risk.ForDay, aim float64) sowJSON {
	j := sowJSONOf(t, aim)
	j.For = isoDay(s.Calendar, float64(got.Day))
	at := func(i int) *standingJSON {
		if i < 0 {
			return nil
		}
		x := standingJSON{Ready: jsonOf(got.All[i].Ready), Good: jsonOf(got.All[i].Good)}
		x.Sow, x.PlantOut = s.startJSON(got.All[i].Planting)
		return &x
	}
	j.First, j.Until, j.Best = at(got.First), at(got.Last), at(got.Best)
	return j
}
