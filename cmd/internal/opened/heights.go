package opened

import (
	"fmt"
	"math"
	"os"
	"path/filepath"

	"frostward/climate"
	"frostward/climate/daily"
	"frostward/cmd/internal/deliver"
)

// TwoHeights is a record of one place in the screen and at plant height.
type TwoHeights struct {
	Name          string
	Station, Spot climate.Series
	Latitude      float64
}

// ReadTwoHeights reads a file once for each of its two minima.
func ReadTwoHeights(o Options, name, column string) (TwoHeights, error) {
	r := TwoHeights{Name: filepath.Base(name)}
	unit, err := daily.ParseUnits(o.Units)
	if err != nil {
		return r, usagef("--units: %w", err)
	}
	for _, x := range []struct {
		tmin string
		to   *climate.Series
	}{{"", &r.Station}, {column, &r.Spot}} {
		f, err := os.Open(name)
		if err != nil {
			return r, fmt.Errorf("%s: %w", name, deliver.Cause(err))
		}
		s, report, err := daily.Read(f, name, daily.Options{Units: unit, Station: o.Station, Tmin: x.tmin})
		f.Close()
		if err != nil {
			return r, err
		}
		*x.to, r.Latitude = s, report.Latitude
	}
	if l := o.Latitude; l != "" {
		if r.Latitude, err = ParseLatitude(l); err != nil {
			return r, err
		}
	}
	if math.IsNaN(r.Latitude) {
		r.Latitude = 50 // north; only the half of the earth matters here
	}
	r.Spot = trimmed(r.Spot)
	return r, nil
}

// trimmed is a series from its first to its last measured minimum.
func trimmed(s climate.Series) climate.Series {
	from, to := 0, s.Len()-1
	for from <= to && math.IsNaN(s.Tmin[from]) {
		from++
	}
	for to >= from && math.IsNaN(s.Tmin[to]) {
		to--
	}
	return s.Between(s.First+climate.Day(from), s.First+climate.Day(to))
}
