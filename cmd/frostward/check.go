package main

import (
	"math"

	"github.com/spf13/cobra"

	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/table"
)

func newCheck(a *app) *cobra.Command {
	var all bool
	c := &cobra.Command{
		Use:   "check",
		Short: "Whether the record is fit to rely on: what was read, gaps, doubtful values, seasons that count",
		Long: `check says whether a record is fit to rely on, and why: what was read and what could not
be, the gaps, the values that are doubted and left out, the days that only the keeper
of the record can settle, whether a thermometer seems to have been moved, and which seasons
count for the spring and the autumn frosts.

A season's spring or autumn counts if the months in which this place's frosts have come are
complete: not 11 days missing in any, nor 5 in a row (WMO-No. 1203).

Doubtful values are flagged by published rules (Durre et al. 2010) and some of our own; they
are never changed, only left out. --format csv lists every finding, a line each.

Each question comes with its answer, yes or no, to give by --answer. check --answer keeps it
in the garden's garden.yaml, with the day; nothing else writes there, and another command's
--answer is for that once:
  answers:
    - fahrenheit 1990-12-20 1991-01-28 yes 2026-11-28
The record is then read accordingly, by every command, and it is not asked again.

The exit status is 0 for a record that is fit, also with care, 3 for one that is not, and 4
for one that is fit for frost dates only, since its maxima are too few.`,
		Example: `  frostward check
  frostward check --garden mygarden --answer "fahrenheit 1990-12-20 1991-01-28 yes"
  frostward check --history station.csv --all
  frostward check --history station.csv --format csv > findings.csv`,
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return a.check(all) },
	}
	c.Flags().BoolVar(&all, "all", false, "list every flag, gap and season left out")
	c.Flags().Float64SliceVar(&a.at, "at", []float64{0}, "frost threshold in `°C` for the seasons; may be given more than once")
	return c
}

// checked is what check finds.
type checked struct {
	*opened.Fitness
	s   *session
	all bool
}

func (a *app) check(all bool) error {
	for _, t := range a.at {
		if math.IsNaN(t) || math.IsInf(t, 0) {
			return usagef("--at %v; wanted a temperature in °C", t)
		}
	}
	s, err := a.open()
	if err != nil {
		return err
	}
	kept, err := s.KeepAnswers()
	if err != nil {
		return err
	}
	for _, answer := range kept {
		a.notef("kept in %s: %s", s.SettingsPath(), answer)
	}
	c := &checked{s.Fitness(a.at), s, all}
	a.status = statusOf(c.Verdict)
	switch a.format {
	case table.JSON:
		return a.writeJSON(c.json())
	case table.CSV:
		return c.findings().Write(a.out, a.tables())
	}
	return c.write()
}

// statusOf is the exit status that says the same as a verdict.
func statusOf(v opened.Verdict) int {
	switch v.Word {
	case "not fit":
		return exitUnfit
	case "fit for frosts only":
		return exitFrosts
	}
	return exitDone
}
