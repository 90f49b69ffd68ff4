package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/clipperhouse/displaywidth"
	"github.com/spf13/cobra"

	"frostward/climate"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/sentences"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/view"
	"frostward/cmd/internal/words"
	"frostward/risk"
)

func newPlan(a *app) *cobra.Command {
	var o planOptions
	c := &cobra.Command{
		Use:   "plan [PLANTING]",
		Short: "Score each planting of the plan, name a better date, and say why",
		Long: `plan plays every planting of the plan through every season of the record, day by day:
soil too cold to germinate, nights that check it, frosts that set it back or kill it,
warmth and light until it can be picked. It says in how many years in 10 the planting
survives, ripens in time, and both, counted in the same seasons.

A planting is graded on the lower end of the 90 % interval against the garden's aim, so
that a few lucky seasons cannot make it look sound.

With a planting's name, or a crop's, it says why that scores as it does, and in which years
of the record it last failed; with --why, of every planting. With --year it says what would
have become of them in one season of the record, day by day of what mattered.`,
		Example: `  frostward plan
  frostward plan early courgettes --garden mygarden
  frostward plan courgette --year 2013
  frostward plan --history station.csv --latitude 53.6 --plan plan.csv --format json`,
		Args:              cobra.ArbitraryArgs,
		ValidArgsFunction: cobra.NoFileCompletions,
		RunE:              func(_ *cobra.Command, args []string) error { return a.planCmd(strings.Join(args, " "), o) },
	}
	c.Flags().BoolVar(&o.why, "why", false, "the reasons of every planting, and the garden as a whole")
	c.Flags().IntVar(&o.year, "year", 0, "one `season` of the record as a story")
	return c
}

// planOptions are the options of plan.
type planOptions struct {
	why  bool
	year int
}

func (a *app) planCmd(name string, o planOptions) error {
	s, err := a.open()
	if err != nil {
		return err
	}
	rows, err := s.Plan()
	if err != nil {
		return err
	}
	plantings, err := s.Resolve(rows)
	if err != nil {
		return err
	}
	asked, err := s.AskedFor(plantings, name)
	if err != nil {
		return err
	}
	if o.year != 0 {
		return s.writeStory(plantings, asked, o.year)
	}
	assessed, err := s.Assess(plantings)
	if err != nil {
		return err
	}
	if a.format == table.JSON {
		past, err := s.Remember(plantings)
		if err != nil {
			return err
		}
		together, err := s.Together(assessed, past)
		if err != nil {
			return err
		}
		return a.writeJSON(s.planJSON(plantings, assessed, asked, past, together))
	}
	if name == "" || a.format != table.TextFormat {
		if err := s.writePlan(plantings, assessed, asked); err != nil {
			return err
		}
	}
	against := s.Contradictions(plantings, assessed)
	if a.format != table.TextFormat {
		for _, c := range against {
			a.notef("%s", c.Text)
		}
		return nil
	}
	if name == "" {
		s.writeChanges(assessed, against)
	}
	if name == "" && !o.why {
		return nil
	}
	past, err := s.Remember(plantings)
	if err != nil {
		return err
	}
	var shown []opened.Planned
	for k, i := range asked {
		if k > 0 || name == "" {
			fmt.Fprintln(a.out)
		}
		a.explain(s, plantings[i], assessed[i], s.words().LastFailed(past, i))
		shown = append(shown, plantings[i])
		for _, c := range against {
			if name != "" && slices.Contains(c.Plantings, i) {
				a.labelled(a.out, "but", c.Text)
			}
		}
	}
	if name == "" {
		if err := s.writeTogether(assessed, past); err != nil {
			return err
		}
		s.writeCovers(plantings, assessed)
	}
	s.writeCautions(shown)
	fmt.Fprintln(a.out)
	a.paragraph(a.out, strings.Join(append(s.words().Ways(s.Garden), "Years are the record's, with each spot as it usually differs from the station."), " "), 0)
	return nil
}

// writeTogether prints what becomes of all the plantings in the same years.
func (s *session) writeTogether(assessed []risk.Assessment, past *opened.Remembered) error {
	got, err := s.Together(assessed, past)
	if err != nil {
		return err
	}
	t, ok := view.TogetherTable(got)
	if !ok {
		return nil
	}
	fmt.Fprintln(s.app.out)
	return t.Write(s.app.out, s.app.tables())
}

// writeCovers prints how often the covers owned would not do.
func (s *session) writeCovers(plantings []opened.Planned, assessed []risk.Assessment) {
	if said := sentences.Covers(s.WantCovers(plantings, assessed), s.Settings.Costs.Unit); said != "" {
		fmt.Fprintln(s.app.out)
		s.app.paragraph(s.app.out, "Covers: "+said, 2)
	}
}

func (s *session) writePlan(plantings []opened.Planned, assessed []risk.Assessment, asked []int) error {
	widest, varieties := 0, false
	for _, i := range asked {
		widest, varieties = max(widest, displaywidth.String(plantings[i].Label())), varieties || plantings[i].Row.Variety != ""
	}
	t := table.Table{
		Title: s.Settings.Name + ": the plan",
		Columns: []table.Column{
			{Name: "planting", Keys: []string{"planting", "reserve"}, Wrap: true, MinWidth: min(widest, 26)},
			{Name: "starts", Key: "start"},
			{Name: "lives", Key: "survives", Align: table.Right, Drop: 2},
			{Name: "ripe", Key: "ripens", Align: table.Right, Drop: 3},
			{Name: "both", Key: "succeeds", Align: table.Right},
			{Name: "(90 %)", Keys: words.Ends("succeeds"), Drop: 1},
			{Name: "picking", Key: "first_picking"},
			{Name: "cold nights", Keys: []string{"cold_nights_median", "cold_nights_90"}, Align: table.Right, Drop: 4},
			{Name: "verdict"},
			{Name: "better", Key: "better_date"},
		},
	}
	if varieties {
		t.Columns = slices.Insert(t.Columns, 1, table.Column{Name: "variety", Drop: 5})
	}
	for _, i := range asked {
		x := &assessed[i]
		r := x.Result
		better := table.Text(words.Dash)
		if b, ok := x.Better(); ok {
			better = s.dayCell(float64(b.Day))
		}
		cells := []table.Cell{table.Text(plantings[i].Label()), s.dayCell(float64(r.Planting.Start)),
			share(r.Survives), share(r.Ripens), beside(r.Succeeds, s.Settings.Aim), narrowInterval(r.Succeeds),
			s.words().PickingCell(r), coldNights(r), verdictCell(x.Verdict), better}
		if varieties {
			cells = slices.Insert(cells, 1, table.Text(plantings[i].Row.Variety))
		}
		t.Add(cells...)
		if !x.Reserved.None() {
			cells := s.reserveRow(x)
			if varieties {
				cells = slices.Insert(cells, 1, table.Text(""))
			}
			t.Add(cells...)
		}
	}
	return t.Write(s.app.out, s.app.tables())
}

// narrowInterval is intervalOf without the sign, for the widest table.
func narrowInterval(c climate.Chance) table.Cell {
	cell := intervalOf(c)
	cell.Text = strings.TrimSuffix(cell.Text, " %")
	return cell
}

func verdictCell(v risk.Verdict) table.Cell {
	return table.Cell{Text: v.String(), Data: []string{v.String()}, Tone: tone(v)}
}

// Cells that several commands have.
var (
	share, intervalOf, beside = words.Share, words.IntervalCell, words.Beside
	coldNights, tone, orNaN   = words.Nights, words.Tone, words.OrNaN
)

// writeChanges prints what does not fit together and what to change, under the table.
func (s *session) writeChanges(assessed []risk.Assessment, against []opened.Contradiction) {
	a := s.app
	if len(against) > 0 {
		fmt.Fprintln(a.out, "\nDoes not fit together:")
		for _, c := range against {
			a.paragraph(a.out, "  "+c.Text, 4)
		}
	}
	fmt.Fprintln(a.out)
	a.paragraph(a.out, s.words().Changes(assessed, s.Settings.Aim)+` "frostward plan PLANTING" says why and what to beware of, --why all.`, 0)
}
