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
		if u.unit.scale < 0 && u.from <= q.to && q.from <= u.to {
			q.from, q.to = min(q.from, u.from), max(q.to, u.to)
			q.flagged += u.to - u.from + 1
		}
	}
}

// noSigns asks about elements of which the whole record has lost its signs.
func (r *record) noSigns() (q signQuestion, ok bool) {
	q.unsigned.segment = segment{from: r.len(), to: -1}
	total := 0
	for e, values := range r.v {
		below, near, from, to := 0, 0, -1, -1
		for i, v := range values {
			if v != v {
				continue
			}
			if from < 0 {
				from = i
			}
			to = i
			switch {
			case v < 0:
				below++
			case v < 1:
				near++
			}
		}
		if below == 0 && near >= nearNaught {
			q.lost[e] = true
			q.from, q.to, total = min(q.from, from), max(q.to, to), total+near
		}
	}
	if total == 0 {
		return q, false
	}
	q.Question = r.question(q.unsigned.segment, q.element(), "sign", fmt.Sprintf("%d values lie between 0 and 1 °C and none below 0", total), askSign)
	return q, true
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

// overlaps tells whether questions about signs take in some of the days of a stretch.
func overlaps(signs []signQuestion, s segment) bool {
	return slices.ContainsFunc(signs, func(q signQuestion) bool { return q.from <= s.to && s.from <= q.to })
}

// explains tells whether minima above maxima, which look like columns that changed places, lie
// in a stretch that is asked about for its signs, and are better explained by them or but a part
// of it.
func explains(signs []signQuestion, from, to int) bool {
	return slices.ContainsFunc(signs, func(q signQuestion) bool {
		a, b := max(from, q.from), min(to, q.to)
		if 2*(b-a+1) < to-from+1 {
			return false
		}
		sum := 0.0
		for i := a; i <= b && q.evidence != nil; i++ {
			if v := q.evidence[i]; v == v {
				sum += v
			}
		}
		return sum > 0 || q.to-q.from >= 2*(to-from)
	})
}

// take takes away the values that questions about signs are about.
func (r *record) take(signs []signQuestion) {
	for _, q := range signs {
		for e := range q.lost {
			if q.lost[e] {
				r.mask(r.days(Element(e), q.unsigned.segment))
			}
		}
	}
}

// days makes flags of the values of a stretch.
func (r *record) days(e Element, s segment) (out []Flag) {
	for i := s.from; i <= s.to; i++ {
		out = append(out, r.flag(i, e, ""))
	}
	return out
}
