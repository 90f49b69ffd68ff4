package quality

import "fmt"

const (
	shiftWanted = 20 // evidence, see way (our rule; the most in 2,150 years of clean records is 17)
	shiftDrop   = 20
	shiftJoin   = 730 // days between those that are asked about together
	shiftMost   = 3   // evidence of one day, either way
)

// shifts asks about days in a row on which the maxima go with the minima of the day before or
// after, and not with those of their own day as in the rest of the record. A shift of both
// elements together leaves nothing to see within one station's record.
func (r *record) shifts() []Question {
	var out []Question
	for _, by := range []struct {
		days        int
		word, about string
	}{{-1, "later", "late"}, {1, "earlier", "early"}} {
		for _, s := range segments(r.shiftEvidence(by.days), shiftWanted, shiftDrop, shiftJoin) {
			q := r.question(s, Tmax, "shift",
				fmt.Sprintf("on most of %d days the maxima go with the minima as if they stood a day %s than in the rest of the record", s.days(), by.word),
				"were the dates of one of the two moved, or the hour of reading changed?")
			q.About = by.about
			out = append(out, q)
		}
	}
	return out
}

// shiftEvidence returns how much likelier each day's maximum is with the minima of k days on,
// given the maxima of the days beside.
func (r *record) shiftEvidence(k int) []float64 {
	z, c, a := r.standardised(), r.expectations(), new(around)
	out := make([]float64, r.len())
	for i, m := range r.month {
		is, sd := c[m].offSD(z.shifted(i, 0, a), Tmax)
		as, other := c[m].offSD(z.shifted(i, k, a), Tmax)
		if sd == other { // as much is known
			out[i] = min(max(logDensity(as)-logDensity(is), -shiftMost), shiftMost)
		}
	}
	return out
}
