package risk

import "frostward/climate"

// litSums are running sums, season by season, of the warmth that light lets count, with no day
// lost to the cold. Crops whose warmth is counted alike share them, and a dozen crops have
// about five: a crop's own are these, each day's divided by its light at home, less what its
// own bad nights cost it, which are few.
type litSums struct {
	rows  *warmthRows
	light [climate.YearDays]float64 // what is usual, on the crops' line
	from  int
	stale bool // the seasons are others since
	of    []seasonSums
}

// seasonSums are those of one season.
type seasonSums struct {
	sum  []float64 // sum[d]: of the days from litSums.from up to d, not included
	to   int       // worked out as far as sum[to]
	last float64   // warmth of the last measured day, for gaps
	gaps []int16   // days not measured
}

// reset takes the rows' other seasons, the light of another place, and another first day.
func (l *litSums) reset(usual, line *[climate.YearDays]float64, from int) {
	for d := range l.light {
		l.light[d] = usual[d] * line[d]
	}
	l.from, l.stale = from, false
	for len(l.of) < len(l.rows.seasons) {
		l.of = append(l.of, seasonSums{})
	}
	for i := range l.of {
		s := &l.of[i]
		if s.sum == nil && i < len(l.rows.seasons) {
			s.sum = make([]float64, climate.SpanLen+1)
		}
		s.to, s.last, s.gaps = from, 0, s.gaps[:0]
	}
}

// season returns the sums of season i as far as sum[to] at least.
func (l *litSums) season(i, to int) *seasonSums {
	s := &l.of[i]
	if to <= s.to {
		return s
	}
	l.rows.fill(i, s.to, to)
	warmth, nights := l.rows.rows[i][:to], l.rows.seasons[i].Lows()[:to]
	s.sum[l.from] = 0
	sum, last := s.sum[s.to], s.last
	fold := int((climate.SpanFrom + climate.SeasonDay(s.to)).Fold())
	for d := s.to; d < to; d++ {
		warm := warmth[d]
		if warm != warm || nights[d] != nights[d] {
			s.gaps = append(s.gaps, int16(d))
			if warm != warm {
				warm = last
			}
		} else {
			last = warm
		}
		sum += warm * l.light[fold]
		if fold++; fold == climate.YearDays {
			fold = 0
		}
		s.sum[d+1] = sum
	}
	s.to, s.last = to, last
	return s
}
