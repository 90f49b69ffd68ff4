package quality

import (
	"fmt"
	"math"
)

// gaps flags the values beyond a hole in the values of a month of the year, searched from the
// median outwards (Durre et al. 2010). Months in which spread sees no room for a hole are not
// looked at.
func gaps(r *record) []Flag {
	var out []Flag
	s, t := r.spread(), &r.work.counts
	for _, e := range []Element{Tmin, Tmax} {
		for month := 1; month <= 12; month++ {
			if !mayHaveGap(s.cells[e][month]) {
				continue
			}
			t.reset()
			for _, m := range r.months {
				if m.month == month {
					t.putKnown(r.bins[e][m.from:m.to])
				}
			}
			if t.n < outlierValues {
				continue
			}
			low, high := t.holes(int(10 * gapSize)) // bins at and beyond which lies a hole
			if low < 0 && high == math.MaxInt {
				continue
			}
			for _, m := range r.months {
				if m.month != month {
					continue
				}
				for i, b := range r.bins[e][m.from:m.to] {
					if b >= 0 && (int(b) <= low || int(b) >= high) {
						i += m.from
						out = append(out, r.flag(i, e, fmt.Sprintf("%.1f °C is parted from the others of its month of the year by a hole of %.0f °C or more", r.v[e][i], gapSize)))
					}
				}
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
