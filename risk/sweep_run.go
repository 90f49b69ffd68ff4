package risk

import (
	"math"
	"slices"

	"frostward/climate"
)

// nearly is how far a sum, in °C-days, must be from what is needed for its rounding not to
// matter: sums of two years of days are rounded to some 1e-9 at worst.
const nearly = 1e-6

// never is an index past every day: what does not happen.
const never = climate.SpanLen

// standing is how far run got.
type standing int8

const (
	oddStart standing = iota // for the day loop to play
	gappy                    // too many days missing
	played
)

// run plays the planting put out on day at: the day it is ready, never if it is not, and the
// night with which its season is over.
func (s *Sweep) run(at int) (ready, over int, how standing) {
	lit, young, ok := s.beginning(at)
	if !ok || lit > s.life.need-nearly || young >= s.life.boltsOn() {
		return 0, 0, oddStart // nothing known, or ready, or run to seed, within the first weeks
	}

	// Ready by the end of the first day whose sum has come to this.
	target := s.life.need - lit + s.days[young+1].sum
	ready, end := max(young+1, min(s.ready, s.built-1)), never
	for ready > young+1 && s.days[ready].sum >= target {
		ready--
	}
	for ready < s.built || ready < end && s.more(at, ready, &end) {
		if s.days[ready+1].sum >= target {
			break
		}
		ready++
	}
	if target-s.days[ready].sum < nearly {
		return 0, 0, oddStart
	}
	s.ready = ready
	if ready == s.built {
		ready = never
	} else if s.days[ready+1].sum-target < nearly {
		return 0, 0, oddStart
	}

	if over = s.deadly(s.out); ready >= over {
		ready = never
	} else {
		last := min(ready+int(s.life.picking), never)
		if last >= s.built {
			s.extend(last + 1)
		}
		over = min(s.endAfter(ready), last)
	}
	if over == never {
		s.extend(never)
	}
	over = min(over, s.life.boltsOn())
	if len(s.gaps) > 0 {
		if gap := s.tooManyGaps(at); gap < over {
			if gap < ready+int(s.life.worth) || ready >= gap {
				return 0, 0, gappy
			}
			over = gap // the record ends while it is being picked
		}
	}
	return ready, over, played
}

// beginning returns what growth the planting put out on day at has by the end of its first
// weeks, which end with the day young; from then on what is lost is the same for all starts.
func (s *Sweep) beginning(at int) (lit float64, young int, ok bool) {
	if !s.p.Raised {
		lit, young, ok = s.sown(at)
		s.out = s.bed.hardened
		return lit, young, ok
	}
	s.out = at
	young = at + chillDays // the last day that a chilly night can cost it
	if young+1 >= s.built {
		s.extend(young + 2)
	}
	lit, ok = s.given(at, young)
	return lit + s.days[young+1].young - s.days[at].young, young, ok
}

// boltsOn is the day on which it runs to seed; never where it does not.
func (l *life) boltsOn() int { return int(l.bolts - climate.SpanFrom) }

// worthBy is how many days of picking, up to a day, make it worth its bed: one will do where it
// still stands when the span is over.
func (l *life) worthBy(over int) climate.SeasonDay {
	if over == never {
		return 1
	}
	return l.worth
}

// more adds a further day for run, and says whether there is any use in it: none after
// the night that kills a tender planting for good, nor after too many days missing.
func (s *Sweep) more(at, day int, end *int) bool {
	s.extend(day + 1)
	*end = min(s.deadly(s.out), s.tooManyGaps(at))
	return day < s.built
}

// firstKill is the first deadly night of the start last run, as far as the days go.
func (s *Sweep) firstKill() int {
	if !s.p.Raised && s.bed.killed < never {
		return s.bed.killed
	}
	return s.killAfter(s.out)
}

// given returns what the running sums wrongly hold lost on the first days of a planting put
// out on day at: the day itself, which its own night cannot spoil, and days lost to nights
// before it was out, up to the next harmful night, from which on they are lost to that.
func (s *Sweep) given(at, young int) (lit float64, ok bool) {
	for s.harmAt < len(s.harm) && int(s.harm[s.harmAt]) <= at {
		s.harmAt++
	}
	until := at - 1 // lost to nights before it was out
	if s.harmAt > 0 {
		until = int(s.harm[s.harmAt-1]) - 1 + int(s.life.delay)
	}
	if math.IsNaN(s.worth[at]) || math.IsNaN(s.nights.at(at)) {
		return 0, false // not measured, and no day before it to take its growth from
	}
	if until >= at || s.days[at+1].tally-s.days[at].tally >= chillNight {
		lit = s.worth[at] * s.line[at]
	}
	if until > at && s.harmAt < len(s.harm) {
		until = min(until, int(s.harm[s.harmAt])-1)
	}
	for d := at + 1; d <= until; d++ {
		if s.days[d+1].tally-s.days[d].tally < chillNight {
			lit += s.worth[d] * s.line[d]
		}
	}
	return lit, until <= young && lit == lit
}

// killAfter returns the first deadly night after a day, as far as the days go.
func (s *Sweep) killAfter(day int) int {
	return at(s.kills, s.days[day+1].tally.of(killNight))
}

// endAfter is the same of a planting that is ready.
func (s *Sweep) endAfter(day int) int {
	if s.life.killReady == s.life.kill {
		return s.killAfter(day)
	}
	return nightAfter(s.ends, day)
}

// nightAfter is the first of a list of nights after a day.
func nightAfter(nights []int16, day int) int {
	n, _ := slices.BinarySearch(nights, int16(day+1))
	return at(nights, n)
}

// deadly returns the night that kills a tender planting for good, as far as the days go.
func (s *Sweep) deadly(at int) int {
	at = max(at, midsummer-1)
	if !s.life.tender || at+1 > s.built {
		return never
	}
	if s.life.haulm == s.life.haulm {
		return nightAfter(s.tops, at)
	}
	return s.killAfter(at)
}

// tooManyGaps returns the day on which too many days in a row, or in all, have been missing
// since the planting went out, as far as the days go.
func (s *Sweep) tooManyGaps(day int) int {
	g := s.gaps
	for s.gapAt < len(g) && int(g[s.gapAt]) < day {
		s.gapAt++
	}
	s.runAt = max(s.runAt, s.gapAt)
	for s.runAt+gapInARow-1 < len(g) && g[s.runAt+gapInARow-1]-g[s.runAt] != gapInARow-1 {
		s.runAt++
	}
	return min(at(g, s.runAt+gapInARow-1), at(g, s.gapAt+gapInAll-1))
}

// at returns the n-th of a list of days, never if it has fewer.
func at(list []int16, n int) int {
	if n < len(list) {
		return int(list[n])
	}
	return never
}

// onDay is the season day of a day of the span.
func onDay(d int) climate.SeasonDay { return climate.SpanFrom + climate.SeasonDay(d) }
