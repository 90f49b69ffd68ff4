package quality

import (
	"fmt"
	"math"
	"slices"

	"frostward/climate"
)

// loneZ is how many standard deviations a value may be from what the other value of its day
// and those of the days beside lead to expect (our rule; set so that clean records of several
// climates keep all but a few values in 10,000).
const loneZ = 5.5

// loneValues flags values that neither their day nor the days beside bear out: the worst of a
// neighbourhood first, after which the others are looked at again without it. A value's
// expectation is the conditional mean of a multivariate normal distribution of the six
// standardised values (any textbook).
func loneValues(r *record) []Flag {
	b := r.hoods() // counted for the rule before
	b.look()
	return b.worstFirst()
}

// worstFirst flags what is doubted.
func (b *hoods) worstFirst() []Flag {
	r, z, doubts := b.r, b.z, b.found
	var out []Flag
	for len(doubts) > 0 {
		// Stable, and by size: of equals the earlier.
		slices.SortStableFunc(doubts, func(a, b doubt) int { return compare(math.Abs(b.off), math.Abs(a.off)) })
		d := doubts[0]
		out = append(out, r.flag(d.i, d.e, fmt.Sprintf("%.1f °C is %.1f s.d. from what the values beside lead to expect", r.v[d.e][d.i], d.off)))
		z[d.e][d.i] = math.NaN()
		kept := doubts[:0]
		for _, o := range doubts[1:] {
			if o.i >= d.i-1 && o.i <= d.i+1 {
				o.off = b.off(o.e, o.i)
			}
			if math.Abs(o.off) >= loneZ {
				kept = append(kept, o)
			}
		}
		doubts = kept
	}
	return out
}

// UnborneZ is how far from its expectation a value that decides a frost date is worth a question
// (our rule): of 680 such dates of the records tried, 4 lie beyond.
const UnborneZ = 4.0

// Unborne returns how many standard deviations the minima of some days are from what the other
// values of those days and of the days beside lead to expect: what the rule "lone value" looks
// at, for values that it lets pass but on which more rests than on others. NaN where that is
// not known.
func Unborne(s climate.Series, days []climate.Day) []float64 {
	r := newRecord(s)
	b := r.hoods()
	out := make([]float64, len(days))
	for k, d := range days {
		out[k] = math.NaN()
		if i := int(d - s.First); i >= 0 && i < s.Len() {
			out[k] = b.off(Tmin, i)
		}
	}
	return out
}

func compare(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}
