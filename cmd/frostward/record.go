package main

import (
	"fmt"
	"math"
	"path/filepath"

	"github.com/spf13/cobra"

	"frostward/climate/daily"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
)

func newRecord(a *app) *cobra.Command {
	c := &cobra.Command{
		Use:   "record",
		Short: "Add newer days to the garden's record",
		Args:  cobra.NoArgs,
		RunE:  func(c *cobra.Command, _ []string) error { return usagef("record: wanted \"record add FILE\"") },
	}
	c.AddCommand(&cobra.Command{
		Use:   "add FILE...",
		Short: "Add the days of a file that the record does not reach yet",
		Long: `record add reads a file in any layout that is known, and adds its days after the record's
last one to the garden's record, so that the season under way stays true. Days that the
record has stay as they are: where the file says otherwise, that is shown. --units, --read
and --station are for the file that is added.

Days are added to a plain table of date,tmin,tmax. Where the garden's record is no such
table, they go to record-added.csv beside it, to be named in garden.yaml too.`,
		Example: `  frostward record add --garden mygarden this-month.csv
  frostward record add --garden mygarden station.xlsx --units f`,
		Args: takes(1, math.MaxInt, "at least one file"),
		RunE: func(_ *cobra.Command, files []string) error { return a.recordAdd(files) },
	})
	return c
}

// addedJSON is what record add did, for programs.
type addedJSON struct {
	File   string   `json:"file"`
	Days   int      `json:"days"`
	First  *string  `json:"first"`
	Last   *string  `json:"last"`
	Shared int      `json:"values_that_both_have"`
	Differ []string `json:"days_that_differ"`
}

func (a *app) recordAdd(files []string) error {
	if a.garden == "" || len(a.history) > 0 {
		return usagef("record add: wanted --garden, the garden whose record is added to, and no --history")
	}
	o := a.choice()
	o.Units, o.Reading, o.Station = "", nil, ""
	g, err := opened.Open(o)
	if err != nil {
		return err
	}
	o = a.choice()
	o.History = files
	s, rep, err := opened.ReadFiles(o)
	if err != nil {
		return err
	}
	for i, f := range rep.Faults {
		if i == 3 {
			a.notef("%s: %d faults in all; those days are not added", rep.Name, rep.FaultCount)
			break
		}
		a.notef("%v; that day is not added", f)
	}
	shared, differ := daily.Differences(g.Record, s)
	if len(differ) > 5 && len(differ)*5 > shared {
		return fmt.Errorf("%s: differs from the garden's record on %d of the days that both have; wanted the same station's", rep.Name, len(differ))
	}
	out := addedJSON{Shared: shared, Differ: []string{}}
	for i, d := range differ {
		out.Differ = append(out.Differ, d.String())
		if i < 3 {
			lo, hi := g.Record.At(d)
			lo2, hi2 := s.At(d)
			a.notef("%s: on %v it has %.1f and %.1f °C, and the record %.1f and %.1f, which stay", rep.Name, d, lo2, hi2, lo, hi)
		}
	}
	if len(differ) > 3 {
		a.notef("%s: %d days differ in all; the record's values stay", rep.Name, len(differ))
	}
	after := g.Record.Last() + 1
	if s.Last() >= after {
		s = s.Between(after, s.Last())
		out.Days = opened.DaysWithValues(s)
	}
	names := g.Settings.Record
	name := filepath.Join(a.garden, names[len(names)-1])
	if out.Days > 0 {
		first, last := s.First.String(), s.Last().String()
		out.First, out.Last = &first, &last
		if name, err = g.AddDays(name, s); err != nil {
			return err
		}
	}
	out.File = name
	if a.format == table.JSON {
		return a.writeJSON(out)
	}
	if out.Days == 0 {
		a.paragraph(a.out, fmt.Sprintf("%s has no day after the record's last, %s; nothing was added.", rep.Name, words.Date(g.Record.Last())), 0)
		return nil
	}
	a.paragraph(a.out, fmt.Sprintf("%s: %s added, to %s.", name, words.Plural(out.Days, "day"), words.Date(s.Last())), 0)
	return nil
}
