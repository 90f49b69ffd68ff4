package main

import (
	"math"

	"frostward/climate"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
)

// unit is what temperatures are said in: CSV and JSON stay in °C.
func (a *app) unit() words.Units {
	return words.Units{Fahrenheit: a.fahr && a.format != table.CSV && a.format != table.JSON}
}

// words says results in the garden's days and the unit asked for.
func (s *session) words() words.In { return words.In{Units: s.app.unit(), Calendar: s.Calendar} }

// isoDay is a season day as MM-DD for JSON, nil where there is none.
func isoDay(c climate.Calendar, v float64) *string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	s := c.Format(climate.SeasonDay(math.Round(v)))
	return &s
}

// number is a value for JSON rounded to some decimals, nil where it is not finite.
func number(v float64, decimals int) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	k := math.Pow10(decimals)
	v = math.Round(math.Round(v*k*1e6)/1e6) / k // a hair below a half is a half: sums in °F and °C differ by so little
	return &v
}
