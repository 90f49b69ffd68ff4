package main

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"frostward/climate"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/page"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
)

// sheet is the year on one page for the wall, in the order in which the plantings begin.
func (v *viewing) sheet() page.Sheet {
	s := page.Sheet{Title: fmt.Sprintf("%s: %d", v.Settings.Name, v.season),
		Note: fmt.Sprintf("Picking: when half the seasons have begun, and 8 in 10. May start: the days that succeed in at least %.0f %% of seasons even at the lower end of the interval, and the best of them. %s",
			100*v.Settings.Aim, v.notice()),
		Plan: table.Table{Columns: []table.Column{{Name: "planting"}, {Name: "spot, bed"}, {Name: "sow"}, {Name: "harden off"}, {Name: "out"},
			{Name: "may start"}, {Name: "first picking"}, {Name: "done, seen"}}},
		Foot: []string{"A frost is a night at or below " + v.app.unit().Degrees(0) + " at the spot. Chances come from past seasons: the forecast and local warnings come first on any one night."}}
	day := func(d float64) string {
		if math.IsNaN(d) {
			return ""
		}
		return words.Day(v.Calendar, d)
	}
	type line struct {
		begins float64
		cells  []table.Cell
	}
	var lines []line
	for i, p := range v.plantings {
		st := opened.StagesOf(p, v.assessed[i])
		sow, out := st.Sow, st.Out
		if !p.Raised {
			sow, out = out, math.NaN()
		}
		window := "no sound day"
		if w := v.assessed[i].Around(); w.Earliest >= 0 {
			on := func(k int) string { return v.Calendar.Words(w.Results[k].Planting.Start) }
			window = on(w.Earliest) + " to " + on(w.Last) + ", best " + on(w.Best)
		}
		pick := "not expected"
		if !math.IsNaN(st.Pick) {
			pick = day(st.Pick)
			if !math.IsNaN(st.Early) && !math.IsNaN(st.Late) {
				pick += " (" + day(st.Early) + " to " + day(st.Late) + ")"
			}
		}
		spot := p.Where.Name
		if p.Bed != "" {
			spot += ", " + p.Bed
		}
		lines = append(lines, line{sow, table.Row(p.Label(), spot, day(sow), day(st.Harden), day(out), window, pick, "")})
	}
	slices.SortStableFunc(lines, func(a, b line) int { return cmp.Compare(a.begins, b.begins) })
	for _, l := range lines {
		s.Plan.Rows = append(s.Plan.Rows, l.cells)
	}
	s.Frosts = table.Table{Columns: []table.Column{{Name: "spot"}, {Name: "last in spring: half the years by"}, {Name: "1 year in 10 after"},
		{Name: "first in autumn: half the years by"}, {Name: "1 year in 10 before"}}}
	spots := v.Settings.Spots
	if len(spots) == 0 {
		spots = v.frostPlaces()
	}
	for _, spot := range spots {
		e := v.fields.At(spot)
		d := climate.DatesOf(e, 0, climate.WMO)
		at := func(dates []float64, p float64) table.Cell {
			return table.Text(words.Day(v.Calendar, orNaN(e.Quantile(dates, p))))
		}
		spring := climate.Earliest(d.Spring)
		s.Frosts.Add(table.Text(spot.Name), at(spring, 0.5), at(spring, 0.9), at(d.Autumn, 0.5), at(d.Autumn, 0.1))
	}
	return s
}
