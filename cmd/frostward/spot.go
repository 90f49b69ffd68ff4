package main

import (
	"frostward/climate/site"
	"frostward/cmd/internal/garden"
)

// spotModel is how a spot differs from the station: what is usual for its kind, corrected by
// the garden log.
func (s *session) spotModel(spot garden.Spot) site.Model {
	prior, ok := site.PriorOf(spot.Kind)
	if !ok {
		panic("frostward: spot kind not checked: " + spot.Kind)
	}
	if prior.Station {
		return site.Model{}
	}
	return site.PriorModel(prior)
}
