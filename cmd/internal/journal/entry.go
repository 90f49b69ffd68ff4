package journal

import (
	"fmt"
	"math"

	"frostward/climate"
	"frostward/climate/night"
)

// Entry is one line of the log. Numbers that were not given are NaN, words "".
type Entry struct {
	Day      climate.Day // the morning
	Spot     string
	Tmin     float64 // °C
	Tmax     float64 // °C: the maximum of the day at the spot
	Beside   float64 // °C: the minimum beside the cover, when Tmin is under it
	Evening  float64 // °C
	DewPoint float64 // °C
	Humidity float64 // per cent
	Cloud    night.Cloud
	Wind     night.Wind
	Forecast float64 // °C
	Covered  string  // the cover's name; "" for none
	Damage   string
	Note     string
	Planting string // of a diary
	What     string // of a diary

	Line    int             // where it stands in the file; 0 when not read from one
	emptied map[string]bool // columns with a hyphen
}

// NewEntry returns an entry without any value.
func NewEntry(d climate.Day, spot string) Entry {
	n := math.NaN()
	return Entry{Day: d, Spot: spot, Tmin: n, Tmax: n, Beside: n, Evening: n, DewPoint: n, Humidity: n, Forecast: n}
}

// Names of the columns.
const (
	colDate     = "date"
	colSpot     = "spot"
	colHumidity = "humidity_pct"
	colDewPoint = "dew_point_c"
	colCloud    = "cloud"
	colWind     = "wind"
	colCovered  = "covered"
	colNote     = "note"
	colPlanting = "planting"
	colWhat     = "what"
)

// numbers and texts are the columns of numbers and of words, and where an entry has each.
var numbers = []struct {
	col string
	of  func(*Entry) *float64
}{
	{"tmin_c", func(e *Entry) *float64 { return &e.Tmin }}, {"tmax_c", func(e *Entry) *float64 { return &e.Tmax }},
	{"beside_c", func(e *Entry) *float64 { return &e.Beside }}, {"evening_c", func(e *Entry) *float64 { return &e.Evening }},
	{colDewPoint, func(e *Entry) *float64 { return &e.DewPoint }}, {colHumidity, func(e *Entry) *float64 { return &e.Humidity }},
	{"forecast_c", func(e *Entry) *float64 { return &e.Forecast }},
}

var texts = []struct {
	col string
	of  func(*Entry) *string
}{
	{colCovered, func(e *Entry) *string { return &e.Covered }}, {"damage", func(e *Entry) *string { return &e.Damage }},
	{colNote, func(e *Entry) *string { return &e.Note }},
	{colSpot, func(e *Entry) *string { return &e.Spot }}, {colPlanting, func(e *Entry) *string { return &e.Planting }}, // what a line is about
}

// entryColumns are the columns of a new log, in its order.
func entryColumns() []string {
	return []string{colDate, colSpot, "tmin_c", "tmax_c", "beside_c", "evening_c", colDewPoint, colHumidity, colCloud, colWind,
		"forecast_c", colCovered, "damage", colNote}
}

// bounds of what a thermometer in a garden can have read. The world's extremes are
// -89 and 57 °C (World Meteorological Organization, from memory).
const lowest, highest = -90.0, 60.0

// Check says what is wrong with an entry.
func (e Entry) Check() error {
	if e.Spot == "" {
		return fmt.Errorf("%s: is empty; wanted a spot of the garden", colSpot)
	}
	if err := e.checkDay(); err != nil {
		return err
	}
	return e.CheckReadings()
}

// checkDay refuses days that no log can hold.
func (e Entry) checkDay() error {
	if e.Day < firstDay || e.Day > lastDay {
		return fmt.Errorf("%s: year %d is not one of a log; wanted a day from %v to %v", colDate, e.Day.Year(), firstDay, lastDay)
	}
	return nil
}

// CheckReadings says what is wrong with an entry's numbers.
func (e Entry) CheckReadings() error {
	for _, n := range numbers {
		if v := *n.of(&e); n.col != colHumidity && (v < lowest || v > highest) {
			return fmt.Errorf("%s: %v °C is outside what is found on earth; wanted °C between %v and %v", n.col, v, lowest, highest)
		}
	}
	if e.Humidity < 0 || e.Humidity > 101 { // cheap hygrometers read a little over 100
		return fmt.Errorf("%s: %v is not a humidity; wanted per cent between 0 and 100", colHumidity, e.Humidity)
	}
	if e.Evening < e.DewPoint-1 { // a degree for the error of two cheap sensors
		return fmt.Errorf("%s: %v °C is above the temperature of %v °C at the same hour, which cannot be", colDewPoint, e.DewPoint, e.Evening)
	}
	return nil
}

// with returns e with the filled cells of a later line in the place of its own.
func (e Entry) with(late Entry) Entry {
	for _, n := range numbers {
		if v := *n.of(&late); v == v || late.emptied[n.col] {
			*n.of(&e) = v
		}
	}
	for _, t := range texts {
		if s := *t.of(&late); s != "" || late.emptied[t.col] {
			*t.of(&e) = s
		}
	}
	if late.Cloud != night.CloudUnknown || late.emptied[colCloud] {
		e.Cloud = late.Cloud
	}
	if late.Wind != night.WindUnknown || late.emptied[colWind] {
		e.Wind = late.Wind
	}
	e.Line = late.Line
	return e
}
