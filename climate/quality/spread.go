package quality

import "math/bits"

// spread is where the values of each element and month of the year lie, a bit for each cell of
// 3.2 °C that has one: enough to tell that no hole of 10 °C is among them.
type spread struct {
	cells [2][13]uint64
	taken int // record.taken at the time, -1 before it is known
}

const cellBits = 5 // a cell has 1<<cellBits bins

func (r *record) spread() *spread {
	s := &r.work.spread
	if r.look(); s.taken == r.taken {
		return s
	}
	*s = spread{taken: r.taken}
	for e := range s.cells {
		for _, m := range r.months {
			var cells uint64
			for _, b := range r.bins[e][m.from:m.to] {
				cells |= 1 << (uint16(b) >> cellBits) // none for noBin
			}
			s.cells[e][m.month] |= cells
		}
	}
	return s
}

func noGaps(r *record) bool {
	s := r.spread()
	for e := range s.cells {
		for _, c := range s.cells[e] {
			if mayHaveGap(c) {
				return false
			}
		}
	}
	return true
}

// mayHaveGap: between two values parted by 100 bins lie at least two whole cells without any.
func mayHaveGap(c uint64) bool {
	inside := uint64(1)<<bits.Len64(c) - 1<<bits.TrailingZeros64(c)
	empty := ^c & inside
	return empty&(empty>>1) != 0
}

// noMega: the highest value lies in a higher cell among the maxima, and the lowest in a lower
// one among the minima.
func noMega(r *record) bool {
	s := r.spread()
	for m, n := range s.cells[Tmin] {
		x := s.cells[Tmax][m]
		if n == 0 || x == 0 { // the rule wants days with both
			continue
		}
		if bits.Len64(n) >= bits.Len64(x) || bits.TrailingZeros64(n) >= bits.TrailingZeros64(x) {
			return false
		}
	}
	return true
}
