package site

import (
	"math"

	"frostward/climate"
)

// What readings under shelter are worth: nights and days running hang together (autocorrelation 0.66, and
// 0.4 by day, at lag 1 in a polytunnel), and months differ.
const (
	nightsWorth = 0.3 / 1.7 // of a night in a run of them
	dayWorth    = 0.4       // of a day's maximum
	monthsDrift = 0.35      // °C
)

// LearnCover moves what a cover gains, °C, by nights with one reading under it and one beside it: gain and its
// spread between such covers, from the nights' spread and the differences measured. Ten nights in a row
// count as about two.
func LearnCover(gain, night, between float64, measured []float64) (float64, float64) {
	if len(measured) == 0 || !(between > 0) {
		return gain, between
	}
	var sum float64
	for _, d := range measured {
		sum += d
	}
	n := math.Max(1, float64(len(measured))*nightsWorth)
	w := 1 / (sq(night)/n + sq(monthsDrift))
	precision := w + 1/sq(between)
	return (w*sum/float64(len(measured)) + gain/sq(between)) / precision, 1 / math.Sqrt(precision)
}

// DayReading is a day's maximum read at the spot.
type DayReading struct {
	Day  climate.Day
	Tmax float64 // °C
}

// WithDays moves a sheltered spot's gain by day by maxima read there: what they gained over the station
// against maxGain. A thermometer in the sun reads too high, so that for warmth the gain is pulled half-way
// back to the kind's; for harm it is taken as read.
func (m Model) WithDays(station climate.Series, c climate.Calendar, latitude float64, days []DayReading) Model {
	if !(m.Day > 0) {
		return m
	}
	ra := c.ExtraterrestrialRadiations(latitude)
	prior := 1 / sq(m.Day*m.DaySD)
	top, bottom := m.Day*prior, prior
	for _, d := range days {
		tmin, tmax := station.At(d.Day)
		_, sd := c.Locate(d.Day)
		said := maxGain(tmin+m.Days, tmax+m.Days, ra[sd.Fold()])
		got := d.Tmax - tmax - m.Days
		if math.IsNaN(said+got) || math.Abs(got-m.Day*said) > 25 { // a slip of the pen
			continue
		}
		top += dayWorth * got * said / sq(maxGainSD)
		bottom += dayWorth * said * said / sq(maxGainSD)
	}
	factor := math.Max(0.05, top/bottom)
	m.Hot = factor
	half := (factor + m.Day) / 2
	m.DaySD = math.Hypot(1/math.Sqrt(bottom)/factor, (factor-m.Day)/2/half)
	m.Day = half
	return m
}

// Heat is the maximum at the plants, °C, and its standard deviation, on a day whose extremes at the
// station are known; ra is the sun's energy above the air.
func (m Model) Heat(tmin, tmax, ra float64) (mean, sd float64) {
	factor := m.Day
	if m.Hot > 0 {
		factor = m.Hot
	}
	gain := factor * maxGain(tmin+m.Days, tmax+m.Days, ra)
	return tmax + m.Days + gain, math.Hypot(maxGainSD, m.DaySD*gain)
}
