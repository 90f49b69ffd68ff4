package risk

import "frostward/climate"

// litSums are running sums, season by season, of the warmth that light lets count, with no day
// lost to the cold. Crops whose warmth is counted alike share them, and a dozen crops have
// about seven: a crop's own are these, each day's divided by its light at home, less what its
// own bad nights cost it, which are few.
type litSums struct {
	key   warmthKey
	warm  climate.DegreeDays
	light [climate.SpanLen]float64 // what is usual, on the crops' line
	from  int
	stale bool // the seasons are others since
	of    []seasonSums
}

// seasonSums are those of one season.
type seasonSums struct {
	sum []float64 // sum[d]: of the days from litSums.from up to d, not included
	to  int       // worked out as far as sum[to]
}

// reset takes so many other seasons, the light of another place, and another first day.
func (l *litSums) reset(seasons int, usual, line *[climate.YearDays]float64, from int) {
	fillLight(l.light[:], usual, line, 1)
	l.from, l.stale = from, false
	for len(l.of) < seasons {
		l.of = append(l.of, seasonSums{})
	}
	for i := range l.of {
		s := &l.of[i]
		if s.sum == nil && i < seasons {
			s.sum = make([]float64, climate.SpanLen+1)
		}
		s.to = from
	}
}

// season returns the sums of the season taken up, as far as sum[to] at least.
func (l *litSums) season(c *common, to int) []float64 {
	s := &l.of[c.i]
	if to <= s.to {
		return s.sum
	}
	c.lay(to)
	s.sum[l.from] = 0
	if l.key.days {
		sum := s.sum[s.to]
		for d := s.to; d < to; d++ {
			sum += growingDay(c.low[d], c.high[d], l.warm.Base) * l.light[d]
			s.sum[d+1] = sum
		}
	} else {
		l.warm.Sum(s.sum, &c.sines, l.light[:], s.to, to)
	}
	s.to = to
	return s.sum
}

// most is more than any day adds.
func (l *litSums) most() float64 {
	switch {
	case l.key.days:
		return 1
	case l.warm.Limit == climate.Horizontal:
		return l.warm.Upper - l.warm.Base
	}
	return 60 - l.warm.Base // the warmest day on Earth has a mean far below
}
