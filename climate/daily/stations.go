package daily

import (
	"errors"
	"fmt"
	"io"
	"iter"
	"math"

	"frostward/climate"
)

// Station is one station's record out of a file of many.
type Station struct {
	Series climate.Series
	Report Report
}

// Stations reads a file of many stations, one after the other as they stand in it,
// with memory for one at a time. The rows of a station must be together.
//
// An error with a Report.Station is that station's alone, and the next one follows. An
// error without one ends the file. Options.Station picks out one station.
func Stations(r io.Reader, name string, opts Options) iter.Seq2[Station, error] {
	return func(yield func(Station, error) bool) {
		f, err := open(r, name, opts)
		defer f.close()
		if err != nil {
			yield(Station{Report: f.rep}, err)
			return
		}
		seen := 0
		f.sink.each = func(id string, t *table) bool {
			seen++
			s, rep, err := f.station(id, t)
			return yield(Station{s, rep}, err)
		}
		if err = f.parse(); err == nil {
			f.sink.end()
			if seen == 0 && f.sink.err == nil {
				err = fmt.Errorf("%s: has no rows", name)
				if serr := f.sink.several(); serr != nil {
					err = fmt.Errorf("%s: %w", name, serr)
				}
			}
		}
		if err != nil && !errors.Is(err, errStopped) {
			yield(Station{Report: f.rep}, err)
		}
	}
}

// Join puts two series together, such as the minimum and the maximum of one station
// from two files. Where both have a value for one thing and they differ, neither is
// used; clashes counts these.
func Join(a, b climate.Series) (joined climate.Series, clashes int) {
	if a.Len() == 0 {
		return b.Clone(), 0
	}
	if b.Len() == 0 {
		return a.Clone(), 0
	}
	first, last := min(a.First, b.First), max(a.Last(), b.Last())
	s := climate.NewSeries(first, int(last-first)+1)
	merge := func(x, y float64) float64 {
		v, ok := agreed(x, y)
		if !ok {
			clashes++
			return math.NaN()
		}
		return v
	}
	for i := range s.Tmin {
		d := first + climate.Day(i)
		an, ax := a.At(d)
		bn, bx := b.At(d)
		s.Tmin[i], s.Tmax[i] = merge(an, bn), merge(ax, bx)
	}
	return s, clashes
}
