package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math"

	"frostward/climate"
)

// jsonVersion is the version of what is written for programs: it changes when a field goes or changes its meaning,
// not when one is added.
const jsonVersion = 2

// onlyJSON is the output under --format json: nothing reaches it but a result as JSON, so that no command can print
// something else without a word.
type onlyJSON struct {
	to      io.Writer
	command string
	done    bool // a result has been written
	value   any  // the result
}

// Write takes text that has no place in JSON.
func (o *onlyJSON) Write(text []byte) (int, error) { return len(text), nil }

// check is an error where no result was written.
func (o *onlyJSON) check() error {
	if o == nil || o.done {
		return nil
	}
	return fmt.Errorf("--format json: %s has no form for programs", o.command)
}

// writeJSON writes a result for programs: field names in snake_case, °C, dates ISO 8601 or
// MM-DD, null for what is not known. Whatever it is, it says its version first.
func (a *app) writeJSON(v any) error {
	if a.schema {
		return a.writeSchema(v)
	}
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		return err
	}
	object, ok := bytes.CutPrefix(b.Bytes(), []byte("{\n"))
	if !ok {
		panic("frostward: a result for programs is an object with fields")
	}
	a.json.done, a.json.value = true, v
	_, err := fmt.Fprintf(a.json.to, "{\n  \"version\": %d,\n%s", jsonVersion, object)
	return err
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
