package quality

import "slices"

// What follows keeps one fault to one question: days without their signs can look like other
// units, like columns that changed places, and like days that were moved.

// overlaps tells whether questions about signs take in some of the days of a stretch.
func overlaps(signs []signQuestion, s segment) bool {
	return slices.ContainsFunc(signs, func(q signQuestion) bool { return q.overlaps(s) })
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
