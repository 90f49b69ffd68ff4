package daily

import (
	"bytes"
	"time"

	"frostward/climate"
)

// Records are taken from 1600 to 2299: the thermometer is younger, and a year outside
// is a slip. The bound also makes the store of days small enough to be an array.
const (
	firstYear = 1600
	lastYear  = 2299
)

// windowDays is the number of days from the first of firstYear to the last of lastYear.
const windowDays = 255670

var windowFirst = climate.NewDay(firstYear, 1, 1)

// dayOf returns the day of a date that exists and lies in the window.
func dayOf(y, m, d int) (climate.Day, bool) {
	if y < firstYear || y > lastYear || m < 1 || m > 12 || d < 1 || d > daysIn(y, m) {
		return 0, false
	}
	// Days before the year, before the month and before the day, from 1600, which is a
	// leap year; as climate.NewDay, only quicker.
	n := y - firstYear
	n = 365*n + (n+3)/4 - (n+99)/100 + (n+399)/400 + monthStart[m] + d - 1
	if m > 2 && climate.IsLeap(y) {
		n++
	}
	return windowFirst + climate.Day(n), true
}

// monthStart[m] is the number of days before month m in a year of 365 days.
var monthStart = [13]int{0, 0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334}

var monthDays = [13]int{0, 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}

func daysIn(y, m int) int {
	if m == 2 && climate.IsLeap(y) {
		return 29
	}
	return monthDays[m]
}

// parseDate reads 2001-05-24, 2001/5/24, 20010524, 24.05.2001, 24/5/01, 24 May 2001 and the
// like; a time of day after it is passed over. Where the year is last and the month
// is a number, order says which of the others comes first.
func parseDate(b []byte, order DateOrder) (climate.Day, bool) {
	day, rest, ok := dateAndRest(b, order)
	if !ok || len(rest) == 0 {
		return day, ok
	}
	_, _, ok = parseClock(rest)
	return day, ok
}

// dateAndRest reads a date and returns what follows it: nothing, or what starts like a time of day.
func dateAndRest(b []byte, order DateOrder) (day climate.Day, rest []byte, ok bool) {
	if n := digitsAt(b, 0); n == 8 || n == 10 || n == 12 {
		day, ok = dayOf(atoi(b[:4]), atoi(b[4:6]), atoi(b[6:8]))
		return day, b[8:], ok && (n > 8 || startsTime(b[8:]))
	}
	part, rest, ok := dateParts(b)
	if !ok || !startsTime(rest) {
		return 0, nil, false
	}
	month := func(t []byte) int {
		if t[0]-'0' <= 9 {
			return atoi(t)
		}
		return monthNamed(t)
	}
	named0, named1 := part[0][0]-'0' > 9, part[1][0]-'0' > 9
	if len(part[0]) == 4 && !named0 {
		if len(part[2]) > 2 {
			return 0, nil, false
		}
		day, ok = dayOf(atoi(part[0]), month(part[1]), atoi(part[2]))
		return day, rest, ok
	}
	year := atoi(part[2])
	byHand := len(part[2]) == 2 && len(part[0]) <= 2 && b[len(part[0])] != '-' // 24/5/99
	switch {
	case byHand && year >= 70:
		year += 1900
	case byHand:
		year += 2000
	case len(part[2]) != 4:
		return 0, nil, false
	}
	if named0 || order == MonthFirst && !named1 {
		day, ok = dayOf(year, month(part[0]), atoi(part[1]))
	} else {
		day, ok = dayOf(year, month(part[1]), atoi(part[0]))
	}
	return day, rest, ok
}

func startsTime(b []byte) bool { return len(b) == 0 || b[0] == 'T' || b[0] == ' ' }

// dateParts cuts a date into its three parts; the last is a number.
func dateParts(b []byte) (part [3][]byte, rest []byte, ok bool) {
	for k := range part {
		n := digitsAt(b, 0)
		if n == 0 && k < 2 {
			n = lettersAt(b)
		}
		if n == 0 || n > 9 || n > 4 && b[0]-'0' <= 9 {
			return part, nil, false
		}
		part[k], b = b[:n], b[n:]
		if k == 2 {
			return part, b, true
		}
		if len(b) == 0 || bytes.IndexByte([]byte("-/. ,"), b[0]) < 0 {
			return part, nil, false
		}
		b = bytes.TrimLeft(b[1:], " ")
	}
	return part, nil, false
}

func digitsAt(b []byte, i int) int {
	n := 0
	for i+n < len(b) && b[i+n]-'0' <= 9 {
		n++
	}
	return n
}

func lettersAt(b []byte) int {
	n := 0
	for n < len(b) && b[n]|0x20 >= 'a' && b[n]|0x20 <= 'z' {
		n++
	}
	return n
}

// atoi reads at most 4 digits; anything else is -1.
func atoi(b []byte) int {
	n := 0
	for _, c := range b {
		if c-'0' > 9 || len(b) > 4 {
			return -1
		}
		n = n*10 + int(c-'0')
	}
	return n
}

// monthNamed returns the month with an English name or its first three letters, or 0.
func monthNamed(b []byte) int {
	if len(b) < 3 {
		return 0
	}
	for m := time.January; m <= time.December; m++ {
		if name := m.String(); len(b) <= len(name) && bytes.EqualFold(b, []byte(name[:len(b)])) {
			return int(m)
		}
	}
	return 0
}
