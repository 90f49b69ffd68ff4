package generator

import (
	"math"

	"frostward/climate"
)

const year = climate.YearDays

// folded is a record laid out in years of 365 days, 29 February folded away as
// climate.SeasonOf does, from the first season it touches to the last. Day i is day i%365 of
// season first+i/365.
type folded struct {
	first int // calendar year of the first season
	years int
	t     [2][]float64 // Tmin and Tmax in °C, NaN where missing
}

func fold(rec climate.Series, cal climate.Calendar) folded {
	first, last := climate.SeasonsIn(rec, cal)
	f := folded{first: first, years: last - first + 1}
	n := f.years * year
	f.t[0], f.t[1] = make([]float64, n), make([]float64, n)
	d := cal.Day(first, 0)
	// The calendar day of each fold is one further on, or two after a 28 February that a
	// 29th follows; asking for the date of each day would cost more than the fit.
	leap := leapDay(d)
	for i := range n {
		tmin, tmax := rec.At(d)
		d++
		if d == leap {
			n, x := rec.At(d)
			tmin, tmax = lower(tmin, n), higher(tmax, x)
			d++
			leap = leapDay(d)
		}
		if tmin > tmax { // a fault of the record; no season with it is believed
			tmin, tmax = math.NaN(), math.NaN()
		}
		f.t[0][i], f.t[1][i] = tmin, tmax
	}
	return f
}

// leapDay returns the first 29 February on or after a day.
func leapDay(d climate.Day) climate.Day {
	for y := d.Year(); ; y++ {
		if climate.IsLeap(y) {
			if l := climate.NewDay(y, 2, 29); l >= d {
				return l
			}
		}
	}
}

func lower(a, b float64) float64 {
	if math.IsNaN(a) || b < a {
		return b
	}
	return a
}

func higher(a, b float64) float64 {
	if math.IsNaN(a) || b > a {
		return b
	}
	return a
}

// fillShort bridges gaps of up to most days in a straight line, in place. Longer gaps stay.
func fillShort(z []float64, most int) {
	last := -1 // the last day that has a value
	for i, v := range z {
		if math.IsNaN(v) {
			continue
		}
		if gap := i - last - 1; last >= 0 && gap > 0 && gap <= most {
			for j := last + 1; j < i; j++ {
				z[j] = z[last] + (v-z[last])*float64(j-last)/float64(i-last)
			}
		}
		last = i
	}
}
