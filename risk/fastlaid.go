package risk

import "math"

// laid is a season laid out for a crop.
type laid struct {
	sum  []float64
	bad  []int16 // the nights that harm it
	lost []loss  // the days they cost it
	to   int     // laid out as far as kept(to); 0: not, or with too many days missing

	lastReady int // where the start last looked for is ready, near which the next one is

	chillFrom int
	chillTo   int // common.chilly is worked out for it from chillFrom on, as far as chilly[chillTo]
}

// loss is a stretch of days lost to bad nights.
type loss struct {
	from, to int
	still    float64 // what is kept up to it, and through it
	gone     float64 // warmth lost by its end
}

// kept returns the warmth from the first day up to a day, not included, less that of the days
// lost to bad nights.
func (l *laid) kept(d int) float64 {
	for k := len(l.lost) - 1; k >= 0; k-- { // they are few
		if s := &l.lost[k]; d > s.from {
			if d < s.to {
				return s.still
			}
			return l.sum[d] - s.gone
		}
	}
	return l.sum[d]
}

// lay lays the season out up to a day, not included, if it is whole.
func (b *bulk) lay(to int) bool {
	if !b.common.enough(to) {
		return false
	}
	b.sum = b.sums.season(b.common, to)
	b.bad = b.badNights.upTo(b.common, to)
	b.lose(to)
	b.to, b.chillFrom, b.chillTo = to, 0, 0
	return true
}

// lose takes from the days up to one, not included, those that bad nights cost.
func (b *bulk) lose(to int) {
	b.lost = b.lost[:0]
	delay, gone := int(b.life.delay), 0.0
	for k := 0; k < len(b.bad); {
		from := int(b.bad[k])
		end := from + delay
		for k++; k < len(b.bad) && int(b.bad[k]) <= end; k++ {
			end = int(b.bad[k]) + delay
		}
		if end = min(end, to); end > from {
			still := b.sum[from] - gone
			gone += b.sum[end] - b.sum[from]
			b.lost = append(b.lost, loss{from, end, still, gone})
		}
	}
}

// chilledBetween returns what of the warmth kept comes from days after chilly nights, from one day
// up to another, not included. Days are asked about in rising order.
func (b *bulk) chilledBetween(from, to int) float64 {
	if b.chillFrom == 0 || from > b.chillTo {
		b.chillFrom, b.chillTo = from, from
		b.common.chilly[from] = 0
	}
	if to > b.chillTo {
		b.layChilly(to)
	}
	return b.common.chilly[to] - b.common.chilly[from]
}

func (b *bulk) layChilly(to int) {
	nights, chilly := b.common.nights, b.common.chilly
	d, k, chill := b.chillTo, 0, b.life.chill
	total := chilly[d]
	for d < to {
		for k < len(b.lost) && b.lost[k].to <= d {
			k++
		}
		end := to // days up to it are not lost
		if k < len(b.lost) {
			end = min(end, max(d, b.lost[k].from))
		}
		// Without a branch, as in Sweep.lay.
		for ; d < end; d++ {
			var counts uint64
			if nights[d] <= chill {
				counts = 1
			}
			total += math.Float64frombits(math.Float64bits(b.sum[d+1]-b.sum[d]) & -counts)
			chilly[d+1] = total
		}
		if k < len(b.lost) {
			for end = min(to, b.lost[k].to); d < end; d++ {
				chilly[d+1] = total
			}
		}
	}
	b.chillTo = to
}
