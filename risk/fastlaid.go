package risk

import "slices"

// laid is a season laid out for a crop.
type laid struct {
	nights, sum []float64
	kept        []float64 // the sums less the days lost to bad nights
	bad, gaps   []int16   // its bad nights, and its days not measured
	to          int       // laid out as far as kept[to]; 0: not, or with too many days missing
	memory      []float64
}

// lay lays the season out up to a day, not included, if it is whole.
func (b *bulk) lay(i, to int) bool {
	if !b.whole(i, to) {
		return false
	}
	from := b.sums.from
	b.bad = b.bad[:0]
	for d, low := range b.nights[from+1 : to] {
		if low <= b.harm {
			b.bad = append(b.bad, int16(from+1+d))
		}
	}
	b.kept = b.sum
	if len(b.bad) > 0 {
		b.kept = b.memory
		b.keep(from, to, int(b.life.delay))
	}
	b.to = to
	b.all[i] = b.laid
	return true
}

// whole tells whether of the days up to one, not included, enough are measured for gaps not to
// matter.
func (b *bulk) whole(i, to int) bool {
	s := b.sums.season(i, to)
	b.sum, b.gaps = s.sum, s.gaps
	n, _ := slices.BinarySearch(s.gaps, int16(to))
	return n < gapInARow
}

// keep takes the days lost to bad nights out of the sums, so many from each night on.
func (l *laid) keep(from, to, delay int) {
	sum, kept := l.sum[:to+1], l.kept[:to+1]
	gone := 0.0 // warmth lost so far
	at := from  // days up to it are done
	kept[from] = sum[from]
	for _, h := range l.bad {
		end := min(int(h)+delay, to)
		for ; at < int(h); at++ {
			kept[at+1] = sum[at+1] - gone
		}
		if end <= at {
			continue
		}
		gone += sum[end] - sum[at]
		for still := kept[at]; at < end; at++ {
			kept[at+1] = still
		}
	}
	for ; at < to; at++ {
		kept[at+1] = sum[at+1] - gone
	}
}
