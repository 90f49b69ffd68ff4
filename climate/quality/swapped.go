package quality

import (
	"fmt"
	"math"
	"slices"

	"frostward/climate"
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

// swappedDays is how many days with the maximum below the minimum, without one the right way
// round between them, make a question (our rule).
const swappedDays = 5

// swappedRuns asks whether two columns have changed places, where nothing else explains it.
func (r *record) swappedRuns(s climate.Series) []Question {
	var out []Question
	run := segment{to: -1}
	n := 0
	end := func() {
		if n >= swappedDays && !slices.ContainsFunc(r.found, func(m misread) bool { return m.overlaps(run) }) {
			q := r.question(run, Both, "swapped", fmt.Sprintf("tmin is above tmax on %d days in a row", n), "have the two columns changed places?")
			q.About, q.Masked = "swapped", true
			out = append(out, q)
		}
		n = 0
	}
	for i := range s.Tmin {
		switch a, b := s.Tmin[i], s.Tmax[i]; {
		case a > b:
			if n == 0 {
				run.from = i
			}
			run.to = i
			n++
		case a < b:
			end()
		}
	}
	end()
	return out
}
