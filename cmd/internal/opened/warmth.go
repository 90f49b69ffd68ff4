package opened

import (
	"math"

	"frostward/climate"
	"frostward/climate/stat"
)

// Warmth is what the seasons bring of warmth and light: Of, Sum and Days are asked for, FindWarmth finds the rest.
type Warmth struct {
	Of      string // the crop the limits are for, "" for none
	Sum     climate.DegreeDays
	Days    climate.Window
	Years   []WarmthYear
	Seasons climate.Ensemble // what the chances are counted over

	// by FrostChances: in that share of seasons at least so much
	DegreeDays, HeatUnits, Growing []climate.Quantile
	Starts, Ends                   []climate.Quantile // of the growing season: on or before
	Trend                          Trend
	SoFar                          *WarmthSoFar
	Light                          []LightSpan
	Longest, Shortest              LightDay
}

// WarmthYear is one recorded season.
type WarmthYear struct {
	Season     int
	DegreeDays climate.Warmth
	HeatUnits  climate.Warmth
	HeatEnd    climate.SeasonDay
	Growing    climate.GrowingSeason
}

// FindWarmth counts what was asked for over the seasons in use.
func (g *Garden) FindWarmth(w *Warmth) error {
	in, err := g.Seasons()
	if err != nil {
		return err
	}
	w.Seasons = in.Ensemble
	recorded := climate.Recorded(g.Masked, g.Settings.Latitude, g.First, g.Last)
	dd := recorded.DegreeDays(w.Sum, w.Days, climate.FillShort)
	chu, ends := recorded.HeatUnits(climate.FillShort)
	grow := make([]climate.GrowingSeason, len(recorded.Seasons))
	seasons := make([]float64, len(dd))
	for i, y := range recorded.Seasons {
		grow[i] = climate.GrowingSeasonIn(g.Masked, g.Calendar, y.Year)
		w.Years = append(w.Years, WarmthYear{y.Year, dd[i], chu[i], ends[i], grow[i]})
		seasons[i] = float64(y.Year)
	}
	w.Trend.Trend, w.Trend.OK = stat.MannKendall(seasons, climate.Sums(dd), climate.Level)
	w.SoFar = g.warmthSoFar(w, recorded)
	if w.Seasons.By == climate.ByWeather {
		dd = w.Seasons.DegreeDays(w.Sum, w.Days, climate.FillShort)
		chu, _ = w.Seasons.HeatUnits(climate.FillShort)
		grow = w.Seasons.GrowingSeasons()
	}
	days, start, end := GrowingNumbers(grow)
	for _, c := range FrostChances {
		w.DegreeDays = append(w.DegreeDays, w.Seasons.Quantile(climate.Sums(dd), 1-c))
		w.HeatUnits = append(w.HeatUnits, w.Seasons.Quantile(climate.Sums(chu), 1-c))
		w.Growing = append(w.Growing, w.Seasons.Quantile(days, 1-c))
		w.Starts = append(w.Starts, w.Seasons.Quantile(start, c))
		w.Ends = append(w.Ends, w.Seasons.Quantile(end, c))
	}
	w.Light, w.Longest, w.Shortest = g.light()
	return nil
}

// GrowingNumbers are the growing season's days, start and end, one a season: NaN where not
// known or undefined, Never where it does not start, or does not end within the year.
func GrowingNumbers(grow []climate.GrowingSeason) (days, start, end []float64) {
	for _, g := range grow {
		d, s, e := g.Days, float64(g.Start), float64(g.End)
		switch g.State {
		case climate.GrowingNotKnown, climate.GrowingUndefined:
			s, e = math.NaN(), math.NaN()
		case climate.GrowingNever:
			s, e = climate.Never, math.NaN()
		case climate.GrowingToYearsEnd:
			e = climate.Never
		}
		days, start, end = append(days, d), append(start, s), append(end, e)
	}
	return days, start, end
}

// WarmthSoFar compares a season still under way with the past ones to the same day.
type WarmthSoFar struct {
	Season int
	Last   climate.SeasonDay // last day measured
	Sum    climate.Warmth
	Past   climate.Quantile // median of the other seasons to that day
	Below  int              // of them, seasons with less by then
	Of     int
}

// warmthSoFar is nil unless the record ends within the days of the sum in the last season
// used.
func (g *Garden) warmthSoFar(w *Warmth, recorded climate.Ensemble) *WarmthSoFar {
	season, sd := g.Calendar.Locate(g.Masked.Last())
	if season < g.Last { // the last season used may be the one the sum's winter ends in
		sd += climate.YearDays
		season++
	}
	if season != g.Last || sd < w.Days.From || sd >= w.Days.To || len(recorded.Seasons) < 2 {
		return nil
	}
	f := &WarmthSoFar{Season: season, Last: sd}
	n := len(recorded.Seasons) - 1
	days := climate.Window{From: w.Days.From, To: sd}
	f.Sum = w.Sum.Of(recorded.Seasons[n], days, climate.FillShort)
	if !f.Sum.Known() {
		return nil
	}
	past := recorded
	past.Seasons = recorded.Seasons[:n]
	sums := climate.Sums(past.DegreeDays(w.Sum, days, climate.FillShort))
	f.Past = past.Quantile(sums, 0.5)
	for _, v := range sums {
		if math.IsNaN(v) {
			continue
		}
		f.Of++
		if v < f.Sum.Sum {
			f.Below++
		}
	}
	return f
}

// LightSpan is the part of the year with days of at least so many hours.
type LightSpan struct {
	Hours float64
	climate.LightSpan
}

// Days is how many days of the year it has.
func (l LightSpan) Days() int {
	switch {
	case l.None:
		return 0
	case l.Whole:
		return climate.YearDays
	}
	return int(l.Last-l.First) + 1
}

// LightDay is a day of the season with its length.
type LightDay struct {
	Day   climate.SeasonDay
	Hours float64
}

// light finds when the days are how long, and the longest and shortest.
func (g *Garden) light() (spans []LightSpan, longest, shortest LightDay) {
	lat := g.Settings.Latitude
	for _, h := range []float64{9, climate.LeafLightHours, 12, 14, 16} {
		spans = append(spans, LightSpan{h, g.Calendar.DaysOfLight(lat, h)})
	}
	shortest.Hours = 25
	for i, h := range g.Calendar.DayLengths(lat) {
		if h > longest.Hours {
			longest = LightDay{climate.SeasonDay(i), h}
		}
		if h < shortest.Hours {
			shortest = LightDay{climate.SeasonDay(i), h}
		}
	}
	return spans, longest, shortest
}
