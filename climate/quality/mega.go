package quality

import (
	"fmt"
	"math"
)

// mega flags minima above every maximum of their month of the year and maxima below every
// minimum, over a record of at least outlierValues values.
func mega(r *record) []Flag {
	var highest, lowest [13]float64
	var count [13]int
	for m := range highest {
		highest[m], lowest[m] = math.Inf(-1), math.Inf(1)
	}
	for i, m := range r.month {
		if x := r.v[Tmax][i]; x > highest[m] {
			highest[m] = x
		}
		if n := r.v[Tmin][i]; n < lowest[m] {
			lowest[m] = n
		}
		if !math.IsNaN(r.v[Tmax][i]) && !math.IsNaN(r.v[Tmin][i]) {
			count[m]++
		}
	}
	var out []Flag
	for i, m := range r.month {
		if count[m] < outlierValues {
			continue
		}
		if n := r.v[Tmin][i]; n > highest[m] {
			out = append(out, r.flag(i, Tmin, fmt.Sprintf("%.1f °C is above the month's highest maximum, %.1f", n, highest[m])))
		}
		if x := r.v[Tmax][i]; x < lowest[m] {
			out = append(out, r.flag(i, Tmax, fmt.Sprintf("%.1f °C is below the month's lowest minimum, %.1f", x, lowest[m])))
		}
	}
	return out
}
