package main

import (
	"fmt"
	"runtime/debug"
	"strings"

	"github.com/spf13/cobra"

	"frostward/climate"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
	"frostward/risk"
)

func newPlan(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "plan",
		Short: "Score each planting of the plan, with and without cover, and name a better date",
		Long: `plan plays every planting of the plan through every season of the record, day by day:
soil too cold to germinate, nights that check it, frosts that set it back or kill it,
warmth and light until it can be picked. It tells in how many years in 10 the planting
survives, ripens in time, and both, counted in the same seasons.

A planting is graded on the lower end of the 90 % interval against the garden's aim, so
that a few lucky seasons cannot make it look sound.`,
		Example: `  frostward plan
  frostward plan --garden mygarden
  frostward plan --history station.csv --latitude 53.6 --plan plan.csv --format json`,
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return a.planCmd() },
	}
}

func (a *app) planCmd() error {
	// A plan is over in a tenth of a second and uses some 50 MB: collecting garbage twice less
	// in it saves a tenth of that time.
	defer debug.SetGCPercent(debug.SetGCPercent(400))
	s, err := a.open()
	if err != nil {
		return err
	}
	plantings, assessed, err := s.AssessPlan()
	if err != nil {
		return err
	}
	if a.format == table.JSON {
		return a.writeJSON(s.planJSON(plantings, assessed))
	}
	if err := s.writePlan(plantings, assessed); err != nil {
		return err
	}
	if a.format == table.TextFormat {
		for i, x := range assessed {
			fmt.Fprintln(a.out)
			a.explain(s, plantings[i], x)
		}
		if err := s.writeTogether(assessed); err != nil {
			return err
		}
		s.writeCovers(plantings, assessed)
		s.writeCautions(plantings)
	}
	return nil
}

// writeTogether prints what becomes of all the plantings in the same years.
func (s *session) writeTogether(assessed []risk.Assessment) error {
	f, err := s.Fields()
	if err != nil || len(assessed) < 2 {
		return err
	}
	var outcomes [][]risk.Outcome
	var labels []string
	byCrop := map[string][]int{}
	for i, x := range assessed {
		p := x.Result.Planting
		outcomes, labels = append(outcomes, x.Result.Outcomes), append(labels, p.Label())
		byCrop[p.Crop.Name] = append(byCrop[p.Crop.Name], i)
	}
	var said []string
	if all := words.Together(risk.TogetherOf(f.Base, outcomes), labels); all != "" {
		said = append(said, all)
	}
	for i, x := range assessed {
		same := byCrop[x.Result.Planting.Crop.Name]
		if len(same) < 2 || same[0] != i {
			continue
		}
		var rows [][]risk.Outcome
		var of []string
		for _, k := range same {
			rows, of = append(rows, outcomes[k]), append(of, labels[k])
		}
		if any := words.AnyOf(x.Result.Planting.Crop.Name, of, risk.EitherSucceeds(f.Base, rows...)); any != "" {
			said = append(said, any)
		}
	}
	if len(said) > 0 {
		fmt.Fprintln(s.app.out)
		s.app.paragraph(s.app.out, "All together: "+strings.Join(said, " "), 2)
	}
	return nil
}

// writeCovers prints how often the covers owned would not do.
func (s *session) writeCovers(plantings []opened.Planned, assessed []risk.Assessment) {
	if said := words.Covers(s.WantCovers(plantings, assessed), s.Settings.Costs.Unit); said != "" {
		fmt.Fprintln(s.app.out)
		s.app.paragraph(s.app.out, "Covers: "+said, 2)
	}
}

func (s *session) writePlan(plantings []opened.Planned, assessed []risk.Assessment) error {
	t := table.Table{
		Title: s.Settings.Name + ": the plan",
		Columns: []table.Column{
			{Name: "planting", Wrap: true, MinWidth: 14},
			{Name: "starts", Key: "starts"},
			{Name: "lives", Key: "survives", Align: table.Right},
			{Name: "ripe", Key: "ripens", Align: table.Right},
			{Name: "both", Key: "succeeds", Align: table.Right},
			{Name: "(90 %)", Key: "interval", Drop: 1},
			{Name: "picking", Key: "first_picking"},
			{Name: "cold nights", Align: table.Right, Key: "cold_nights", Drop: 2, Wrap: true, MinWidth: 6},
			{Name: "verdict"},
			{Name: "better", Key: "better_start"},
		},
	}
	for i, x := range assessed {
		r := x.Result
		better := words.Dash
		if b, ok := x.Better(); ok {
			better = s.Calendar.Words(b.Planting.Start)
		}
		t.Add(table.Text(plantings[i].Label()), table.Text(s.Calendar.Words(r.Planting.Start)),
			share(r.Survives), share(r.Ripens), beside(r.Succeeds, s.Settings.Aim), narrowInterval(r.Succeeds),
			table.Text(s.picking(r)), coldNights(r), table.Cell{Text: x.Verdict.String(), Tone: tone(x.Verdict)}, table.Text(better))
	}
	t.Notes = append(t.Notes, fmt.Sprintf("lives: escapes the killing frosts before picking; ripe: ready in time; both, with its 90 %% interval. Sound: at least %.0f %% even at the interval's lower end; likely: at least that, the lower end below.",
		100*s.Settings.Aim))
	t.Notes = append(t.Notes, s.waysWords()...)
	return t.Write(s.app.out, s.app.tables())
}

// narrowInterval is intervalOf without the sign, for the widest table.
func narrowInterval(c climate.Chance) table.Cell { return table.Text(words.Interval(c)) }

// Cells that several commands have.
var (
	share, intervalOf, beside = words.Share, words.IntervalCell, words.Beside
	coldNights, tone, orNaN   = words.Nights, words.Tone, words.OrNaN
)

func (s *session) picking(r risk.Result) string { return s.words().Picking(r) }
