package daily

import (
	"bytes"

	"frostward/climate"
)

// zone is what a time of day says of the place of its clock.
type zone int8

const (
	noZone zone = iota // it says nothing, or names the place's own clock
	utc
)

// parseStamp reads a date with the time of day that may follow it, in minutes; -1 where none does.
func parseStamp(b []byte, order DateOrder) (day climate.Day, minute int, z zone, ok bool) {
	day, rest, ok := dateAndRest(b, order)
	if !ok {
		return 0, 0, noZone, false
	}
	minute, z, ok = parseClock(rest)
	return day, minute, z, ok
}

// parseClock reads a time of day: 14:30, 14, 1430, 2:30 PM, T14:30:00Z, 14:30:00.000+02:00.
func parseClock(b []byte) (minute int, z zone, ok bool) {
	b = bytes.TrimLeft(b, "T ")
	if len(b) == 0 {
		return -1, noZone, true
	}
	n := digitsAt(b, 0)
	var hour, min int
	switch {
	case n == 1 || n == 2:
		hour, b = atoi(b[:n]), b[n:]
		if len(b) > 2 && (b[0] == ':' || b[0] == '.') && digitsAt(b, 1) == 2 {
			min, b = atoi(b[1:3]), b[3:]
		}
	case n == 4 || n == 6:
		hour, min, b = atoi(b[:2]), atoi(b[2:4]), b[n:]
	default:
		return 0, noZone, false
	}
	for len(b) > 1 && (b[0] == ':' || b[0] == '.' || b[0] == ',') && digitsAt(b, 1) > 0 { // seconds and their parts
		b = b[1+digitsAt(b, 1):]
	}
	rest := bytes.ToLower(bytes.TrimSpace(b))
	switch {
	case bytes.HasPrefix(rest, []byte("am")), bytes.HasPrefix(rest, []byte("pm")):
		if hour < 1 || hour > 12 {
			return 0, noZone, false
		}
		hour %= 12
		if rest[0] == 'p' {
			hour += 12
		}
		rest = bytes.TrimSpace(rest[2:])
	}
	switch string(rest) {
	case "":
	case "z", "utc", "gmt", "+00:00", "+0000", "+00":
		z = utc
	default:
		if rest[0] != '+' && rest[0] != '-' || len(bytes.Trim(rest[1:], "0123456789:")) > 0 {
			return 0, noZone, false
		}
	}
	if hour > 24 || min > 59 || hour == 24 && min > 0 {
		return 0, noZone, false
	}
	return hour*60 + min, z, true
}

// stamps counts the hours, in UTC, at which a file stamps its days.
type stamps struct {
	hours [24]int
	utc   int // all in UTC
	other int // stamped with no time, or by the place's own clock
}

func (s *stamps) add(minute int, z zone) {
	if z != utc || minute < 0 {
		s.other++
		return
	}
	s.utc++
	if minute%60 == 0 {
		s.hours[minute/60%24]++
	}
}

// shift is the number of days by which stamps in UTC lie beside the days they mean: 23:00 the evening before is
// midnight an hour east of Greenwich. ok is false where it may be either.
func (s *stamps) shift(longitude float64) (days int, hour int, ok bool) {
	most, second := -1, -1
	for h, n := range s.hours {
		switch {
		case n == 0:
		case most < 0 || n > s.hours[most]:
			most, second = h, most
		case second < 0 || n > s.hours[second]:
			second = h
		}
	}
	switch {
	case most <= 12, 2*s.hours[most] < s.other+s.utc-s.hours[most]:
		return 0, most, true // the same day at the place, or noon
	case longitude == longitude:
		east := float64(24-most) * 15
		if d := east - longitude; d > -30 && d < 30 {
			return 1, most, true
		}
		return 0, most, true
	case second >= 0 && (second == most-1 || second == most+1) && s.hours[second] > 20:
		return 1, most, true // summer time moves a place's midnight, and nothing else
	}
	return 0, most, false
}
