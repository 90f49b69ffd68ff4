package sentences

import (
	"fmt"
	"math"

	"frostward/climate"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/words"
)

// frostTrend says a trend with its uncertainty, in days a decade.
func frostTrend(t opened.Trend) string {
	if !t.OK || t.N < 10 {
		return "Too few seasons for a trend."
	}
	if math.IsInf(t.Slope, 0) || math.IsNaN(t.Slope) {
		return "No trend is known: too many seasons without frost."
	}
	word := "later"
	if t.Slope < 0 {
		word = "earlier"
	}
	return fmt.Sprintf("Trend: %.1f days a decade %s (90 %% interval %+.1f to %+.1f, Sen; Mann-Kendall p = %.2f).",
		math.Abs(10*t.Slope), word, 10*t.Low, 10*t.High, t.P)
}

// seasonDate is a date with its year, such as "3 Jun 1951".
func (w In) seasonDate(season int, v float64) string {
	d := w.Calendar.Day(season, climate.SeasonDay(v))
	return fmt.Sprintf("%s %d", words.Day(w.Calendar, v), d.Year())
}

// Frosts says what a table of frost dates rests on.
func (w In) Frosts(g *opened.Garden, t opened.Frosts) []string {
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
			w.seasonDate(g.First+lo, h.dates[lo]), w.seasonDate(g.First+hi, h.dates[hi]))
		if with > 1 {
			text += fmt.Sprintf("; mean %s, s.d. %.1f days", words.Day(w.Calendar, mean), sd)
		}
		notes = append(notes, text+". "+frostTrend(h.trend))
	}
	if n := len(t.Dates.LeftOut); n > 0 {
		l := t.Dates.LeftOut[0]
		notes = append(notes, fmt.Sprintf("left out: %s with too many days missing, such as the %s of %d (%s); \"frostward check\" lists all.",
			words.Plural(n, "half-season"), l.Half, l.Season, l.Why))
	}
	return append(notes, w.Ways(g)...)
}

// Ways says where chances come from and, by weather, at what level of the climate.
func (w In) Ways(g *opened.Garden) []string {
	e, err := g.Seasons()
	if err != nil {
		return nil // nothing was counted
	}
	switch e.By {
	case climate.ByCurve:
		return []string{"By curve: normal curves fitted to the dates, with the share of seasons without frost (Thom 1959)."}
	case climate.ByRecord:
		return []string{"By record: counted over the seasons as they were; each interval is of 90 %."}
	}
	return []string{
		fmt.Sprintf("By weather: counted over %d seasons resampled from %d of daily record (\"frostward skill\" scores them against counting those).",
			len(e.Seasons), e.Rests),
		fmt.Sprintf("At the level of recent seasons, the last %.0f weighing about as much as all before: %+.1f %s against the whole record (90 %%: %+.1f to %+.1f).",
			e.Level.HalfLife, w.Difference(e.Level.Value), w.Unit(), w.Difference(e.Level.Low), w.Difference(e.Level.High)),
	}
}
