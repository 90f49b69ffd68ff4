// Package forecast reads forecasts of the nights to come, from a file or a pipe: daily minima or
// hourly temperatures, as CSV or JSON, in °C or °F, under the names that such columns usually have.
package forecast

import (
	"bytes"
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"
	"time"

	"frostward/climate"
)

// Night is the minimum forecast for one night.
type Night struct {
	Morning climate.Day // the day it ends in
	Tmin    float64     // °C
}

// Options say what a forecast does not say of itself.
type Options struct {
	Name string         // of the file, for messages
	Unit string         // c or f, of a forecast that does not say
	Zone *time.Location // of hours that stand with their own zone
}

// mostNights is how many nights of a forecast are used: beyond ten days it knows next to nothing.
const mostNights = 10

// mostBytes is more than a forecast of two weeks by the hour with all its other columns.
const mostBytes = 16 << 20

// Read reads the nights of a forecast, in their order.
func Read(r io.Reader, o Options) ([]Night, error) {
	b, err := io.ReadAll(io.LimitReader(r, mostBytes+1))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", o.Name, err)
	}
	if len(b) > mostBytes {
		return nil, fmt.Errorf("%s: is longer than %d MB; wanted a forecast", o.Name, mostBytes>>20)
	}
	b = bytes.TrimSpace(bytes.TrimPrefix(b, []byte("\ufeff")))
	var s series
	if len(b) > 0 && (b[0] == '{' || b[0] == '[') {
		s, err = fromJSON(b)
	} else {
		s, err = fromCSV(string(b))
	}
	if err != nil {
		return nil, fmt.Errorf("%s: %w", o.Name, err)
	}
	nights, err := s.nights(o)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", o.Name, err)
	}
	return nights[:min(len(nights), mostNights)], nil
}

// series is what a forecast says, as it is written.
type series struct {
	unit   string // c, f or ""
	column string // the temperature's name
	minima bool   // the column is of minima and not of temperatures at a time
	points []point
}

type point struct {
	at    string // the time
	value float64
	place string // for messages: "line 4", "daily, number 3"
}

// bounds of what has been measured on earth, -89 and 57 °C (World Meteorological Organization,
// from memory), with a little more.
const lowest, highest = -95.0, 62.0

// celsius puts the values into °C.
func (s *series) celsius(o Options) error {
	unit := cmp.Or(s.unit, o.Unit)
	switch {
	case unit == "":
		return fmt.Errorf("does not say whether %q is in °C or °F; wanted --forecast-units (of skill: --units) c or f, or a name such as \"%s_c\"", s.column, s.column)
	case s.unit != "" && o.Unit != "" && s.unit != o.Unit:
		return fmt.Errorf("says that %q is in °%s; wanted no --forecast-units %s with it", s.column, map[string]string{"c": "C", "f": "F"}[s.unit], o.Unit)
	}
	for i, p := range s.points {
		if unit == "f" {
			s.points[i].value = climate.Celsius(p.value)
		}
		if v := s.points[i].value; v < lowest || v > highest {
			return fmt.Errorf("%s: %s: %v is %.0f °C; wanted a temperature found on earth, in the unit said", p.place, s.column, p.value, v)
		}
	}
	return nil
}

// nights are the minima from evening to morning.
func (s series) nights(o Options) ([]Night, error) {
	if err := s.celsius(o); err != nil {
		return nil, err
	}
	hours, days := map[climate.Day][]hour{}, map[climate.Day]float64{}
	for _, p := range s.points {
		t, clock, err := timeOf(p.at, o.Zone)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", p.place, err)
		}
		day := climate.NewDay(t.Year(), t.Month(), t.Day())
		if s.minima || !clock {
			if old, ok := days[day]; ok && old != p.value {
				return nil, fmt.Errorf("%s: a second minimum for %v, %v and %v °C; wanted one a night", p.place, day, old, p.value)
			}
			days[day] = p.value
			continue
		}
		h := float64(t.Hour()) + float64(t.Minute())/60
		switch {
		case h >= eveningFrom:
			hours[day+1] = append(hours[day+1], hour{h - 24, p.value})
		case h <= morningTo:
			hours[day] = append(hours[day], hour{h, p.value})
		}
	}
	if len(days) > 0 && !s.minima {
		return nil, fmt.Errorf("has one temperature a day under the name %q; wanted a name that says minimum, such as tmin, or temperatures by the hour", s.column)
	}
	for day, hs := range hours {
		if v, ok := lowestOf(hs); ok {
			days[day] = v
		}
	}
	out := make([]Night, 0, len(days))
	for day, v := range days {
		out = append(out, Night{day, v})
	}
	if len(out) == 0 {
		return nil, fmt.Errorf("has no whole night; wanted a temperature at least every %d hours from %d to %d h", mostHours, wantFrom, wantTo)
	}
	slices.SortFunc(out, func(a, b Night) int { return cmp.Compare(a.Morning, b.Morning) })
	return out, nil
}

// A night is from 18 to 9 h, which has the minimum of any but a night that turns warm; of those
// hours it must be known from 1 to 5 h, when it is coldest, without a longer gap than 3 hours
// (common practice, no source).
const (
	eveningFrom, morningTo = 18, 9
	wantFrom, wantTo       = 1, 5
	mostHours              = 3
)

// hour is a temperature so many hours after the midnight of a night.
type hour struct{ h, t float64 }

func lowestOf(hs []hour) (float64, bool) {
	slices.SortFunc(hs, func(a, b hour) int { return cmp.Compare(a.h, b.h) })
	low := math.Inf(1)
	for i, x := range hs {
		low = min(low, x.t)
		if i > 0 && x.h-hs[i-1].h > mostHours && x.h > wantFrom && hs[i-1].h < wantTo {
			return 0, false
		}
	}
	return low, hs[0].h <= wantFrom && hs[len(hs)-1].h >= wantTo
}
