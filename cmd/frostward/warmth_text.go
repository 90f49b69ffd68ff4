package main

import (
	"fmt"
	"math"
	"strings"

	"frostward/climate"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
)

// lastFew is how many seasons are shown without --all.
const lastFew = 12

// writeWarmth prints what is typical, the seasons, the season's course and the light.
func (s *session) writeWarmth(w *opened.Warmth, all bool) error {
	a := s.app
	if err := s.warmthTypical(w).Write(a.out, a.tables()); err != nil {
		return err
	}
	fmt.Fprintln(a.out)
	if err := s.warmthYears(w, all).Write(a.out, a.tables()); err != nil {
		return err
	}
	fmt.Fprintln(a.out)
	if a.format == table.TextFormat {
		if p := a.paper().Warmth(s.Garden, a.unit(), w); len(p.Lines) > 0 {
			a.paragraph(a.out, p.Reading, 0)
			for _, l := range p.Lines {
				fmt.Fprintln(a.out, l)
			}
			fmt.Fprintln(a.out)
		}
	}
	return s.warmthLight(w).Write(a.out, a.tables())
}

// warmthTypical is what a season brings at least, at chances.
func (s *session) warmthTypical(w *opened.Warmth) table.Table {
	unit := s.app.unit().DegreeDays()
	t := table.Table{
		Title: fmt.Sprintf("%s: the warmth of a season", s.Settings.Name),
		Columns: []table.Column{
			{Name: "chance", Key: "chance", MinWidth: 14},
			{Name: unit + " at least", Align: table.Right, Wrap: true, MinWidth: 9},
			{Name: "90 % interval", Align: table.Right, Wrap: true, MinWidth: 9, Drop: 1},
			{Name: "crop heat units at least", Align: table.Right, Wrap: true, MinWidth: 10},
			{Name: "90 % interval", Align: table.Right, Wrap: true, MinWidth: 9, Drop: 3},
			{Name: "days of growing season at least", Align: table.Right, Wrap: true, MinWidth: 15},
			{Name: "90 % interval", Align: table.Right, Wrap: true, MinWidth: 9, Drop: 2},
		},
	}
	scale := s.app.unit().Difference(1)
	for i, c := range opened.FrostChances {
		t.Add(table.Text(words.InYears(c)),
			amount(w.DegreeDays[i], scale), amountInterval(w.DegreeDays[i], scale),
			amount(w.HeatUnits[i], 1), amountInterval(w.HeatUnits[i], 1),
			amount(w.Growing[i], 1), amountInterval(w.Growing[i], 1))
	}
	t.Notes = s.warmthNotes(w)
	return t
}

func amount(q climate.Quantile, scale float64) table.Cell {
	if !q.Known {
		return table.Cell{Text: "not known", Tone: table.Quiet}
	}
	return table.Textf("%.0f", q.Value*scale)
}

func amountInterval(q climate.Quantile, scale float64) table.Cell {
	if !q.Known {
		return table.Text(words.Dash)
	}
	return table.Textf("%.0f-%.0f", q.Low*scale, q.High*scale)
}

// warmthNotes says how the sums are made and what they rest on.
func (s *session) warmthNotes(w *opened.Warmth) []string {
	a := s.app
	of := ""
	if w.Of != "" {
		of = " for " + w.Of
	}
	limit := "without upper limit"
	if w.Sum.Limit != climate.NoLimit {
		limit = fmt.Sprintf("%s upper limit %s", w.Sum.Limit, a.unit().Degrees(w.Sum.Upper))
	}
	notes := []string{fmt.Sprintf("%s%s: %s to %s above %s, %s, %s.", a.unit().DegreeDays(), of, s.Calendar.Words(w.Days.From),
		s.Calendar.Words(w.Days.To), a.unit().Degrees(w.Sum.Base), limit, strings.ReplaceAll(w.Sum.Method.String(), "-", " "))}
	notes = append(notes, fmt.Sprintf("crop heat units: Ontario's, from %s to the first %s of autumn or until the usual mean falls below %s; "+
		"growing season: ETCCDI's, by means above and below %s.", s.Calendar.Words(climate.HeatUnitStart),
		a.unit().Degrees(float64(climate.HeatUnitFrost)), a.unit().Degrees(climate.HeatUnitMean), a.unit().Degrees(climate.GrowingMean)))
	q := w.DegreeDays[0]
	n := fmt.Sprintf("%s counted for %s", words.Plural(q.Seasons, "season"), a.unit().DegreeDays())
	if q.LeftOut > 0 {
		n += fmt.Sprintf(", %d left out as not complete", q.LeftOut)
	}
	if g := w.Growing[0]; g.LeftOut != q.LeftOut {
		n += fmt.Sprintf("; for the growing season %d, %d left out", g.Seasons, g.LeftOut)
	}
	if !q.Known {
		n += fmt.Sprintf("; a chance wants %d", climate.MinSeasons)
	}
	notes = append(notes, n+". "+warmthTrend(w.Trend, a.unit().DegreeDays(), a.unit().Difference(1)))
	if start, end := w.Starts[2], w.Ends[2]; start.Known && end.Known {
		notes = append(notes, fmt.Sprintf("growing season in a middling year: from %s to %s.", s.growingDay(start.Value), s.growingDay(end.Value)))
	}
	if f := w.SoFar; f != nil && f.Past.Known {
		notes = append(notes, fmt.Sprintf("%d so far: %.0f by %s; half of the past seasons had at least %.0f by then, and %d of %d had less than this one.",
			f.Season, f.Sum.Sum*a.unit().Difference(1), s.Calendar.Words(f.Last), f.Past.Value*a.unit().Difference(1), f.Below, f.Of))
	}
	return append(notes, s.waysWords()...)
}

func (s *session) growingDay(v float64) string {
	if math.IsInf(v, 0) {
		return "beyond the year's end"
	}
	return words.Day(s.Calendar, v)
}

// warmthTrend says a trend in amounts.
func warmthTrend(t opened.Trend, unit string, scale float64) string {
	if !t.OK || t.N < 10 {
		return "Too few seasons for a trend."
	}
	p := fmt.Sprintf("= %.2f", t.P)
	if t.P < 0.005 {
		p = "below 0.01"
	}
	return fmt.Sprintf("Trend: %+.0f %s a decade (90 %% interval %+.0f to %+.0f, Sen; Mann-Kendall p %s).",
		10*t.Slope*scale, unit, 10*t.Low*scale, 10*t.High*scale, p)
}

// warmthYears is the seasons one by one.
func (s *session) warmthYears(w *opened.Warmth, all bool) table.Table {
	t := table.Table{
		Title: "Season by season",
		Columns: []table.Column{
			{Name: "season", Align: table.Right},
			{Name: s.app.unit().DegreeDays(), Key: "degree_days_c", Align: table.Right},
			{Name: "days filled", Key: "filled_days", Align: table.Right, Wrap: true, MinWidth: 6, Drop: 3},
			{Name: "crop heat units", Key: "crop_heat_units", Align: table.Right, Wrap: true, MinWidth: 9},
			{Name: "to", Key: "crop_heat_units_end", Drop: 2},
			{Name: "growing season from", Key: "growing_season_start", Wrap: true, MinWidth: 9},
			{Name: "to", Key: "growing_season_end", Drop: 1},
			{Name: "days", Key: "growing_season_days", Align: table.Right},
		},
	}
	years := w.Years
	if len(years) > lastFew && !all {
		t.Notes = append(t.Notes, fmt.Sprintf("the last %d of %d seasons; --all shows every one.", lastFew, len(years)))
		years = years[len(years)-lastFew:]
	}
	for _, y := range years {
		_, start, end := opened.GrowingNumbers([]climate.GrowingSeason{y.Growing})
		heatEnd := math.NaN()
		if y.HeatUnits.Known() {
			heatEnd = float64(y.HeatEnd)
		}
		t.Add(table.Textf("%d", y.Season), s.sumCell(y.DegreeDays), table.Textf("%d", y.DegreeDays.Filled),
			unscaled(y.HeatUnits.Sum), s.dayCell(heatEnd), s.dayCell(start[0]), s.endCell(end[0]), unscaled(y.Growing.Days))
	}
	return t
}

// sumCell is degree-days in the unit asked for, always °C-days in CSV.
func (s *session) sumCell(w climate.Warmth) table.Cell {
	if !w.Known() {
		return unscaled(w.Sum)
	}
	return table.Data(fmt.Sprintf("%.0f", w.Sum*s.app.unit().Difference(1)), fmt.Sprintf("%.1f", w.Sum))
}

func unscaled(v float64) table.Cell {
	if math.IsNaN(v) {
		return table.Cell{Text: "not known", Tone: table.Quiet}
	}
	return table.Textf("%.0f", v)
}

func (s *session) dayCell(v float64) table.Cell {
	return s.words().DayCell(v)
}

// endCell is the end of a growing season, which may lie beyond the year.
func (s *session) endCell(v float64) table.Cell {
	if math.IsInf(v, 1) {
		return table.Data("no end")
	}
	return s.dayCell(v)
}

// warmthLight is when the days are how long.
func (s *session) warmthLight(w *opened.Warmth) table.Table {
	t := table.Table{
		Title: fmt.Sprintf("Light at %s: longest day %s (%s), shortest %s (%s)", latitudeWords(s.Settings.Latitude),
			s.Calendar.Words(w.Longest.Day), hours(w.Longest.Hours), s.Calendar.Words(w.Shortest.Day), hours(w.Shortest.Hours)),
		Columns: []table.Column{{Name: "days of at least"}, {Name: "from"}, {Name: "to"}, {Name: "days", Align: table.Right}},
		Notes:   []string{"sunrise to sunset. Below 10 hours leaf crops all but stop growing, though they can be picked (common practice)."},
	}
	for _, l := range w.Light {
		first, last := table.Text(words.Dash), table.Text(words.Dash)
		if !l.None && !l.Whole {
			first, last = s.dayCell(float64(l.First)), s.dayCell(float64(l.Last))
		}
		t.Add(table.Textf("%.0f hours", l.Hours), first, last, table.Textf("%d", l.Days()))
	}
	return t
}

func hours(h float64) string {
	m := int(math.Round(h * 60))
	return fmt.Sprintf("%d h %02d", m/60, m%60)
}

func latitudeWords(lat float64) string {
	if lat < 0 {
		return fmt.Sprintf("%.1f° south", -lat)
	}
	return fmt.Sprintf("%.1f° north", lat)
}

// growingWords says what is out of the ordinary in a growing season.
func growingWords(g climate.GrowingSeason) string {
	switch g.State {
	case climate.GrowingNotKnown:
		return "days are missing that could change it"
	case climate.GrowingNever:
		return "no six warm days on end"
	case climate.GrowingToYearsEnd:
		return "does not end within the year"
	case climate.GrowingUndefined:
		return "cool days come before the first warm ones after midsummer: the index has no length"
	}
	return ""
}
