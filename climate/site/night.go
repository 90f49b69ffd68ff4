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
	Fall   float64           // °C, how far Tmin is below the minimum of the morning before, less 1 °C; 0 where not known
	Day    climate.SeasonDay // the day it ends in
}

// NightOf returns the night that ends on a day of a record, NaN where missing.
func NightOf(rec climate.Series, c climate.Calendar, d climate.Day) Night {
	tmin, after := rec.At(d)
	last, before := rec.At(d - 1)
	_, sd := c.Locate(d)
	return Night{Tmin: tmin, Before: before, After: after, Fall: fall(last, tmin), Day: sd}
}

// fall is a night's Fall; on a fairly clear spring night the minimum is about 1 °C below
// that of the morning before.
func fall(last, tmin float64) float64 {
	if f := last - tmin - 1; f == f {
		return f
	}
	return 0
}

// widest is the range above which the gap grows no more, °C. At KNMI station 283 the
// mean gap at 10 cm in March to June is 3.3 °C for ranges of 16-18 °C, 3.5 for 18-20
// and 3.4 above (460 nights).
const widest = 18

// usualRange stands in where neither day's maximum is known, °C: about the mean in
// spring. rangeSpread is the standard deviation there.
const (
	usualRange  = 10
	rangeSpread = 3.6
)

// Range returns how far the temperature falls to the night's minimum, °C: from the
// mean of the two days around it, so that it means the same whether a station's
// observer resets the thermometer in the morning or at midnight, and from the one
// known where the other is missing. It is 0 to 18; NaN where neither is known.
func (n Night) Range() float64 { return rangeOf(n.Tmin, n.Before, n.After) }

func rangeOf(tmin, before, after float64) float64 {
	x := (before + after) / 2
	if x != x { // NaN: one is not known, or neither
		if x = before; x != x {
			x = after
		}
	}
	return min(widest, max(0, x-tmin))
}

// Terms is the number of coefficients of the gap, spot minus station: on a fairly clear
// night in mid-April that is 3 °C colder than usual (a range of 10 °C, a fall of 1 °C);
// its change for each °C of range, from the mean of the year to midwinter, for each °C
// above the usual minimum of the date, and for each °C of Fall.
const Terms = 5

// TermsOf returns what the coefficients are multiplied by, and the night's share of
// the spread; the station's usual minima are needed to know how cold a night is for its date.
func TermsOf(n Night, u Usual) (x [Terms]float64, share float64) {
	r, day := n.usable(), n.Day.Fold()
	return [Terms]float64{1, r - 10, winter[day], n.Tmin - u.on(day) + 3, n.Fall}, spreadShare(r, day)
}

// usable is the range, or the usual one where it is not known.
func (n Night) usable() float64 { return orUsual(n.Range()) }

func orUsual(r float64) float64 {
	if r != r {
		return usualRange
	}
	return r
}

// winter is 1 in mid-January (mid-July in the south), -1 half a year on. A table, as the
// cosine was half the time of ToSpot.
var winter, wider = func() (t, w [climate.YearDays]float64) {
	for i := range t {
		t[i] = math.Cos(2 * math.Pi * float64(i-15) / climate.YearDays)
		w[i] = math.Exp(0.15 * t[i])
	}
	return t, w
}()

// spreadShare is how much of the full spread a night has: 0.4 when overcast and the air
// well mixed, all of it from a range of 6.7 °C; 8 % more in mid-March than in mid-April,
// 11 % less in June. Fitted to 29 German, Dutch and Irish records: a spread that is the
// same on all nights gives every mild night in late May its chance of frost, and dated
// last frosts 3 to 6 days too late.
func spreadShare(r float64, day int) float64 { return min(1, 0.4+0.09*r) * wider[day] }
