package main

import (
	"errors"
	"fmt"
	"io/fs"
	"math"

	"frostward/climate/site"
	"frostward/cmd/internal/garden"
	"frostward/cmd/internal/journal"
)

// readLog reads the garden log; a garden without one has an empty log, and so has a record
// from elsewhere, which the invented garden's readings say nothing about.
func (s *session) readLog() (journal.Log, error) {
	if s.invented && s.app.history != "" {
		return journal.Log{}, nil
	}
	f, err := s.files.Open(s.garden.Log)
	if errors.Is(err, fs.ErrNotExist) {
		return journal.Log{}, nil
	}
	if err != nil {
		return journal.Log{}, fmt.Errorf("%s: %w", s.garden.Log, cause(err))
	}
	defer f.Close()
	return journal.Read(f, s.garden.Log)
}

// spotReadings are the bare morning minima logged at a spot.
func (s *session) spotReadings(spot garden.Spot) []site.Reading {
	log, err := s.readLog()
	if err != nil {
		return nil
	}
	var out []site.Reading
	for _, e := range log.Nights() {
		if e.Spot == spot.Name && e.Covered == "" && !math.IsNaN(e.Tmin) {
			out = append(out, site.Reading{Day: e.Day, Tmin: e.Tmin})
		}
	}
	return out
}

// spotFit is what the readings make of the spot.
func (s *session) spotFit(spot garden.Spot) (site.Model, site.Summary) {
	prior, _ := site.PriorOf(spot.Kind)
	return site.Fit(s.masked, s.calendar, s.spotReadings(spot), prior)
}
