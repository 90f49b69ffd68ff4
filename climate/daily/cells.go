package daily

import (
	"bytes"
	"fmt"
	"math"
	"strconv"

	"frostward/climate"
)

// empty says whether a row has no temperature.
func (d *delimited) empty(f [][]byte) bool {
	for _, c := range []column{colTmin, colTmax, colTemperature} {
		i := d.header.at[c]
		if i < 0 || isBlank(f[i]) {
			continue
		}
		if v, ok := parseNumber(f[i]); !ok || !isCode(v, d.codes) {
			return false
		}
	}
	return true
}

// date makes a day of the columns, and a minute of the day, -1 where there is none; bad is the text that it could not use.
func (d *delimited) date(f [][]byte) (day climate.Day, minute int, z zone, bad []byte, field string) {
	at := &d.header.at
	if day, minute, z, bad, field = d.day(f); bad != nil {
		return 0, 0, noZone, bad, field
	}
	if i := at[colClock]; i >= 0 && minute < 0 && !isBlank(f[i]) {
		m, zone, ok := parseClock(f[i])
		if !ok && at[colTemperature] >= 0 {
			return 0, 0, noZone, notNil(f[i]), "time"
		}
		if ok {
			minute, z = m, zone
		}
	}
	if z == noZone && minute >= 0 && d.utc {
		z = utc
	}
	return day, minute, z, nil, field
}

// day makes a day of the columns.
func (d *delimited) day(f [][]byte) (day climate.Day, minute int, z zone, bad []byte, field string) {
	at := &d.header.at
	if i := at[colDate]; i >= 0 {
		if day, minute, z, ok := parseStamp(f[i], d.order); ok {
			return day, minute, z, nil, "date"
		}
		return 0, 0, noZone, notNil(f[i]), "date"
	}
	y := atoi(f[at[colYear]])
	if i := at[colYearDay]; i >= 0 && (at[colMonth] < 0 || at[colDay] < 0) {
		n := atoi(f[i])
		if y < firstYear || y > lastYear || n < 1 || n > 366 || n == 366 && !climate.IsLeap(y) {
			return 0, 0, noZone, notNil(f[i]), "day of the year"
		}
		return climate.NewDay(y, 1, 1) + climate.Day(n-1), -1, noZone, nil, "day of the year"
	}
	m := f[at[colMonth]]
	month := atoi(m)
	if month < 0 {
		month = monthNamed(m)
	}
	if day, ok := dayOf(y, month, atoi(f[at[colDay]])); ok {
		return day, -1, noZone, nil, "date"
	}
	return 0, 0, noZone, []byte(string(f[at[colYear]]) + "-" + string(m) + "-" + string(f[at[colDay]])), "date"
}

func notNil(b []byte) []byte {
	if b == nil {
		return []byte{}
	}
	return b
}

// value reads a temperature; it is NaN where missing, and false where it is a fault.
func (d *delimited) value(t *table, c, flags column, line int) (float64, bool) {
	i := d.header.at[c]
	if i < 0 {
		return math.NaN(), true
	}
	f := d.split.fields
	if isBlank(f[i]) {
		return math.NaN(), true
	}
	v, ok := parseNumber(f[i])
	if !ok {
		t.fault(line, map[column]string{colTmin: "tmin", colTmax: "tmax", colTemperature: "temperature"}[c], f[i], notANumber(f[i]))
		return 0, false
	}
	if isCode(v, d.codes) {
		t.coded++
		return math.NaN(), true
	}
	if q := d.header.at[flags]; q >= 0 && qualityFlag(f[q]) {
		t.flagged++
		return math.NaN(), true
	}
	for _, g := range d.header.flags {
		if (g.of == NoElement || g.of == Tmin && c == colTmin || g.of == Tmax && c == colTmax) && g.isBad(f[g.at]) {
			t.flagged++
			return math.NaN(), true
		}
	}
	return v, true
}

// notANumber words the fault of a temperature.
func notANumber(b []byte) string {
	if v, err := strconv.ParseFloat(string(b), 64); err == nil && !math.IsNaN(v) {
		return "is no temperature; wanted a number such as -3.5"
	}
	return "is not a number"
}

// qualityFlag says whether the second of the flags "M,Q,S,time" is set.
func qualityFlag(flags []byte) bool {
	i := bytes.IndexByte(flags, ',')
	if i < 0 {
		return false
	}
	flags = flags[i+1:]
	if j := bytes.IndexByte(flags, ','); j >= 0 {
		flags = flags[:j]
	}
	return len(bytes.TrimSpace(flags)) > 0
}

func columnsOf(n int) string {
	if n == 1 {
		return "1 column"
	}
	return fmt.Sprintf("%d columns", n)
}

// notADate words the fault of a date.
var notADate = fmt.Sprintf("is not a date from %d to %d; wanted year-month-day, such as 2026-05-24", firstYear, lastYear)

func (d *delimited) outside(day climate.Day) string {
	if d.opts.Until != 0 && day > d.opts.Until {
		return "is in the future; wanted a day up to " + d.opts.Until.String()
	}
	return ""
}
