package quality

import (
	"fmt"
	"math"
)

// swapFits is how many standard deviations from the usual the values may be, exchanged, to be
// taken for exchanged ones (our rule).
const swapFits = 4

// swapped flags both values of a day with its maximum below its minimum, where they would do
// the other way round. The published rule, which comes after it, would take away the one that
// contradicts more of its neighbours and keep the other, which is as wrong.
func swapped(r *record) []Flag {
	var out []Flag
	for i := range r.len() {
		n, x := r.v[Tmin][i], r.v[Tmax][i]
		if x < n && math.Abs(r.z(Tmin, i, x)) < swapFits && math.Abs(r.z(Tmax, i, n)) < swapFits {
			out = append(out, r.flag(i, Both, fmt.Sprintf("tmin %.1f °C is above tmax %.1f; they would do the other way round", n, x)))
		}
	}
	return out
}
