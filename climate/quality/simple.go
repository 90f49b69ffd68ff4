package quality

import (
	"fmt"
	"math"
)

// zeroF is 0 °F in °C as records round it.
const zeroF = -17.8

// naught flags days whose two values are both 0 °C or both 0 °F.
func naught(r *record) []Flag {
	var out []Flag
	for i := range r.len() {
		n, x := r.v[Tmin][i], r.v[Tmax][i]
		if isNaught(n, x) {
			out = append(out, r.flag(i, Both, fmt.Sprintf("both are %.1f °C", n)))
		}
	}
	return out
}

func isNaught(n, x float64) bool {
	return n == 0 && x == 0 || math.Abs(n-zeroF) < 0.05 && math.Abs(x-zeroF) < 0.05
}

// inWorld tells whether a value is measured and within the world's records.
func inWorld(v float64) bool { return v >= worldLow && v <= worldHigh }

// bounds flags values outside the world's records.
func bounds(r *record) []Flag {
	var out []Flag
	for _, e := range []Element{Tmin, Tmax} {
		for i, v := range r.v[e] {
			if v < worldLow || v > worldHigh {
				out = append(out, r.flag(i, e, fmt.Sprintf("%.1f °C is outside %.1f to %.1f", v, worldLow, worldHigh)))
			}
		}
	}
	return out
}

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

// spikes flags values far from both neighbours, on the same side.
func spikes(r *record) []Flag {
	var out []Flag
	for _, e := range []Element{Tmin, Tmax} {
		for i, v := range r.v[e] {
			before, after := r.at(e, i-1), r.at(e, i+1)
			if v-before >= spikeSize && v-after >= spikeSize || before-v >= spikeSize && after-v >= spikeSize {
				out = append(out, r.flag(i, e, fmt.Sprintf("%.1f °C between %.1f and %.1f", v, before, after)))
			}
		}
	}
	return out
}

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
