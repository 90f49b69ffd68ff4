package risk

import (
	"math"

	"frostward/climate"
	"frostward/climate/night"
	"frostward/climate/site"
)

// What is believed of the methods' errors at the station before any is logged, °C.
// Those of a public forecast are as measured at 84 US cities in 2021, whose errors had a
// standard deviation of 1.7 to 1.9 °C, means of 0.5 (root mean square over the cities) and slopes of
// 0.10 about 1; those of the formulas are stated. The log soon outweighs them.
const (
	ForecastSpread = 1.8 // of one night
	forecastBias   = 0.5 // of a place's mean
	formulaBias    = 1.2
	faoSpread      = 1.5
	slopeSD        = 0.1 // of a method's slope about 1
	beliefWorth    = 10  // nights
)

// recall is how many of the latest logged nights a correction looks back on: forecasts
// are improved, beds dug over and thermometers moved, so what erred ten years ago says
// little. Two springs of a diligent grower.
const recall = 60

// recent are the nights a correction looks back on. Past is in order of dates.
func (in TonightIn) recent() []PastNight {
	return in.Past[max(0, len(in.Past)-recall):]
}

// stationNight is the night at the station if its minimum is as said. The maximum of
// the day to come, not known on the evening before, is put halfway between the day's
// and the usual: at KNMI station 283, in April to June and September and October, that
// does as well as a regression, and better than the day's alone (the gap's error is
// 1.14 against 1.15 °C, and 1.08 if the morrow were known).
func stationNight(said float64, e Evening, u Usual, d climate.SeasonDay) site.Night {
	n := site.Night{Tmin: said, Before: e.Tmax, After: (e.Tmax + u.Tmax) / 2, Day: d}
	if math.IsNaN(e.Tmax) {
		n.Before, n.After = u.Tmax, u.Tmax
	}
	return n
}

// formula is a method as a function of an evening: its number, and what is believed of
// its spread. NaN: the evening lacks something.
type formula func(e Evening, u Usual) (said, spread float64)

// learn corrects a method for the station by what it said on past evenings and what
// came at the spot.
func (in TonightIn) learn(kind MethodKind, bias, overdone float64, f formula, lacks Lack) Method {
	m := Method{Kind: kind, Station: true}
	said, spread := f(in.Evening, in.Usual)
	if m.Said = said; math.IsNaN(said) {
		m.Lack = lacks
		return m
	}
	n := stationNight(said, in.Evening, in.Usual, in.Day)
	slope, open := in.Spot.Slope(n), in.Spot.Open(n)
	gap := math.Sqrt(max(0, sq(in.Spot.SD(n))-open*open))
	var past []night.Past
	for _, p := range in.recent() {
		was, _ := f(p.Evening, p.Usual)
		at := in.Spot.Mean(stationNight(was, p.Evening, p.Usual, p.Day))
		past = append(past, night.Past{Said: at, Came: p.Came, Usual: p.Usual.Low})
	}
	c := night.Correct(past, night.Belief{
		Bias: math.Hypot(bias*slope, open), Slope: slopeSD, Overdone: overdone,
		Spread: math.Hypot(spread*slope, gap), Worth: beliefWorth,
	})
	m.Tmin, m.SD, m.Open = c.Apply(in.Spot.Mean(n), in.Usual.Low)
	m.Nights = c.Nights
	return m
}

func (in TonightIn) forecast() Method {
	spread, overdone := forecastErrors(in.Lead, in.Usual.SD)
	return in.learn(ByForecast, forecastBias, overdone, func(e Evening, _ Usual) (float64, float64) {
		return e.Forecast, spread
	}, LacksForecast)
}

// forecastErrors is what is believed of forecasts so many nights ahead, before any are logged, for
// a date whose minima have a standard deviation of usual °C: the spread of their errors in °C, once
// drawn toward the usual, and the share of their departures from it that is too much.
//
// The error of a forecast as it stands grows from 1.8 °C by the square of the days, to about 2.8 °C
// four days and 3.6 °C six days later (from memory of published verifications; at 84 US cities in
// 2021 it grew by 0.13 °C on the first day, here by 0.07). Where its variance has grown by x, of a
// forecast that departs from the usual as much as nights do, the share x/2s² of its departures is
// error, and drawn in by that it errs by x-x²/4s² more than at first.
func forecastErrors(lead int, usual float64) (spread, overdone float64) {
	x := 0.27 * float64(lead*lead)
	if !(usual > 0) {
		return math.Sqrt(ForecastSpread*ForecastSpread + x), 0
	}
	x = min(x, 2*usual*usual)
	return math.Sqrt(ForecastSpread*ForecastSpread + x - x*x/(4*usual*usual)), x / (2 * usual * usual)
}

// mckenzie takes the dew point of the evening for that of the afternoon where only it
// is known; the air's moisture changes little between them on a settled day.
func (in TonightIn) mckenzie() Method {
	return in.learn(ByMcKenzie, formulaBias, 0, func(e Evening, _ Usual) (float64, float64) {
		dew := e.NoonDew
		if math.IsNaN(dew) {
			dew = e.DewPoint
		}
		return night.McKenzie(e.Tmax, dew, e.Cloud, e.Wind)
	}, LacksAfternoon)
}

func (in TonightIn) craddock() Method {
	return in.learn(ByCraddock, formulaBias, 0, func(e Evening, _ Usual) (float64, float64) {
		return night.CraddockPritchard(e.Noon, e.NoonDew, e.Cloud, e.Wind)
	}, LacksNoon)
}

// fao is the FAO's regression on the garden's own clear, still nights. It speaks of the
// spot itself.
func (in TonightIn) fao() Method {
	m := Method{Kind: ByFAO, Said: math.NaN()}
	var nights []night.Radiation
	for _, p := range in.Past {
		if p.radiation() && !math.IsNaN(p.Reading+p.DewPoint+p.Came) {
			nights = append(nights, night.Radiation{Evening: p.Reading, DewPoint: p.DewPoint, Tmin: p.Came})
		}
	}
	m.Nights = len(nights)
	switch {
	case math.IsNaN(in.Reading + in.DewPoint):
		m.Lack = LacksEvening
		return m
	case !in.radiation():
		m.Lack = LacksClearStill
		return m
	}
	f, err := night.FitFAO(nights)
	if err != nil {
		m.Lack, m.Fault = LacksNights, err
		return m
	}
	m.Said = f.Tmin(in.Reading, in.DewPoint)
	m.Tmin = m.Said
	m.SD, m.Open = f.SD(in.Reading)
	// A line through a dozen nights may by chance fit all too well.
	n := float64(f.Nights)
	m.SD = math.Sqrt((n*sq(m.SD) + beliefWorth*sq(faoSpread)) / (n + beliefWorth))
	return m
}

// cooling carries two readings of the evening on to sunrise. It speaks of the spot.
func (in TonightIn) cooling() Method {
	m := Method{Kind: ByCooling, Said: math.NaN()}
	said := func(e Evening) float64 {
		if !e.radiation() {
			return math.NaN()
		}
		return night.SquareRootMin(e.Reading, e.Later, e.LaterHours, e.Length)
	}
	switch {
	case math.IsNaN(in.Reading + in.Later + in.LaterHours + in.Length):
		m.Lack = LacksTwoReadings
		return m
	case !in.radiation():
		m.Lack = LacksClearStill
		return m
	}
	if m.Said = said(in.Evening); math.IsNaN(m.Said) {
		m.Lack = LacksLaterInTime
		return m
	}
	var past []night.Past
	for _, p := range in.recent() {
		past = append(past, night.Past{Said: said(p.Evening), Came: p.Came, Usual: p.Usual.Low})
	}
	c := night.Correct(past, night.Belief{Bias: formulaBias, Slope: slopeSD, Spread: night.SquareRootSD(in.LaterHours, in.Length), Worth: beliefWorth})
	m.Tmin, m.SD, m.Open = c.Apply(m.Said, in.Usual.Low)
	m.Nights = c.Nights
	return m
}

// usual is the minimum usual for the date at the spot.
func (in TonightIn) usual() Method {
	m := Method{Kind: ByUsualDate, Seasons: in.Usual.Seasons, Said: in.Usual.Low, Tmin: in.Usual.Low, SD: in.Usual.SD}
	if in.Usual.Seasons < climate.MinSeasons {
		m.Lack = LacksSeasons
		return m
	}
	m.Open = in.Usual.SD / math.Sqrt(float64(in.Usual.Seasons))
	return m
}

func sq(x float64) float64 { return x * x }
