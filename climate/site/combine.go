package site

import (
	"math"

	"frostward/climate"
)

// Station is a record with the place of the garden seen from it.
type Station struct {
	Record climate.Series
	Place  Place
}

// nearness is a station's weight by place alone, before the log says how well it fits: on 21
// gardens of one upland with three stations each, weights by nearness did better than the
// nearest alone or equal ones (1.057 times the own record's CRPS with 30 mornings, against
// 1.068 and 1.062), and with the log's word 1.054.
func (w Place) nearness() float64 {
	return 1 / sq(0.3+math.Abs(w.Km)/20+math.Abs(w.Rise)/100)
}

// Weights are how much each station counts, adding up to 1: by nearness, and inversely by the
// square of what the log leaves between it and the garden.
func Weights(stations []Station, c climate.Calendar, readings []Reading, p Prior) []float64 {
	w := make([]float64, len(stations))
	var all float64
	for i, s := range stations {
		w[i] = s.Place.nearness()
		if at := p.At(s.Place); len(stations) > 1 && !at.Identity() {
			// Nearness stays in: few readings pull the spread little from the prior's.
			w[i] /= sq(FitModel(s.Record, c, readings, at).Night)
		}
		all += w[i]
	}
	for i := range w {
		w[i] /= all
	}
	return w
}

// Combine is the weighted mean of stations as one, over all days that any of them has. Where
// one has a gap, the others stand in for it, set right by what is usual between them on that
// day of the year; the mean is at the weighted place.
func Combine(stations []Station, c climate.Calendar, weights []float64) Station {
	if len(stations) == 1 {
		return stations[0]
	}
	first, last := stations[0].Record.First, stations[0].Record.Last()
	var out Station
	for i, s := range stations {
		first, last = min(first, s.Record.First), max(last, s.Record.Last())
		out.Place.Km += weights[i] * s.Place.Km
		out.Place.Rise += weights[i] * s.Place.Rise
	}
	out.Record = climate.NewSeries(first, int(last-first)+1)
	out.Record.Snow = snowOf(stations, weights, out.Record)
	lows, highs := make([]Usual, len(stations)), make([]Usual, len(stations))
	for i, s := range stations {
		lows[i] = UsualOf(s.Record, c)
		highs[i] = usualOf(s.Record.Tmax, s.Record.First, c)
	}
	for d := first; d <= last; d++ {
		_, sd := c.Locate(d)
		i := int(d - first)
		out.Record.Tmin[i] = mean(stations, weights, lows, sd, func(s climate.Series) float64 { t, _ := s.At(d); return t })
		out.Record.Tmax[i] = mean(stations, weights, highs, sd, func(s climate.Series) float64 { _, t := s.At(d); return t })
	}
	return out
}

// snowOf is the snow of the weightiest station that has any, on the days of a record.
func snowOf(stations []Station, weights []float64, rec climate.Series) []float64 {
	best := -1
	for i, s := range stations {
		if s.Record.Snow != nil && (best < 0 || weights[i] > weights[best]) {
			best = i
		}
	}
	if best < 0 {
		return nil
	}
	snow := make([]float64, rec.Len())
	for i := range snow {
		snow[i] = stations[best].Record.SnowOn(rec.First + climate.Day(i))
	}
	return snow
}

// mean is the usual value of the weighted place and the weighted departure of the stations that have the day.
func mean(stations []Station, weights []float64, usual []Usual, sd climate.SeasonDay, at func(climate.Series) float64) float64 {
	var centre, sum, have float64
	for i, s := range stations {
		u := usual[i].At(sd)
		centre += weights[i] * u
		if t := at(s.Record); !math.IsNaN(t) {
			sum += weights[i] * (t - u)
			have += weights[i]
		}
	}
	if have == 0 {
		return math.NaN()
	}
	return centre + sum/have
}
