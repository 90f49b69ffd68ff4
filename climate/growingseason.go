package climate

import (
	"math"
	"time"
)

// GrowingSeason is the growing season of ETCCDI's index GSL: from the first six days on
// end with a daily mean above 5 °C to the first six on end below 5 °C that begin on or
// after 1 July (1 January in the south), within the season's 365 days.
type GrowingSeason struct {
	State GrowingState
	Start SeasonDay // first of the six warm days
	End   SeasonDay // first of the six cool days; YearDays when they do not come
	Days  float64   // End - Start; 0 when it never starts; NaN when not known or undefined
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

// GrowingSeasonOf returns the growing season of a season.
//
// Missing days: it is worked out twice, the missing taken as warm and as cool, and known
// only when both give the same days.
//
// The end is looked for on or after 1 July even where the season clearly broke off
// before, as the index is defined. 29 February is folded away, so that no season is
// longer than 365 days.
func GrowingSeasonOf(s Season, c Calendar) GrowingSeason {
	warm, cool := growing(s, c, 100), growing(s, c, -100)
	if warm != cool {
		return GrowingSeason{Days: math.NaN()}
	}
	g := warm
	switch g.State {
	case GrowingNever:
		g.Days = 0
	case GrowingUndefined:
		g.Days = math.NaN()
	default:
		g.Days = float64(g.End - g.Start)
	}
	return g
}

// growing works out the season with missing days at a stated mean; Days is left 0 so
// that results can be compared.
func growing(s Season, c Calendar, missing float64) GrowingSeason {
	turn := c.Of(time.July, 1)
	if c.South {
		turn = c.Of(time.January, 1)
	}
	start, end := SeasonDay(-1), SeasonDay(YearDays)
	above, below := 0, 0
	for sd := SeasonDay(0); sd < YearDays; sd++ {
		m := meanOr(s, sd, missing)
		if above++; !(m > GrowingMean) {
			above = 0
		}
		if below++; !(m < GrowingMean) || sd < turn {
			below = 0
		}
		if start < 0 && above == GrowingRun {
			start = sd - GrowingRun + 1
		}
		if below == GrowingRun {
			end = sd - GrowingRun + 1
			break
		}
	}
	switch {
	case start < 0 && end < YearDays && laterWarm(s, end+GrowingRun, missing):
		return GrowingSeason{State: GrowingUndefined}
	case start < 0:
		return GrowingSeason{State: GrowingNever}
	case end == YearDays:
		return GrowingSeason{State: GrowingToYearsEnd, Start: start, End: end}
	}
	return GrowingSeason{State: GrowingBounded, Start: start, End: end}
}

// laterWarm tells whether six warm days come from a day on.
func laterWarm(s Season, from SeasonDay, missing float64) bool {
	above := 0
	for sd := from; sd < YearDays; sd++ {
		m := meanOr(s, sd, missing)
		if above++; !(m > GrowingMean) {
			above = 0
		}
		if above == GrowingRun {
			return true
		}
	}
	return false
}

// meanOr is a day's mean, or another value where the day is missing.
func meanOr(s Season, sd SeasonDay, missing float64) float64 {
	tmin, tmax := s.At(sd)
	m := (tmin + tmax) / 2
	if math.IsNaN(m) {
		return missing
	}
	return m
}
