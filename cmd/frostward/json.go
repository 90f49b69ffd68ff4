package main

import (
	"encoding/json"

	"frostward/climate"
)

// writeJSON writes a result for programs: field names in snake_case, °C, dates ISO 8601 or
// MM-DD, null for what is not known.
func (a *app) writeJSON(v any) error {
	e := json.NewEncoder(a.out)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(v)
}

// shareJSON is a chance for programs.
type shareJSON struct {
	Share   *float64 `json:"share"`
	Low     *float64 `json:"low"`
	High    *float64 `json:"high"`
	Seasons int      `json:"seasons"`
	LeftOut int      `json:"left_out"`
}

func jsonOf(c climate.Chance) shareJSON {
	j := shareJSON{Seasons: c.Seasons, LeftOut: c.LeftOut}
	if c.Known {
		j.Share, j.Low, j.High = number(c.Share, 3), number(c.Low, 3), number(c.High, 3)
	}
	return j
}
