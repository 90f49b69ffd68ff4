package forecast

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
)

var errNames = errors.New("has no column for the time and one for the temperature; wanted names such as time and temperature_2m, or date and tmin")

// fromCSV reads lines of cells, parted by commas, semicolons or tabs, under a heading; lines above
// the heading are passed over.
func fromCSV(text string) (series, error) {
	var s series
	sep := ','
	for _, c := range ";\t" {
		if strings.Count(text, string(c)) > strings.Count(text, string(sep)) {
			sep = c
		}
	}
	r := csv.NewReader(strings.NewReader(text))
	r.Comma, r.FieldsPerRecord, r.LazyQuotes, r.TrimLeadingSpace = sep, -1, true, sep != '\t'
	at, value := -1, -1
	for {
		cells, err := r.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			return s, err
		}
		line, _ := r.FieldPos(0)
		place := fmt.Sprintf("line %d", line)
		if value < 0 {
			if at, value, s.minima = pick(cells); value >= 0 {
				s.column = strings.TrimSpace(cells[value])
				_, s.unit = nameOf(cells[value])
			}
			continue
		}
		if len(cells) <= max(at, value) {
			return s, fmt.Errorf("%s: has %d cells; wanted %d, as the heading", place, len(cells), max(at, value)+1)
		}
		v, ok, err := number(cells[value], sep == ';' || sep == '\t')
		if err != nil {
			return s, fmt.Errorf("%s: %s: %w", place, s.column, err)
		}
		if ok {
			s.points = append(s.points, point{cells[at], v, place})
		}
	}
	if value < 0 {
		return s, errNames
	}
	return s, nil
}

// number reads a cell; ok is false where it is empty or says that there is no value.
func number(cell string, comma bool) (v float64, ok bool, err error) {
	cell = strings.ReplaceAll(strings.TrimSpace(cell), "\u2212", "-")
	switch strings.ToLower(cell) {
	case "", "-", "na", "nan", "null", "none":
		return 0, false, nil
	}
	if comma {
		cell = strings.Replace(cell, ",", ".", 1)
	}
	if v, err = strconv.ParseFloat(cell, 64); err != nil {
		return 0, false, fmt.Errorf("%q is not a number", cell)
	}
	return v, true, nil
}
