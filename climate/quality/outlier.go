package quality

import (
	"fmt"
	"math"
)

const outlierZ = 6.0 // biweight standard deviations

// outliers flags values too many biweight standard deviations from the biweight mean of the
// days within a week of their day of the year.
func outliers(r *record) []Flag {
	var out []Flag
	for e, all := range r.standardised() {
		for i, z := range all {
			if math.Abs(z) >= outlierZ {
				out = append(out, r.flag(i, Element(e), fmt.Sprintf("%.1f °C is %.1f s.d. from the %.1f usual then", r.v[e][i], z, r.usuals().mean[e][r.day[i]])))
			}
		}
	}
	return out
}
