package site

import (
	"math"

	"frostward/climate"
)

// Night is one night at the station.
type Night struct {
	Tmin   float64           // °C, the night's minimum
	Before float64           // °C, maximum of the day before; NaN where not known
	After  float64           // °C, maximum of the day it ends in; NaN where not known
	Day    climate.SeasonDay // the day it ends in
}

// NightOf returns the night that ends on a day of a record, NaN where missing.
func NightOf(rec climate.Series, c climate.Calendar, d climate.Day) Night {
	tmin, after := rec.At(d)
	_, before := rec.At(d - 1)
	_, sd := c.Locate(d)
	return Night{Tmin: tmin, Before: before, After: after, Day: sd}
}

// widest is the range above which the gap grows no more, °C. At KNMI station 283 the
// mean gap at 10 cm in March to June is 3.3 °C for ranges of 16-18 °C, 3.5 for 18-20
// and 3.4 above (460 nights).
const widest = 18

// usualRange stands in where neither day's maximum is known, °C: the mean at KNMI
// station 283, March to June. rangeSpread is the standard deviation there.
const (
	usualRange  = 11
	rangeSpread = 3.6
)

// Range returns how far the temperature falls to the night's minimum, °C: from the
// mean of the two days around it, so that it means the same whether a station's
// observer resets the thermometer in the morning or at midnight, and from the one
// known where the other is missing. It is 0 to 18; NaN where neither is known.
func (n Night) Range() float64 {
	x := (n.Before + n.After) / 2
	switch {
	case math.IsNaN(n.Before):
		x = n.After
	case math.IsNaN(n.After):
		x = n.Before
	}
	if math.IsNaN(x) || math.IsNaN(n.Tmin) {
		return math.NaN()
	}
	return min(widest, max(0, x-n.Tmin))
}

// Terms is the number of coefficients: the gap on a night without any range, its
// change for each °C of range, in midwinter against the mean of the year, and for
// each °C of the minimum above 0 °C.
const Terms = 4

// terms returns what the coefficients are multiplied by, and the night's share of
// the spread.
func (n Night) terms() (x [Terms]float64, share float64) {
	r := n.usable()
	return [Terms]float64{1, r, winter[n.Day.Fold()], n.Tmin}, spreadShare(r)
}

// usable is the range, or the usual one where it is not known.
func (n Night) usable() float64 {
	r := n.Range()
	if math.IsNaN(r) {
		return usualRange
	}
	return r
}

// winter is 1 in midwinter, -1 half a year on. A table, as the cosine was half the
// time of ToSpot.
var winter = func() (t [climate.YearDays]float64) {
	for i := range t {
		t[i] = math.Cos(2 * math.Pi * float64(i) / climate.YearDays)
	}
	return t
}()

// spreadShare is how much of the full spread a night has: little when the range is
// small and the air well mixed, all of it from 10 °C up. At KNMI station 283 the
// standard deviation of the gap about the line, for ranges of 2-4, 4-6, ... 10-12 and
// 12-14 °C, is 0.5, 0.7, 1.0, 1.1, 1.2 and 1.2 °C.
func spreadShare(r float64) float64 { return min(1, (2+r)/12) }
