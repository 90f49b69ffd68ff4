package quality

import "math"

// strictest is the least share of values beyond a bound that a record is trusted to have.
const strictest = 0.002

// bounds returns what contradictions tell: a maximum is not below the minimum of its day, and,
// where days run from midnight to midnight, not below those of the days beside either. How
// strictly a record keeps to each of the three, it shows itself: by the values beyond such a
// bound, of those that would be if it were none. They are logarithms, for the day before, the
// day itself, and the day after.
func (p *pairs) bounds(l *left, of *[13]*tails) (out [3]float64) {
	for j := range out {
		seen, free := 0.5, 1.0
		for i, m := range p.month {
			if l.off[i] != l.off[i] {
				continue
			}
			bound, v := p.v[0][i+j-1], p.v[1][i]
			if v < bound {
				seen++
			}
			free += of[m].below((l.off[i] + (bound-v)*p.per[p.day[i]]) / l.sd[i])
		}
		out[j] = math.Log(min(1, max(seen/free, strictest)))
	}
	return out
}

// beyond returns the strictest bound that a value lies beyond, of those k days on; else naught.
func (p *pairs) beyond(i, k int, bounds [3]float64) float64 {
	least := 0.0
	for j, b := range bounds {
		if at := i + k + j - 1; b < least && at >= 0 && at < len(p.month) && p.v[1][i] < p.v[0][at] {
			least = b
		}
	}
	return least
}
