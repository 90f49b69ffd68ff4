package journal

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"frostward/climate"
	"frostward/climate/night"
)

// empty is the cell that takes a value away.
const empty = "-"

// wanted is a number as people and spreadsheets write it: no exponent, no NaN.
var wanted = onDemand(`^[+-]?(\d{1,4}([.,]\d{0,6})?|[.,]\d{1,6})$`)

// parseNumber reads a number with a decimal point or comma; "" is NaN.
func parseNumber(s string) (float64, error) {
	s = strings.ReplaceAll(s, "\u2212", "-") // the minus sign of typography
	if s == "" || s == empty {
		return math.NaN(), nil
	}
	if !wanted().MatchString(s) {
		return 0, fmt.Errorf("%q is not a number", s)
	}
	return strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64)
}

// formatNumber writes a number with two decimals at most; "" for NaN.
func formatNumber(v float64, decimalComma bool) string {
	if math.IsNaN(v) {
		return ""
	}
	v = math.Round(v*100) / 100
	s := strconv.FormatFloat(v, 'f', -1, 64)
	if s == "-0" {
		s = "0"
	}
	if decimalComma {
		s = strings.Replace(s, ".", ",", 1)
	}
	return s
}

// unguard takes off the apostrophe that keeps a text from being taken for a formula.
func unguard(s string) string {
	if len(s) > 1 && s[0] == '\'' && strings.ContainsRune("=+-@", rune(s[1])) {
		return s[1:]
	}
	return s
}

// dateOrder is how a spreadsheet has rewritten dates. The zero value is not known.
type dateOrder int8

const (
	isoOnly dateOrder = iota
	dayFirst
	monthFirst
)

var slashed = onDemand(`^(\d{1,2})([./])(\d{1,2})[./](\d{4})$`)

// orderOf finds the order of day and month from all dates of the file: one with a part
// above 12 tells it. Dots mean day first everywhere.
func orderOf(dates []string) dateOrder {
	var day, month bool
	for _, s := range dates {
		m := slashed().FindStringSubmatch(s)
		if m == nil {
			continue
		}
		a, _ := strconv.Atoi(m[1])
		b, _ := strconv.Atoi(m[3])
		day = day || a > 12 || m[2] == "."
		month = month || b > 12
	}
	switch {
	case day && !month:
		return dayFirst
	case month && !day:
		return monthFirst
	}
	return isoOnly
}

func parseDate(s string, order dateOrder) (climate.Day, error) {
	m := slashed().FindStringSubmatch(s)
	if m == nil {
		return climate.ReadDay(s)
	}
	if order == isoOnly {
		return 0, fmt.Errorf("%q: which is the day and which the month is not clear; wanted year-month-day, such as 2026-05-24", s)
	}
	d, mo, y := m[1], m[3], m[4]
	if order == monthFirst {
		d, mo = mo, d
	}
	iso := fmt.Sprintf("%s-%02s-%02s", y, mo, d)
	day, err := climate.ParseDay(iso)
	if err != nil {
		return 0, fmt.Errorf("%q is not a date; wanted year-month-day, such as 2026-05-24", s)
	}
	return day, nil
}

// first and last day that a log can hold: before the first minimum thermometer, and
// far enough ahead for any clock.
var (
	firstDay = climate.NewDay(1700, time.January, 1)
	lastDay  = climate.NewDay(2999, time.December, 31)
)

// entryOf reads a row by the columns of its heading.
func entryOf(cells, columns []string, order dateOrder, f form) (Entry, error) {
	e := NewEntry(0, "")
	if len(cells) > len(columns) {
		return e, fmt.Errorf("%d cells; the heading has %d", len(cells), len(columns))
	}
	for i, s := range cells {
		if err := e.set(columns[i], s, order); err != nil {
			return e, fmt.Errorf("%s: %w", columns[i], err)
		}
	}
	return e, f.check(e)
}

func (e *Entry) set(col, s string, order dateOrder) (err error) {
	if strings.ContainsRune(s, 0) {
		return fmt.Errorf("%q has a zero byte", s)
	}
	if s == empty {
		s = ""
		if e.emptied == nil {
			e.emptied = map[string]bool{}
		}
		e.emptied[col] = true
	}
	for _, n := range numbers {
		if col == n.col {
			if col == colHumidity {
				s = strings.TrimSuffix(s, "%")
			}
			*n.of(e), err = parseNumber(s)
			return err
		}
	}
	for _, t := range texts {
		if col == t.col {
			if col == colCovered && (strings.EqualFold(s, "no") || strings.EqualFold(s, "none")) {
				return e.set(col, empty, order)
			}
			*t.of(e) = unguard(s)
			return nil
		}
	}
	switch col {
	case colDate:
		e.Day, err = parseDate(s, order)
	case colCloud:
		e.Cloud, err = night.ParseCloud(s)
	case colWind:
		e.Wind, err = night.ParseWind(s)
	case colWhat:
		e.What = strings.ToLower(s)
	}
	return err
}

// cell writes the value of one column; a column that is not ours is left empty.
func (e Entry) cell(col string, decimalComma bool) string {
	for _, n := range numbers {
		if col == n.col {
			return formatNumber(*n.of(&e), decimalComma)
		}
	}
	for _, t := range texts {
		if col == t.col {
			return *t.of(&e)
		}
	}
	switch col {
	case colDate:
		return e.Day.String()
	case colCloud:
		return e.Cloud.String()
	case colWind:
		return e.Wind.String()
	case colWhat:
		return e.What
	}
	return ""
}
