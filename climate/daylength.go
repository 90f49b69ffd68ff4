package climate

import "math"

// SunriseToSunset is the hours of daylight of FAO Irrigation and Drainage Paper 56 (Allen et al. 1998), eq. 34,
// but from the first to the last edge of the sun on a flat horizon (sunHorizon), for a latitude in degrees, south
// negative, and a day of the year, 1 to 366. It is 24 under the midnight sun and 0 in the polar night.
//
// The declination, eq. 24, is up to 1.15 degrees too far south (12 October, measured against SunAt). DayLengths
// agrees with the almanac.
func SunriseToSunset(latitude float64, yearDay int) float64 {
	return 24 / math.Pi * sunsetAngle(latitude, yearDay, sunHorizon)
}

// sunsetAngle is the sunset hour angle in radians, FAO-56 eq. 25 where height is 0.
func sunsetAngle(latitude float64, yearDay int, height float64) float64 {
	const deg = math.Pi / 180
	ha, _ := hourAngle(latitude*deg, declination(yearDay), height*deg)
	return ha
}

// declination of the sun in radians, FAO-56 eq. 24.
func declination(yearDay int) float64 {
	return 0.409 * math.Sin(2*math.Pi*float64(yearDay)/365-1.39)
}

// DayLengths returns the hours from sunrise to sunset, as an almanac has them, for each
// day of the season, season day 0 first, so that a day loop looks them up. They are
// SunAt's for the season that begins in 2026: the leap years move the sun by less than
// half a day's worth, 3 minutes of day at 60 degrees.
func (c Calendar) DayLengths(latitude float64) [YearDays]float64 {
	var t [YearDays]float64
	for i := range t {
		t[i] = SunAt(c.Day(2026, SeasonDay(i)), latitude, 0).length()
	}
	return t
}

// yearDay returns the day of the year, 1 to 365, of a season day.
func (c Calendar) yearDay(sd SeasonDay) int {
	n := int(sd)
	if c.South {
		n += southShift
	}
	return (n%YearDays+YearDays)%YearDays + 1
}

// Fold returns the season day of the same date in the season's own year, 0 to 364: the
// index into a table such as DayLengths.
func (sd SeasonDay) Fold() int { return (int(sd)%YearDays + YearDays) % YearDays }

// LightSpan is the part of a season in which days are at least so many hours long: from
// First to Last, both included. Whole and None are for places where that is every day
// or no day.
type LightSpan struct {
	First, Last SeasonDay // 0 to 364
	Whole, None bool
}

// DaysOfLight returns the days of at least so many hours by DayLengths. "The 10-hour
// line" bounds growth worth the name for leaf crops; see LeafLightHours.
func (c Calendar) DaysOfLight(latitude, hours float64) LightSpan {
	t := c.DayLengths(latitude)
	first, last := -1, -1
	for i, h := range t {
		if h >= hours {
			if first < 0 {
				first = i
			}
			last = i
		}
	}
	return LightSpan{
		First: SeasonDay(first), Last: SeasonDay(last),
		None:  first < 0,
		Whole: first == 0 && last == YearDays-1,
	}
}
