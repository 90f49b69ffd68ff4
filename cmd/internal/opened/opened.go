// Package opened is a garden read, checked and ready to be asked: its settings, its record without the
// doubtful values, and from them its seasons, spots and plantings. Whoever asks gets the same value:
// nothing changes a Garden after it is made.
package opened

import (
	"fmt"
	"io"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"

	"frostward/climate"
	"frostward/climate/daily"
	"frostward/climate/quality"
	"frostward/climate/site"
	"frostward/cmd/internal/demo"
	"frostward/cmd/internal/garden"
	"frostward/cmd/internal/journal"
	"frostward/crops"
)

// Options choose a garden and how it is looked at; the zero value is the built-in garden.
type Options struct {
	Folder   string   // the garden's; "" is the built-in one
	History  []string // the record's files, folders or patterns, in place of the garden's; "-" is Stdin
	Stdin    io.Reader
	Plan     string   // a plan's file, in place of the garden's
	Station  string   // to read, from a file that holds several
	Years    string   // "1991-2020"; "" is all seasons
	By       string   // record, curve or weather; "" is weather
	Latitude string   // degrees, south negative; "" is the garden's or the record's
	Units    string   // of the record where it does not say: c, f, tenths or k
	Reading  []string // what else it does not say, such as dates=dmy
	Answers  []string // to what check asks, besides the garden's, see quality.ParseAnswer
	Seed     uint64
	AsOf     string      // the day to answer on, "2026-05-16"; "" is today
	Today    climate.Day // the machine's date

	// Unchecked leaves the doubtful values in: a made-up record obeys the laws of seasons only whole.
	Unchecked bool
	// Note takes what there is to remark on while the garden is read; nil drops it.
	Note func(format string, args ...any)
}

// UsageError is a mistake in what was asked for, and not in a file.
type UsageError struct{ Err error }

func (u UsageError) Error() string { return u.Err.Error() }
func (u UsageError) Unwrap() error { return u.Err }

func usagef(format string, args ...any) error { return UsageError{fmt.Errorf(format, args...)} }

// Garden is a garden opened. Nothing writes to its fields or to what they point at.
type Garden struct {
	Options  Options
	Settings garden.Garden
	Dir      string // the folder, for messages; "" for the built-in garden
	Invented bool   // the built-in garden

	Record      climate.Series // as read, and as the answers have it
	Answers     []quality.Answer
	Questions   []quality.Question // that its neighbours raise, where the garden has several stations
	Steps       []quality.Step     // likewise
	Report      daily.Report
	RecordName  string
	Flags       []quality.Flag
	Masked      climate.Series // without the doubtful values; of several stations, their weighted mean
	Stations    []site.Station // the garden's, the first with Record without its doubtful values; each with the garden's place seen from it
	Weights     []float64      // how much each counts in Masked
	Place       site.Place     // of the garden, seen from Masked
	Calendar    climate.Calendar
	First, Last int // seasons to use

	asOf      climate.Day // Options.AsOf read
	files     fs.FS       // the folder
	seasons   func() (*Seasons, error)
	fields    func() (*Fields, error)
	plan      func() ([]garden.Row, error)
	log       func() (journal.Log, error)
	diary     func() (journal.Diary, error)
	states    func() ([]State, error)
	covers    func() []garden.Cover
	learned   func() (map[string]OwnCrop, error)
	catalogue func() (*crops.Catalogue, error)
}

// Open reads the garden and the record that the options name.
func Open(o Options) (*Garden, error) {
	// Reading the built-in catalogue takes as long as reading a record: nearly all commands
	// want it, so it is read meanwhile.
	go crops.Load()
	g, err := settings(o)
	if err != nil {
		return nil, err
	}
	if g.Record, g.Report, g.RecordName, err = g.readRecord(); err != nil {
		return nil, err
	}
	g.noteFaults()
	if g.Record.Len() == 0 {
		return nil, fmt.Errorf("%s: has no day with a temperature; wanted lines of date, tmin and tmax", g.RecordName)
	}
	if err := g.cutToToday(); err != nil {
		return nil, err
	}
	if err := g.place(); err != nil {
		return nil, err
	}
	if err := g.check(); err != nil {
		return nil, err
	}
	g.readOnce()
	if err := g.combine(); err != nil {
		return nil, err
	}
	g.First, g.Last = climate.SeasonsIn(g.Masked, g.Calendar)
	if err := g.pickSeasons(); err != nil {
		return nil, err
	}
	return g, nil
}

// Place is a garden without its record, for what asks no season: its settings and its crops.
func Place(o Options) (*Garden, error) {
	g, err := settings(o)
	if err != nil {
		return nil, err
	}
	if err := g.askedLatitude(); err != nil {
		return nil, err
	}
	g.Calendar = climate.CalendarAt(g.Settings.Latitude) // an unknown one counts as north
	g.readOnce()
	return g, nil
}

// settings is a garden of which only garden.yaml has been read.
func settings(o Options) (*Garden, error) {
	if o.Note == nil {
		o.Note = func(string, ...any) {}
	}
	g := &Garden{Options: o, Dir: o.Folder}
	if o.Folder != "" {
		g.files = os.DirFS(o.Folder)
	} else {
		g.files, g.Invented = demo.Files(), true
	}
	err := g.readAsOf()
	if err != nil {
		return nil, err
	}
	if g.Settings, err = g.readSettings(); err != nil {
		return nil, err
	}
	if len(o.History) > 0 && g.Invented {
		// A record from elsewhere has nothing to do with where the invented garden lies.
		g.Settings.Name, g.Settings.Latitude, g.Settings.Longitude = filepath.Base(o.History[0]), math.NaN(), math.NaN()
	}
	return g, nil
}

// readOnce sets up what is read or worked out when it is first asked for, and kept.
func (g *Garden) readOnce() {
	g.seasons = sync.OnceValues(g.makeSeasons)
	g.fields = sync.OnceValues(g.makeFields)
	g.plan = sync.OnceValues(g.readPlan)
	g.log = sync.OnceValues(g.readLog)
	g.diary = sync.OnceValues(g.readDiary)
	g.states = sync.OnceValues(g.workOutStates)
	g.covers = sync.OnceValue(g.learnCovers)
	g.learned = sync.OnceValues(g.workOutLearned)
	g.catalogue = sync.OnceValues(g.readCatalogue)
}

// check reads the record as the answers say, marks the doubtful values and leaves them out.
func (g *Garden) check() error {
	for _, text := range append(slices.Clone(g.Settings.Answers), g.Options.Answers...) {
		a, err := quality.ParseAnswer(text)
		if err != nil {
			return UsageError{fmt.Errorf("--answer: %w", err)} // the garden's have been read
		}
		g.Answers = append(g.Answers, a)
	}
	if g.Record = quality.Answered(g.Record, g.Answers); g.Record.Len() == 0 {
		return fmt.Errorf("%s: ends before the thermometer was moved, as an answer has it", g.RecordName)
	}
	if g.Flags, g.Masked = nil, g.Record; !g.Options.Unchecked {
		g.Flags = quality.Settled(quality.Check(g.Record), g.Answers)
		g.Masked = quality.Mask(g.Record, g.Flags)
	}
	return nil
}

// place finds the latitude: an option, the garden's, or what the record says.
func (g *Garden) place() error {
	if err := g.askedLatitude(); err != nil {
		return err
	}
	if math.IsNaN(g.Settings.Latitude) {
		g.Settings.Latitude = g.Report.Latitude
	}
	if math.IsNaN(g.Settings.Latitude) {
		side := "north"
		south, ok := climate.IsSouthern(g.Record)
		if !ok {
			return fmt.Errorf("%s: does not say where it was measured, and its warm half of the year does not show on which side of the equator; "+
				"state the latitude in degrees, south negative (--latitude)", g.RecordName)
		}
		if g.Settings.Latitude = 50; south {
			g.Settings.Latitude, side = -50, "south"
		}
		g.Options.Note("%s does not say where it was measured: taken as 50° %s, by its warm half of the year; --latitude sets it", g.RecordName, side)
	}
	g.Calendar = climate.CalendarAt(g.Settings.Latitude)
	return nil
}

// askedLatitude takes the latitude that the options give, if they do.
func (g *Garden) askedLatitude() (err error) {
	if l := g.Options.Latitude; l != "" {
		g.Settings.Latitude, err = ParseLatitude(l)
	}
	return err
}

// ParseLatitude reads the degrees of --latitude.
func ParseLatitude(text string) (float64, error) {
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || !(v >= -90 && v <= 90) {
		return 0, usagef("--latitude %q; wanted degrees between -90 and 90, south negative", text)
	}
	return v, nil
}

// pickSeasons narrows the seasons that the record touches to those asked for.
func (g *Garden) pickSeasons() error {
	y := g.Options.Years
	if y == "" {
		return nil
	}
	a, b, ok := strings.Cut(y, "-")
	from, err1 := strconv.Atoi(a)
	to, err2 := strconv.Atoi(b)
	if !ok || err1 != nil || err2 != nil || from > to {
		return usagef("--years %q; wanted the first and the last season, such as 1991-2020", y)
	}
	if from > g.Last || to < g.First {
		return fmt.Errorf("%s: has the seasons %d to %d; --years %s is outside them", g.RecordName, g.First, g.Last, y)
	}
	g.First, g.Last = max(g.First, from), min(g.Last, to)
	return nil
}

// Reread is the garden with its plan, its log and its own crops read anew.
func (g *Garden) Reread() *Garden {
	again := *g
	again.Options.Note = func(string, ...any) {} // what there was to remark has been
	again.readOnce()
	return &again
}

// Used is the record cut to the seasons in use, with the winters on either side.
func (g *Garden) Used() climate.Series {
	return g.Masked.Between(g.Calendar.Day(g.First, climate.SpanFrom), g.Calendar.Day(g.Last, climate.SpanTo-1))
}

// SeasonDay is a day's number in a season, which may be that of a year before.
func (g *Garden) SeasonDay(season int, d climate.Day) climate.SeasonDay {
	y, sd := g.Calendar.Locate(d)
	return sd + climate.SeasonDay((y-season)*climate.YearDays)
}
