package quality

import (
	"math"

	"frostward/climate"
)

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
		r.known = &r.work.usuals
		for _, e := range []Element{Tmin, Tmax} {
			r.known.mean[e], r.known.sd[e] = r.usual(e)
			for d, sd := range r.known.sd[e] {
				r.known.per[e][d] = 1 / sd
			}
		}
	}
	return r.known
}

// at returns how far a value is from the usual of a season day, in standard deviations.
func (u *usuals) at(e Element, d int16, v float64) float64 { return (v - u.mean[e][d]) * u.per[e][d] }

// z returns how far a value is from the usual of a day, in standard deviations; NaN where that
// is not known.
func (r *record) z(e Element, i int, v float64) float64 {
	return r.usuals().at(e, r.day[i], v)
}

// standard holds the standardised values, NaN where missing.
type standard [2][]float64

// standardised is worked out once, for all who look at the values so; it is the record's own,
// and mask keeps it in step.
func (r *record) standardised() standard {
	if len(r.zs[Tmin]) == r.len() {
		return r.zs
	}
	u := r.usuals()
	far := false
	for e := range r.zs {
		r.zs[e] = sized(r.zs[e], r.len())
		z, day, mean, per := r.zs[e], r.day, &u.mean[e], &u.per[e]
		for i, v := range r.v[e] {
			d := day[i]
			x := (v - mean[d]) * per[d]
			z[i] = x
			if math.Abs(x) >= outlierZ {
				far = true
			}
		}
	}
	r.far = far
	return r.zs
}

// logDensity is the logarithm of a normal density with a tail that stops falling at six
// standard deviations, so that one wild value cannot outweigh all others.
func logDensity(z float64) float64 {
	if z = z * z / 2; z > 18 {
		return -18
	}
	return -z
}
