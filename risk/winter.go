package risk

import (
	"math"
	"slices"

	"frostward/climate"
)

// Winter. Three things of a season change what its nights do to a hardy crop, and none of them
// hangs on the day it was planted, so they are worked out once a season.

// nights are what frost is judged by in a season: its own nights; for a crop that winter hardens, as much warmer as it
// was hardier the day before; for one that lives below ground, the soil; for a tall one, the air at its height.
// Exposed turns the same round for a night to come.
type nights struct {
	lows []float64

	hard []float64 // climate.Hardening; nil of most crops
	gain float64   // by how much full hardening lowers what harms the crop, °C

	lift   *[climate.SpanLen]lift // nil of most crops
	screen []float64              // the air's minima in a screen
	stand  float64                // how its stand differs from the usual one, in standard deviations
}

// at is the night that ends on a day of the span.
func (n *nights) at(d int) float64 {
	low := n.lows[d]
	if n.hard != nil && d > 0 {
		low += n.gain * min(1, n.hard[d-1])
	}
	if n.lift != nil {
		if gap := max(0, n.screen[d]-low); gap != 0 { // none at the station
			low += n.lift[d].in(n.stand) * gap
		}
	}
	return low
}

func (f *Field) nights(i int) nights {
	s, c := &f.Ensemble.Seasons[i], &f.Crop
	n := nights{lows: s.Lows()}
	switch {
	case f.earth != nil:
		n.lows = f.earth.whole(i)
	case f.hard != nil:
		n.hard, n.gain = f.hard.whole(i), c.KillHardened.Value-c.KillWinter.Value
	case f.lift != nil:
		n.lift, n.stand = f.lift, f.stand(i)
		n.screen, _ = s.Air()
	}
	return n
}

// met are the nights as a planting meets them that is out, or up, on a day: one that winter hardens begins to harden there.
func (f *Field) met(i int, up climate.SeasonDay) nights {
	n := f.nights(i)
	if f.softFrom(i, up) {
		n.hard = climate.Hardening(nil, f.Ensemble.Seasons[i], int(up-climate.SpanFrom))
	}
	return n
}

// softFrom says whether it matters that a planting was not out, or up, before a day: what stood out is hardened by then,
// and a night that harms one that is not comes before that has worn off.
func (f *Field) softFrom(i int, up climate.SeasonDay) bool {
	day := int(up - climate.SpanFrom)
	if f.hard == nil || day < 1 || day >= climate.SpanLen {
		return false
	}
	n, c := f.nights(i), &f.Crop
	harms := math.Inf(-1)
	for _, t := range []float64{c.SetBackSeedling.Value, c.SetBackHardened.Value, c.KillHardened.Value, c.KillReady.Value} {
		harms = max(harms, orElse(t+f.coldIn(i), harms))
	}
	for d := day - 1; d < climate.SpanLen-1 && n.hard[d] > 0; d++ {
		if n.lows[d+1] <= harms {
			return true
		}
	}
	return false
}

// winters is the ground's part of what nights asks: what crops share in its air.
func (g *Ground) winters(f *Field) {
	seasons, c := g.e.Seasons, &f.Crop
	switch {
	case c.BelowCm.Known():
		if g.earth == nil {
			g.earth = wholeRows(len(seasons), func(row []float64, i int) { climate.GroundTemperatures(row, seasons[i], 0) })
		}
		f.earth = g.earth
	case c.KillWinter.Known():
		if g.hard == nil {
			g.hard = wholeRows(len(seasons), func(row []float64, i int) { climate.Hardening(row, seasons[i], 0) })
		}
		f.hard = g.hard
	case c.Height.Known():
		f.lift = liftsOf(c)
	}
	if !c.ColdDays.Known() {
		return
	}
	f.notBefore = make([]climate.SeasonDay, len(seasons))
	for i := range f.notBefore {
		f.notBefore[i] = f.afterTheCold(i)
	}
}

// ground is the soil of season i under a mulch so many cm thick, by day, °C.
func (f *Field) ground(i int, mulch float64) []float64 {
	k := [2]float64{float64(i), mulch}
	t, ok := f.mulched.Load(k)
	if !ok {
		t, _ = f.mulched.LoadOrStore(k, climate.GroundTemperatures(nil, f.Ensemble.Seasons[i], mulch))
	}
	return t.([]float64)
}

// Judged is the field's ensemble with what frost is judged by for its nights.
func (f *Field) Judged() climate.Ensemble {
	e := f.Ensemble
	e.Seasons = slices.Clone(e.Seasons)
	for i := range e.Seasons {
		nights := f.nights(i)
		judged := make([]float64, climate.SpanLen)
		for d := range judged {
			judged[d] = nights.at(d)
		}
		e.Seasons[i].Night = judged
	}
	return e
}

// hardier is by how many °C a state of climate.Hardening lowers what harms the crop.
func (f *Field) hardier(hardening float64) float64 {
	return (f.Crop.KillHardened.Value - f.Crop.KillWinter.Value) * min(1, hardening)
}

// Exposed returns what a planting stands in the night that ends on a day of season i, judged as
// Play judges it, as limits for the air's minimum at its spot. The days of the season up to the
// one before are looked at; picked says that it is known to be ready. It is false for seed that is
// not up yet; where days are missing, that is taken to last DefaultEmergenceDays.
func (f *Field) Exposed(i int, p Planting, sd climate.SeasonDay, picked bool) (Exposed, bool) {
	l := f.pass(i, &p, p.Start, p.Start, min(sd, f.bolts), false)
	known := l.outcome.Known
	if !known {
		l.outcome = begun()
	}
	if picked {
		l.outcome.ReadyOn = min(l.outcome.ReadyOn, sd-1)
	}
	x := Exposed{Label: p.Label(), Spread: killSpread(p.Crop)}
	if !l.up {
		if known || sd <= p.Start+DefaultEmergenceDays {
			return x, false
		}
		l.seedling = p.Start + DefaultEmergenceDays + SeedlingDays + 1
	}
	x.SetBack, x.Kill = l.stands(sd)
	s, d := f.Ensemble.Seasons[i], int(min(sd, climate.SpanTo)-climate.SpanFrom)
	lows, highs := s.Air()
	switch {
	case p.Crop.BelowCm.Known():
		mulch := p.Cover.Mulch
		soil, last := f.ground(i, mulch), d-1 // the last day with a temperature
		for last > 0 && math.IsNaN(soil[last]) {
			last--
		}
		half := (highs[last] - lows[last]) / 2 // the day's mean above its minimum, as on that day
		x.SetBack = climate.AirForGround(soil[last], x.SetBack, s.Under(last, mulch)) - half
		x.Kill = climate.AirForGround(soil[last], x.Kill, s.Under(last, mulch)) - half
	case p.Crop.KillWinter.Known():
		up := p.Start
		if !p.Raised {
			up = min(l.outcome.EmergedOn, p.Start+DefaultEmergenceDays)
		}
		gain := f.hardier(climate.Hardening(nil, s, max(0, int(up-climate.SpanFrom)))[d-1])
		x.SetBack, x.Kill = x.SetBack-gain, x.Kill-gain
	case p.Crop.Height.Known():
		gain := f.liftOn(i, sd)
		x.SetBack, x.Kill = x.SetBack-gain, x.Kill-gain
	}
	x.SetBack = max(orElse(x.SetBack, x.Kill), x.Kill)
	return x, true
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
