package main

import (
	"fmt"
	"math"

	"frostward/climate"
	"frostward/climate/stat"
	"frostward/cmd/internal/chart"
	"frostward/cmd/internal/page"
	"frostward/cmd/internal/words"
)

// The days over which the page adds up warmth: from March to October, and the same
// half-year and more in the south.
const fanFrom, fanTo climate.SeasonDay = 59, 304

// warmthSection is this season's degree-days against all past ones.
func (v *viewing) warmthSection() page.Section {
	sum := climate.DegreeDays{Base: 10, Upper: math.NaN()}
	u := v.app.unit()
	base := u.Degrees(sum.Base)
	seasons := climate.Recorded(v.Masked, v.Settings.Latitude, v.First, v.Last)
	fan := chart.Fan{Title: "Degree-days", Desc: "Degree-days above " + base + ", added up from the start of March, in the station's screen.", Calendar: v.Calendar,
		From: fanFrom, To: fanTo, YLabel: "degree-days above " + base, ThisName: fmt.Sprintf("%d so far", v.season)}
	now, last := v.Calendar.Locate(v.Record.Last())
	for _, s := range seasons.Seasons {
		total := running(sum, s, u.Difference(1))
		if s.Year == now && last < fanTo {
			if n := int(last-fanFrom) + 1; n > 0 {
				fan.This = total[:n]
			}
			continue
		}
		if !math.IsNaN(total[len(total)-1]) {
			fan.Past = append(fan.Past, total)
		}
	}
	fan.ThisName = fmt.Sprintf("%d so far", now)
	if len(fan.Past) < climate.MinSeasons {
		return page.Section{NotKnown: fmt.Sprintf("the record has %s complete enough to add up, and at least %d are needed", words.Plural(len(fan.Past), "season"), climate.MinSeasons)}
	}
	s := page.Section{Lead: warmthWords(fan), Figures: []page.Figure{{Caption: "Degree-days above " + base + " from the start of March", Chart: fan}}}
	s.Notes = append(s.Notes, fmt.Sprintf("In the station's screen, by the single sine; %d past seasons. Gaps of up to three days take the mean of their neighbours.", len(fan.Past)))
	return s
}

// running is the sum to each day of the fan in a unit of so many °C-days; NaN from where too
// much is missing.
func running(sum climate.DegreeDays, s climate.Season, scale float64) []float64 {
	daily := climate.FillShort.Filled(sum.Days(s.Tmin, s.Tmax))
	out := make([]float64, fanTo-fanFrom)
	total := 0.0
	for i := range out {
		total += scale * daily[int(fanFrom-climate.SpanFrom)+i]
		out[i] = total
	}
	return out
}

// warmthWords says where this season stands among the past.
func warmthWords(f chart.Fan) string {
	n := len(f.This)
	if n == 0 || math.IsNaN(f.This[n-1]) {
		return ""
	}
	var then []float64
	below := 0
	for _, p := range f.Past {
		then = append(then, p[n-1])
		if p[n-1] < f.This[n-1] {
			below++
		}
	}
	return fmt.Sprintf("By %s this season has %.0f degree-days, where the middle of %d past seasons had %.0f; %d of them had less.",
		f.Calendar.Words(f.From+climate.SeasonDay(n-1)), f.This[n-1], len(then), stat.Quantile(then, 0.5), below)
}
