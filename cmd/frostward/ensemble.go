package main

import (
	"fmt"

	"frostward/climate"
	"frostward/climate/generator"
	"frostward/cmd/internal/garden"
)

// How many seasons --by weather makes: worlds differ by which seasons of record they are made
// from, and the spread between them carries how little is known.
const (
	worlds         = 25
	seasonsInWorld = 20
)

// way reads --by.
func (a *app) way() (climate.By, error) {
	switch a.by {
	case "":
		return defaultWay, nil
	case "record":
		return climate.ByRecord, nil
	case "curve":
		return climate.ByCurve, nil
	case "weather":
		return climate.ByWeather, nil
	}
	return 0, usagef("--by %q; wanted record, curve or weather", a.by)
}

// defaultWay is what chances are counted over unless --by says otherwise.
const defaultWay = climate.ByRecord

// ensemble is the seasons at the station, by the way asked for.
func (s *session) ensemble() (climate.Ensemble, error) {
	by, err := s.app.way()
	if err != nil {
		return climate.Ensemble{}, err
	}
	if by == climate.ByWeather {
		return s.generated()
	}
	e := climate.Recorded(s.masked, s.garden.Latitude, s.first, s.last)
	e.By = by
	return e, nil
}

// generated is the seasons resampled from the daily record.
func (s *session) generated() (climate.Ensemble, error) {
	m, err := generator.Fit(s.used(), s.calendar, generator.DefaultOptions)
	if err != nil {
		return climate.Ensemble{}, fmt.Errorf("%s: --by weather: %w", s.recordName, err)
	}
	return m.Ensemble(s.app.seed, worlds, seasonsInWorld, s.garden.Latitude), nil
}

// atSpot is the seasons at a spot of the garden.
func (s *session) atSpot(e climate.Ensemble, spot garden.Spot) climate.Ensemble {
	return s.spotModel(spot).ToSpot(e, s.app.seed)
}
