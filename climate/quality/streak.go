package quality

import (
	"fmt"
	"math"
)

const streakDays = 20 // identical values in a row

// streaks flags runs of one value over many measured days; missing days neither break a run
// nor count.
func streaks(r *record) []Flag {
	var out []Flag
	for _, e := range []Element{Tmin, Tmax} {
		from, days, value := 0, 0, math.NaN()
		for i := 0; i <= r.len(); i++ {
			v := math.Inf(1) // after the last day
			if i < r.len() {
				v = r.v[e][i]
			}
			if v == value {
				days++
			} else if v == v {
				if days >= streakDays {
					for k := from; k < i; k++ {
						if r.v[e][k] == value {
							out = append(out, r.flag(k, e, fmt.Sprintf("%.1f °C on %d days in a row", value, days)))
						}
					}
				}
				from, days, value = i, 1, v
			}
		}
	}
	return out
}
