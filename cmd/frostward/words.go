package main

import (
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
)

// unit is what temperatures are said in: CSV and JSON stay in °C.
func (a *app) unit() words.Units {
	return words.Units{Fahrenheit: a.fahr && a.format != table.CSV && a.format != table.JSON}
}

// words says results in the garden's days and the unit asked for.
func (s *session) words() words.In { return words.In{Units: s.app.unit(), Calendar: s.Calendar} }
