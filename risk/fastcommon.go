package risk

import (
	"slices"

	"frostward/climate"
)

// common is what the days of a season are to every crop of a ground: where each stands on the
// sine that warmth is counted by, which nights are cold enough to harm any of them, and which days
// are missing. A dozen crops look at one season, so it is worked out once, and its memory, some
// 20 KB, is at hand for all of them before the next season is taken up.
type common struct {
	seasons []climate.Season
	from    int     // the first start
	line    float64 // no night above it harms any crop
	bad     []*badNights

	i         int // the season taken up
	nights    []float64
	cold      []int16 // nights at or below the line, from from on to the end of the span
	gaps      []int16 // days not measured, the same
	sines     climate.Sines
	low, high []float64 // temperatures; where a day is missing, those of the last measured one
	to        int       // laid out from from on up to this day, not included

	chilly []float64 // of what a crop keeps, what comes from days after chilly nights; see laid
}

// unmeasured stands for the temperatures of days before the first measured one: no warmth.
const unmeasured = -1e4

func newCommon() common {
	days := func() []float64 { return make([]float64, climate.SpanLen+1) }
	return common{low: days(), high: days(), chilly: days()}
}

// reset takes other seasons, or another first day, or another line.
func (c *common) reset(seasons []climate.Season, from int, line float64) {
	c.seasons, c.from, c.line, c.i = seasons, from, line, -1
	for _, h := range c.bad {
		h.taken = -1
	}
}

// take takes a season up.
func (c *common) take(i int) {
	if i == c.i {
		return
	}
	s := &c.seasons[i]
	c.i, c.to, c.nights = i, c.from, s.Lows()
	c.gaps = c.gaps[:0]
	lows := c.nights[c.from:]
	tmin, tmax := s.Tmin[c.from:][:len(lows)], s.Tmax[c.from:][:len(lows)]
	// Every third night of spring is a cold one, which no processor can foretell: so without a
	// branch, each day is written down and the next in its place if it is not of note.
	cold, line, same, n := sizedDays(c.cold)[:len(lows)], c.line, s.Night == nil, 0
	for d, low := range lows {
		cold[n] = int16(c.from + d)
		if low <= line {
			n++
		}
		x := tmax[d]
		if low != low || x != x || !same && tmin[d] != tmin[d] { // NaN
			c.gaps = append(c.gaps, int16(c.from+d))
		}
	}
	c.cold = cold[:n]
}

// lay lays the season's days out up to one, not included.
func (c *common) lay(to int) {
	if to <= c.to {
		return
	}
	s, from := &c.seasons[c.i], c.to
	copy(c.low[from:to], s.Tmin[from:to])
	copy(c.high[from:to], s.Tmax[from:to])
	k, _ := slices.BinarySearch(c.gaps, int16(from))
	for _, d := range c.gaps[k:] {
		if int(d) >= to {
			break
		}
		// Where a night is missing at the spot only, the day's warmth is known.
		if c.low[d] != c.low[d] || c.high[d] != c.high[d] {
			c.low[d], c.high[d] = c.lastMeasured(int(d))
		}
	}
	c.sines.Lay(from, c.low[from:to], c.high[from:to])
	c.to = to
}

// lastMeasured returns the temperatures of the last day before one that is not missing.
func (c *common) lastMeasured(d int) (low, high float64) {
	for d--; d >= c.from; d-- {
		if _, missing := slices.BinarySearch(c.gaps, int16(d)); !missing {
			return c.low[d], c.high[d]
		}
	}
	return unmeasured, unmeasured
}

// enough tells whether of the season's days up to one, not included, enough are measured for gaps
// not to matter to any planting.
func (c *common) enough(to int) bool {
	n, _ := slices.BinarySearch(c.gaps, int16(to))
	if n < gapInARow {
		return true
	}
	if n >= gapInAll {
		return false
	}
	for k := gapInARow - 1; k < n; k++ {
		if int(c.gaps[k]-c.gaps[k-gapInARow+1]) == gapInARow-1 {
			return false
		}
	}
	return true
}

// sizedDays returns room for days of a span.
func sizedDays(days []int16) []int16 {
	if cap(days) < climate.SpanLen {
		days = make([]int16, climate.SpanLen)
	}
	return days[:climate.SpanLen]
}
