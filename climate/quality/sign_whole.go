package quality

import "fmt"

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
