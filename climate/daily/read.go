package daily

import (
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"frostward/climate"
)

var errStopped = errors.New("stopped")

// Read reads one station's record from a stream. The name serves messages only.
//
// The error is for a file that cannot be used at all: of no known layout, of several
// stations of which Options.Station chooses none, in units that cannot be known, cut
// off, or without one temperature. Faults of single rows are in the report.
func Read(r io.Reader, name string, opts Options) (climate.Series, Report, error) {
	return ReadFiles([]Input{{name, r}}, opts)
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
	// stated returns the units where the file or the user states them, and where they were learnt from.
	stated() (Units, string)
	// choices are the units to choose from where they are not stated; nil is all.
	choices(whole bool) []Units
	// names returns what the file calls its minimum and maximum.
	names() (tmin, tmax string)
}

// open unpacks a stream and finds its format. The file must be stopped, error or not.
func open(r io.Reader, name string, opts Options) (*file, error) {
	f := &file{name: name, opts: opts, rep: newReport(name), sink: newSink(name, opts)}
	mem := spare.Get().(*buffers)
	text, packed, stop, err := unpack(r, mem.raw, name, opts)
	f.stop = func() {
		stop()
		mem.raw.Reset(nil)
		spare.Put(mem)
	}
	f.rep.Compression = packed
	if err != nil {
		return f, err
	}
	f.blocks = newBlocks(text, mem.block)
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

// text is what stands around the table.
func (f *file) text() []string {
	switch p := f.parser.(type) {
	case *delimited:
		return p.text
	case *columns:
		if p.d != nil {
			return p.d.text
		}
	}
	return nil
}

// ready makes days of a table's readings, where it has any, and puts its place into the report.
func (f *file) ready(id string, t *table) (Report, error) {
	rep := f.rep
	rep.Station, rep.StationName = id, t.name
	placeInText(f.text(), &rep)
	if t.latitude == t.latitude {
		rep.Latitude = t.latitude
	}
	if t.longitude == t.longitude {
		rep.Longitude = t.longitude
	}
	if t.elevation == t.elevation {
		rep.Elevation = t.elevation
	}
	rep.Notes = slices.Clone(f.sink.notes)
	rep.TminName, rep.TmaxName = f.parser.names()
	if d, ok := f.parser.(*delimited); ok && d.header.layout == nil && (rep.TminName == "") != (rep.TmaxName == "") && len(d.header.unused) > 0 {
		rep.Notes = append(rep.Notes, fmt.Sprintf("no column was taken as the %s; not used: %s (--read tmin=COLUMN or tmax=COLUMN)",
			map[bool]string{true: "minimum", false: "maximum"}[rep.TminName == ""], listed(d.header.unused, maxNamed)))
	}
	if len(t.readings) == 0 {
		return rep, f.stamped(t, &rep)
	}
	ends := dayEnds(f.opts.DayEnds)
	if t.readings[0].hours > 0 {
		if ends == 0 {
			ends = 9 // the observers' hour of archives that give periods
		}
		t.fold(ends, 0, &rep)
		rep.DayEnds = ends.String()
		return rep, nil
	}
	if !t.several() {
		return rep, f.oneElement(t, &rep)
	}
	minutes := 0
	clock := "by the file's own clock"
	if t.stamps.utc > t.stamps.other {
		clock = "in UTC, since the file does not say where it is from"
		if rep.Longitude == rep.Longitude {
			minutes = int(math.Round(rep.Longitude/15)) * 60
			clock = fmt.Sprintf("at UTC%+d, by the longitude", minutes/60)
		}
	}
	rep.Format = Hourly
	rep.DayEnds = ends.String() + " " + clock
	t.fold(ends, minutes, &rep)
	if t.from >= t.to {
		return rep, fmt.Errorf("has readings within the day, and none of %d days is covered by them; wanted one an hour or more, or columns of the minimum and the maximum", rep.Incomplete)
	}
	return rep, nil
}

// stamped finds whether days are stamped with the midnight before the next, in UTC.
func (f *file) stamped(t *table, rep *Report) error {
	if f.opts.Shift != nil {
		rep.Shifted = *f.opts.Shift
		return nil
	}
	days, hour, ok := t.stamps.shift(rep.Longitude)
	if !ok {
		return fmt.Errorf("stamps its days with %02d:00 UTC, which may be late on that day or the midnight that begins the next; "+
			"state the days to move its dates by (--read shift=0 or shift=1)", hour)
	}
	rep.Shifted = days
	return nil
}

// baseName is a file's name without its folders.
func baseName(name string) string { return name[strings.LastIndexAny(name, `/\\`)+1:] }

var errNameless = errors.New("has one value a day and does not say whether it is the minimum or the maximum; state it (--read element=tmin or element=tmax)")

// oneElement puts readings of one a day where the file, its name or the user says that they belong.
func (f *file) oneElement(t *table, rep *Report) error {
	e := f.opts.Element
	if e == NoElement {
		e = namedElement(f.text())
	}
	if e == NoElement {
		if e = namedElement([]string{baseName(f.name)}); e != NoElement {
			rep.Notes = append(rep.Notes, fmt.Sprintf("the values were taken as %s by the name of the file", e))
		}
	}
	if e == NoElement {
		return errNameless
	}
	if e == Tmin {
		rep.TmaxName = ""
	} else {
		rep.TminName = ""
	}
	t.alone(e)
	return nil
}

// unit finds that of a table, whose values may be looked at together with those of other files.
func (f *file) unit(rep *Report, e *evidence) error {
	rep.Units, rep.UnitsFrom = f.parser.stated()
	if rep.Units == "" {
		var err error
		rep.UnitsFrom = "values"
		rep.Units, err = e.unit(f.parser.choices(e.whole)...)
		return err
	}
	why := e.contradicts(rep.Units)
	switch {
	case why == "":
	case rep.UnitsFrom == "option":
		rep.Notes = append(rep.Notes, "the unit given is strange for these values: "+why)
	default:
		return fmt.Errorf("says that it is in %s, but %s; state the unit (--units c, f, tenths or k)", rep.Units, why)
	}
	return nil
}

// station makes a series and its report from a table.
func (f *file) station(id string, t *table) (climate.Series, Report, error) {
	rep, err := f.ready(id, t)
	if err == nil {
		var e evidence
		e.add(t)
		err = f.unit(&rep, &e)
	}
	if err != nil {
		return climate.Series{}, rep, fmt.Errorf("%s: %w", f.name, err)
	}
	return f.finish(t, rep)
}

// finish makes the series of a table whose unit is known.
func (f *file) finish(t *table, rep Report) (climate.Series, Report, error) {
	s := t.series(rep.Units, rep.Shifted, &rep)
	if rep.Days == 0 {
		if rep.FaultCount > 0 {
			return s, rep, fmt.Errorf("%s: no day could be read of %d rows; the first fault: %w", f.name, rep.Rows, rep.Faults[0])
		}
		return s, rep, fmt.Errorf("%s: has no temperatures", f.name)
	}
	return s, rep, nil
}
