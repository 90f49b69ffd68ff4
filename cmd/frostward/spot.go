package main

import (
	"frostward/climate/site"
	"frostward/cmd/internal/garden"
)

// spotModel is how a spot differs from the station: what is usual for its kind, corrected by
// the garden log.
func (s *session) spotModel(spot garden.Spot) site.Model {
	prior, _ := site.PriorOf(spot.Kind)
	return site.FitModel(s.masked, s.calendar, s.spotReadings(spot), prior)
}
