package daily

import (
	"errors"
	"fmt"
	"io"

	"frostward/climate"
)

var errStopped = errors.New("stopped")

// Read reads one station's record from a stream. The name serves messages only.
//
// The error is for a file that cannot be used at all: of no known layout, of several
// stations of which Options.Station chooses none, in units that cannot be told, cut
// off, or without one temperature. Faults of single rows are in the report.
func Read(r io.Reader, name string, opts Options) (climate.Series, Report, error) {
	f, err := open(r, name, opts)
	defer f.stop()
	if err != nil {
		return climate.Series{}, f.rep, err
	}
	if err := f.parse(); err != nil {
		return climate.Series{}, f.rep, err
	}
	return f.one()
}

// file is a file being read.
type file struct {
	name   string
	opts   Options
	rep    Report // what is known of the file as a whole
	blocks *blocks
	first  []byte
	parser parser
	sink   *sink
	stop   func() // of the unpacking
}

// parser reads the lines of one format into a sink.
type parser interface {
	// block reads whole lines, the first of which has the number given, and returns the
	// number of the line after them.
	block(b []byte, line int) (int, error)
	// end is called after the last block.
	end() error
	// unitsOf returns those of a station's table and where they were learnt from.
	unitsOf(t *table) (Units, string, error)
	// names returns what the file calls its minimum and maximum.
	names() (tmin, tmax string)
}

// open unpacks a stream and finds its format. The file must be stopped, error or not.
func open(r io.Reader, name string, opts Options) (*file, error) {
	f := &file{name: name, opts: opts, rep: newReport(name), sink: newSink(name, opts)}
	text, packed, stop, err := unpack(r, name, opts)
	f.stop = stop
	f.rep.Compression = packed
	if err != nil {
		return f, err
	}
	f.blocks = newBlocks(text)
	if f.first, err = f.blocks.read(); err != nil && err != io.EOF {
		return f, fmt.Errorf("%s: %w", name, err)
	}
	if f.blocks.tooLong {
		return f, fmt.Errorf("%s:1: a line of more than %d bytes; wanted lines of text", name, blockSize)
	}
	s, err := sniff(f.first, opts)
	if err != nil {
		return f, fmt.Errorf("%s: %w", name, err)
	}
	f.take(s)
	return f, nil
}

// take makes the parser of a format.
func (f *file) take(s sniffed) {
	f.rep.Format = s.format
	for _, line := range s.text {
		if lat, ok := latitudeInText(line); ok {
			f.rep.Latitude = lat
		}
	}
	switch s.format {
	case DLY:
		f.parser = &dly{sink: f.sink, opts: f.opts}
	case ByYear:
		f.parser = &byYear{sink: f.sink, opts: f.opts}
	case Columns:
		f.parser = &columns{opts: f.opts, sink: f.sink}
	case Months:
		f.parser = &months{opts: f.opts, sink: f.sink}
	default:
		f.parser = newDelimited(s, f.opts, f.sink)
	}
}

// parse reads the whole file.
func (f *file) parse() error {
	line := 1
	for b := f.first; ; {
		var err error
		if f.blocks.tooLong {
			f.sink.table.rows++
			f.sink.table.fault(line, "", b[:maxQuoted], fmt.Sprintf("starts a line of more than %d bytes", blockSize))
			line++
		} else if line, err = f.parser.block(b, line); err != nil {
			return fmt.Errorf("%s: %w", f.name, err)
		}
		if f.sink.err != nil {
			return fmt.Errorf("%s: %w", f.name, f.sink.err)
		}
		if b, err = f.blocks.read(); err == io.EOF {
			break
		} else if err != nil {
			return fmt.Errorf("%s:%d: %w", f.name, line, err)
		}
	}
	if err := f.parser.end(); err != nil {
		return fmt.Errorf("%s: %w", f.name, err)
	}
	return nil
}

// one returns the one station that the file has, or was asked for.
func (f *file) one() (climate.Series, Report, error) {
	if err := f.sink.several(); err != nil {
		return climate.Series{}, f.rep, fmt.Errorf("%s: %w", f.name, err)
	}
	return f.station(f.sink.current, f.sink.table)
}

// station makes a series and its report from a table.
func (f *file) station(id string, t *table) (climate.Series, Report, error) {
	rep := f.rep
	rep.Station, rep.StationName = id, t.name
	if t.latitude == t.latitude {
		rep.Latitude = t.latitude
	}
	rep.Longitude, rep.Elevation = t.longitude, t.elevation
	rep.Notes = f.sink.notes
	rep.TminName, rep.TmaxName = f.parser.names()
	units, from, err := f.parser.unitsOf(t)
	if err != nil {
		return climate.Series{}, rep, fmt.Errorf("%s: %w", f.name, err)
	}
	rep.Units, rep.UnitsFrom = units, from
	s := t.series(units, &rep)
	if rep.Days == 0 {
		if rep.FaultCount > 0 {
			return s, rep, fmt.Errorf("%s: no day could be read of %d rows; the first fault: %w", f.name, rep.Rows, rep.Faults[0])
		}
		return s, rep, fmt.Errorf("%s: has no temperatures", f.name)
	}
	return s, rep, nil
}
