package quality

import (
	"fmt"
	"math"
)

const (
	// shiftEvidence is wanted of a stretch of shiftDays (our rule). A shorter one has more places
	// in which to turn up by chance, as their number goes with 1 over its length, and it wants
	// more by the logarithm of that. Records made of pieces of seven others, with nothing moved,
	// then raise a question in shiftYears, none to one in 65 by record, and one in e times as many
	// for each 1 more; the seven themselves raise 4 in 306 years. Of 90 days that were moved, 87
	// in a hundred are asked about, from 68 where a day tells 0.1 (Badajoz) to all where it tells
	// 0.5; of whole years, all. See the long tests.
	shiftEvidence = 7
	shiftYears    = 110
	shiftDays     = 90
	shiftStart    = 4   // evidence from which a stretch is looked at
	shiftDrop     = 10  // see segments
	shiftJoin     = 730 // days between two stretches that are asked about together
)

// shift is where maxima go with the minima of another day.
type shift struct {
	segment
	stretches, days int
	over            float64 // by how much the clearest of its stretches is over what is wanted
	usual           float64 // evidence of as many days of these months that were moved
}

// shifts asks about stretches in which the maxima go with the minima of the day before or
// after, and not with those of their own day as in the rest of the record. A shift of both
// elements together leaves nothing to see within one station's record.
func (r *record) shifts() []Question {
	var out []Question
	evidence := r.shiftEvidence()
	for _, by := range []struct {
		k    int
		word string
	}{{0, "later"}, {2, "earlier"}} {
		for _, s := range r.moved(evidence[by.k], evidence[2-by.k]) {
			in := ""
			if s.stretches > 1 {
				in = fmt.Sprintf(" in %d stretches", s.stretches)
			}
			out = append(out, r.question(s.segment, Tmax, "shift",
				fmt.Sprintf("for %d days%s the maxima go with the minima as if they stood a day %s than in the rest of the record, which chance does %s (log likelihood ratio %.0f, where %.0f is usual of days so moved)",
					s.days, in, by.word, seldom(shiftYears*math.Exp(s.over)), s.score, s.usual),
				"were the dates of one of the two moved, or the hour of reading changed?"))
		}
	}
	return out
}

// moved finds the stretches with evidence for a shift. What would be usual of them is what all
// days of their months have against the other shift: a maximum that was moved a day later is as
// far from the minima around it as one that is taken with those of a day later.
func (r *record) moved(evidence, other []float64) []shift {
	var usual, n [13]float64
	for i, e := range other {
		if e == e {
			usual[r.month[i]] -= e
			n[r.month[i]]++
		}
	}
	var out []shift
	for _, s := range segments(evidence, shiftStart, shiftDrop) {
		t := shift{segment: s, stretches: 1, days: s.to - s.from + 1}
		if t.over = s.score + min(0, math.Log(float64(t.days)/shiftDays)) - shiftEvidence; t.over < 0 {
			continue
		}
		for i := s.from; i <= s.to; i++ {
			if m := r.month[i]; evidence[i] == evidence[i] {
				t.usual += usual[m] / n[m]
			}
		}
		if last := len(out) - 1; last >= 0 && s.from-out[last].to <= shiftJoin {
			o := &out[last]
			o.to, o.stretches, o.days, o.over = s.to, o.stretches+1, o.days+t.days, max(o.over, t.over)
			o.score, o.usual = o.score+t.score, o.usual+t.usual
			continue
		}
		out = append(out, t)
	}
	return out
}

// seldom says how often something comes that does once in some years of record.
func seldom(years float64) string {
	if years > 10000 {
		return "less than once in 10000 years"
	}
	unit := math.Pow(10, math.Floor(math.Log10(years))-1)
	return fmt.Sprintf("about once in %.0f years", math.Round(years/unit)*unit)
}

// shiftEvidence returns, by k+1, the natural logarithm of the likelihood ratio that each day
// adds to its maximum going with the minima of k days on: of two ways to reckon it, by what the
// maxima are expected to be and by what the minima are, the mean. The two would agree if the
// expectations were perfect. Nil where the record is too short.
func (r *record) shiftEvidence() (out [3][]float64) {
	p := r.pairs()
	q, done := r.mirror(p), make(chan *[3][]float64)
	go func() { done <- q.follow() }()
	a, b := p.follow(), <-done
	if a == nil || b == nil {
		return out
	}
	for _, k := range []int{0, 2} {
		out[k] = make([]float64, r.len())
		for i := range out[k] {
			x, n := a[k][i]-a[1][i], b[2-k][i]-b[1][i]
			switch {
			case n != n:
				out[k][i] = x
			case x != x:
				out[k][i] = n
			default:
				out[k][i] = (x + n) / 2
			}
		}
	}
	return out
}
