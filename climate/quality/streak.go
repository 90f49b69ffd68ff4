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
		var run []int
		end := func() {
			if len(run) >= streakDays {
				for _, i := range run {
					out = append(out, r.flag(i, e, fmt.Sprintf("%.1f °C on %d days in a row", r.v[e][i], len(run))))
				}
			}
			run = run[:0]
		}
		for i, v := range r.v[e] {
			if math.IsNaN(v) {
				continue
			}
			if len(run) > 0 && r.v[e][run[0]] != v {
				end()
			}
			run = append(run, i)
		}
		end()
	}
	return out
}
