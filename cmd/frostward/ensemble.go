package main

import (
	"frostward/climate"
	"frostward/cmd/internal/garden"
)

// way reads --by; record is the default.
func (a *app) way() (climate.By, error) {
	switch a.by {
	case "", "record":
		return climate.ByRecord, nil
	case "curve":
		return climate.ByCurve, nil
	case "weather":
		return climate.ByWeather, nil
	}
	return 0, usagef("--by %q; wanted record, curve or weather", a.by)
}

// ensemble is the seasons at the station, by the way asked for.
func (s *session) ensemble() (climate.Ensemble, error) {
	by, err := s.app.way()
	if err != nil {
		return climate.Ensemble{}, err
	}
	e := climate.Recorded(s.masked, s.garden.Latitude, s.first, s.last)
	e.By = by
	return e, nil
}

// atSpot is the seasons at a spot of the garden.
func (s *session) atSpot(e climate.Ensemble, spot garden.Spot) climate.Ensemble {
	return s.spotModel(spot).ToSpot(e, s.app.seed)
}
