package main

import (
	"fmt"
	"math"

	"github.com/spf13/cobra"

	"frostward/climate"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
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
		a.picture(a.paper().Frosts(s.Calendar, e, t))
	}
	return nil
}

// writeFrosts prints one threshold's table, with what it rests on below.
func (s *session) writeFrosts(t opened.Frosts) error {
	where := "the station"
	if s.app.spot != "" {
		where = s.app.spot
	}
	out := table.Table{
		Title: fmt.Sprintf("%s, %s: frost at %s and below", s.Settings.Name, where, s.app.unit().Degrees(float64(t.Dates.Threshold))),
		Columns: []table.Column{
			{Name: "chance", Key: "chance", MinWidth: 14},
			{Name: "in spring on or after", Key: "spring_on_or_after", Wrap: true, MinWidth: 6},
			{Name: "90 % interval", Key: "spring_interval", Drop: 1},
			{Name: "in autumn on or before", Key: "autumn_on_or_before", Wrap: true, MinWidth: 6},
			{Name: "90 % interval", Key: "autumn_interval", Drop: 1},
			{Name: "frost-free days at least", Key: "frost_free_days_at_least", Align: table.Right, Wrap: true, MinWidth: 6},
		},
	}
	for i, c := range opened.FrostChances {
		out.Add(table.Text(words.InYears(c)),
			s.frostDay(t.Spring[i]), s.interval(t.Spring[i]),
			s.frostDay(t.Autumn[i]), s.interval(t.Autumn[i]),
			freeDays(t.Free[i]))
	}
	out.Notes = s.frostNotes(t)
	return out.Write(s.app.out, s.app.tables())
}

func (s *session) frostDay(q climate.Quantile) table.Cell {
	switch {
	case !q.Known:
		return table.Cell{Text: "not known", Tone: table.Quiet}
	case math.IsInf(q.Value, 0):
		return table.Cell{Text: "no frost", Tone: table.Quiet}
	}
	return table.Text(words.Day(s.Calendar, q.Value))
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
	return table.Text(end(q.Low) + " to " + end(q.High))
}

func freeDays(q climate.Quantile) table.Cell {
	switch {
	case !q.Known:
		return table.Cell{Text: "not known", Tone: table.Quiet}
	case math.IsInf(q.Value, 0):
		return table.Text("no end")
	}
	return table.Textf("%.0f", q.Value)
}

// frostNotes says what the table rests on.
func (s *session) frostNotes(t opened.Frosts) []string {
	var notes []string
	halves := []struct {
		name  string
		dates []float64
		trend opened.Trend
	}{{"spring", t.Dates.Spring, t.Trends[0]}, {"autumn", t.Dates.Autumn, t.Trends[1]}}
	for _, h := range halves {
		n, with := opened.Counted(h.dates)
		if with == 0 {
			notes = append(notes, fmt.Sprintf("%s: no frost in %s.", h.name, words.Plural(n, "season")))
			continue
		}
		lo, hi := opened.Extreme(h.dates, 1), opened.Extreme(h.dates, -1)
		mean, sd := opened.Spread(h.dates)
		text := fmt.Sprintf("%s: %s, %d with frost, from %s to %s", h.name, words.Plural(n, "season"), with,
			s.seasonDate(lo, h.dates[lo]), s.seasonDate(hi, h.dates[hi]))
		if with > 1 {
			text += fmt.Sprintf("; mean %s, s.d. %.1f days", words.Day(s.Calendar, mean), sd)
		}
		notes = append(notes, text+". "+trendWords(h.trend))
	}
	if n := len(t.Dates.LeftOut); n > 0 {
		l := t.Dates.LeftOut[0]
		notes = append(notes, fmt.Sprintf("left out: %s with too many days missing, such as the %s of %d (%s); \"frostward check\" lists all.",
			words.Plural(n, "half-season"), l.Half, l.Season, l.Why))
	}
	return append(notes, s.waysWords()...)
}

// seasonDate is a date with its year, such as "3 Jun 1951".
func (s *session) seasonDate(i int, v float64) string {
	d := s.Calendar.Day(s.First+i, climate.SeasonDay(v))
	return fmt.Sprintf("%s %d", words.Day(s.Calendar, v), d.Year())
}

// trendWords says a trend with its uncertainty, in days a decade.
func trendWords(t opened.Trend) string {
	if !t.OK || t.N < 10 {
		return "Too few seasons for a trend."
	}
	if math.IsInf(t.Slope, 0) || math.IsNaN(t.Slope) {
		return "No trend can be told: too many seasons without frost."
	}
	word := "later"
	if t.Slope < 0 {
		word = "earlier"
	}
	return fmt.Sprintf("Trend: %.1f days a decade %s (90 %% interval %+.1f to %+.1f, Sen; Mann-Kendall p = %.2f).",
		math.Abs(10*t.Slope), word, 10*t.Low, 10*t.High, t.P)
}
