package climate

import (
	"fmt"
	"time"
)

// SeasonDay is a day counted from the start of a season, 0 being its first day. A
// season's year has 365 days: 29 February is folded into 28 February, so a given
// date is the same season day every year. Values below 0 and above 364 are days of
// the years before and after; the last spring frost of a mild place may well fall
// before its season begins.
type SeasonDay int

// NeverDay stands for a day that does not come, as Never does among floats. It sorts after
// every day, and some hundred thousand days may be added to it.
const NeverDay SeasonDay = 1 << 30

// OrNever is the day as a float, to count over seasons: Never for NeverDay.
func (sd SeasonDay) OrNever() float64 {
	if sd >= NeverDay {
		return Never
	}
	return float64(sd)
}

// YearDays is the length of a season's year, 29 February folded away.
const YearDays = 365

// Midsummer is the season day that parts spring from autumn: 1 August in the north,
// 29 January in the south. The warmest time of the year comes about a month after
// the longest day, and 1 August to 31 July is the customary year for counting
// frosts (common practice in the United States' freeze normals, from memory).
const Midsummer SeasonDay = 212

// Calendar says when the seasons of a place begin: at midwinter, which is taken as
// 1 January in the north and 1 July in the south. The zero Calendar is northern.
type Calendar struct{ South bool }

// CalendarAt returns the calendar for a latitude in degrees, south negative.
func CalendarAt(latitude float64) Calendar { return Calendar{South: latitude < 0} }

// southShift is the number of days from 1 January to 1 July in a year of 365 days.
const southShift = 181

// Locate returns the season that a day belongs to, named by the calendar year in
// which it starts, and the day's number in it.
func (c Calendar) Locate(d Day) (season int, sd SeasonDay) {
	y, m, md := d.Date()
	n := foldedYearDay(m, md)
	if !c.South {
		return y, SeasonDay(n)
	}
	if n < southShift {
		return y - 1, SeasonDay(n + YearDays - southShift)
	}
	return y, SeasonDay(n - southShift)
}

// Day returns the calendar day of a season day, which may lie outside 0 to 364.
// It never returns 29 February.
func (c Calendar) Day(season int, sd SeasonDay) Day {
	y, n := season, int(sd)
	if c.South {
		n += southShift
	}
	for n < 0 {
		n += YearDays
		y--
	}
	for n >= YearDays {
		n -= YearDays
		y++
	}
	m, md := unfold(n)
	return NewDay(y, m, md)
}

// Of returns the season day, 0 to 364, of a month and day of the month. 29 February
// counts as 28 February.
func (c Calendar) Of(m time.Month, day int) SeasonDay {
	n := foldedYearDay(m, day)
	if c.South {
		n -= southShift
	}
	return SeasonDay((n + YearDays) % YearDays)
}

// MonthDay returns the month and day of the month of a season day.
func (c Calendar) MonthDay(sd SeasonDay) (time.Month, int) {
	n := int(sd)
	if c.South {
		n += southShift
	}
	return unfold(((n % YearDays) + YearDays) % YearDays)
}

// Format returns a season day as MM-DD.
func (c Calendar) Format(sd SeasonDay) string {
	m, d := c.MonthDay(sd)
	return fmt.Sprintf("%02d-%02d", int(m), d)
}

// Words returns a season day for a reader, such as "24 May".
func (c Calendar) Words(sd SeasonDay) string {
	m, d := c.MonthDay(sd)
	return fmt.Sprintf("%d %s", d, m.String()[:3])
}

// monthStart[m-1] is the number of days before month m in a year of 365 days.
var monthStart = [13]int{0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365}

func foldedYearDay(m time.Month, day int) int {
	if m == time.February && day == 29 {
		day = 28
	}
	return monthStart[m-1] + day - 1
}

func unfold(n int) (time.Month, int) {
	m := n/31 + 1 // never too late: no month is longer than 31 days
	for n >= monthStart[m] {
		m++
	}
	return time.Month(m), n - monthStart[m-1] + 1
}
