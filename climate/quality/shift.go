package quality

import (
	"fmt"
	"math"
)

// shiftEvidence and shiftDrop are the limits for a shift of one element against the other (our
// rule; 15 was the most in 230 station-years, but for 109 in Boulder from February 1938 to
// September 1940, whose maxima do seem to have been moved).
const (
	shiftEvidence = 25
	shiftDrop     = 20
)

// shifts asks about stretches in which the maxima go with the minima of the day before or
// after, and not with those of their own day as in the rest of the record. A shift of both
// elements together leaves nothing to see within one station's record.
func (r *record) shifts() []Question {
	z := r.standardised()
	month := r.follow(z)
	var out []Question
	for _, k := range []int{-1, 1} {
		evidence := make([]float64, r.len())
		for i := range evidence {
			f := month[r.month[i]]
			// The maximum of day i is that of day i-k when it has been moved k days on.
			evidence[i] = f.unlike(z, i, 0) - f.unlike(z, i, k)
		}
		for _, s := range segments(evidence, shiftEvidence, shiftDrop) {
			word := "later"
			if k < 0 {
				word = "earlier"
			}
			out = append(out, r.question(s, Tmax, "shift",
				fmt.Sprintf("for %d days the maxima go with the minima as if they stood a day %s than in the rest of the record", s.to-s.from+1, word),
				"were the dates of one of the two moved, or the hour of reading changed?"))
		}
	}
	return out
}

// follows is how a maximum follows from the minima of the day before, of its day and of the
// day after, all standardised, in one month of the year.
type follows struct {
	weight [3]float64
	sd     float64
}

// follow fits them by least squares, each month with its neighbours.
func (r *record) follow(z standard) (out [13]follows) {
	type sums struct {
		m      [3][4]float64
		xx, n_ float64
	}
	var by [13]sums
	for i := range r.len() {
		x, n := z[Tmax][i], minima(z, i)
		if !(math.Abs(x) < 5 && math.Abs(n[0]) < 5 && math.Abs(n[1]) < 5 && math.Abs(n[2]) < 5) {
			continue
		}
		s := &by[r.month[i]]
		for a := range n {
			for b := range n {
				s.m[a][b] += n[a] * n[b]
			}
			s.m[a][3] += n[a] * x
		}
		s.xx += x * x
		s.n_++
	}
	for m := 1; m <= 12; m++ {
		var t sums
		for _, k := range []int{(m+10)%12 + 1, m, m%12 + 1} {
			for a := range t.m {
				for b := range t.m[a] {
					t.m[a][b] += by[k].m[a][b]
				}
			}
			t.xx += by[k].xx
			t.n_ += by[k].n_
		}
		out[m].sd = math.NaN()
		if t.n_ < outlierValues {
			continue
		}
		rows := make([][]float64, 3)
		for a := range rows {
			rows[a] = append(rows[a], t.m[a][:]...)
			rows[a][a] += 1e-6
		}
		left := t.xx
		for a, w := range gauss(rows) {
			out[m].weight[a] = w
			left -= w * t.m[a][3]
		}
		out[m].sd = math.Sqrt(max(left/t.n_, 1e-6))
	}
	return out
}

// minima returns those of the day before, the day and the day after, NaN where missing.
func minima(z standard, i int) [3]float64 {
	h := z.around(i)
	return [3]float64{h[0], h[2], h[4]}
}

// unlike returns half the squared standardised distance of a maximum from what the minima
// around a day k days before lead to expect, 8 at most; NaN where something is missing.
func (f follows) unlike(z standard, i, k int) float64 {
	x, n := z[Tmax][i], minima(z, i-k)
	d := (x - f.weight[0]*n[0] - f.weight[1]*n[1] - f.weight[2]*n[2]) / f.sd
	if d = d * d / 2; d > 8 {
		return 8
	}
	return d
}
