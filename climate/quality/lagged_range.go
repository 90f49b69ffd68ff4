package quality

import (
	"fmt"
	"math"
)

const laggedRange = 40.0 // °C between tmax and the tmin of the day or one beside, or the other way round

// lagged flags a maximum far above the minima around it, and a minimum far below the maxima.
func lagged(r *record) []Flag {
	var out []Flag
	for i := range r.len() {
		if r.v[Tmax][i]-r.v[Tmin][i] < laggedRange-0.1 {
			continue // the day's own other value is near enough; less a little, as below is rounded otherwise
		}
		high, low := math.Inf(-1), math.Inf(1)
		for j := i - 1; j <= i+1; j++ {
			if n := r.at(Tmin, j); n > high {
				high = n
			}
			if x := r.at(Tmax, j); x < low {
				low = x
			}
		}
		if x := r.v[Tmax][i]; x >= high+laggedRange && !math.IsInf(high, -1) {
			out = append(out, r.flag(i, Tmax, fmt.Sprintf("%.1f °C with minima of at most %.1f around", x, high)))
		}
		if n := r.v[Tmin][i]; n <= low-laggedRange && !math.IsInf(low, 1) {
			out = append(out, r.flag(i, Tmin, fmt.Sprintf("%.1f °C with maxima of at least %.1f around", n, low)))
		}
	}
	return out
}
