package generator

import (
	"math"

	"frostward/climate"
)

const year = climate.YearDays

// folded is a record set out in years of 365 days, 29 February folded away as
// climate.SeasonOf does, from the first season it touches to the last. Day i is day i%365 of
// season first+i/365.
type folded struct {
	first int // calendar year of the first season
	years int
	t     [2][]float64 // Tmin and Tmax in °C, NaN where missing
	snow  []float64    // cm; nil where there is none
}

func fold(rec climate.Series, cal climate.Calendar) folded {
	first, last := climate.SeasonsIn(rec, cal)
	f := folded{first: first, years: last - first + 1}
	n := f.years * year
	f.t[0], f.t[1] = make([]float64, n), make([]float64, n)
	climate.Fold(rec, cal.Day(first, 0), f.t[0], f.t[1])
	f.snow = climate.FoldSnow(rec, cal.Day(first, 0), n)
	for i, tmin := range f.t[0] {
		if tmin > f.t[1][i] { // a fault of the record; no season with it is believed
			f.t[0][i], f.t[1][i] = math.NaN(), math.NaN()
		}
	}
	return f
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
