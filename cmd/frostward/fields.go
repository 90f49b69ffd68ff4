package main

import (
	"frostward/climate"
	"frostward/cmd/internal/garden"
	"frostward/crops"
	"frostward/risk"
)

// fields makes and keeps the ensembles at each spot and the fields of each crop there, so
// that plantings share them.
type fields struct {
	s      *session
	base   climate.Ensemble
	spots  map[string]climate.Ensemble
	byCrop map[fieldKey]*risk.Field
	ground *risk.Ground // what fields share; nil before the first
}

type fieldKey struct {
	spot, crop string
	raised     bool
}

func (s *session) fields() (*fields, error) {
	e, err := s.ensemble()
	if err != nil {
		return nil, err
	}
	if e.By == climate.ByCurve {
		return nil, usagef("--by curve fits frost dates only; plantings are played through seasons: wanted record or weather")
	}
	return &fields{s: s, base: e, spots: map[string]climate.Ensemble{}, byCrop: map[fieldKey]*risk.Field{}}, nil
}

func (f *fields) at(spot garden.Spot) climate.Ensemble {
	e, ok := f.spots[spot.Name]
	if !ok {
		e = f.s.atSpot(f.base, spot)
		f.spots[spot.Name] = e
	}
	return e
}

func (f *fields) field(spot garden.Spot, c crops.Crop, raised bool) *risk.Field {
	k := fieldKey{spot.Name, c.Label(), raised}
	if f.byCrop[k] == nil {
		if f.ground == nil {
			f.ground = risk.NewGround()
			f.ground.Reset(f.base)
		}
		f.byCrop[k] = f.ground.Field(f.at(spot), c, raised, f.s.app.seed)
	}
	return f.byCrop[k]
}
