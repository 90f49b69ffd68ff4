package risk

import (
	"math"

	"frostward/climate"
)

// Winter. Three things of a season change what its nights do to a hardy crop, and none of them
// hangs on the day it was planted, so they are worked out once a season.

// nightsFor returns what frost is judged by: the nights of the season; for a crop that winter
// hardens, as much warmer as it is then hardier; for one that lives below ground, the soil.
func (g *Ground) nightsFor(f *Field, i int) []float64 {
	s, c := &f.Ensemble.Seasons[i], &f.Crop
	switch {
	case c.BelowCm.Known():
		return climate.GroundTemperatures(nil, f.Ensemble.Seasons[i])
	case c.KillWinter.Known():
		h := climate.Hardening(nil, *s)
		gain := c.KillHardened.Value - c.KillWinter.Value
		for d, low := range s.Lows() {
			h[d] = low + gain*min(1, h[d])
		}
		return h
	}
	return s.Lows()
}

// winters is the ground's part of a field: its nights, and from when on a crop that must have
// cold first is ready.
func (g *Ground) winters(f *Field) {
	f.nights = make([][]float64, len(f.Ensemble.Seasons))
	for i := range f.nights {
		f.nights[i] = g.nightsFor(f, i)
	}
	if !f.Crop.ColdDays.Known() {
		return
	}
	f.notBefore = make([]climate.SeasonDay, len(f.Ensemble.Seasons))
	for i := range f.notBefore {
		f.notBefore[i] = f.afterTheCold(i)
	}
}

// coldFrom is the day from which cold counts: 1 September, or half a year on in the south.
const coldFrom climate.SeasonDay = 243

// afterTheCold is the first day on which a crop has had its cold and grown as much after it as it
// wants. It is of the season's first winter; a day not known gives no cold and no growth.
func (f *Field) afterTheCold(i int) climate.SeasonDay {
	s := &f.Ensemble.Seasons[i]
	days := f.growth.row(i, int(coldFrom-climate.SpanFrom), climate.SpanLen)
	want := f.Crop.GrowthAfterCold.Value
	var cold, after float64
	for sd := coldFrom; sd < climate.SpanTo; sd++ {
		d := int(sd - climate.SpanFrom)
		if cold < f.Crop.ColdDays.Value {
			cold += climate.Chilling((s.Tmin[d] + s.Tmax[d]) / 2)
			continue
		}
		if worth := days[d]; !math.IsNaN(worth) {
			after += worth
		}
		if !(after < want) {
			return sd
		}
	}
	return climate.NeverDay
}

// waits says whether a start of the crop waits for cold: one before the winter does.
func (f *Field) waits(start climate.SeasonDay) bool {
	return f.notBefore != nil && start < climate.YearDays
}
