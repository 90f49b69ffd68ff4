package risk

// badNights are the nights at or below a line, in the season taken up.
type badNights struct {
	line  float64
	days  []int16
	seen  int // of common's cold nights
	taken int // the season they are of, -1 for none
}

// badNightsOf returns the nights that do harm to crops, for seasons to come.
func (c *common) badNightsOf(line float64) *badNights {
	for _, h := range c.bad {
		if h.line == line || line != line && h.line != h.line {
			return h
		}
	}
	h := &badNights{line: line, taken: -1}
	c.bad = append(c.bad, h)
	return h
}

// upTo returns the bad nights of the season taken up, as far as a day, not included.
func (h *badNights) upTo(c *common, to int) []int16 {
	if h.taken != c.i {
		h.taken, h.seen, h.days = c.i, 0, h.days[:0]
	}
	cold, nights, line, k := c.cold, c.nights, h.line, h.seen
	days, n := sizedDays(h.days), len(h.days)
	for ; k < len(cold) && int(cold[k]) < to; k++ { // without a branch, as in common.take
		days[n] = cold[k]
		if nights[cold[k]] <= line {
			n++
		}
	}
	if h.seen == 0 && n > 0 && int(days[0]) == c.from { // the first start is not out in that night
		n = copy(days, days[1:n])
	}
	h.days, h.seen = days[:n], k
	for n > 0 && int(days[n-1]) >= to {
		n--
	}
	return days[:n]
}
