package main

import (
	"fmt"
	"math"

	"frostward/climate"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/sentences"
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
	t.Notes = s.words().Warmth(s.Garden, w)
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
		Title: fmt.Sprintf("Light at %s: longest day %s (%s), shortest %s (%s)", sentences.Latitude(s.Settings.Latitude),
			s.Calendar.Words(w.Longest.Day), sentences.Hours(w.Longest.Hours), s.Calendar.Words(w.Shortest.Day), sentences.Hours(w.Shortest.Hours)),
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
