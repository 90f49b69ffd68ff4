package main

import (
	"fmt"
	"strings"

	"frostward/climate"
	"frostward/cmd/internal/garden"
	"frostward/cmd/internal/journal"
)

// A mark is a line of the garden log whose note says what became of a planting: "out:
// courgettes", "picked: courgettes". So marks are as durable as readings, and the plan
// stays as the grower wrote it.
const (
	markOut    = "out"
	markPicked = "picked"
)

// markNote is the note that marks a planting.
func markNote(what, planting string) string { return what + ": " + planting }

// marked puts the marks of a season into the rows of the plan that do not say themselves
// when the planting went out or was cleared. Later marks count before earlier ones.
func marked(rows []garden.Row, log journal.Log, c climate.Calendar, season int) []garden.Row {
	out := append([]garden.Row(nil), rows...)
	names := rowNames(rows)
	for _, e := range log.Entries {
		what, name, ok := strings.Cut(e.Note, ": ")
		if !ok || what != markOut && what != markPicked {
			continue
		}
		year, sd := c.Locate(e.Day)
		if year != season {
			continue
		}
		for i := range out {
			if !strings.EqualFold(names[i], name) {
				continue
			}
			d := garden.Date{Text: e.Day.String(), Year: year, Day: sd}
			if what == markOut && !rows[i].Out.Given() {
				out[i].Out = d
			}
			if what == markPicked && !rows[i].Picked.Given() {
				out[i].Picked = d
			}
		}
	}
	return out
}

// markedPlan is the plan with the marks of the season that a day lies in.
func (s *session) markedPlan(today climate.Day) ([]garden.Row, error) {
	rows, err := s.Plan()
	if err != nil {
		return nil, err
	}
	log, err := s.Log()
	if err != nil {
		return nil, err
	}
	season, _ := s.Calendar.Locate(today)
	return marked(rows, log, s.Calendar, season), nil
}

// rowNames are the names that plantings are marked by: their labels, numbered where two are
// the same.
func rowNames(rows []garden.Row) []string {
	names := make([]string, len(rows))
	seen := map[string]int{}
	for i, r := range rows {
		label := r.Name
		if label == "" {
			label = r.Crop
			if r.Class != "" {
				label += ", " + r.Class
			}
		}
		seen[label]++
		if names[i] = label; seen[label] > 1 {
			names[i] = fmt.Sprintf("%s (%d)", label, seen[label])
		}
	}
	return names
}
