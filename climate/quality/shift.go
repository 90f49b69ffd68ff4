package quality

import (
	"fmt"
	"math"
)

// shiftEvidence and shiftDrop are the limits for a shift of one element against the other (our
// rule). In 230 station-years without known faults the most was 19, but for one stretch with
// 158: Boulder from November 1937 to October 1940, whose maxima do seem to have been moved.
const (
	shiftEvidence = 22
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

// follows is how a maximum follows, in one month of the year, from the maximum of the day
// before and from the minima of its own day, of the two days before and of the two after, all
// standardised. The maximum before tells nothing of a shift by itself; it takes away what a
// maximum has from the weather of its days, so that the days of a stretch are nearly
// independent evidence.
type follows struct {
	weight [followed]float64
	sd     float64
}

const followed = 6

// leads returns the values that the maximum of a day is expected from, when the minima are
// taken from k days before.
func (z standard) leads(i, k int) (n [followed]float64) {
	at := func(e Element, j int) float64 {
		if j < 0 || j >= len(z[e]) {
			return math.NaN()
		}
		return z[e][j]
	}
	n[0] = at(Tmax, i-1)
	for j := 1; j < followed; j++ {
		n[j] = at(Tmin, i-k+j-3)
	}
	return n
}

// follow fits them by least squares, each month with its neighbours.
func (r *record) follow(z standard) (out [13]follows) {
	type sums struct {
		m     [followed][followed + 1]float64
		xx, n float64
	}
	var by [13]sums
	for i := range r.len() {
		x, n := z[Tmax][i], z.leads(i, 0)
		fit := math.Abs(x) < 5
		for _, v := range n {
			fit = fit && math.Abs(v) < 5
		}
		if !fit {
			continue
		}
		s := &by[r.month[i]]
		for a := range n {
			for b := range n {
				s.m[a][b] += n[a] * n[b]
			}
			s.m[a][followed] += n[a] * x
		}
		s.xx += x * x
		s.n++
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
			t.n += by[k].n
		}
		out[m].sd = math.NaN()
		if t.n < outlierValues {
			continue
		}
		rows := make([][]float64, followed)
		for a := range rows {
			rows[a] = append(rows[a], t.m[a][:]...)
			rows[a][a] += 1e-6
		}
		left := t.xx
		for a, w := range gauss(rows) {
			out[m].weight[a] = w
			left -= w * t.m[a][followed]
		}
		out[m].sd = math.Sqrt(max(left/t.n, 1e-6))
	}
	return out
}

// unlike returns half the squared standardised distance of a maximum from what the minima
// around a day k days before lead to expect, 8 at most; NaN where something is missing.
func (f follows) unlike(z standard, i, k int) float64 {
	d := z[Tmax][i]
	for j, v := range z.leads(i, k) {
		d -= f.weight[j] * v
	}
	d /= f.sd
	if d = d * d / 2; d > 8 {
		return 8
	}
	return d
}
