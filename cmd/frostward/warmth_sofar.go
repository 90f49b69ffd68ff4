package main

import (
	"math"

	"frostward/climate"
)

// warmthSoFar compares a season still under way with the past ones to the same day.
type warmthSoFar struct {
	season int
	last   climate.SeasonDay // last day measured
	sum    climate.Warmth
	past   climate.Quantile // median of the other seasons to that day
	below  int              // of them, seasons with less by then
	of     int
}

// warmthSoFar is nil unless the record ends within the days of the sum in the last season
// used.
func (s *session) warmthSoFar(w *warmthFound, recorded climate.Ensemble) *warmthSoFar {
	season, sd := s.Calendar.Locate(s.Masked.Last())
	if season < s.Last { // the last season used may be the one the sum's winter ends in
		sd += climate.YearDays
		season++
	}
	if season != s.Last || sd < w.days.From || sd >= w.days.To || len(recorded.Seasons) < 2 {
		return nil
	}
	f := &warmthSoFar{season: season, last: sd}
	n := len(recorded.Seasons) - 1
	days := climate.Window{From: w.days.From, To: sd}
	f.sum = w.sum.Of(recorded.Seasons[n], days, climate.FillShort)
	if !f.sum.Known() {
		return nil
	}
	past := recorded
	past.Seasons = recorded.Seasons[:n]
	sums := climate.Sums(past.DegreeDays(w.sum, days, climate.FillShort))
	f.past = past.Quantile(sums, 0.5)
	for _, v := range sums {
		if math.IsNaN(v) {
			continue
		}
		f.of++
		if v < f.sum.Sum {
			f.below++
		}
	}
	return f
}

// lightSpan is the part of the year with days of at least so many hours.
type lightSpan struct {
	hours float64
	climate.LightSpan
}

// days is how many days of the year it has.
func (l lightSpan) days() int {
	switch {
	case l.None:
		return 0
	case l.Whole:
		return climate.YearDays
	}
	return int(l.Last-l.First) + 1
}

// lightDay is a day of the season with its length.
type lightDay struct {
	day   climate.SeasonDay
	hours float64
}

// light finds when the days are how long, and the longest and shortest.
func (s *session) light() (spans []lightSpan, longest, shortest lightDay) {
	lat := s.Settings.Latitude
	for _, h := range []float64{9, climate.LeafLightHours, 12, 14, 16} {
		spans = append(spans, lightSpan{h, s.Calendar.DaysOfLight(lat, h)})
	}
	shortest.hours = 25
	for i, h := range s.Calendar.DayLengths(lat) {
		if h > longest.hours {
			longest = lightDay{climate.SeasonDay(i), h}
		}
		if h < shortest.hours {
			shortest = lightDay{climate.SeasonDay(i), h}
		}
	}
	return spans, longest, shortest
}
