package site

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"frostward/climate"
	"frostward/climate/stat"
)

// Summary is a fit in figures for a reader.
type Summary struct {
	Prior     Prior
	Readings  int     // given
	Used      int     // with a station value for the night
	Seasons   int     // that the used ones come from
	Doubtful  []Doubt // used ones that count for less than half, or not at all
	Clear     Gap     // on the fifth of nights with the widest range
	Dull      Gap     // on the fifth of nights with the narrowest
	NightSD   float64 // standard deviation from night to night on clear nights, °C
	SeasonSD  float64 // from season to season, °C: a fixed share of NightSD
	Sharpened float64 // how many times narrower than the prior alone Clear's interval is
	Place     Gap     // of Clear, the part that is the garden's place; no doubt of it at the station
	Bed       Gap     // and the part that is the height above the ground and what surrounds it
	Worth     Worth
}

// Gap is spot minus station for one kind of night.
type Gap struct {
	Range     float64 // °C: the range of the day that it holds for
	Mean      float64 // °C
	Low, High float64 // 90 % interval of the long-run mean, °C
	Nights    int     // readings on nights of at least, or at most, that range
}

// Worth says by what share ten more mornings would narrow the doubt of Clear.
type Worth struct {
	Clear, Dull float64 // after clear, still nights, and after dull ones, in the spring last logged
	Spring      float64 // after clear nights of another spring
}

// Doubt is a reading that does not fit the others.
type Doubt struct {
	Day    climate.Day
	Gap    float64 // measured, °C
	Wanted float64 // by the fit, °C
	Weight float64 // 0 to 1
}

func summarise(m, before Model, p Prior, station climate.Series, c climate.Calendar, rows []row, seasons, given int) Summary {
	s := Summary{Prior: p, Readings: given, Used: len(rows), Seasons: seasons, NightSD: m.Night, SeasonSD: math.Sqrt(p.lasting().log) * m.Night}
	narrow, wide := usualRanges(station, c)
	s.Dull, s.Clear = m.gap(narrow), m.gap(wide)
	for _, r := range rows {
		if r.x[1]+10 <= narrow {
			s.Dull.Nights++
		}
		if r.x[1]+10 >= wide {
			s.Clear.Nights++
		}
		if r.weight < 0.5 {
			s.Doubtful = append(s.Doubtful, Doubt{Day: r.day, Gap: r.y, Wanted: dot(m.Coef, r.x), Weight: r.weight})
		}
	}
	was := before.gap(wide)
	s.Sharpened = (was.High - was.Low) / (s.Clear.High - s.Clear.Low)
	return s
}

// usualRanges returns the ranges that a fifth of the nights stay below and that a fifth
// exceed, over the record's last ten years; those of KNMI station 283 where it has fewer
// than 30 nights.
func usualRanges(station climate.Series, c climate.Calendar) (narrow, wide float64) {
	var ranges []float64
	for d := max(station.First, station.Last()-3652); d <= station.Last(); d++ {
		if r := NightOf(station, c, d).Range(); !math.IsNaN(r) {
			ranges = append(ranges, r)
		}
	}
	if len(ranges) < 30 {
		return 5, 12
	}
	return stat.Quantile(ranges, 0.2), stat.Quantile(ranges, 0.8)
}

// gap is the gap at a range, in mid-April on a night 3 °C colder than usual for the date,
// which is where ground frosts begin.
func (m Model) gap(r float64) Gap {
	x := [Terms]float64{1, r - 10}
	mean := dot(m.Coef, x)
	half := distuv.UnitNormal.Quantile(0.5+climate.Level/2) * math.Sqrt(m.lineVar(x))
	return Gap{Range: r, Mean: mean, Low: mean - half, High: mean + half}
}
