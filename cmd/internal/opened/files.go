package opened

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"golang.org/x/text/encoding/unicode"
	"golang.org/x/text/transform"

	"frostward/climate"
	"frostward/climate/daily"
	"frostward/cmd/internal/deliver"
	"frostward/cmd/internal/forecast"
	"frostward/cmd/internal/garden"
	"frostward/cmd/internal/journal"
	"frostward/crops"
)

// This file opens all that a garden is read from. What cannot be read is an error of whoever needs it.

// maxText is the longest text that is read into memory, in bytes: a reading an hour for a century.
const maxText = 64 << 20

// open opens a file of the folder, or the one that an option names in its place; name is for messages.
func (g *Garden) open(inFolder, option string) (f fs.File, name string, err error) {
	var info fs.FileInfo
	if option != "" {
		name = option
		f, err = os.Open(option)
	} else {
		name, inFolder = filepath.Join(g.Dir, inFolder), filepath.ToSlash(filepath.Clean(inFolder))
		info, err = fs.Stat(g.files, inFolder)
		if err == nil && info.Mode()&(fs.ModeNamedPipe|fs.ModeDevice|fs.ModeSocket) != 0 { // opening one may wait for ever
			err = errors.New("is a device or a pipe; wanted a plain file")
		}
		if err == nil {
			f, err = g.files.Open(inFolder)
		}
	}
	if err == nil {
		if info, err = f.Stat(); err == nil && info.IsDir() {
			err = errors.New("is a folder; wanted a file")
		}
		if err != nil {
			f.Close()
		}
	}
	switch {
	case err == nil:
	case option == "" && inFolder != garden.File:
		err = fmt.Errorf("%s: %w (%s names it)", name, remedy(err), garden.File)
	default:
		err = fmt.Errorf("%s: %w", name, remedy(err))
	}
	return f, name, err
}

// remedy says what to do about a file that cannot be opened.
func remedy(err error) error {
	switch cause := deliver.Cause(err); {
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("%w; wanted a file that you may read", cause)
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("%w; wanted that file, or its right name", cause)
	default:
		return cause
	}
}

// text is open for a text: in UTF-8, or in UTF-16 with a byte-order mark, as spreadsheets write it.
func (g *Garden) text(inFolder, option string) (io.Reader, string, error) {
	f, name, err := g.open(inFolder, option)
	if err != nil {
		return nil, name, err
	}
	defer f.Close()
	b, err := io.ReadAll(io.LimitReader(transform.NewReader(f, unicode.BOMOverride(transform.Nop)), maxText+1))
	switch {
	case err != nil:
		err = fmt.Errorf("%s: %w", name, deliver.Cause(err))
	case len(b) > maxText:
		err = fmt.Errorf("%s: is over %d MiB; wanted a file of a garden", name, maxText>>20)
	case bytes.IndexByte(b, 0) >= 0:
		err = fmt.Errorf("%s: has zero bytes, as no text has but UTF-16 without its byte-order mark; wanted UTF-8, as a spreadsheet saves it when asked", name)
	}
	return bytes.NewReader(b), name, err
}

// readSettings reads garden.yaml.
func (g *Garden) readSettings() (garden.Garden, error) {
	text, name, err := g.text(garden.File, "")
	if errors.Is(err, fs.ErrNotExist) {
		return garden.Garden{}, fmt.Errorf("%s: no such file; \"frostward start %s\" writes a garden to begin from", name, g.Dir)
	}
	if err != nil {
		return garden.Garden{}, err
	}
	return garden.Read(text, name)
}

// reader is how the record is to be read: as the options say, else the garden.
func (g *Garden) reader() (daily.Options, error) {
	o, err := g.Settings.Reader()
	if err != nil {
		return o, err
	}
	if len(g.Options.History) > 0 && g.Invented {
		o = daily.Options{}
	}
	unit, err := daily.ParseUnits(g.Options.Units)
	if err != nil {
		return o, UsageError{fmt.Errorf("--units: %w", err)}
	}
	if unit != "" {
		o.Units = unit
	}
	for _, answer := range g.Options.Reading {
		if err := o.Set(answer); err != nil {
			return o, UsageError{fmt.Errorf("--read: %w", err)}
		}
	}
	o.Station = g.Options.Station
	return o, nil
}

func (g *Garden) readRecord() (s climate.Series, r daily.Report, name string, err error) {
	o, err := g.reader()
	if err != nil {
		return s, r, "", err
	}
	names, asked := []string(g.Settings.Record), false
	if len(g.Options.History) > 0 {
		names, asked = g.Options.History, true
	}
	return g.readSeries(names, asked, o)
}

// ReadFiles reads the files that the options name as history, and nothing of a garden; days after today are faults.
func ReadFiles(o Options) (climate.Series, daily.Report, error) {
	g := &Garden{Options: o}
	reading, err := g.reader()
	if err != nil {
		return climate.Series{}, daily.Report{}, err
	}
	reading.Until = o.Today
	s, r, _, err := g.readSeries(o.History, true, reading)
	return s, r, err
}

// readSeries reads files as one record; asked: an option names them.
func (g *Garden) readSeries(names []string, asked bool, o daily.Options) (s climate.Series, r daily.Report, name string, err error) {
	files, err := g.expand(names, asked)
	if err != nil {
		return s, r, "", err
	}
	var in []daily.Input
	for _, n := range files {
		if n == "-" && asked && g.Options.Stdin != nil {
			in = append(in, daily.Input{Name: "standard input", Reader: g.Options.Stdin})
			continue
		}
		inFolder, option := n, ""
		if asked {
			inFolder, option = "", n
		}
		f, name, err := g.open(inFolder, option)
		if err != nil {
			return s, r, name, err
		}
		defer f.Close()
		in = append(in, daily.Input{Name: name, Reader: f})
	}
	s, r, err = daily.ReadFiles(in, o)
	name = r.Name
	if len(in) == 1 {
		name = in[0].Name
	}
	return s, r, name, err
}

// expand replaces folders and patterns by the files that they stand for, in the order of their names.
func (g *Garden) expand(names []string, asked bool) (files []string, err error) {
	for _, name := range names {
		list := []string{name}
		var info fs.FileInfo
		var missing error
		if asked {
			info, missing = os.Stat(name)
		} else {
			info, missing = fs.Stat(g.files, filepath.ToSlash(filepath.Clean(name)))
		}
		pattern := ""
		if missing == nil && info.IsDir() {
			pattern = filepath.Join(name, "*")
		} else if missing != nil && strings.ContainsAny(name, "*?[") {
			pattern = name
		}
		if pattern != "" {
			if asked {
				list, err = filepath.Glob(pattern)
			} else {
				list, err = fs.Glob(g.files, filepath.ToSlash(pattern))
			}
			list = slices.DeleteFunc(list, func(f string) bool {
				if asked {
					info, err = os.Stat(f)
				} else {
					info, err = fs.Stat(g.files, f)
				}
				return err != nil || info.IsDir() || strings.HasPrefix(filepath.Base(f), ".")
			})
			if len(list) == 0 {
				return nil, fmt.Errorf("%s: has no file; wanted the record's files", filepath.Join(g.Dir, name))
			}
		}
		files = append(files, list...)
	}
	return files, nil
}

// noteFaults remarks on the first few faults of the record and how many more there are.
func (g *Garden) noteFaults() {
	const few = 3
	for _, note := range g.Report.Notes {
		g.Options.Note("%s: %s", g.RecordName, note)
	}
	for i, f := range g.Report.Faults {
		if i == few {
			break
		}
		g.Options.Note("%v; that day is left out", f)
	}
	if n := g.Report.FaultCount; n > few {
		g.Options.Note("%s: %d faults in all; \"frostward check\" lists them", g.RecordName, n)
	}
}

// Plan is the plan that the options or the garden name.
func (g *Garden) Plan() ([]garden.Row, error) { return g.plan() }

func (g *Garden) readPlan() ([]garden.Row, error) {
	text, name, err := g.text(g.Settings.Plan, g.Options.Plan)
	if err != nil {
		return nil, err
	}
	return garden.ReadPlan(text, name, g.Calendar)
}

// Catalogue is the built-in catalogue with the grower's own facts.
func (g *Garden) Catalogue() (*crops.Catalogue, error) { return g.catalogue() }

func (g *Garden) readCatalogue() (*crops.Catalogue, error) {
	cat, err := crops.Load()
	if err != nil || g.Settings.Crops == "" {
		return cat, err
	}
	text, name, err := g.text(g.Settings.Crops, "")
	if err != nil {
		return nil, err
	}
	return cat.With(text, name)
}

// Log is the garden log; its faulty lines are remarked on. A garden that names none but the usual one need not have
// one yet. A record from elsewhere has none, as the invented garden's readings say nothing of it.
func (g *Garden) Log() (journal.Log, error) { return g.log() }

func (g *Garden) readLog() (journal.Log, error) {
	if g.Invented && len(g.Options.History) > 0 {
		return journal.Log{}, nil
	}
	text, name, err := g.optional(g.Settings.Log, garden.Default().Log)
	if text == nil {
		return journal.Log{}, err
	}
	log, err := journal.Read(text, name)
	log.Entries = g.knownBy(log.Entries)
	g.noteLines(name, log.Faults)
	known := map[string]bool{garden.StationSpot: true}
	for _, spot := range g.Settings.Spots {
		known[spot.Name] = true
	}
	for _, e := range log.Entries {
		if !known[e.Spot] {
			known[e.Spot] = true
			g.Options.Note("%s:%d: spot %q is not in %s; its readings are not used", name, e.Line, e.Spot, garden.File)
		}
	}
	if log.Remark != "" {
		g.Options.Note("%s", log.Remark)
	}
	return log, err
}

// Diary is what was done to the plantings and seen of them, with the marks that older versions wrote into the log.
func (g *Garden) Diary() (journal.Diary, error) { return g.diary() }

func (g *Garden) readDiary() (journal.Diary, error) {
	log, err := g.Log()
	if err != nil {
		return journal.Diary{}, err
	}
	d := journal.Diary{Deeds: log.Marks()}
	if g.Invented && len(g.Options.History) > 0 {
		return d, nil
	}
	text, name, err := g.optional(g.Settings.Diary, garden.Default().Diary)
	if text == nil {
		return d, err
	}
	read, err := journal.ReadDiary(text, name)
	g.noteLines(name, read.Faults)
	d.Deeds = append(d.Deeds, read.Deeds...)
	return d, err
}

// optional is text for a file that need not be there yet where it has its usual name; nil then.
func (g *Garden) optional(name, usual string) (io.Reader, string, error) {
	text, where, err := g.text(name, "")
	if errors.Is(err, fs.ErrNotExist) && name == usual {
		return nil, where, nil
	}
	if err != nil {
		return nil, where, err
	}
	return text, where, nil
}

// noteLines remarks on lines that are not used.
func (g *Garden) noteLines(file string, faults []journal.Fault) {
	const few = 5
	for i, f := range faults {
		if i == few {
			g.Options.Note("%s: %d lines in all are not used", file, len(faults))
			break
		}
		g.Options.Note("%v", f)
	}
}

// knownBy is what of the log was written by the evening of Options.AsOf: the line of the next morning has the evening's
// readings, but not yet what came.
func (g *Garden) knownBy(all []journal.Entry) (out []journal.Entry) {
	if g.Options.AsOf == "" {
		return all
	}
	for _, e := range all {
		if e.Day == g.asOf+1 {
			e.Tmin, e.Damage = math.NaN(), ""
		}
		if e.Day <= g.asOf+1 {
			out = append(out, e)
		}
	}
	return out
}

// DiaryPath is the diary's file.
func (g *Garden) DiaryPath() string { return filepath.Join(g.Dir, g.Settings.Diary) }

// Own are the files that the garden and what is worked out of it are made from, which no result is written over.
func (g *Garden) Own() (names []string) {
	inFolder := append([]string{garden.File, g.Settings.Plan, g.Settings.Log, g.Settings.Crops, g.Settings.Diary, forecast.KeptFile}, g.Settings.Record...)
	for _, s := range g.Settings.Stations {
		inFolder = append(inFolder, s.File)
	}
	for _, name := range inFolder {
		if name != "" && g.Dir != "" {
			name = filepath.Join(g.Dir, name)
			names = append(names, name, deliver.LockName(name))
		}
	}
	names = append(append(names, g.Options.Plan), g.Options.History...)
	for _, name := range names {
		if found, err := filepath.Glob(name); err == nil { // a record may be named by a pattern
			names = append(names, found...)
		}
	}
	return names
}

// LogPath is the garden log's file.
func (g *Garden) LogPath() string { return filepath.Join(g.Dir, g.Settings.Log) }

// Changes says, in a form to compare, when the garden's files were last changed and how long they are; without the
// record and the log, which change daily, unless those too are asked for.
func (g *Garden) Changes(dailyToo bool) (state string) {
	names := []string{garden.File, g.Settings.Plan, g.Settings.Crops}
	if dailyToo {
		names = append(append(names, g.Settings.Record...), g.Settings.Log, g.Settings.Diary)
		for _, s := range g.Settings.Stations {
			names = append(names, s.File)
		}
	}
	stamp := func(info fs.FileInfo, err error) {
		if err == nil {
			state += fmt.Sprintf(" %s %d %d", info.Name(), info.ModTime().UnixNano(), info.Size())
		}
	}
	for _, name := range names {
		if name != "" {
			stamp(fs.Stat(g.files, name))
		}
	}
	for _, name := range append(slices.Clone(g.Options.History), g.Options.Plan) {
		if name != "" {
			stamp(os.Stat(name))
		}
	}
	return state
}

// Forecasts are those that were kept in the garden's folder; none where it has no file of them.
func (g *Garden) Forecasts() ([]forecast.Kept, error) {
	if g.Invented {
		return nil, nil
	}
	if _, err := fs.Stat(g.files, forecast.KeptFile); errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	r, name, err := g.text(forecast.KeptFile, "")
	if err != nil {
		return nil, err
	}
	return forecast.ReadKept(r, name)
}
