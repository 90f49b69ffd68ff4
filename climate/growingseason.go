package climate

import (
	"math"
	"time"
)

// GrowingSeason is the growing season of ETCCDI's index GSL: from the first six days on
// end with a daily mean above 5 °C to the first six on end below 5 °C that begin on or
// after 1 July (1 January in the south), within the season's year.
type GrowingSeason struct {
	State GrowingState
	Start SeasonDay // first of the six warm days
	End   SeasonDay // first of the six cool days; YearDays when they do not come
	Days  float64   // from Start to before End; 0 when it never starts; NaN when not known or undefined
}

// GrowingState says how a growing season came out. The zero value is not known.
type GrowingState int8

const (
	GrowingNotKnown   GrowingState = iota // missing days could change the answer
	GrowingNever                          // no six warm days: length 0
	GrowingBounded                        // it starts and ends
	GrowingToYearsEnd                     // it starts, and the cool days do not come within the year
	GrowingUndefined                      // cool days after 1 July come before any warm ones: the index has no length
)

// The numbers of GSL (ETCCDI list of 27 core indices). The mean is (Tmin+Tmax)/2 (from
// memory), and both comparisons are strict: a day at 5.0 °C is neither warm nor cool.
const (
	GrowingMean = 5.0 // °C
	GrowingRun  = 6   // days on end
)

// GrowingSeasonIn returns the growing season of one season of a record, counted from the
// record's own days: in a leap year there are 366 of them. (Folding 29 February into the 28th
// would put one day for two, and so break runs of warm days.)
//
// Missing days: it is worked out twice, the missing taken as warm and as cool, and known
// only when both give the same days.
//
// The end is looked for on or after 1 July even where the season clearly broke off
// before, as the index is defined.
func GrowingSeasonIn(rec Series, c Calendar, year int) GrowingSeason {
	first := c.Day(year, 0)
	means := make([]float64, c.Day(year+1, 0)-first)
	for i := range means {
		tmin, tmax := rec.At(first + Day(i))
		means[i] = (tmin + tmax) / 2
	}
	return growingSeason(means, int(c.Day(year, c.turn())-first), func(i int) SeasonDay {
		_, sd := c.Locate(first + Day(i))
		return sd
	})
}

// growingSeasonOf is GrowingSeasonIn for a season of 365 days, such as a generated one.
func growingSeasonOf(s Season, c Calendar) GrowingSeason {
	means := make([]float64, YearDays)
	for i := range means {
		tmin, tmax := s.At(SeasonDay(i))
		means[i] = (tmin + tmax) / 2
	}
	return growingSeason(means, int(c.turn()), func(i int) SeasonDay { return SeasonDay(i) })
}

// turn is the day from which the season may end.
func (c Calendar) turn() SeasonDay {
	if c.South {
		return c.Of(time.January, 1)
	}
	return c.Of(time.July, 1)
}

// growingSeason works the growing season out from a year's daily means, NaN where missing.
// at gives the season day of an index.
func growingSeason(means []float64, turn int, at func(int) SeasonDay) GrowingSeason {
	state, start, end := growing(means, turn, 100)
	if s, a, z := growing(means, turn, -100); s != state || a != start || z != end {
		return GrowingSeason{Days: math.NaN()}
	}
	g := GrowingSeason{State: state}
	switch state {
	case GrowingUndefined:
		g.Days = math.NaN()
	case GrowingBounded:
		g.Start, g.End, g.Days = at(start), at(end), float64(end-start)
	case GrowingToYearsEnd:
		g.Start, g.End, g.Days = at(start), YearDays, float64(end-start)
	}
	return g
}

// growing finds the season with missing days at a stated mean: its first day, and the first
// day after it, as indexes.
func growing(means []float64, turn int, missing float64) (state GrowingState, start, end int) {
	n := len(means)
	start, end = -1, n
	above, below := 0, 0
	for i, m := range means {
		if math.IsNaN(m) {
			m = missing
		}
		if above++; !(m > GrowingMean) {
			above = 0
		}
		if below++; !(m < GrowingMean) || i < turn {
			below = 0
		}
		if start < 0 && above == GrowingRun {
			start = i - GrowingRun + 1
		}
		if below == GrowingRun {
			end = i - GrowingRun + 1
			break
		}
	}
	switch {
	case start >= 0 && end == n:
		return GrowingToYearsEnd, start, end
	case start >= 0:
		return GrowingBounded, start, end
	case end < n && warmRun(means[end+GrowingRun:], missing):
		return GrowingUndefined, 0, 0
	}
	return GrowingNever, 0, 0
}

// warmRun says whether six warm days on end come in it.
func warmRun(means []float64, missing float64) bool {
	above := 0
	for _, m := range means {
		if math.IsNaN(m) {
			m = missing
		}
		if above++; !(m > GrowingMean) {
			above = 0
		}
		if above == GrowingRun {
			return true
		}
	}
	return false
}
