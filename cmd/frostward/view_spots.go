package main

import (
	"fmt"
	"math"

	"frostward/climate"
	"frostward/climate/site"
	"frostward/cmd/internal/chart"
	"frostward/cmd/internal/garden"
	"frostward/cmd/internal/page"
	"frostward/cmd/internal/words"
)

// spotSection shows how each spot's nights differ from the station's, with the readings
// that say so.
func (v *viewing) spotSection() page.Section {
	var s page.Section
	for _, spot := range v.Settings.Spots {
		prior, _ := site.PriorOf(spot.Kind)
		if prior.Station {
			s.Notes = append(s.Notes, fmt.Sprintf("%s: taken to be as cold as the station.", words.Capital(spot.Name)))
			continue
		}
		c, said := v.spotChart(spot)
		s.Figures = append(s.Figures, page.Figure{Caption: spot.Name, Chart: c})
		if line := words.Capital(spot.Name) + ": " + said + "."; s.Lead == "" {
			s.Lead = line
		} else {
			s.Notes = append(s.Notes, line)
		}
	}
	if len(s.Figures) > 0 {
		s.Notes = append(s.Notes, "The wider the range of the day, the clearer and stiller the night as a rule, and the further a low spot falls below the station.")
	} else {
		s.NotKnown = "the garden names no spots of its own"
	}
	return s
}

// spotChart is a spot's readings less the station's minimum, by the night's range, and what
// is made of them.
func (v *viewing) spotChart(spot garden.Spot) (chart.Scatter, string) {
	m, sum := v.fields.Fit(spot)
	u := v.app.unit()
	c := chart.Scatter{
		Title: spot.Name + " against the station", Desc: words.Capital(v.app.unit().Spot("this spot", sum)) + ".",
		XLabel: "range of the night, " + v.app.unit().Unit(), YLabel: "spot less station, " + v.app.unit().Unit(),
	}
	names := [2]string{"winter and spring mornings", "summer and autumn mornings"}
	roles := [2]chart.Role{chart.Growth, chart.Plum}
	var groups [2]chart.Points
	for _, r := range v.fields.Readings(spot) {
		n := site.NightOf(v.Masked, v.Calendar, r.Day)
		if math.IsNaN(n.Range()) || math.IsNaN(r.Tmin) {
			continue
		}
		half := 0
		if n.Day >= climate.Midsummer-30 {
			half = 1
		}
		groups[half].X = append(groups[half].X, u.Difference(n.Range()))
		groups[half].Y = append(groups[half].Y, u.Difference(r.Tmin-n.Tmin))
	}
	for i, g := range groups {
		if len(g.X) > 0 {
			g.Name, g.Role = names[i], roles[i]
			c.Points = append(c.Points, g)
		}
	}
	c.Lines = []chart.Fitted{spotLine(m, len(c.Points) > 0, u)}
	return c, v.app.unit().Spot("this spot", sum)
}

// spotLine is the expected difference by the range, on a night of 2 °C at the equinox, and
// where 9 nights in 10 lie.
func spotLine(m site.Model, fitted bool, u words.Units) chart.Fitted {
	l := chart.Fitted{Name: "usual for such a spot; 9 nights in 10", Role: chart.Frost}
	if fitted {
		l.Name = "fitted; 9 nights in 10"
	}
	const z = 1.645 // 90 % of a normal distribution lie within
	for r := 0.0; r <= 18; r += 2 {
		n := site.Night{Tmin: 2, Before: 2 + r, After: 2 + r, Day: 91}
		mean, sd := u.Difference(m.Mean(n)-n.Tmin), u.Difference(m.SD(n))
		l.X, l.Y = append(l.X, u.Difference(r)), append(l.Y, mean)
		l.Low, l.High = append(l.Low, mean-z*sd), append(l.High, mean+z*sd)
	}
	return l
}
