package climate

import "math"

// Fill works out the degree-days of a row of days into dst, as Day does of each; tmin and
// tmax are as long as dst. It is for methods that need no next day's minimum.
//
// A season's warmth for every crop of a plan is most of what a plan costs. For the single
// sine, the method of the catalogue, the choices that are the same for all days are made
// once, and what is left has no call in it.
func (g DegreeDays) Fill(dst, tmin, tmax []float64) {
	if g.Method.Double() {
		panic("climate: Fill has no next day's minimum")
	}
	tmin, tmax = tmin[:len(dst)], tmax[:len(dst)]
	if g.Method != SingleSine || g.Limit > Horizontal {
		for i := range dst {
			dst[i] = g.Day(tmin[i], tmax[i], math.NaN())
		}
		return
	}
	base, upper := g.Base, g.Upper
	if g.Limit == NoLimit {
		upper = math.NaN() // no day is above it
	}
	for i := range dst {
		low, high := tmin[i], tmax[i]
		if low > high {
			low, high = high, low
		}
		var d float64
		switch {
		case low >= base:
			d = (low+high)/2 - base // NaN where the maximum is
		case high > base:
			a := (high - low) / 2
			d = a * sineAbove((base-low)/a-1) // NaN where the minimum is
		case low != low || high != high:
			d = math.NaN()
		}
		if high > upper {
			d -= above(low, high, upper, true)
		}
		if d < 0 {
			d = 0
		}
		dst[i] = d
	}
}
