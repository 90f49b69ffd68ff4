package daily

import (
	"errors"
	"fmt"
	"io"
	"iter"

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
		defer f.stop()
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
