package main

import (
	"fmt"
	"math"
	"slices"

	"github.com/spf13/cobra"

	"frostward/climate"
	"frostward/climate/site"
	"frostward/cmd/internal/garden"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
)

func newFrosts(a *app) *cobra.Command {
	c := &cobra.Command{
		Use:   "frosts",
		Short: "When the last spring and first autumn frosts come, and how that is changing",
		Long: `frosts says when the last frost of spring and the first of autumn come, and how many
days lie between them. A frost at T is a day with a minimum at or below T. The seasons run
from midwinter to midwinter; those with too many days missing when frosts come are left
out and listed.

--by weather, the default, counts over seasons resampled from the daily record at the level
of recent ones; --by record counts the seasons as they were, and is the default where
--years names them; --by curve fits a normal curve to the dates, with a share of seasons
without frost (Thom 1959). In a garden the open bed stands beside the station; --spot shows one
spot, and --history without a garden the station.`,
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
	places, err := s.frostPlaces()
	if err != nil {
		return err
	}
	for _, t := range a.at {
		if math.IsNaN(t) || math.IsInf(t, 0) {
			return usagef("--at %v; wanted a temperature in °C", t)
		}
		for i := range places {
			p := &places[i]
			p.found = append(p.found, opened.FrostsAt(p.seasons, p.recorded, climate.Frost(t)))
		}
	}
	switch a.format {
	case table.JSON:
		return a.writeJSON(s.frostsJSON(places))
	case table.CSV: // one table to a file
		all := s.frostTable(places, 0)
		for i := range a.at[1:] {
			all.Rows = append(all.Rows, s.frostTable(places, i+1).Rows...)
		}
		return all.Write(a.out, a.tables())
	}
	for i := range a.at {
		if i > 0 {
			fmt.Fprintln(a.out)
		}
		if err := s.frostTable(places, i).Write(a.out, a.tables()); err != nil {
			return err
		}
		last := places[len(places)-1]
		p := a.paper().Frosts(s.Calendar, last.seasons, last.found[i])
		p.Reading = words.Capital(last.name) + ": " + p.Reading
		a.picture(p)
	}
	return nil
}

// frostPlace is a place of the garden with its frosts, by threshold.
type frostPlace struct {
	name              string
	seasons, recorded climate.Ensemble
	found             []opened.Frosts
}

// frostPlaces are the spot asked for, or the station and, in a garden, its open bed: where frost does its harm.
func (s *session) frostPlaces() ([]frostPlace, error) {
	seasons, err := s.Seasons()
	if err != nil {
		return nil, err
	}
	recorded := climate.Recorded(s.Masked, s.Settings.Latitude, s.First, s.Last)
	station := frostPlace{name: garden.StationSpot, seasons: seasons.Ensemble, recorded: recorded}
	var spot garden.Spot
	if s.app.spot != "" {
		if spot, err = s.Settings.Spot(s.app.spot); err != nil {
			return nil, usage(err)
		}
	} else if len(s.app.history) == 0 && len(s.Settings.Spots) > 0 {
		bed := slices.IndexFunc(s.Settings.Spots, func(sp garden.Spot) bool { return sp.Kind == site.OpenBed.Kind })
		spot = s.Settings.Spots[max(0, bed)]
	}
	if spot.Name == "" || spot.Name == garden.StationSpot {
		return []frostPlace{station}, nil
	}
	at, err := s.Spots()
	if err != nil {
		return nil, err
	}
	moved := frostPlace{name: spot.Name, seasons: at.Move(seasons.Ensemble, spot), recorded: at.Move(recorded, spot)}
	if s.app.spot != "" {
		return []frostPlace{moved}, nil
	}
	return []frostPlace{station, moved}, nil
}

// frostTable has the dates at one of the thresholds, place by place, with what they rest on below.
func (s *session) frostTable(places []frostPlace, i int) table.Table {
	threshold := float64(places[0].found[i].Dates.Threshold)
	out := table.Table{
		Title: fmt.Sprintf("%s: frost at %s and below", s.Settings.Name, s.app.unit().Degrees(threshold)),
		Columns: []table.Column{
			{Name: "chance", Keys: []string{"threshold_c", "chance"}, MinWidth: 14},
			{Name: "at", Key: "spot", Wrap: true, MinWidth: 7},
			{Name: "in spring on or after", Key: "spring_on_or_after", Wrap: true, MinWidth: 6},
			{Name: "90 % interval", Keys: words.Ends("spring"), Drop: 1},
			{Name: "in autumn on or before", Key: "autumn_on_or_before", Wrap: true, MinWidth: 6},
			{Name: "90 % interval", Keys: words.Ends("autumn"), Drop: 1},
			{Name: "frost-free days at least", Key: "frost_free_days_at_least", Align: table.Right, Wrap: true, MinWidth: 6, Drop: 2},
		},
	}
	for k, c := range opened.FrostChances {
		for j, p := range places {
			t, said := p.found[i], words.InYears(c)
			if j > 0 {
				said = ""
			}
			out.Add(table.Data(said, words.NumberData(threshold, -1), words.NumberData(c, 1)), table.Text(p.name),
				s.frostDay(t.Spring[k]), s.interval(t.Spring[k]), s.frostDay(t.Autumn[k]), s.interval(t.Autumn[k]), freeDays(t.Free[k]))
		}
	}
	out.Notes = s.words().Frosts(s.Garden, places[0].found[i])
	if len(places) > 1 {
		out.Notes = append([]string{fmt.Sprintf("The %s is colder or warmer than the station, as \"frostward spots\" says; what that leaves open is in its dates. The seasons below are the station's.", places[1].name)}, out.Notes...)
	}
	return out
}

func (s *session) frostDay(q climate.Quantile) table.Cell {
	switch {
	case !q.Known:
		return table.Cell{Text: "not known", Tone: table.Quiet}
	case math.IsInf(q.Value, 0):
		return table.Cell{Text: "no frost", Tone: table.Quiet}
	}
	return s.dayCell(q.Value)
}

func (s *session) interval(q climate.Quantile) table.Cell {
	if !q.Known || math.IsInf(q.Value, 0) {
		return table.Text(words.Dash)
	}
	end := func(v float64) string {
		if math.IsInf(v, 0) {
			return "no frost"
		}
		return words.Day(s.Calendar, v)
	}
	return table.Data(end(q.Low)+" to "+end(q.High), s.words().DayData(q.Low), s.words().DayData(q.High))
}

func freeDays(q climate.Quantile) table.Cell {
	switch {
	case !q.Known:
		return table.Cell{Text: "not known", Tone: table.Quiet}
	case math.IsInf(q.Value, 0):
		return table.Data("no end")
	}
	return table.Textf("%.0f", q.Value)
}
