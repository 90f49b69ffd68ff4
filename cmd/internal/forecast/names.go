package forecast

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"frostward/climate"
)

// The names that columns usually have, in the order of preference.
var (
	timeNames = []string{"time", "datetime", "date_time", "valid_time", "valid", "timestamp", "dt", "start_time", "starttime", "period_start", "date", "day", "night", "morning"}
	hourNames = []string{"temperature_2m", "temperature", "temp", "air_temperature", "temp_2m", "t2m", "t_2m", "tt", "t"}
	lowNames  = []string{"temperature_2m_min", "tmin", "t_min", "temp_min", "temperature_min", "min_temp", "mintemp", "min_temperature", "temperature_low", "minimum", "min", "low", "lowest", "tn"}
)

// written finds the unit in a name: "tmin_c", "temperature_2m (°F)", "low [degC]".
var written = regexp.MustCompile(`(?i)[\s_(\[]+(?:°|deg(?:rees)?[\s_]*)?(c|f|celsius|fahrenheit)[)\]]?$`)

// nameOf is a column's name as the lists above have it, and the unit in it.
func nameOf(s string) (name, unit string) {
	s = strings.ToLower(strings.TrimSpace(s))
	if m := written.FindStringSubmatchIndex(s); m != nil {
		unit = s[m[2] : m[2]+1]
		s = s[:m[0]]
	}
	return strings.Trim(strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' {
			return r
		}
		return '_'
	}, s), "_"), unit
}

// unitOf is the unit that a word says: "°C", "celsius", "F".
func unitOf(s string) string {
	_, unit := nameOf("x " + s)
	return unit
}

// pick finds the columns of the time and the temperature among names: by the hour where there are
// hours, because their minimum is that of the night and not of a day from midnight on.
func pick(names []string) (at, value int, minima bool) {
	find := func(list []string) int {
		for _, want := range list {
			if i := slices.IndexFunc(names, func(n string) bool { got, _ := nameOf(n); return got == want }); i >= 0 {
				return i
			}
		}
		return -1
	}
	if at = find(timeNames); at < 0 {
		return -1, -1, false
	}
	low, any := find(lowNames), find(hourNames)
	if any >= 0 && low < 0 {
		return at, any, false
	}
	return at, low, low >= 0
}

// timeOf reads a time; clock says whether it is more than a date. A time without a zone is the
// garden's own.
func timeOf(s string, zone *time.Location) (t time.Time, clock bool, err error) {
	s = strings.TrimSpace(s)
	for _, layout := range []string{time.RFC3339, "2006-01-02T15:04Z07:00"} {
		if t, err = time.Parse(layout, s); err == nil {
			return t.In(zone), true, nil
		}
	}
	for _, layout := range []string{"2006-01-02T15:04:05", "2006-01-02T15:04", "2006-01-02 15:04:05", "2006-01-02 15:04"} {
		if t, err = time.Parse(layout, s); err == nil {
			return t, true, nil
		}
	}
	if d, err := climate.ParseDay(s); err == nil {
		y, m, md := d.Date()
		return time.Date(y, m, md, 0, 0, 0, 0, time.UTC), false, nil
	}
	if n, err := strconv.ParseInt(s, 10, 64); err == nil && n > 1e9 && n < 1e10 {
		return time.Unix(n, 0).In(zone), true, nil
	}
	return t, false, fmt.Errorf("%q is not a time; wanted one such as 2026-05-16T21:00 or 2026-05-16", s)
}
