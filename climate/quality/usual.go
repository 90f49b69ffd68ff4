package quality

import "frostward/climate"

// usuals is what is usual for both elements on each day of the year: the biweight mean and
// standard deviation.
type usuals struct {
	mean, sd [2][climate.YearDays]float64
	per      [2][climate.YearDays]float64 // 1/sd
}

// usual is worked out when first asked for, and kept: the values that later rules take away
// are few, and both figures are robust.
func (r *record) usuals() *usuals {
	if r.known == nil {
		r.known = new(usuals)
		for _, e := range []Element{Tmin, Tmax} {
			r.known.mean[e], r.known.sd[e] = r.usual(e)
			for d, sd := range r.known.sd[e] {
				r.known.per[e][d] = 1 / sd
			}
		}
	}
	return r.known
}

// z returns how far a value is from the usual of a day, in standard deviations; NaN where that
// is not known.
func (r *record) z(e Element, i int, v float64) float64 {
	u, d := r.usuals(), r.day[i]
	return (v - u.mean[e][d]) * u.per[e][d]
}

// logDensity is the logarithm of a normal density with a tail that stops falling at six
// standard deviations, so that one wild value cannot outweigh all others.
func logDensity(z float64) float64 {
	if z = z * z / 2; z > 18 {
		return -18
	}
	return -z
}
