package opened

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"frostward/climate"
	"frostward/climate/daily"
	"frostward/cmd/internal/garden"
	"frostward/cmd/internal/journal"
	"frostward/crops"
)

// This file opens all that a garden is read from, but garden.yaml.

// file opens a file of the folder, or the one that an option names in its place; name is for messages.
func (g *Garden) file(inFolder, option string) (f fs.File, name string, err error) {
	if option != "" {
		name = option
		f, err = os.Open(option)
	} else {
		name = filepath.Join(g.Dir, inFolder)
		f, err = g.files.Open(inFolder)
	}
	if err != nil {
		return nil, name, fmt.Errorf("%s: %w", name, Cause(err))
	}
	return f, name, nil
}

func (g *Garden) readRecord() (s climate.Series, r daily.Report, name string, err error) {
	f, name, err := g.file(g.Settings.Record, g.Options.History)
	if err != nil {
		return s, r, name, err
	}
	defer f.Close()
	units := g.Options.Units
	if units == "" {
		units = g.Settings.Units
	}
	unit, err := daily.ParseUnits(units)
	if err != nil {
		return s, r, name, UsageError{fmt.Errorf("--units: %w", err)}
	}
	s, r, err = daily.Read(f, name, daily.Options{Units: unit, Station: g.Options.Station})
	return s, r, name, err
}

// noteFaults remarks on the first few faults of the record and how many more there are.
func (g *Garden) noteFaults() {
	const few = 3
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
	f, name, err := g.file(g.Settings.Plan, g.Options.Plan)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return garden.ReadPlan(f, name, g.Calendar)
}

// Catalogue is the built-in catalogue with the grower's own facts.
func (g *Garden) Catalogue() (*crops.Catalogue, error) { return g.catalogue() }

func (g *Garden) readCatalogue() (*crops.Catalogue, error) {
	cat, err := crops.Load()
	if err != nil || g.Settings.Crops == "" {
		return cat, err
	}
	f, name, err := g.file(g.Settings.Crops, "")
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return cat.With(f, name)
}

// Log is the garden log. A garden without one has an empty log, and so has a record from elsewhere, of which
// the invented garden's readings say nothing.
func (g *Garden) Log() (journal.Log, error) { return g.log() }

func (g *Garden) readLog() (journal.Log, error) {
	if g.Invented && g.Options.History != "" {
		return journal.Log{}, nil
	}
	f, err := g.files.Open(g.Settings.Log)
	if errors.Is(err, fs.ErrNotExist) {
		return journal.Log{}, nil
	}
	if err != nil {
		return journal.Log{}, fmt.Errorf("%s: %w", g.Settings.Log, Cause(err))
	}
	defer f.Close()
	return journal.Read(f, g.Settings.Log)
}

// LogPath is the garden log's file.
func (g *Garden) LogPath() string { return filepath.Join(g.Dir, g.Settings.Log) }

// Changes says, in a form to compare, when the garden's files were last changed and how long they are; without the
// record and the log, which change daily, unless those too are asked for.
func (g *Garden) Changes(dailyToo bool) (state string) {
	names := []string{garden.File, g.Settings.Plan, g.Settings.Crops}
	if dailyToo {
		names = append(names, g.Settings.Record, g.Settings.Log)
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
	for _, name := range []string{g.Options.History, g.Options.Plan} {
		if name != "" {
			stamp(os.Stat(name))
		}
	}
	return state
}
