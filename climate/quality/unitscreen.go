package quality

import (
	"math"

	"frostward/climate"
)

// calm bounds the standardised values, on a season day, that do not speak for any of the other
// units: nearly all, so that the evidence of five units need seldom be worked out.
type calm struct {
	low, high float64 // low above high where there are none
}

// calms are the bounds of a record.
type calms [2][climate.YearDays]calm

func (c *calm) holds(z float64) bool { return z >= c.low && z <= c.high || z != z }

// calmZ is the furthest that a calm value is from the usual: beyond, tails are cut off, and the
// formulas of calmAt do not hold.
const calmZ = 5.0

// anyUnitStretch tells, without keeping the evidence, whether there may be any to be found. The
// running sums that segments looks at stand at naught most of the time, and stay there on a day
// of calm values.
func (r *record) anyUnitStretch() bool {
	u, z, in := r.usuals(), r.standardised(), r.calm()
	var sum [3][len(otherUnits)]float64
	live := false // a sum is above naught
	for i, d := range r.day {
		n, x := z[Tmin][i], z[Tmax][i]
		if !live && in[Tmin][d].holds(n) && in[Tmax][d].holds(x) {
			continue
		}
		var day [3][len(otherUnits)]float64
		if n == n {
			day[Tmin] = u.unitEvidence(Tmin, d, r.v[Tmin][i], n)
		}
		if x == x {
			day[Tmax] = u.unitEvidence(Tmax, d, r.v[Tmax][i], x)
		}
		live = false
		for k := range otherUnits {
			enough := 0.999 * otherUnits[k].evidence // for what is rounded otherwise
			day[Both][k] = day[Tmin][k] + day[Tmax][k]
			for e := range sum {
				s := sum[e][k] + day[e][k]
				if s > 0 {
					live = true
				} else {
					s = 0
				}
				if sum[e][k] = s; s >= enough {
					return true
				}
			}
		}
	}
	return false
}

// unitEvidence returns the evidence of a value, z standardised, for each of the units.
func (u *usuals) unitEvidence(e Element, d int16, v, z float64) (out [len(otherUnits)]float64) {
	mean, per := u.mean[e][d], u.per[e][d]
	is := -min(z*z/2, 18)
	for k := range otherUnits {
		o := &otherUnits[k]
		as := (o.scale*v + o.offset - mean) * per
		out[k] = stretches[k] - min(as*as/2, 18) - is // logDensity, without its branch
		if o.scale < 0 && v < 0 {                     // it has its sign
			out[k] = -18
		}
	}
	return out
}

// calm works out the bounds.
func (r *record) calm() *calms {
	u, c := r.usuals(), &r.work.calm
	for e := range c {
		for d := range c[e] {
			c[e][d] = calmAt(u.mean[e][d], u.sd[e][d])
		}
	}
	return c
}

// calmAt works out the bounds from the usual. With z the standardised value, a value in another
// unit would be standardised to scale*z + g, and its evidence is
// log|scale| + (z² - (scale*z + g)²)/2: a parabola, which must not be above naught.
func calmAt(mean, sd float64) calm {
	none := calm{1, -1}
	if math.IsNaN(sd) {
		return none
	}
	c := calm{-calmZ, calmZ}
	for k := range otherUnits {
		o := &otherUnits[k]
		if o.scale < 0 {
			continue
		}
		g := ((o.scale-1)*mean + o.offset) / sd
		a, b := (1-o.scale*o.scale)/2, -o.scale*g
		root := math.Sqrt(b*b - 4*a*(stretches[k]-g*g/2+1e-6)) // the little is for rounding; NaN where there is no root
		first, last := (-b-root)/(2*a), (-b+root)/(2*a)
		switch {
		case a > 0: // calm between the roots
			if math.IsNaN(root) {
				return none
			}
			c.low, c.high = max(c.low, first), min(c.high, last)
		case math.IsNaN(root): // calm everywhere
		case first < 0: // calm outside them, of which the first is the higher
			c.low = max(c.low, first)
		default:
			c.high = min(c.high, last)
		}
	}
	if mean < 0 { // a lost sign: the evidence is -2 v mean / sd² above naught, and none below it
		c.high = min(c.high, -mean/sd-1e-6)
	}
	return c
}
