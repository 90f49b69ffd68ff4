package daily

import (
	"fmt"
	"strconv"
	"strings"

	"frostward/climate"
)

// Options say what a file does not. The zero value looks at the file for everything.
type Options struct {
	Units   Units  // of the temperatures, where the file does not say
	Station string // which station to take from a file that holds several
	Tmin    string // the column to take as minimum, such as "T10N"; "" knows the usual names
	Tmax    string // the column to take as maximum
	// Temperature is the column to take where a file has readings within the day.
	Temperature string
	Element     Element     // what a file with one unnamed element holds
	Dates       DateOrder   // for dates such as 03/04/2001
	Until       climate.Day // a later day is a fault; 0 takes any
	Shift       *int        // days to move all dates by, where the stamps may mean either of two days; nil looks at the file
	DayEnds     int         // for readings within the day: the hour at which a day ends, 0 for midnight

	MaxBytes  int64 // the most that a compressed file may unpack to; 0 is defaultMaxBytes
	MaxFaults int   // faults kept in the report; 0 is defaultMaxFaults. All are counted.

	slowly bool // for tests: no short cut for plain rows
}

// Set takes one answer to what a file leaves open, as a user writes it: key=value.
func (o *Options) Set(answer string) (err error) {
	key, value, _ := strings.Cut(answer, "=")
	key, value = strings.ToLower(strings.TrimSpace(key)), strings.TrimSpace(value)
	if value == "" {
		return fmt.Errorf("%q; wanted one of %s", answer, Answers)
	}
	switch key {
	case "dates":
		o.Dates, err = parseDateOrder(value)
	case "tmin":
		o.Tmin = value
	case "tmax":
		o.Tmax = value
	case "temperature":
		o.Temperature = value
	case "element":
		o.Element, err = parseElement(value)
	case "shift":
		n, bad := strconv.Atoi(value)
		if bad != nil || n < -1 || n > 1 {
			return fmt.Errorf("shift %q; wanted the days to move all dates by: -1, 0 or 1", value)
		}
		o.Shift = &n
	case "dayends":
		n, bad := strconv.Atoi(value)
		if bad != nil || n < 0 || n > 23 {
			return fmt.Errorf("dayends %q; wanted the hour at which a day ends, 0 to 23", value)
		}
		o.DayEnds = n
	default:
		return fmt.Errorf("%q is not known; wanted one of %s", key, Answers)
	}
	return err
}

// Answers are the forms that Set takes.
const Answers = "dates=dmy, dates=mdy, tmin=COLUMN, tmax=COLUMN, temperature=COLUMN, element=tmin, element=tmax, shift=DAYS, dayends=HOUR"

// Limits that hold unless the options say otherwise. A year of the whole GHCN-Daily
// network in one by-year file is about 1.3 GB; a faulty file soon repeats itself.
const (
	defaultMaxBytes  = 4 << 30
	defaultMaxFaults = 50
)

func (o Options) maxBytes() int64 {
	if o.MaxBytes > 0 {
		return o.MaxBytes
	}
	return defaultMaxBytes
}

func (o Options) maxFaults() int {
	if o.MaxFaults > 0 {
		return o.MaxFaults
	}
	return defaultMaxFaults
}

// Element is one of the two temperatures of a day, or neither.
type Element int8

// The elements.
const (
	NoElement Element = iota
	Tmin
	Tmax
)

func (e Element) String() string { return [...]string{"none", "tmin", "tmax"}[e] }

// parseElement reads "tmin" or "tmax".
func parseElement(s string) (Element, error) {
	switch strings.ToLower(s) {
	case "":
		return NoElement, nil
	case "tmin":
		return Tmin, nil
	case "tmax":
		return Tmax, nil
	}
	return NoElement, fmt.Errorf("%q is not an element; wanted tmin or tmax", s)
}

// DateOrder is the order of the parts of a date whose year does not come first.
type DateOrder int8

// The orders. AnyOrder looks at the file.
const (
	AnyOrder DateOrder = iota
	DayFirst
	MonthFirst
)

// parseDateOrder reads "dmy" or "mdy".
func parseDateOrder(s string) (DateOrder, error) {
	switch strings.ToLower(s) {
	case "":
		return AnyOrder, nil
	case "dmy":
		return DayFirst, nil
	case "mdy":
		return MonthFirst, nil
	}
	return AnyOrder, fmt.Errorf("%q is not an order of dates; wanted dmy or mdy", s)
}
