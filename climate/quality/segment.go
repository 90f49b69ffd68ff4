package quality

import "math"

// segment is a stretch of the record, both ends included, with the evidence for it.
type segment struct {
	from, to int
	score    float64 // natural logarithm of the likelihood ratio, summed over its days
}

func (s segment) overlaps(o segment) bool { return s.from <= o.to && o.from <= s.to }

// segments finds the stretches in which a running sum of evidence climbs to at least a
// threshold: a cumulative-sum test (Page 1954, Biometrika 41, 100-115, from memory). A stretch
// begins where the sum leaves zero and ends at its peak, once the sum has fallen from there by
// more than drop, or to zero. NaN is a day without evidence.
func segments(evidence []float64, threshold, drop float64) []segment {
	var out []segment
	for at := 0; at < len(evidence); {
		sum, peak, start, top := 0.0, 0.0, at, at
		i := at
		for ; i < len(evidence); i++ {
			if v := evidence[i]; !math.IsNaN(v) {
				sum += v
			}
			if sum > peak {
				peak, top = sum, i
			}
			if sum <= 0 && peak < threshold {
				sum, peak, start, top = 0, 0, i+1, i+1
			}
			if peak >= threshold && (peak-sum > drop || sum <= 0) {
				break
			}
		}
		if peak < threshold {
			break
		}
		out = append(out, segment{start, top, peak})
		at = top + 1
	}
	return out
}
