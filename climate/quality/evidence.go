package quality

// segment is some days in a row, both ends included, with the evidence for them.
type segment struct {
	from, to int
	score    float64 // natural logarithm of the likelihood ratio, summed over its days
}

func (s segment) overlaps(o segment) bool { return s.from <= o.to && o.from <= s.to }

func (s segment) days() int { return s.to - s.from + 1 }

// segments finds the days in a row in which a running sum of evidence climbs to at least a
// threshold: a cumulative-sum test (Page 1954, Biometrika 41, 100-115, from memory). They
// begin where the sum leaves zero and end at its peak, once the sum has fallen from there by
// more than drop, or to zero. Those closer to each other than join are taken together. NaN is a
// day without evidence.
func segments(evidence []float64, threshold, drop float64, join int) []segment {
	var out []segment
	for at := 0; at < len(evidence); {
		sum, peak, start, top := 0.0, 0.0, at, at
		for i, v := range evidence[at:] {
			if v != v || sum == 0 && v <= 0 {
				continue
			}
			if sum == 0 {
				peak, start = 0, at+i
			}
			if sum = max(0, sum+v); sum > peak {
				peak, top = sum, at+i
			}
			if peak >= threshold && (peak-sum > drop || sum == 0) {
				break
			}
		}
		if peak < threshold {
			break
		}
		if last := len(out) - 1; last >= 0 && start-out[last].to <= join {
			out[last].to, out[last].score = top, out[last].score+peak
		} else {
			out = append(out, segment{start, top, peak})
		}
		at = top + 1
	}
	return out
}
