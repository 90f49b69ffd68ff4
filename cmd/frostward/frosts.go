package main

import (
	"fmt"
	"math"

	"github.com/spf13/cobra"

	"frostward/climate"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/table"
)

func newFrosts(a *app) *cobra.Command {
	c := &cobra.Command{
		Use:   "frosts",
		Short: "When the last spring and first autumn frosts come, and how that is changing",
		Long: `frosts tells when the last frost of spring and the first of autumn come, and how many
days lie between them. A frost at T is a day with a minimum at or below T. The seasons run
from midwinter to midwinter; those with too many days missing when frosts come are left
out and listed.

--by weather, the default, counts over seasons resampled from the daily record at the level
of recent ones; --by record counts the seasons as they were, and is the default where
--years names them; --by curve fits a normal curve to the dates, with a share of seasons
without frost (Thom 1959). Without --spot the frosts are the station's.`,
		Example: `  frostward frosts
  frostward frosts --at 0 --at -2 --by curve
  frostward frosts --history station.csv --years 1991-2020 --format json`,
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return a.frosts() },
	}
	c.Flags().Float64SliceVar(&a.at, "at", []float64{0}, "threshold in `°C`; may be given more than once")
	return c
}

func (a *app) frosts() error {
	a.asHappened()
	s, err := a.open()
	if err != nil {
		return err
	}
	seasons, err := s.Seasons()
	if err != nil {
		return err
	}
	e := seasons.Ensemble
	recorded := climate.Recorded(s.Masked, s.Settings.Latitude, s.First, s.Last)
	if a.spot != "" {
		spot, err := s.Settings.Spot(a.spot)
		if err != nil {
			return usage(err)
		}
		at, err := s.Spots()
		if err != nil {
			return err
		}
		e, recorded = at.Move(e, spot), at.Move(recorded, spot)
	}
	var tables []opened.Frosts
	for _, t := range a.at {
		if math.IsNaN(t) || math.IsInf(t, 0) {
			return usagef("--at %v; wanted a temperature in °C", t)
		}
		tables = append(tables, opened.FrostsAt(e, recorded, climate.Frost(t)))
	}
	if a.format == table.JSON {
		return a.writeJSON(s.frostsJSON(e, tables))
	}
	for i, t := range tables {
		if i > 0 {
			fmt.Fprintln(a.out)
		}
		if err := s.writeFrosts(t); err != nil {
			return err
		}
		s.drawFrosts(e, t)
	}
	return nil
}
