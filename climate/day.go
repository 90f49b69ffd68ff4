package climate

import (
	"fmt"
	"time"
)

// Day is a calendar day: the number of days since 1 January 1970 in the Gregorian
// calendar carried back without end. It has no time of day and no zone, so that
// days compare with < and differ by whole numbers.
type Day int32

// NewDay returns the day of a date. A date that does not exist, such as 30
// February, is moved on as time.Date does; ParseDay refuses it.
func NewDay(year int, month time.Month, day int) Day {
	return Day(time.Date(year, month, day, 0, 0, 0, 0, time.UTC).Unix() / 86400)
}

// ParseDay reads an ISO 8601 calendar date such as 2026-05-24.
func ParseDay(s string) (Day, error) {
	t, err := time.Parse(time.DateOnly, s)
	if err != nil {
		return 0, fmt.Errorf("%q is not a date; wanted year-month-day, such as 2026-05-24", s)
	}
	return Day(t.Unix() / 86400), nil
}

// Date returns the year, month and day of the month.
func (d Day) Date() (year int, month time.Month, day int) {
	return time.Unix(int64(d)*86400, 0).UTC().Date()
}

// Year returns the calendar year.
func (d Day) Year() int {
	y, _, _ := d.Date()
	return y
}

// String returns the ISO 8601 date.
func (d Day) String() string {
	return time.Unix(int64(d)*86400, 0).UTC().Format(time.DateOnly)
}

// DaysIn returns the number of days in a month.
func DaysIn(year int, month time.Month) int {
	n := monthStart[month] - monthStart[month-1]
	if month == time.February && IsLeap(year) {
		n++
	}
	return n
}

// IsLeap says whether a year has a 29 February.
func IsLeap(year int) bool {
	return year%4 == 0 && (year%100 != 0 || year%400 == 0)
}
