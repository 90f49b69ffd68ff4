package main

import (
	"fmt"
	"math"

	"frostward/climate"
	"frostward/cmd/internal/chart"
	"frostward/cmd/internal/garden"
	"frostward/cmd/internal/page"
	"frostward/cmd/internal/words"
)

// frostRoles tell two places apart: more curves with their bands would hide one another.
var frostRoles = []chart.Role{chart.Frost, chart.Ochre}

// frostPlaces are the garden's first spot and the station.
func (v *viewing) frostPlaces() []garden.Spot {
	station, _ := v.Settings.Spot(garden.StationSpot)
	if len(v.Settings.Spots) == 0 {
		return []garden.Spot{station}
	}
	return []garden.Spot{v.Settings.Spots[0], station}
}

// frostSection has the chances of frosts to come in spring and past in autumn.
func (v *viewing) frostSection() page.Section {
	var spring, autumn []chart.Curve
	var s page.Section
	for i, spot := range v.frostPlaces() {
		e := v.fields.At(spot)
		d := climate.DatesOf(e, 0, climate.WMO)
		// The marks are seasons as recorded, also where the chances are of resampled ones.
		counted := d
		if e.By == climate.ByWeather {
			counted = climate.DatesOf(v.fields.Move(climate.Recorded(v.Masked, v.Settings.Latitude, v.First, v.Last), spot), 0, climate.WMO)
		}
		late := e.Quantile(climate.Earliest(d.Spring), 0.5)
		tenth := e.Quantile(climate.Earliest(d.Spring), 0.9)
		if i == 0 && late.Known {
			s.Lead = fmt.Sprintf("At the spot \"%s\" the last frost of spring comes by %s in half the years, and after %s in 1 year in 10.",
				spot.Name, words.Day(v.Calendar, late.Value), words.Day(v.Calendar, tenth.Value))
		}
		spring = append(spring, frostCurve(e, spot.Name, frostRoles[i], d.Spring, counted.Spring, true))
		autumn = append(autumn, frostCurve(e, spot.Name, frostRoles[i], d.Autumn, counted.Autumn, false))
	}
	for _, half := range []struct {
		curves         []chart.Curve
		caption, label string
	}{
		{spring, "A frost still to come in spring", "a frost on this day or later in"},
		{autumn, "A frost already come in autumn", "a frost on this day or before in"},
	} {
		from, to, ok := frostSpan(half.curves)
		if !ok {
			s.Notes = append(s.Notes, half.caption+": not known, or no season has one.")
			continue
		}
		s.Figures = append(s.Figures, page.Figure{Caption: half.caption, Chart: chart.Curves{
			Title: half.caption, Desc: "By date, at each place, with its 90 % interval.", Calendar: v.Calendar,
			From: from, To: to, YLabel: half.label, Curves: half.curves}})
	}
	s.Notes = append(s.Notes, "A frost is a night at or below "+v.app.unit().Degrees(0)+" at the place. Each mark is one season of the record, at the share that counting them gives; a season without a frost has none. Lines go by the way to chances named above.")
	return s
}

// frostCurve counts, for each day, the seasons with a frost on it or later (in autumn,
// before); the recorded dates are its marks.
func frostCurve(e climate.Ensemble, name string, role chart.Role, dates, recorded []float64, spring bool) chart.Curve {
	c := chart.Curve{Name: name, Role: role}
	low, high := math.Inf(1), math.Inf(-1)
	for _, d := range dates {
		if !math.IsNaN(d) && !math.IsInf(d, 0) {
			low, high = min(low, d), max(high, d)
		}
	}
	if low > high {
		return c
	}
	out := make([]climate.Answer, len(dates))
	for x := low - 4; x <= high+4; x += 2 {
		for i, d := range dates {
			switch {
			case math.IsNaN(d):
				out[i] = climate.NotKnown
			case spring:
				out[i] = climate.AnswerOf(!math.IsInf(d, 0) && d >= x)
			default:
				out[i] = climate.AnswerOf(d <= x)
			}
		}
		ch := e.Chance(out)
		c.X = append(c.X, x)
		c.Chance = append(c.Chance, shareOf(ch, ch.Share))
		c.Low, c.High = append(c.Low, shareOf(ch, ch.Low)), append(c.High, shareOf(ch, ch.High))
	}
	for _, d := range recorded {
		if spring && math.IsInf(d, 1) {
			d = math.Inf(-1) // earlier than all
		}
		if !math.IsNaN(d) {
			c.Marks = append(c.Marks, d)
		}
	}
	return c
}

// frostSpan is the days that the curves need.
func frostSpan(curves []chart.Curve) (from, to climate.SeasonDay, ok bool) {
	for _, c := range curves {
		if len(c.X) == 0 || math.IsNaN(c.Chance[0]) {
			continue
		}
		a, b := climate.SeasonDay(c.X[0]), climate.SeasonDay(c.X[len(c.X)-1])
		if !ok {
			from, to, ok = a, b, true
		}
		from, to = min(from, a), max(to, b)
	}
	return from, to, ok
}
