package quality

import "fmt"

// gapSize is the hole in the sorted values of a month of the year, °C.
const gapSize = 10.0

// gaps flags the values beyond a hole in the values of a month of the year, searched from the
// median outwards (Durre et al. 2010).
func gaps(r *record) []Flag {
	var out []Flag
	for _, e := range []Element{Tmin, Tmax} {
		var months [13]tenths
		for i, v := range r.v[e] {
			if inWorld(v) {
				months[r.month[i]].add(tenth(v), 1)
			}
		}
		var low, high [13]float64
		for m := range months {
			low[m], high[m] = months[m].holes()
		}
		for i, v := range r.v[e] {
			if m := r.month[i]; v <= low[m] || v >= high[m] {
				out = append(out, r.flag(i, e, fmt.Sprintf("%.1f °C is parted from the others of its month of the year by a hole of %.0f °C or more", v, gapSize)))
			}
		}
	}
	return out
}

// holes returns the values at and beyond which lies a hole, on either side of the median.
func (t *tenths) holes() (low, high float64) {
	low, high = worldLow-1, worldHigh+1
	if t.n < outlierValues {
		return low, high
	}
	const margin = 0.05 // of a value rounded to its tenth
	mid := t.median()
	for k, last := mid, mid; k < len(t.count); k++ {
		if t.count[k] == 0 {
			continue
		}
		if float64(k-last) >= 10*gapSize {
			high = t.value(k) - margin
			break
		}
		last = k
	}
	for k, last := mid, mid; k >= 0; k-- {
		if t.count[k] == 0 {
			continue
		}
		if float64(last-k) >= 10*gapSize {
			low = t.value(k) + margin
			break
		}
		last = k
	}
	return low, high
}
