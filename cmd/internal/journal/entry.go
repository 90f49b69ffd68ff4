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
	colTmin     = "tmin_c"
	colTmax     = "tmax_c"
	colBeside   = "beside_c"
	colEvening  = "evening_c"
	colDewPoint = "dew_point_c"
	colHumidity = "humidity_pct"
	colCloud    = "cloud"
	colWind     = "wind"
	colForecast = "forecast_c"
	colCovered  = "covered"
	colDamage   = "damage"
	colNote     = "note"
	colPlanting = "planting"
	colWhat     = "what"
)

// entryColumns are the columns of a new log, in its order.
func entryColumns() []string {
	return []string{colDate, colSpot, colTmin, colTmax, colBeside, colEvening, colDewPoint, colHumidity, colCloud, colWind,
		colForecast, colCovered, colDamage, colNote}
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
	for _, t := range []struct {
		col string
		v   float64
	}{{colTmin, e.Tmin}, {colTmax, e.Tmax}, {colBeside, e.Beside}, {colEvening, e.Evening}, {colDewPoint, e.DewPoint}, {colForecast, e.Forecast}} {
		if t.v < lowest || t.v > highest {
			return fmt.Errorf("%s: %v °C is outside what is found on earth; wanted °C between %v and %v", t.col, t.v, lowest, highest)
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
	number := func(col string, dst *float64, v float64) {
		if !math.IsNaN(v) || late.emptied[col] {
			*dst = v
		}
	}
	words := func(col string, dst *string, v string) {
		if v != "" || late.emptied[col] {
			*dst = v
		}
	}
	number(colTmin, &e.Tmin, late.Tmin)
	number(colTmax, &e.Tmax, late.Tmax)
	number(colBeside, &e.Beside, late.Beside)
	number(colEvening, &e.Evening, late.Evening)
	number(colDewPoint, &e.DewPoint, late.DewPoint)
	number(colHumidity, &e.Humidity, late.Humidity)
	number(colForecast, &e.Forecast, late.Forecast)
	words(colCovered, &e.Covered, late.Covered)
	words(colDamage, &e.Damage, late.Damage)
	words(colNote, &e.Note, late.Note)
	if late.Cloud != night.CloudUnknown || late.emptied[colCloud] {
		e.Cloud = late.Cloud
	}
	if late.Wind != night.WindUnknown || late.emptied[colWind] {
		e.Wind = late.Wind
	}
	e.Line = late.Line
	return e
}
