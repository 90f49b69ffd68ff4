package main

import (
	"fmt"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"frostward/climate"
	"frostward/climate/daily"
	"frostward/climate/generator"
	"frostward/climate/quality"
	"frostward/cmd/internal/demo"
	"frostward/cmd/internal/garden"
	"frostward/crops"
)

// session is a garden opened: its settings, and its record read, checked and masked.
type session struct {
	app      *app
	garden   garden.Garden
	dir      string // the folder, for messages; "" for the built-in garden
	files    fs.FS  // the folder
	invented bool   // the built-in garden

	record      climate.Series // as read
	report      daily.Report
	recordName  string
	flags       []quality.Flag
	masked      climate.Series // without the doubtful values
	calendar    climate.Calendar
	first, last int // seasons to use

	// Set by ensemble.
	base  climate.Ensemble  // the seasons in use, at the station
	made  madeFrom          // what they were made from
	level generator.Present // where generated ones are laid
}

// open reads the garden and the record that the options name.
func (a *app) open() (*session, error) {
	// Reading the built-in catalogue takes as long as reading a record: nearly all commands
	// want it, so it is read meanwhile.
	go crops.Load()
	s := &session{app: a, dir: a.garden}
	switch {
	case a.garden != "":
		s.files = os.DirFS(a.garden)
	default:
		s.files, s.invented = demo.Files(), true
		if a.history == "" {
			a.notef("no --garden and no --history given: this is the built-in garden, which is invented")
		}
	}
	var err error
	if s.garden, err = garden.Read(s.files, s.dir); err != nil {
		return nil, err
	}
	if a.history != "" && a.garden == "" {
		// A record from elsewhere has nothing to do with where the invented garden lies.
		s.garden.Name, s.garden.Latitude, s.garden.Longitude = filepath.Base(a.history), math.NaN(), math.NaN()
	}
	if err := s.readRecord(); err != nil {
		return nil, err
	}
	if err := s.place(); err != nil {
		return nil, err
	}
	s.flags = quality.Check(s.record)
	s.masked = quality.Mask(s.record, s.flags)
	return s, s.pickSeasons()
}

// notef tells something beside the results, on standard error.
func (a *app) notef(format string, args ...any) {
	fmt.Fprintf(a.err, "frostward: "+format+"\n", args...)
}

func (s *session) readRecord() error {
	open := func() (fs.File, error) { return s.files.Open(s.garden.Record) }
	s.recordName = filepath.Join(s.dir, s.garden.Record)
	if h := s.app.history; h != "" {
		open = func() (fs.File, error) { return os.Open(h) }
		s.recordName = h
	}
	f, err := open()
	if err != nil {
		return fmt.Errorf("%s: %w", s.recordName, cause(err))
	}
	defer f.Close()
	units := s.app.units
	if units == "" {
		units = s.garden.Units
	}
	unit, err := daily.ParseUnits(units)
	if err != nil {
		return usageError{fmt.Errorf("--units: %w", err)}
	}
	s.record, s.report, err = daily.Read(f, s.recordName, daily.Options{Units: unit, Station: s.app.station})
	if err != nil {
		return err
	}
	s.tellFaults()
	if s.record.Len() == 0 {
		return fmt.Errorf("%s: has no day with a temperature; wanted lines of date, tmin and tmax", s.recordName)
	}
	return nil
}

// tellFaults prints the first few faults of the record and how many more there are.
func (s *session) tellFaults() {
	const few = 3
	for i, f := range s.report.Faults {
		if i == few {
			break
		}
		s.app.notef("%v; that day is left out", f)
	}
	if n := s.report.FaultCount; n > few {
		s.app.notef("%s: %d faults in all; \"frostward check\" lists them", s.recordName, n)
	}
}

// place finds the latitude: an option, the garden's, or what the record says.
func (s *session) place() error {
	if l := s.app.latitude; l != "" {
		v, err := strconv.ParseFloat(l, 64)
		if err != nil || !(v >= -90 && v <= 90) {
			return usagef("--latitude %q; wanted degrees between -90 and 90, south negative", l)
		}
		s.garden.Latitude = v
	}
	if math.IsNaN(s.garden.Latitude) {
		s.garden.Latitude = s.report.Latitude
	}
	if math.IsNaN(s.garden.Latitude) {
		s.garden.Latitude = 50
		s.app.notef("%s does not say where it was measured: taken as 50° north for the seasons and the length of day; --latitude sets it", s.recordName)
	}
	s.calendar = climate.CalendarAt(s.garden.Latitude)
	return nil
}

// pickSeasons finds the seasons to use: all that the record touches, or --years.
func (s *session) pickSeasons() error {
	s.first, s.last = climate.SeasonsIn(s.masked, s.calendar)
	y := s.app.years
	if y == "" {
		return nil
	}
	a, b, ok := strings.Cut(y, "-")
	from, err1 := strconv.Atoi(a)
	to, err2 := strconv.Atoi(b)
	if !ok || err1 != nil || err2 != nil || from > to {
		return usagef("--years %q; wanted the first and the last season, such as 1991-2020", y)
	}
	if from > s.last || to < s.first {
		return fmt.Errorf("%s: has the seasons %d to %d; --years %s is outside them", s.recordName, s.first, s.last, y)
	}
	s.first, s.last = max(s.first, from), min(s.last, to)
	return nil
}

// used is the record cut to the seasons in use, with the winters on either side.
func (s *session) used() climate.Series {
	return s.masked.Between(s.calendar.Day(s.first, climate.SpanFrom), s.calendar.Day(s.last, climate.SpanTo-1))
}

// plan reads the plan that the options or the garden name.
func (s *session) plan() ([]garden.Row, error) {
	name := filepath.Join(s.dir, s.garden.Plan)
	open := func() (fs.File, error) { return s.files.Open(s.garden.Plan) }
	if p := s.app.plan; p != "" {
		name, open = p, func() (fs.File, error) { return os.Open(p) }
	}
	f, err := open()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, cause(err))
	}
	defer f.Close()
	return garden.ReadPlan(f, name, s.calendar)
}

// catalogue is the built-in catalogue with the grower's own facts.
func (s *session) catalogue() (*crops.Catalogue, error) {
	cat, err := crops.Load()
	if err != nil || s.garden.Crops == "" {
		return cat, err
	}
	name := filepath.Join(s.dir, s.garden.Crops)
	f, err := s.files.Open(s.garden.Crops)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, cause(err))
	}
	defer f.Close()
	return cat.With(f, name)
}

// cause strips the path that a file error repeats.
func cause(err error) error {
	if p, ok := err.(*fs.PathError); ok {
		return p.Err
	}
	return err
}
