package quality

import (
	"fmt"
	"math"
)

const crossAllow = 1.0 // °C between a night and the day before

// internal flags days whose values contradict each other or those of the day beside, each day
// the worst first: a value that is in more contradictions than any other is taken to be the
// wrong one, and what then remains is looked at again (Durre et al. 2010, with an allowance of
// 1 °C between days).
func internal(r *record) []Flag {
	var out []Flag
	n := r.len()
	for i := 0; i < n; i++ {
		for {
			if !r.crossed(i) {
				break
			}
			// The values that take part: this day's two, the next day's and the day before's.
			worst, most, tie := place{}, 0, false
			for _, p := range []place{{i, Tmin}, {i, Tmax}, {i + 1, Tmin}, {i + 1, Tmax}, {i - 1, Tmin}, {i - 1, Tmax}} {
				switch c := r.contradictions(p); {
				case c > most:
					worst, most, tie = p, c, false
				case c == most && c > 0:
					tie = true
				}
			}
			if tie && worst.i == i && r.v[Tmin][i] > r.v[Tmax][i] {
				out = append(out, r.flag(i, Both, fmt.Sprintf("tmin %.1f °C is above tmax %.1f", r.v[Tmin][i], r.v[Tmax][i])))
				r.v[Tmin][i], r.v[Tmax][i] = math.NaN(), math.NaN()
				continue
			}
			out = append(out, r.flag(worst.i, worst.e, fmt.Sprintf("%.1f °C contradicts %s", r.v[worst.e][worst.i], [...]string{"", "a value of its day or the days beside", "two values of its day and the days beside"}[most])))
			r.v[worst.e][worst.i] = math.NaN()
		}
	}
	return out
}

type place struct {
	i int
	e Element
}

// crossed says whether a day contradicts itself, or the night after it is warmer than it.
func (r *record) crossed(i int) bool {
	return r.v[Tmax][i] < r.v[Tmin][i] || r.at(Tmin, i+1) > r.v[Tmax][i]+crossAllow
}

// contradictions counts what a value contradicts: a minimum the maxima of its own day and of
// the day before, a maximum the minima of its own day and of the day after.
func (r *record) contradictions(p place) int {
	v := r.at(p.e, p.i)
	if math.IsNaN(v) {
		return 0
	}
	n := 0
	if p.e == Tmin {
		if v > r.at(Tmax, p.i) {
			n++
		}
		if v > r.at(Tmax, p.i-1)+crossAllow {
			n++
		}
		return n
	}
	if v < r.at(Tmin, p.i) {
		n++
	}
	if v < r.at(Tmin, p.i+1)-crossAllow {
		n++
	}
	return n
}
