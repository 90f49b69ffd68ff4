package main

import (
	"fmt"
	"math"

	"github.com/spf13/cobra"

	"frostward/climate"
	"frostward/climate/stat"
	"frostward/cmd/internal/table"
)

// frostChances are the chances that frost dates are stated at.
var frostChances = []float64{0.1, 0.2, 0.5, 0.8, 0.9}

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

// frostTable is what frosts finds at one threshold.
type frostTable struct {
	dates  climate.FrostDates
	spring []climate.Quantile // by frostChances: the frost comes on or after
	autumn []climate.Quantile // on or before
	free   []climate.Quantile // at least
	trends [3]trend           // spring, autumn, free days
}

type trend struct {
	stat.Trend
	ok bool
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
	var tables []frostTable
	for _, t := range a.at {
		if math.IsNaN(t) || math.IsInf(t, 0) {
			return usagef("--at %v; wanted a temperature in °C", t)
		}
		tables = append(tables, frostsAt(e, recorded, climate.Frost(t)))
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

// frostsAt counts the frosts of an ensemble; the recorded seasons give the seasons left
// out and the trend.
func frostsAt(e, recorded climate.Ensemble, f climate.Frost) frostTable {
	t := frostTable{dates: climate.DatesOf(recorded, f, climate.WMO)}
	d := t.dates
	if e.By == climate.ByWeather {
		d = climate.DatesOf(e, f, climate.WMO)
	}
	spring := climate.Earliest(d.Spring)
	for _, c := range frostChances {
		t.spring = append(t.spring, e.Quantile(spring, 1-c))
		t.autumn = append(t.autumn, e.Quantile(d.Autumn, c))
		t.free = append(t.free, e.FreeQuantiles(d.Free, 1-c)[0])
	}
	seasons := make([]float64, len(recorded.Seasons))
	for i, s := range recorded.Seasons {
		seasons[i] = float64(s.Year)
	}
	for i, y := range [][]float64{climate.Earliest(t.dates.Spring), t.dates.Autumn, t.dates.Free} {
		t.trends[i].Trend, t.trends[i].ok = stat.MannKendall(seasons, y, climate.Level)
	}
	return t
}

// counted returns how many seasons of a half count, and how many of them had a frost.
func counted(dates []float64) (seasons, withFrost int) {
	for _, v := range dates {
		if !math.IsNaN(v) {
			seasons++
			if !math.IsInf(v, 0) {
				withFrost++
			}
		}
	}
	return seasons, withFrost
}

// extreme finds the earliest (sign 1) or latest (sign -1) frost and its index, -1 if none.
func extreme(dates []float64, sign float64) int {
	best := -1
	for i, v := range dates {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			continue
		}
		if best < 0 || sign*v < sign*dates[best] {
			best = i
		}
	}
	return best
}

// mean and sample standard deviation of the finite dates.
func spread(dates []float64) (mean, sd float64) {
	var x []float64
	for _, v := range dates {
		if !math.IsNaN(v) && !math.IsInf(v, 0) {
			x = append(x, v)
		}
	}
	return meanSD(x)
}
