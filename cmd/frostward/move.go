package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"frostward/climate"
	"frostward/cmd/internal/garden"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/table"
)

func newMove(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "move PLANTING [DAY]",
		Short: "Move a planting of the plan to another day, or to its better one",
		Long: `move writes another day into the garden's plan.csv: the day on which a planting is planted
out, or sown in place. Its day of sowing under cover moves with it, and so does the day until
which spare plants are held back. Without a day it goes to the better one that plan names;
where there is none, nothing is written.

Only those cells change: order, spaces and all else stay as they were. The plan from
before is kept beside it as plan.csv.before-1, the next as plan.csv.before-2, and so on.`,
		Example: `  frostward move early courgettes --garden mygarden
  frostward move early courgettes 3 June --garden mygarden`,
		Args: takes(1, 20, "a planting of the plan, and a day or none for its better one"),
		RunE: func(_ *cobra.Command, args []string) error { return a.move(args) },
	}
}

// moveJSON is a planting moved, or left where no day is better.
type moveJSON struct {
	Planting string  `json:"planting"`
	Moved    bool    `json:"moved"`
	From     string  `json:"from"`
	To       *string `json:"to"`
	File     string  `json:"file"`
	Kept     *string `json:"kept"` // the plan from before
}

func (a *app) move(args []string) error {
	if a.schema {
		return a.writeJSON(moveJSON{}) // and nothing is moved
	}
	if a.plan != "" {
		return usagef("--plan %s: move writes the garden's own plan; wanted --garden alone", a.plan)
	}
	s, err := a.open()
	if err != nil {
		return err
	}
	if s.Invented {
		return errInvented
	}
	name, rest, err := s.plantingOf(args)
	if err != nil {
		return err
	}
	rows, err := s.Plan()
	if err != nil {
		return err
	}
	names := opened.Names(rows)
	at := slices.Index(names, name)
	row := rows[at]
	from := row.Sow.Day
	if row.PlantOut.Given() {
		from = row.PlantOut.Day
	}
	j := moveJSON{Planting: name, From: s.Calendar.Format(from), File: s.PlanPath()}
	to, found, err := s.moveTo(at, rest)
	if err != nil {
		return err
	}
	if !found {
		if a.format == table.JSON {
			return a.writeJSON(j)
		}
		fmt.Fprintf(a.out, "%s: no day does clearly better than %s, so nothing was written.\n", name, s.Calendar.Words(from))
		return nil
	}
	kept, _, err := s.EditPlan(func(text []byte) ([]byte, error) { return s.moved(text, row, to) })
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	for i, r := range rows {
		if row.Name != "" && strings.EqualFold(r.Follows, row.Name) {
			a.notef("%s follows it in its bed: \"frostward plan\" shows whether the bed is still free in time", names[i])
		}
	}
	if a.format == table.JSON {
		day := s.Calendar.Format(to)
		j.Moved, j.To, j.Kept = true, &day, &kept
		return a.writeJSON(j)
	}
	a.paragraph(a.out, fmt.Sprintf("Moved %s from %s to %s in %s; the plan from before is %s.", name,
		s.Calendar.Words(from), s.Calendar.Words(to), s.PlanPath(), kept), 0)
	return nil
}

// moveTo is the day that was asked for or, where none was, the better one of a row of the plan.
func (s *session) moveTo(row int, day []string) (to climate.SeasonDay, found bool, err error) {
	if len(day) > 0 {
		if to, err = s.Calendar.Parse(strings.Join(day, " ")); err != nil {
			return 0, false, usage(err)
		}
		return to, true, nil
	}
	_, assessed, err := s.AssessPlan()
	if err != nil {
		return 0, false, err
	}
	b, found := assessed[row].Better()
	return b.Day, found, nil
}

// moved is the plan's text with a planting on another day. It must be a plan that can still be played.
func (s *session) moved(text []byte, row garden.Row, to climate.SeasonDay) ([]byte, error) {
	b, err := garden.MoveRow(text, row, s.Calendar, to)
	if err != nil {
		return nil, err
	}
	rows, err := garden.ReadPlan(strings.NewReader(string(b)), row.File, s.Calendar)
	if err == nil {
		_, err = s.Resolve(rows)
	}
	return b, err
}
