package quality

import (
	"fmt"
	"math"
)

// gaps flags the values beyond a hole in the values of a month of the year, searched from the
// median outwards (Durre et al. 2010).
func gaps(r *record) []Flag {
	var out []Flag
	for _, e := range []Element{Tmin, Tmax} {
		var months [13]*tenths
		for m := range months {
			months[m] = newTenths()
		}
		for i, m := range r.month {
			if v := r.v[e][i]; !math.IsNaN(v) {
				months[m].add(v, 1)
			}
		}
		var low, high [13]int // bins at and beyond which lies a hole
		for m, t := range months {
			low[m], high[m] = -1, math.MaxInt
			if t.n >= outlierValues {
				low[m], high[m] = t.holes(int(10 * gapSize))
			}
		}
		for i, m := range r.month {
			v := r.v[e][i]
			if math.IsNaN(v) {
				continue
			}
			if b := bin(v); b <= low[m] || b >= high[m] {
				out = append(out, r.flag(i, e, fmt.Sprintf("%.1f °C is parted from the others of its month of the year by a hole of %.0f °C or more", v, gapSize)))
			}
		}
	}
	return out
}

// holes returns the last value's bin below a hole of a size in bins, and the first one above,
// on either side of the median; -1 and MaxInt where there is none.
func (t *tenths) holes(size int) (low, high int) {
	low, high = -1, math.MaxInt
	mid := t.median()
	for b, last := mid+1, mid; b < t.to; b++ {
		if t.count[b] == 0 {
			continue
		}
		if b-last >= size {
			high = b
			break
		}
		last = b
	}
	for b, last := mid-1, mid; b >= t.from; b-- {
		if t.count[b] == 0 {
			continue
		}
		if last-b >= size {
			low = b
			break
		}
		last = b
	}
	return low, high
}
