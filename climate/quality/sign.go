package quality

import (
	"fmt"
	"math"
	"slices"

	"frostward/climate"
)

// A lost sign turns frosts into mild nights, one of the worst things that can happen to a
// record of frosts, and leaves values that are usual in themselves. What tells is that they do
// not go with the days beside and with the maxima, and that none is below naught: see unsigned.
// A whole record without signs has nothing else to go by than that many lie just above naught.
const (
	nearNaught = 60 // values within 1 °C above naught, and none below (our rule)
	askSign    = "has the minus sign been lost?"
)

// signStands keeps what the rules flag of values without their sign: it is the clearest evidence.
var signStands = []string{"swapped", "tmax below tmin", "lost sign", "lone value"}

// lostSigns returns the questions about lost signs, given what the rules flag in the record and
// the stretches that look like other units, of which lost signs are one: those it takes in.
func lostSigns(s climate.Series, flags []Flag, units []unitStretch) []signQuestion {
	r := newRecord(s)
	without := func(f Flag) bool {
		i := int(f.Day - s.First)
		return f.Rule == "other units" && slices.ContainsFunc(units, func(u unitStretch) bool {
			return u.unit.scale < 0 && u.from <= i && i <= u.to
		})
	}
	r.mask(slices.DeleteFunc(slices.Clone(flags), func(f Flag) bool {
		return slices.Contains(signStands, f.Rule) || without(f)
	}))
	if q, ok := r.noSigns(); ok {
		return []signQuestion{q}
	}
	var out []signQuestion
	for _, u := range r.unsigned() {
		if last := len(out) - 1; last >= 0 && u.from-out[last].to <= signJoin && u.element() == out[last].element() {
			o := &out[last]
			o.to, o.score, o.best = u.to, o.score+u.score, max(o.best, u.score)
			continue
		}
		out = append(out, signQuestion{unsigned: u, best: u.score})
	}
	for k := range out {
		out[k].join(units)
		out[k].Question = r.signQuestion(&out[k])
	}
	return out
}

// signQuestion is a question with what it rests on.
type signQuestion struct {
	Question
	unsigned
	best    float64 // evidence of the clearest of its stretches
	flagged int     // days in it that are flagged as another unit
}

// join takes in the stretches that the search for other units has found of the same.
func (q *signQuestion) join(units []unitStretch) {
	for _, u := range units {
		if u.unit.scale < 0 && u.overlaps(q.unsigned.segment) {
			q.from, q.to = min(q.from, u.from), max(q.to, u.to)
			q.flagged += u.to - u.from + 1
		}
	}
}

// signQuestion words it.
func (r *record) signQuestion(q *signQuestion) Question {
	e := Tmin
	if !q.lost[Tmin] {
		e = Tmax
	}
	n, usual := r.frostsIn(e, q.unsigned.segment)
	below := "no value"
	if n > 0 {
		below = fmt.Sprintf("%d values", n)
	}
	out := r.question(q.unsigned.segment, q.element(), "sign",
		fmt.Sprintf("%s below 0 °C in %d days, where about %.0f are usual, and others that go with the days beside as if they were below 0, which chance does %s (log likelihood ratio %.0f)",
			below, q.to-q.from+1, usual, seldom(signYears*math.Exp(q.best-signEvidence)), q.score), askSign)
	out.Masked = q.flagged*10 >= (q.to-q.from+1)*9
	return out
}

// frostsIn counts the values below naught in a stretch, and how many are usual in such a one.
func (r *record) frostsIn(e Element, s segment) (n int, usual float64) {
	for i := s.from; i <= s.to; i++ {
		v := r.v[e][i]
		if math.IsNaN(v) {
			continue
		}
		if v < 0 {
			n++
		}
		if z := r.z(e, i, 0); !math.IsNaN(z) {
			usual += 0.5 * math.Erfc(-z/math.Sqrt2)
		}
	}
	return n, usual
}
