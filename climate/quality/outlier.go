package quality

import (
	"fmt"
	"math"

	"frostward/climate"
)

// outliers flags values too many biweight standard deviations from the biweight mean of the
// days within a week of their day of the year.
func outliers(r *record) []Flag {
	var out []Flag
	for _, e := range []Element{Tmin, Tmax} {
		for i, v := range r.v[e] {
			if z := r.z(e, i, v); math.Abs(z) >= outlierZ {
				out = append(out, r.flag(i, e, fmt.Sprintf("%.1f °C is %.1f s.d. from the %.1f usual then", v, z, r.usuals().mean[e][r.day[i]])))
			}
		}
	}
	return out
}

// usual returns the biweight mean and standard deviation for each day of the year; NaN where
// too few values lie within the window.
func (r *record) usual(e Element) (mean, sd [climate.YearDays]float64) {
	byDay := r.byDay(e)
	t := newTenths()
	addDay := func(d int, by int32) {
		for _, v := range byDay[(d+climate.YearDays)%climate.YearDays] {
			t.add(v, by)
		}
	}
	for d := -outlierWindow; d < outlierWindow; d++ {
		addDay(d, 1)
	}
	for d := range mean {
		addDay(d+outlierWindow, 1)
		mean[d], sd[d] = math.NaN(), math.NaN()
		if t.n >= outlierValues {
			mean[d], sd[d] = t.biweight()
		}
		addDay(d-outlierWindow, -1)
	}
	return mean, sd
}

// byDay gathers an element's values within the world's bounds by day of the year.
func (r *record) byDay(e Element) (byDay [climate.YearDays][]float64) {
	var count [climate.YearDays]int
	for i, d := range r.day {
		if inWorld(r.v[e][i]) {
			count[d]++
		}
	}
	all := make([]float64, r.len())
	for d, n := range count {
		byDay[d], all = all[:0:n], all[n:]
	}
	for i, d := range r.day {
		if v := r.v[e][i]; inWorld(v) {
			byDay[d] = append(byDay[d], v)
		}
	}
	return byDay
}

// biweight returns the biweight mean and standard deviation (Lanzante 1996, Int. J. Climatol.
// 16, 1197-1226, from memory): values weighted by (1-u²)² with u their distance from the
// median over c median absolute deviations. The deviation is NaN where more than half the
// values are the same.
func (t *tenths) biweight() (mean, sd float64) {
	mid := t.median()
	mad := float64(t.mad(mid))
	if mad == 0 {
		return value(mid), math.NaN()
	}
	var sw, swx, num, den float64 // in bins about the median
	reach := int(biweightC * mad)
	for b := max(t.from, mid-reach); b < min(t.to, mid+reach+1); b++ {
		if t.count[b] == 0 {
			continue
		}
		n, x := float64(t.count[b]), float64(b-mid)
		u := x / (biweightC * mad)
		if v := 1 - u*u; v > 0 {
			sw += n * v * v
			swx += n * v * v * x
			num += n * x * x * v * v * v * v
			den += n * v * (1 - 5*u*u)
		}
	}
	return value(mid) + swx/sw/10, math.Sqrt(float64(t.n)*num) / math.Abs(den) / 10
}
