package main

import (
	"fmt"

	"frostward/climate"
	"frostward/climate/generator"
	"frostward/cmd/internal/opened"
	"frostward/risk"
)

// lookingOut is the seasons that may follow from a day, and the usual ones beside them.
type lookingOut struct {
	now, usual *opened.Fields
	upTo       climate.SeasonDay
}

// lookingOut makes the seasons of plantings that went out in a season, as known on a day.
func (s *session) lookingOut(season int, asOf climate.Day) (*lookingOut, error) {
	v := &lookingOut{upTo: s.SeasonDay(season, min(asOf, s.Masked.Last()))}
	this := climate.SeasonOf(s.Masked, s.Calendar, season)
	before := climate.Recorded(s.Masked, s.Settings.Latitude, s.First, min(season-1, s.Last))
	var now climate.Ensemble
	usual := before
	switch s.app.by {
	case "", "record":
		now = risk.FitFading(s.Masked, s.Calendar).Splice(before, this, v.upTo)
	case "weather":
		m, err := generator.Fit(s.Masked, s.Calendar, generator.DefaultOptions)
		if err != nil {
			return nil, fmt.Errorf("%s: --by weather: %w", s.RecordName, err)
		}
		usual = m.Ensemble(s.app.seed, opened.Worlds, opened.SeasonsInWorld, s.Settings.Latitude)
		now = m.Continue(this, v.upTo, s.app.seed, opened.Worlds, opened.SeasonsInWorld, s.Settings.Latitude)
	default:
		return nil, usagef("--by %q; outlooks go by record or weather", s.app.by)
	}
	var err error
	if v.now, err = s.FieldsOf(now); err != nil {
		return nil, err
	}
	v.usual, err = s.FieldsOf(usual)
	v.now.KnowLogged(season, asOf)
	return v, err
}
